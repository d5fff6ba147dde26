#include "firstdrop/readers/recipe_json.hpp"

#include "readers/documents.hpp"
#include "readers/recipe_value.hpp"

namespace firstdrop {
namespace {

using json::Context;
using json::Kind;
using json::Value;

}  // namespace

Recipe recipe_from(const Value& value, const Reading& reading) {
  Recipe recipe;
  const std::size_t before = field_detail::faults_so_far(value);
  recipe_fields().read(value, recipe, reading);
  if (field_detail::faults_so_far(value) == before && !value.member("cut"))
    recipe.cut = default_cut(recipe.plant, recipe.state);
  return recipe;
}

Recipe read_recipe(std::string_view text, const std::string& file, const Tables& tables,
                   const FileReader& read_file) {
  Context context{file, &tables.sources};
  Recipe recipe;
  if (const auto root = json::parse(text, context))
    recipe = recipe_from(Value(*root, context), {tables, Form::own_file, &read_file});
  context.finish();
  return recipe;
}

TablePart named_in_recipe(std::string_view text) {
  TablePart part;
  Context context;
  const auto root = json::parse(text, context);
  if (!root) return part;
  for (const auto& member : root->children) {
    if (member.kind != Kind::text) continue;
    if (member.key == "plant") part.plants.insert(member.text);
    if (member.key == "still") part.stills.insert(member.text);
  }
  return part;
}

DocumentKind document_kind(std::string_view text) {
  Context context;
  const auto root = json::parse(text, context);
  if (!root || root->kind != Kind::object) return DocumentKind::unknown;
  // A recipe has keys "plant" and "still" too, but never a number under them.
  DocumentKind kind = DocumentKind::unknown;
  for (const auto& member : root->children) {
    if (member.key == "campaign") return DocumentKind::campaign;
    if (member.key == "recipe") return DocumentKind::recipe;
    const bool still = member.key == "still";
    if (!still && member.key != "plant") continue;
    if (member.kind != Kind::number) return DocumentKind::recipe;
    kind = still ? DocumentKind::still : DocumentKind::plant;
  }
  return kind;
}

}  // namespace firstdrop
