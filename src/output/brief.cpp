#include "output/brief.hpp"

#include <array>
#include <charconv>
#include <string_view>

#include "base/visible_text.hpp"
#include "firstdrop/output/finding_words.hpp"

namespace firstdrop {
namespace {

/// Writes JSON straight to text, without a document in between. A line has about thirty numbers,
/// and building the JSON library's document would take longer than planning the run.
class Writer {
 public:
  explicit Writer(std::string& out) : out_(out) {}

  void open(std::string_view key) {
    begin(key);
    out_ += '{';
    first_ = true;
  }
  void close() {
    out_ += '}';
    first_ = false;
  }
  void number(std::string_view key, double value) {
    begin(key);
    std::array<char, 32> figures{};
    const auto end = std::to_chars(figures.data(), figures.data() + figures.size(), value);
    out_.append(figures.data(), end.ptr);
  }
  /// Only for the program's own words, which need no escapes.
  void word(std::string_view key, std::string_view value) {
    begin(key);
    out_ += '"';
    out_ += value;
    out_ += '"';
  }
  void text(std::string_view key, std::string_view value) {
    begin(key);
    append_json_text(out_, value);
  }
  template <class T, class Unit>
  void range(std::string_view key, const Range<T>& range, Unit in_unit) {
    open(key);
    number("p10", in_unit(range.low));
    number("p50", in_unit(range.typical));
    number("p90", in_unit(range.high));
    close();
  }
  template <class Each>
  void list(std::string_view key, const Each& each) {
    begin(key);
    out_ += '[';
    first_ = true;
    each();
    out_ += ']';
    first_ = false;
  }
  /// Opens an object as an item of a list.
  void open() {
    comma();
    out_ += '{';
    first_ = true;
  }

 private:
  void comma() {
    if (!first_) out_ += ',';
    first_ = false;
  }
  void begin(std::string_view key) {
    comma();
    out_ += '"';
    out_ += key;
    out_ += "\":";
  }

  std::string& out_;
  bool first_ = false;
};

void findings(Writer& to, const std::vector<Finding>& findings, Units units) {
  to.list("findings", [&] {
    for (const Finding& finding : findings) {
      if (finding.level == Level::note) continue;
      to.open();
      to.word("code", finding.code());
      to.word("level", to_string(finding.level));
      if (finding.level == Level::refuse) to.text("text", finding_text(finding, units));
      to.close();
    }
  });
}

void amounts(Writer& to, const RunPlan& run) {
  to.open("water");
  to.number("first_fill_ml", in_millilitres(run.water.first_fill));
  to.number("left_at_stop_ml", in_millilitres(run.water.left_at_stop));
  to.number("reserve_ml", in_millilitres(run.water.reserve));
  to.close();
  to.open("times");
  to.number("boil_min", in_minutes(run.times.boil));
  to.number("first_drop_min", in_minutes(run.times.first_drop));
  to.number("stop_min", in_minutes(run.times.stop));
  to.number("latest_min", in_minutes(run.times.latest));
  to.number("stop_worst_min", in_minutes(run.times.stop_worst));
  to.number("reserve_worst_min", in_minutes(run.times.reserve_worst));
  to.number("dry_worst_min", in_minutes(run.times.dry_worst));
  to.close();

  const Uncertainty& uncertainty = run.uncertainty;
  const bool sampled = uncertainty.samples > 0;
  to.open("hydrosol");
  to.number("nominal_ml", in_millilitres(run.nominal.hydrosol));
  if (sampled) to.range("ml", uncertainty.hydrosol, in_millilitres);
  to.close();
  to.open("oil");
  to.number("nominal_in_receiver_g", in_grams(run.nominal.oil));
  to.number("nominal_in_receiver_ml", in_millilitres(run.nominal.oil_volume));
  if (sampled) {
    to.range("in_receiver_g", uncertainty.oil_in_receiver, in_grams);
    to.range("in_receiver_ml", uncertainty.oil_volume, in_millilitres);
  }
  to.close();

  to.open("cooling");
  const CoolingPlan& cooling = run.cooling;
  to.number("duty_w", in_watts(cooling.duty));
  if (cooling.ice) to.number("ice_kg", in_kilograms(*cooling.ice));
  if (cooling.coolant_used) to.number("coolant_l", in_litres(*cooling.coolant_used));
  to.close();
  to.open("energy");
  to.number("kwh", in_kilowatt_hours(run.energy.plug));
  if (run.energy.energy_cost) to.number("cost", *run.energy.energy_cost);
  to.close();
  to.word("stop_criterion", to_string(run.stop_criterion));
  to.open("stop_at");
  if (run.stop.hydrosol) to.number("hydrosol_ml", in_millilitres(*run.stop.hydrosol));
  if (run.stop.clock) to.number("clock_min", in_minutes(*run.stop.clock));
  to.number("never_beyond_ml", in_millilitres(run.water.never_beyond));
  to.close();
  if (uncertainty.chance_of_goal)
    to.number("chance_of_goal_pct", in_percent(*uncertainty.chance_of_goal));
}

}  // namespace

void append_brief(std::string& line, const Plan& plan) {
  line += "{\"brief\":1";
  Writer to(line);
  const Recipe& recipe = plan.recipe;
  if (!recipe.title.empty()) to.text("title", recipe.title);
  if (!recipe.lot.empty()) to.text("lot", recipe.lot);
  to.word("verdict", to_string(plan.verdict));
  findings(to, plan.findings, recipe.units);
  to.text("plant", recipe.plant->key);
  to.text("still", recipe.still->key);
  to.word("method", to_string(recipe.method_used()));
  to.open("charge");
  to.number("mass_g", in_grams(plan.charge.mass));
  to.number("fill_pct", in_percent(plan.charge.fill));
  to.number("runs", plan.charge.runs);
  to.number("harvest_g", in_grams(plan.charge.harvest));
  to.close();
  if (plan.may_be_run()) amounts(to, *plan.run);
  line += '}';
}

}  // namespace firstdrop
