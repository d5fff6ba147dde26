#include "firstdrop/readers/recipe_json.hpp"

#include "physics/water.hpp"
#include "quantity/water_amount.hpp"
#include "readers/documents.hpp"
#include "readers/recipe_value.hpp"

namespace firstdrop {
namespace {

using json::Context;
using json::Kind;
using json::Value;

/// The reader takes weighed water as if it were at 20 °C, as in a still that was measured with
/// water. This recipe's water is poured at another temperature, and its volumes are those at it.
void adjust_weighed_water(const Value& value, Recipe& recipe) {
  const auto adjust = [&](const std::optional<Value>& amount, std::optional<Volume>& volume) {
    if (!volume || !amount || !is_weighed(amount->node().text)) return;
    const Temperature poured = recipe.water_temperature.value_or(recipe.site.room);
    *volume = *volume * (weighed_water_density / liquid_density(poured));
  };
  adjust(value.member("water"), recipe.water);
  if (const auto own = value.member("own"))
    adjust(own->member("boil_water"), recipe.own.boil_water);
}

// Stands for the plant where a recipe may lack it: in every state and with oil, so that neither a
// state nor a goal is a fault.
Plant no_plant() {
  Plant plant;
  plant.key = "none";
  for (const State state : {State::fresh, State::wilted, State::dried})
    plant.states[state].oil_content.emplace();
  return plant;
}

}  // namespace

Recipe recipe_from(const Value& value, const Reading& reading) {
  Recipe recipe;
  if (reading.may_lack == "plant") recipe.plant = no_plant();
  const std::size_t before = field_detail::faults_so_far(value);
  recipe_fields().read(value, recipe, reading);
  if (field_detail::faults_so_far(value) != before) return recipe;
  if (!value.member("cut")) recipe.cut = default_cut(recipe.plant, recipe.state);
  adjust_weighed_water(value, recipe);
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
  const auto name_plant = [&](const json::Node& plant) {
    if (plant.kind == Kind::text) part.plants.insert(plant.text);
    for (const auto& key : plant.children)
      if (key.key == "like") part.all_plants = true;
  };
  for (const auto& member : root->children) {
    if (member.key == "plant") name_plant(member);
    if (member.key == "plants")
      for (const auto& item : member.children)
        for (const auto& key : item.children)
          if (key.key == "plant") name_plant(key);
    if (member.kind == Kind::text && member.key == "still") part.stills.insert(member.text);
  }
  return part;
}

DocumentKind document_kind(std::string_view text) {
  Context context;
  const auto root = json::parse(text, context);
  if (!root || root->kind != Kind::object) return DocumentKind::unknown;
  const std::string_view marker = marker_of(*root);
  if (marker == "recipe") return DocumentKind::recipe;
  if (marker == "campaign") return DocumentKind::campaign;
  if (marker == "still") return DocumentKind::still;
  return marker == "plant" ? DocumentKind::plant : DocumentKind::unknown;
}

}  // namespace firstdrop
