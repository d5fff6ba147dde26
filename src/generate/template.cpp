#include "generate/template.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <set>
#include <stdexcept>

namespace firstdrop::generate {

std::string filled_in(std::string_view text, const std::map<std::string, std::string>& parts) {
  std::string out;
  std::set<std::string> found;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (line.size() < 3 || line.front() != '@' || line.back() != '@') {
      out.append(line).append("\n");
      continue;
    }
    const std::string name(line.substr(1, line.size() - 2));
    const auto part = parts.find(name);
    if (part == parts.end())
      throw std::runtime_error(fmt::format("the template has @{}@, which is nothing", name));
    found.insert(name);
    out += part->second;
  }
  for (const auto& [name, part] : parts)
    if (!found.contains(name))
      throw std::runtime_error(fmt::format("the template lacks a line @{}@", name));
  return out;
}

std::vector<std::string> sentences(std::string_view text) {
  std::vector<std::string> all;
  std::size_t begin = 0;
  for (std::size_t at = 0; at + 2 < text.size(); ++at) {
    const char next = text[at + 2];
    if (text.substr(at, 2) != ". " || next < 'A' || next > 'Z') continue;
    all.emplace_back(text.substr(begin, at + 1 - begin));
    begin = at + 2;
  }
  all.emplace_back(text.substr(begin));
  return all;
}

std::string first_sentence(std::string_view text) {
  std::string first = sentences(text).front();
  if (first.ends_with('.')) first.pop_back();
  return first;
}

}  // namespace firstdrop::generate
