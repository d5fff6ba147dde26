#include "cli/pages/entry_page.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <array>
#include <utility>

#include "cli/pages/terminal_page.hpp"
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

std::string indent(int depth) {
  return std::string(static_cast<std::size_t>(depth) * 2, ' ');
}

void write_entry(TerminalPage& page, const Json& node, Units units, int depth);
void write_statement(TerminalPage& page, const Json& node, Units units, int depth);

void write_member(TerminalPage& page, const std::string& name, const Json& value, Units units,
                  int depth) {
  const std::string first = indent(depth) + name;
  if (is_figure(value) && text_width(name) > 14) {
    page.add(first + "\n");
    page.line(indent(depth) + "    ", figure_words(value, units));
  } else if (is_figure(value)) {
    page.line(first + "  ", figure_words(value, units));
  } else if (is_statement(value)) {
    page.add(first + "\n");
    write_statement(page, value, units, depth + 1);
  } else if (value.is_array() &&
             std::all_of(value.begin(), value.end(), [](const Json& v) { return v.is_string(); })) {
    page.line(first + "  ", text_or_list(value));
  } else if (value.is_structured()) {
    page.add(first + "\n");
    write_entry(page, value, units, depth + 1);
  } else {
    page.line(first + "  ", value.is_string() ? value.get<std::string>() : value.dump());
  }
}

void write_entry(TerminalPage& page, const Json& node, Units units, int depth) {
  for (const auto& [key, value] : node.items()) {
    const std::string name = node.is_array() ? "-" : key == "figure" ? "share" : words(key);
    write_member(page, name, value, units, depth);
  }
}

// First the statement, then its basis and sources in one line.
void write_statement(TerminalPage& page, const Json& node, Units units, int depth) {
  for (const auto& [key, value] : node.items()) {
    if (key == "basis" || key == "source" || key == "known") continue;
    write_member(page, words(key), value, units, depth);
  }
  page.line(indent(depth) + "basis  ",
            node.at("basis").get<std::string>() + " " +
                bracket(node.at("known").get<std::string>(), text_or_list(node.at("source"))));
}

}  // namespace

std::string entry_page(const std::string& key, const Json& entry, Units units) {
  const Look look = look_of_stdout("never");
  TerminalPage page(look);
  page.add(key + "\n");
  write_entry(page, entry, units, 1);
  return page.written();
}

}  // namespace firstdrop::cli
