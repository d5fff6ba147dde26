#include "learning/slips.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <optional>
#include <string_view>

#include "firstdrop/quantity/units.hpp"
#include "quantity/bounds.hpp"

namespace firstdrop {
namespace {

constexpr double fits_now = 2.0;  // residual of an entry that a slip explains

// Units that people take for each other.
constexpr std::array<std::string_view, 5> volume_units = {"mL", "L", "fl oz", "cup", "qt"};
constexpr std::array<std::string_view, 4> mass_units = {"g", "kg", "oz", "lb"};
constexpr std::array<std::string_view, 2> energy_units = {"kWh", "kJ"};
constexpr std::array<double, 4> clock_slips = {-60, -10, 10, 60};  // min

struct Split {
  std::string number;
  std::string unit;
};

// "3.4 fl oz" as its number and its unit. None for a text with several numbers.
std::optional<Split> split(const std::string& text) {
  const std::size_t unit = text.find_first_not_of("0123456789.");
  if (unit == 0 || unit == std::string::npos) return std::nullopt;
  const std::size_t begin = text.find_first_not_of(' ', unit);
  if (begin == std::string::npos) return std::nullopt;
  if (text.find_first_of("0123456789", begin) != std::string::npos) return std::nullopt;
  return Split{text.substr(0, unit), text.substr(begin)};
}

template <class Q, std::size_t N>
std::vector<Typed<Q>> other_units(const Typed<Q>& typed,
                                  const std::array<std::string_view, N>& units) {
  std::vector<Typed<Q>> others;
  const auto parts = split(typed.text);
  if (!parts) return others;
  for (const std::string_view unit : units) {
    const std::string text = parts->number + " " + std::string(unit);
    const auto value = parse_quantity<Q>(text);
    if (value && *value != typed.value) others.push_back({*value, text});
  }
  for (const double factor : {0.1, 10.0}) {
    const double number = std::strtod(parts->number.c_str(), nullptr) * factor;
    others.push_back({typed.value * factor, plain(number) + " " + parts->unit});
  }
  return others;
}

std::vector<Typed<Duration>> other_times(const Typed<Duration>& typed) {
  std::vector<Typed<Duration>> others;
  for (const double later : clock_slips) {
    const Duration time = typed.value + minutes(later);
    if (time > seconds(0)) others.push_back({time, plain(in_minutes(time)) + " min"});
  }
  return others;
}

struct Changed {
  WaterRunLog log;
  std::string text;
};

template <class Q, class Put>
void add(std::vector<Changed>& all, const WaterRunLog& log, const std::vector<Typed<Q>>& others,
         const Put& put) {
  for (const Typed<Q>& other : others) {
    Changed changed{log, other.text};
    put(changed.log, other);
    all.push_back(std::move(changed));
  }
}

// The log with each slip that may have happened in one entry undone.
std::vector<Changed> without_slips(const WaterRunLog& log, const EntryFit& entry) {
  std::vector<Changed> all;
  const auto mark = entry.mark;
  switch (entry.what) {
    case EntryOf::boil:
      add(all, log, other_times(*log.boil), [](WaterRunLog& to, const auto& t) { to.boil = t; });
      break;
    case EntryOf::first_drop:
      add(all, log, other_times(*log.first_drop),
          [](WaterRunLog& to, const auto& t) { to.first_drop = t; });
      break;
    case EntryOf::caught:
      add(all, log, other_units(log.caught[mark].volume, volume_units),
          [=](WaterRunLog& to, const auto& v) { to.caught[mark].volume = v; });
      add(all, log, other_times(log.caught[mark].at),
          [=](WaterRunLog& to, const auto& t) { to.caught[mark].at = t; });
      break;
    case EntryOf::left:
      add(all, log, other_units(*log.left, mass_units),
          [](WaterRunLog& to, const auto& m) { to.left = m; });
      break;
    case EntryOf::energy:
      add(all, log, other_units(*log.energy, energy_units),
          [](WaterRunLog& to, const auto& e) { to.energy = e; });
      break;
  }
  return all;
}

std::ptrdiff_t misfit_count(const WaterRunResult& result) {
  return std::count_if(result.entries.begin(), result.entries.end(),
                       [](const EntryFit& entry) { return std::abs(entry.residual) > misfit; });
}

}  // namespace

std::vector<Misfit> misfits_of(const WaterRunModel& model, const WaterRunLog& log,
                               const WaterRunResult& result) {
  std::vector<Misfit> misfits;
  for (std::size_t i = 0; i < result.entries.size(); ++i) {
    if (std::abs(result.entries[i].residual) <= misfit) continue;
    Misfit found{i, ""};
    int explained = 0;
    for (const Changed& changed : without_slips(log, result.entries[i])) {
      const auto then = learn_from(model, result.before, changed.log);
      if (!then || std::abs(then->entries[i].residual) >= fits_now) continue;
      if (misfit_count(*then) >= misfit_count(result)) continue;
      found.would_fit = changed.text;
      ++explained;
    }
    if (explained != 1) found.would_fit.clear();
    misfits.push_back(std::move(found));
  }
  return misfits;
}

}  // namespace firstdrop
