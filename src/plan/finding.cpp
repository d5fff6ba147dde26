#include "firstdrop/plan/finding.hpp"

#include <algorithm>
#include <iterator>
#include <utility>

#include "tables/finding_codes.hpp"

namespace firstdrop {
namespace {

constexpr bool is_in_table(std::string_view code) {
  return std::ranges::find(finding_codes, code) != std::end(finding_codes);
}

// Compares the kinds of findings with the rows of data/findings.json.
template <class Found>
struct Kinds;
template <class... What>
struct Kinds<std::variant<What...>> {
  static constexpr bool all_are_in_table = (is_in_table(What::code) && ...);
  static constexpr bool are_all_of_table = std::ranges::all_of(
      finding_codes, [](std::string_view code) { return ((code == What::code) || ...); });
};
static_assert(Kinds<Found>::all_are_in_table, "data/findings.json lacks the code of a kind");
static_assert(Kinds<Found>::are_all_of_table, "data/findings.json has a code without a kind");

}  // namespace

// These are here, because the variant's are long and this header is included nearly everywhere.
Finding::Finding(Level how_serious, Found what_was_found)
    : level(how_serious), what(std::move(what_was_found)) {}
Finding::Finding(const Finding& other) = default;
Finding::Finding(Finding&& other) noexcept = default;
Finding& Finding::operator=(const Finding& other) = default;
Finding& Finding::operator=(Finding&& other) noexcept = default;
Finding::~Finding() = default;

std::string_view Finding::code() const {
  return std::visit([](const auto& found) -> std::string_view { return found.code; }, what);
}

bool any_refuses(const std::vector<Finding>& findings) {
  return std::any_of(findings.begin(), findings.end(),
                     [](const Finding& finding) { return finding.level == Level::refuse; });
}

}  // namespace firstdrop
