#include "readers/starter.hpp"

#include <fmt/core.h>

#include <utility>
#include <vector>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"

namespace firstdrop {
namespace {

/// The members of a JSON object; absent values are skipped.
class Members {
 public:
  void add(const char* key, const std::optional<std::string>& value) {
    if (value) written_.push_back(fmt::format("\"{}\": {}", key, json_text(*value)));
  }
  void add_object(const char* key, const Members& members) {
    if (!members.written_.empty())
      written_.push_back(fmt::format("\"{}\": {{{}}}", key, joined(members.written_, ", ")));
  }
  std::string document() const {
    return fmt::format("{{\n  \"recipe\": 1{}{}\n}}\n", written_.empty() ? "" : ",\n  ",
                       joined(written_, ",\n  "));
  }

 private:
  std::vector<std::string> written_;
};

}  // namespace

std::string starter_recipe(const Starter& starter) {
  Members site;
  site.add("altitude", starter.site.altitude);
  site.add("room", starter.site.room);
  site.add("coolant", starter.site.coolant);
  Members goal;
  goal.add("hydrosol", starter.goal.hydrosol);
  goal.add("ratio", starter.goal.ratio);
  goal.add("oil", starter.goal.oil);
  goal.add("oil_share", starter.goal.oil_share);
  goal.add("time", starter.goal.time);

  Members recipe;
  recipe.add("title", starter.title);
  recipe.add("plant", starter.plant);
  recipe.add("state", starter.state);
  recipe.add("cut", starter.cut);
  recipe.add("charge", starter.charge);
  recipe.add("still", starter.still);
  recipe.add("method", starter.method);
  recipe.add_object("site", site);
  recipe.add_object("goal", goal);
  recipe.add("units", starter.units);
  return recipe.document();
}

}  // namespace firstdrop
