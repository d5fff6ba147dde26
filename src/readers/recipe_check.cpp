#include "readers/recipe_check.hpp"

#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "readers/documents.hpp"

namespace firstdrop {
namespace {

template <class T>
void check(const T& object, const Fields<T>& fields, const char* name, const Tables& tables) {
  std::vector<Fault> faults;
  fields.check(object, KeyPath(name, faults, tables));
  if (!faults.empty()) throw InputError(std::move(faults));
}

}  // namespace

void check_recipe(const Recipe& recipe, const Tables& tables) {
  check(recipe, recipe_fields(), "", tables);
}

void check_still(const Still& still, const Tables& tables) {
  check(still, still_fields(), "still", tables);
}

void check_plant(const Plant& plant, const Tables& tables) {
  check(plant, plant_fields(), "plant", tables);
}

}  // namespace firstdrop
