#include "json/json_edit.hpp"

#include <algorithm>
#include <stdexcept>

#include "base/visible_text.hpp"
#include "json/json_reader.hpp"

namespace firstdrop::json {
namespace {

// The index after the string whose opening quote is at `at`.
std::size_t after_string(std::string_view text, std::size_t at) {
  for (++at; at < text.size() && text[at] != '"'; ++at) {
    if (text[at] == '\\') ++at;
  }
  return at + 1;
}

const Node* member_of(const Node& object, const std::string& key) {
  const auto found = std::find_if(object.children.begin(), object.children.end(),
                                  [&](const Node& child) { return child.key == key; });
  return found == object.children.end() ? nullptr : &*found;
}

// What stands between two members of an object: a line break and the margin of its last member, or
// a blank if that doesn't begin its line.
std::string before_new_member(std::string_view text, const Node& object) {
  if (object.children.empty()) return "";
  const std::size_t key = object.children.back().key_begin;
  const std::size_t line = text.rfind('\n', key);
  const bool begins_line =
      line != std::string_view::npos && text.find_first_not_of(" \t", line + 1) == key;
  return begins_line ? "," + std::string(text.substr(line, key - line)) : std::string(", ");
}

}  // namespace

std::string_view value_at(std::string_view text, std::size_t begin) {
  int depth = 0;
  std::size_t at = begin;
  do {
    const char c = at < text.size() ? text[at] : '\0';
    if (c == '"') {
      at = after_string(text, at);
    } else if (c == '{' || c == '[') {
      ++depth;
      ++at;
    } else if (c == '}' || c == ']') {
      --depth;
      ++at;
    } else {
      // Within an object or list, only strings and brackets matter.
      at = text.find_first_of(depth > 0 ? "\"{}[]" : "}], \t\r\n", at);
    }
    if (at > text.size()) return text.substr(begin);
  } while (depth > 0);
  return text.substr(begin, at - begin);
}

std::string with_value(const std::string& text, const std::vector<std::string>& path,
                       std::string_view value) {
  Context context;
  const auto root = parse(text, context);
  const Node* at = root ? &*root : nullptr;
  for (std::size_t i = 0; at != nullptr && i + 1 < path.size(); ++i) at = member_of(*at, path[i]);
  if (at == nullptr || at->kind != Kind::object)
    throw std::logic_error("no object to put a value into");
  std::string edited = text;
  if (const Node* old = member_of(*at, path.back())) {
    return edited.replace(old->begin, value_at(text, old->begin).size(), value);
  }
  std::size_t end = at->begin + 1;
  if (!at->children.empty()) {
    const std::size_t last = at->children.back().begin;
    end = last + value_at(text, last).size();
  }
  return edited.insert(
      end, before_new_member(text, *at) + json_text(path.back()) + ": " + std::string(value));
}

}  // namespace firstdrop::json
