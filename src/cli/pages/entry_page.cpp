#include "cli/pages/entry_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>

#include "cli/terminal.hpp"
#include "firstdrop/quantity/units.hpp"

namespace firstdrop::cli {

std::string words(std::string key) {
  std::replace(key.begin(), key.end(), '_', ' ');
  return key;
}

std::string text_or_list(const Json& source) {
  if (source.is_string()) return source.get<std::string>();
  std::string all;
  for (const Json& key : source) all += (all.empty() ? "" : ", ") + key.get<std::string>();
  return all;
}

std::string bracket(const std::string& known, const std::string& sources) {
  // Rules of thumb and the like have no source except their own name.
  return known == sources || sources.empty() ? fmt::format("[{}]", known)
                                             : fmt::format("[{}: {}]", known, sources);
}

Amount at_the_bench(const Amount& amount, Units units) {
  if (units == Units::metric) return amount;
  static constexpr std::array<std::pair<const char*, const char*>, 11> us_units = {
      {{"g", "oz"},
       {"kg", "lb"},
       {"mL", "fl oz"},
       {"L", "qt"},
       {"°C", "°F"},
       {"mm", "in"},
       {"cm", "in"},
       {"m", "in"},
       {"cm2", "in2"},
       {"m2", "ft2"},
       {"L/min", "gal/min"}}};
  for (const auto& [metric, us] : us_units) {
    if (amount.unit == metric) return {*converted(amount.number, metric, us), us};
  }
  return amount;
}

namespace {

bool is_figure(const Json& node) {
  return node.is_object() && node.contains("typical");
}

std::string figure_words(const Json& figure, Units units) {
  const auto unit = figure.at("unit").get<std::string>();
  const auto number = [&](const char* which) {
    const double as_it_stands = figure.at(which).get<double>();
    return units == Units::metric
               ? fmt::format("{:g}", as_it_stands)
               : fmt::format("{:.4g}", at_the_bench({as_it_stands, unit}, units).number);
  };
  const std::string low = number("low");
  const std::string typical = number("typical");
  const std::string high = number("high");
  const std::string range =
      low == high ? typical : fmt::format("{} ({} to {})", typical, low, high);
  return fmt::format(
      "{} {}; {} {}", range, at_the_bench({0, unit}, units).unit,
      figure.at("basis").get<std::string>(),
      bracket(figure.at("known").get<std::string>(), text_or_list(figure.at("source"))));
}

// A statement with its evidence: {"text": …, "basis": …, "source": …, "known": …}.
bool is_statement(const Json& node) {
  return node.is_object() && node.contains("known") && node.contains("source") &&
         !node.contains("typical");
}

class EntryPage {
 public:
  explicit EntryPage(Units units) : units_(units) {}

  std::string write(const std::string& key, const Json& entry) {
    out_ = key + "\n";
    show(entry, 1);
    return out_;
  }

 private:
  void show(const Json& node, int depth) {
    for (const auto& [key, value] : node.items())
      member(node.is_array() ? "-" : key == "figure" ? "share" : words(key), value, depth);
  }

  void member(const std::string& name, const Json& value, int depth) {
    const std::string blanks(static_cast<std::size_t>(depth) * 2, ' ');
    const std::string first = blanks + name;
    if (is_figure(value) && text_width(name) > 14) {
      out_ += first + "\n" + wrapped(blanks + "    ", figure_words(value, units_), look_);
    } else if (is_figure(value)) {
      out_ += wrapped(first + "  ", figure_words(value, units_), look_);
    } else if (is_statement(value)) {
      out_ += first + "\n";
      show_statement(value, depth + 1);
    } else if (value.is_array() && std::all_of(value.begin(), value.end(),
                                               [](const Json& v) { return v.is_string(); })) {
      out_ += wrapped(first + "  ", text_or_list(value), look_);
    } else if (value.is_structured()) {
      out_ += first + "\n";
      show(value, depth + 1);
    } else {
      out_ +=
          wrapped(first + "  ", value.is_string() ? value.get<std::string>() : value.dump(), look_);
    }
  }

  // First the statement, then its basis and sources in one line.
  void show_statement(const Json& node, int depth) {
    for (const auto& [key, value] : node.items()) {
      if (key == "basis" || key == "source" || key == "known") continue;
      member(words(key), value, depth);
    }
    out_ +=
        wrapped(std::string(static_cast<std::size_t>(depth) * 2, ' ') + "basis  ",
                node.at("basis").get<std::string>() + " " +
                    bracket(node.at("known").get<std::string>(), text_or_list(node.at("source"))),
                look_);
  }

  Units units_;
  Look look_ = look_of_stdout("never");
  std::string out_;
};

}  // namespace

std::string entry_page(const std::string& key, const Json& entry, Units units) {
  return EntryPage(units).write(key, entry);
}

}  // namespace firstdrop::cli
