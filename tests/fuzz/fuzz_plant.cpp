// Takes any text as a user's own plant. If the reader accepts it, plans each of its states.
#include <fmt/format.h>

#include <array>
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
  Plant plant;
  try {
    plant = read_plant(text, "plant.json", fuzz::shipped_tables());
  } catch (const InputError& error) {
    fuzz::check_message(error.what());
    return 0;
  }
  // One still for each method. The size of the text decides which of them a state gets.
  constexpr std::array stills = {"bench-column", "herb-pot", "farm-grid"};
  std::size_t turn = size;
  for (const auto& [state, figures] : plant.states) {
    // A plant that is valid by itself is valid in a recipe, so nothing may be thrown here.
    const std::string recipe =
        fmt::format(R"({{"recipe": 1, "plant": "plant.json", "state": "{}", "still": "{}"}})",
                    to_string(state), stills[turn++ % stills.size()]);
    fuzz::check_plan(read_recipe(recipe, "recipe.json", fuzz::shipped_tables(),
                                 [&](const std::string&) { return std::string(text); }),
                     text);
  }
  return 0;
}
