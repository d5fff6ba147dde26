#include "readers/recipe_document.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "base/visible_text.hpp"
#include "readers/recipe_value.hpp"
#include "readers/table_entries.hpp"

namespace firstdrop {
namespace {

using json::Context;
using json::Kind;
using json::Node;
using json::Value;

std::string pointer_of(const Override& value) {
  std::string pointer;
  for (const std::string& key : value.path) pointer += '/' + json::pointer_token(key);
  return pointer;
}

Node* member(Node& object, const std::string& key) {
  for (Node& child : object.children)
    if (child.key == key) return &child;
  return nullptr;
}

Node& added(Node& object, const std::string& key, Kind kind) {
  Node& child = object.children.emplace_back();
  child.key = key;
  child.kind = kind;
  return child;
}

// Replaces the key or file name of a still or plant by the object that it names. An unknown name
// stays, and the reader then reports the valid names.
void spell_out(Node& named, std::string_view table, Context& context, const FileReader& read_file) {
  const std::string name = named.text;
  Context inner{visible(name), nullptr};
  std::optional<Node> object;
  if (const auto entry = table_entry(name, table)) {
    object = json::parse(*entry, inner);
  } else if (name.ends_with(".json") && read_file) {
    try {
      const std::string text = read_file(name);
      object = json::parse(text, inner);
    } catch (const InputError&) {
      return;
    }
  }
  for (Fault& fault : inner.faults) context.add(std::move(fault));
  if (!object || object->kind != Kind::object) return;
  // The faults in it are reported at the name, because their file is the recipe's.
  json::set_place(*object, named.begin);
  object->key = named.key;
  if (member(*object, "key") == nullptr && !name.ends_with(".json"))
    added(*object, "key", Kind::text).text = name;
  named = std::move(*object);
}

void put(const Override& value, Node& root, Context& context, const TableTexts& tables,
         const FileReader& read_file) {
  if (root.kind != Kind::object) return;
  Node* at = &root;
  std::string pointer;
  for (std::size_t i = 0; i + 1 < value.path.size(); ++i) {
    const std::string& key = value.path[i];
    Node* next = member(*at, key);
    if (next == nullptr) {
      if (value.json.empty()) return;
      next = &added(*at, key, Kind::object);
    }
    if (i == 0 && next->kind == Kind::text && (key == "still" || key == "plant")) {
      spell_out(*next, key == "still" ? tables.stills : tables.plants, context, read_file);
      if (next->kind == Kind::text) return;
    }
    pointer += '/' + json::pointer_token(key);
    if (next->kind != Kind::object) {
      context.add_at(next->begin, {"", pointer, json::described(*next),
                                   fmt::format("an object, to have {} in it", value.path[i + 1]),
                                   fmt::format("{} asks for {}", value.said_by, value.key())});
      return;
    }
    at = next;
  }
  const std::string& key = value.path.back();
  if (value.json.empty()) {
    std::erase_if(at->children, [&](const Node& child) { return child.key == key; });
    return;
  }
  Context inner;
  auto parsed = json::parse(value.json, inner);
  if (!parsed) inner.finish();
  json::set_place(*parsed, json::no_place);
  parsed->key = key;
  if (Node* old = member(*at, key))
    *old = std::move(*parsed);
  else
    at->children.push_back(std::move(*parsed));
  context.given.emplace_back(pointer_of(value), value.said_by);
}

}  // namespace

struct RecipeDocument::Parsed {
  std::string text;
  Context context;  // with the syntax faults of the text
  Node root;
};

RecipeDocument::RecipeDocument(std::string_view text, std::string file) {
  const auto parsed = std::make_shared<Parsed>();
  parsed->text = text;
  parsed->context.file = std::move(file);
  auto root = json::parse(parsed->text, parsed->context);
  if (!root) parsed->context.finish();
  parsed->root = std::move(*root);
  parsed_ = parsed;
}

Recipe RecipeDocument::read(const Tables& tables, const FileReader& read_file,
                            const std::vector<Override>& overrides, const TableTexts& texts) const {
  return read_for({tables, Form::own_file, &read_file}, overrides, texts);
}

Recipe RecipeDocument::read_without_plant(const Tables& tables, const FileReader& read_file,
                                          const std::vector<Override>& overrides) const {
  return read_for({tables, Form::own_file, &read_file, "plant"}, overrides, {});
}

Recipe RecipeDocument::read_for(const Reading& reading, const std::vector<Override>& overrides,
                                const TableTexts& texts) const {
  Context context = parsed_->context;
  context.sources = &reading.tables.sources;
  const auto read_from = [&](const Node& root) {
    Recipe recipe = recipe_from(Value(root, context), reading);
    context.finish();
    return recipe;
  };
  if (overrides.empty()) return read_from(parsed_->root);
  Node root = parsed_->root;
  for (const Override& value : overrides) put(value, root, context, texts, *reading.read_file);
  return read_from(root);
}

InputError RecipeDocument::located(const InputError& error, const FileReader& read_file,
                                   const std::vector<Override>& overrides,
                                   const TableTexts& texts) const {
  std::vector<Fault> faults = error.faults();
  const auto lacks_file = [](const Fault& fault) { return fault.file.empty(); };
  if (std::none_of(faults.begin(), faults.end(), lacks_file)) return error;
  Context context = parsed_->context;
  Node root = parsed_->root;
  for (const Override& value : overrides) put(value, root, context, texts, read_file);
  context.faults.clear();
  for (Fault& fault : faults) {
    if (!lacks_file(fault)) continue;
    context.add_in(root, std::move(fault));
    fault = std::move(context.faults.back());
    context.faults.clear();
  }
  return InputError(std::move(faults));
}

void check_override(const Override& value, const Tables& tables) {
  if (value.json.empty() || value.json.ends_with(".json\"")) return;
  Context context{"", &tables.sources};
  Node root;
  root.kind = Kind::object;
  put(value, root, context, {}, nullptr);
  context.given.clear();
  recipe_from(Value(root, context), {tables});
  const std::string pointer = pointer_of(value);
  Context of_value;
  for (Fault& fault : context.faults) {
    if (fault.pointer != pointer && !fault.pointer.starts_with(pointer + '/')) continue;
    fault.found += " for " + value.said_by + " " + value.key();
    if (fault.pointer == pointer) fault.pointer.clear();
    of_value.add(std::move(fault));
  }
  of_value.finish();
}

}  // namespace firstdrop
