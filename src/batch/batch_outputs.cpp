#include "batch/batch_outputs.hpp"

#include <map>
#include <optional>
#include <utility>

#include "base/visible_text.hpp"
#include "output/finding_outputs.hpp"

namespace firstdrop {
namespace {

using OfSummary = Output<BatchSummary>;

/// A fault of a recipe in this file.
struct WrittenFault {
  const Fault& fault;
  const std::string& recipe_file;
};

Outputs<WrittenFault> fault() {
  using Of = Output<WrittenFault>;
  const auto of = [](std::string Fault::*member) {
    return [=](const WrittenFault& written) { return visible(written.fault.*member); };
  };
  return {
      Of::words(
          "file",
          [](const WrittenFault& written) {
            return written.fault.file == written.recipe_file ? "" : visible(written.fault.file);
          },
          "The file that it is in.", "it is the recipe's own"),
      Of::text("pointer", of(&Fault::pointer),
               "JSON pointer (RFC 6901) to the key, such as `/site/room`; empty for the whole "
               "recipe."),
      Of::text("found", of(&Fault::found), "What stands there."),
      Of::text("wanted", of(&Fault::wanted), "What would be accepted."),
      Of::words("hint", of(&Fault::hint), "A way out, or the nearest name.", "there is none"),
  };
}

std::optional<std::int64_t> known(std::int64_t place) {
  return place > 0 ? std::optional(place) : std::nullopt;
}

// --- the summary

Outputs<BatchSummary::OfPlant> of_plant() {
  using Of = Output<BatchSummary::OfPlant>;
  return {Of::whole("plans", &BatchSummary::OfPlant::plans, "Plans that may be run."),
          Of::whole("runs", &BatchSummary::OfPlant::runs, "Runs of these plans."),
          Of::amount("herb_kg", in_kilograms, &BatchSummary::OfPlant::herb, "Plant material.")};
}

using Told = std::pair<std::string, std::string>;
Outputs<BatchSummary::Refused> refused() {
  const Outputs<Told> told = {
      Output<Told>::text("title", &Told::first, "The recipe's."),
      Output<Told>::words("text", &Told::second, "Why it is refused, with ways out.")};
  using Of = Output<BatchSummary::Refused>;
  return {Of::whole("plans", &BatchSummary::Refused::plans, "Plans that it refuses."),
          Of::list("first", &BatchSummary::Refused::first, told, "The first three of them.")};
}

Outputs<BrokenRecipe> broken() {
  using Of = Output<BrokenRecipe>;
  return {Of::text(
              "file", [](const BrokenRecipe& one) { return visible(one.file); },
              "The file that it is in."),
          Of::whole(
              "line", [](const BrokenRecipe& one) { return known(one.line); }, "Its line there.",
              "it isn't known")
              .at_least(1),
          Of::words("reason", &BrokenRecipe::reason, "What is wrong with it.")};
}

/// The sums that have a range. `of` turns a member of RunSums into how to get its value.
template <class Of>
Outputs<RunSums> sums(const Of& of) {
  using Sum = Output<RunSums>;
  return {
      Sum::amount("ice_kg", in_kilograms, of(&RunSums::ice), "Ice in all."),
      Sum::amount("energy_kwh", in_kilowatt_hours, of(&RunSums::energy),
                  "Energy from sockets, or of gas."),
      Sum::amount("hydrosol_l", in_litres, of(&RunSums::hydrosol), "Hydrosol."),
      Sum::amount("oil_g", in_grams, of(&RunSums::oil), "Oil, separated from the hydrosol."),
      Sum::amount("oil_ml", in_millilitres, of(&RunSums::oil_volume), "The same oil by volume."),
      Sum::amount("heat_on_h", in_hours, of(&RunSums::heat_on), "Time with the heat on."),
  };
}

bool has_ranges(const BatchSummary& summary) {
  return !summary.nominal;
}
bool is_nominal(const BatchSummary& summary) {
  return summary.nominal;
}
const RunSums& sums_of(const BatchSummary& summary) {
  return summary;
}

Outputs<BatchSummary> counts() {
  return {
      OfSummary::whole("planned", &BatchSummary::planned, "Plans made."),
      OfSummary::whole("go", &BatchSummary::go, "Plans that can be run."),
      OfSummary::whole("caution", &BatchSummary::caution,
                       "Plans that can be run, with something to watch for."),
      OfSummary::whole("refused", &BatchSummary::refused,
                       "Plans that must not or can't be run as written."),
      OfSummary::whole("broken", &BatchSummary::broken, "Recipes that can't be read."),
  };
}

Outputs<BatchSummary> all_sums() {
  const auto range = [](auto member) { return member; };
  const auto middle = [](auto member) {
    return [=](const RunSums& of) { return (of.*member).typical; };
  };
  return {
      OfSummary::whole("runs", &BatchSummary::runs, "Runs of all plans that may be run."),
      OfSummary::amount("herb_kg", in_kilograms, &BatchSummary::herb, "Plant material."),
      OfSummary::amount("water_l", in_litres, &BatchSummary::water, "Water to pour in."),
      OfSummary::object("nominal", sums_of, sums(middle),
                        "Sums of nominal runs, in which every figure is at its median. The "
                        "medians of the outcomes can differ.")
          .only_when(is_nominal, "there are ranges, because samples were taken"),
      OfSummary::part("ranges", has_ranges, sums_of, sums(range)),
      OfSummary::map("plants", &BatchSummary::plants, "PLANT", of_plant(),
                     "Plants by their names, 200 at most."),
      OfSummary::object("other_plants", &BatchSummary::other_plants, of_plant(),
                        "All other plants together.")
          .only_when([](const BatchSummary& s) { return s.other_plants.plans > 0; },
                     "there are no others"),
  };
}

Outputs<BatchSummary> faults() {
  return {
      OfSummary::map("refusals", &BatchSummary::refusals, "CODE", refused(),
                     "Refused plans by the code of the finding that refuses them.")
          .like(code_pattern),
      OfSummary::list("first_broken", &BatchSummary::first_broken, broken(),
                      "The first three of the broken recipes."),
  };
}

// Either the ranges or the nominal sums.
constexpr const char* one_kind_of_sums =
    R"("oneOf": [{"required": ["nominal"]}, {"required": ["ice_kg"]}])";

Outputs<SummaryVariant> variant() {
  using Of = Output<SummaryVariant>;
  const auto summary = [](const SummaryVariant& of) -> const BatchSummary& { return of.summary; };
  return {Of::json("set", &SummaryVariant::set, "Its values, by their keys.").always(),
          Of::part(summary, counts()), Of::part(summary, all_sums()), Of::part(summary, faults())};
}

}  // namespace

const Outputs<BrokenLine>& broken_line_outputs() {
  using Of = Output<BrokenLine>;
  const auto faults_of = [](const BrokenLine& line) {
    std::vector<WrittenFault> all;
    for (const Fault& one : line.faults) all.push_back({one, line.recipe.file});
    return all;
  };
  static const Outputs<BrokenLine> outputs = {
      Of::json("set", &BrokenLine::set,
               "In a batch that varies keys: their values in this line, by key. It is null for a "
               "key that is left out."),
      Of::version("error"),
      Of::text(
          "file", [](const BrokenLine& line) { return visible(line.recipe.file); },
          "The file that the recipe is in; `-` for standard input."),
      Of::whole(
          "line", [](const BrokenLine& line) { return known(line.recipe.line); },
          "The line in which the recipe begins. If there is a column, it is the line of the first "
          "fault.",
          "it isn't known")
          .at_least(1),
      Of::whole(
          "column", [](const BrokenLine& line) { return known(line.recipe.column); },
          "Where in that line the first fault is, in characters.", "it isn't known")
          .at_least(1),
      Of::words(
          "reason", [](const BrokenLine& line) -> const std::string& { return line.recipe.reason; },
          "The first fault in words, and how many more there are."),
      Of::list("faults", faults_of, fault(), "All of them.").at_least_one(),
  };
  return outputs;
}

const Outputs<WrittenSummary>& written_summary_outputs() {
  using Of = Output<WrittenSummary>;
  const auto summary = [](const WrittenSummary& of) -> const BatchSummary& { return of.summary; };
  static const Outputs<WrittenSummary> outputs = {
      Of::version("summary"),
      Of::part(summary, counts()),
      Of::part(
          "sums", [](const WrittenSummary& of) { return !of.varies; }, summary, all_sums()),
      Of::part(summary, faults()),
      Of::list("variants", &WrittenSummary::variants, variant(),
               "With `--vary`: a summary of each combination of values, in their order, with its "
               "own sums. It has the keys above, and its values.")
          .unless_empty(&WrittenSummary::variants,
                        "nothing varies, or there are more than 1000 combinations")
          .item_rules(one_kind_of_sums),
  };
  return outputs;
}

Document broken_document() {
  return written_document("error",
                          "A recipe that couldn't be planned, in its place among the plans.",
                          broken_line_outputs());
}

Document summary_document() {
  return written_document("summary",
                          "What `firstdrop batch --summary --json` prints: how many recipes can be "
                          "run, and what all of "
                          "them take and give. Ranges are added as if all runs erred the same way. "
                          "The sums are missing "
                          "if keys vary, because alternatives have no sum.",
                          written_summary_outputs(), Extent::full,
                          R"("if": {"required": ["runs"]},
         "then": {"oneOf": [{"required": ["nominal"]}, {"required": ["ice_kg"]}],
                  "not": {"required": ["variants"]}},
         "else": {"not": {"anyOf": [{"required": ["nominal"]}, {"required": ["ice_kg"]}]}})");
}

}  // namespace firstdrop
