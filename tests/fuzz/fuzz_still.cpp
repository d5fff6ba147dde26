// Takes any text as a user's own still. If the reader accepts it, plans each of its methods.
#include <fmt/format.h>

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/recipe_json.hpp"
#include "firstdrop/readers/tables_json.hpp"
#include "plan_checks.hpp"

using namespace firstdrop;

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  Still still;
  try {
    still = read_still(text, "still.json", fuzz::shipped_tables());
  } catch (const InputError& error) {
    fuzz::check_message(error.what());
    return 0;
  }
  for (const Method method : still.methods) {
    // A still that is valid by itself is valid in a recipe, so nothing may be thrown here.
    const std::string recipe = fmt::format(
        R"({{"recipe": 1, "plant": "lavender", "still": "still.json", "method": "{}"}})",
        to_string(method));
    fuzz::check_plan(read_recipe(recipe, "recipe.json", fuzz::shipped_tables(),
                                 [&](const std::string&) { return std::string(text); }),
                     text);
  }
  return 0;
}
