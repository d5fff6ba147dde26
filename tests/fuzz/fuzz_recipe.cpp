// Takes any text as a recipe. If the reader accepts it, plans it and checks the plan.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "plan_checks.hpp"

using namespace firstdrop;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  named_in_recipe(text);  // this and the next must not throw
  document_kind(text);
  Recipe recipe;
  try {
    recipe = read_recipe(text, "recipe.json", fuzz::shipped_tables(), nullptr);
  } catch (const InputError& error) {
    fuzz::check_message(error.what());
    return 0;
  }
  fuzz::check_plan(recipe, text);
  return 0;
}
