#include "cli/output_format.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>

#include "base/visible_text.hpp"
#include "json/json_reader.hpp"

namespace firstdrop::cli {
namespace {

struct Ending {
  std::string_view name;
  OutputFormat format;
  std::string_view command;  // the command that writes this format, for error messages
};
// The first ending of a format is the recommended one. Text may have any ending, so .txt selects
// nothing.
constexpr std::array endings = {
    Ending{"txt", OutputFormat::text, ""},
    Ending{"html", OutputFormat::html, "sheet"},
    Ending{"htm", OutputFormat::html, "sheet"},
    Ending{"md", OutputFormat::markdown, "sheet"},
    Ending{"markdown", OutputFormat::markdown, "sheet"},
    Ending{"json", OutputFormat::json, "plan"},
    Ending{"jsonl", OutputFormat::json_lines, "batch"},
    Ending{"ndjson", OutputFormat::json_lines, "batch"},
    Ending{"csv", OutputFormat::csv, "plan"},
    Ending{"ics", OutputFormat::calendar, "plan"},
};

// Formats that a person might expect but that no command writes.
constexpr std::array<std::string_view, 19> written_by_none = {
    "pdf", "ps",  "doc", "docx", "odt", "rtf", "xls",  "xlsx", "ods", "tsv",
    "svg", "png", "jpg", "jpeg", "gif", "xml", "yaml", "yml",  "epub"};

/// In lower case and without the dot; empty if the name has no ending.
std::string ending_of(const std::string& output) {
  std::string name = output.substr(output.rfind('/') + 1);
  const std::size_t dot = name.rfind('.');
  if (dot == std::string::npos || dot == 0) return "";  // "run" and ".html" have no ending
  name.erase(0, dot + 1);
  std::transform(name.begin(), name.end(), name.begin(), [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  });
  return name;
}

/// Null if a name with this ending selects nothing.
const Ending* selected_by(const std::string& name) {
  const auto* found = std::find_if(endings.begin(), endings.end(),
                                   [&](const Ending& ending) { return ending.name == name; });
  return found == endings.end() || found->format == OutputFormat::text ? nullptr : found;
}

bool is_written_by_none(std::string_view name) {
  return std::find(written_by_none.begin(), written_by_none.end(), name) != written_by_none.end();
}

bool has(std::span<const OutputFormat> formats, OutputFormat format) {
  return std::find(formats.begin(), formats.end(), format) != formats.end();
}

std::string either_ending(std::span<const OutputFormat> formats) {
  std::vector<std::string> names = format_names(formats);
  for (std::string& name : names) name.insert(0, ".");
  return json::either(names);
}

// How to get a file with this ending some other way; empty if the command itself can write it.
std::string way_to(const std::string& name, const Ending* ending,
                   std::span<const OutputFormat> all) {
  if (name == "pdf") return "a browser can print the .html of `firstdrop sheet` as PDF";
  if (ending == nullptr) return fmt::format("no command writes .{}", name);
  if (has(all, ending->format)) return "";
  return fmt::format("`firstdrop {}` writes .{}", ending->command, name);
}

}  // namespace

std::optional<Fault> fault_of_name(const std::string& output, const FormatChoice& choice) {
  const std::string name = ending_of(output);
  const Ending* ending = selected_by(name);
  const bool is_good =
      ending == nullptr ? !is_written_by_none(name) : has(choice.left, ending->format);
  if (is_good) return std::nullopt;
  return Fault{"",
               "",
               fmt::format("{} as the file to write{}", firstdrop::quoted(output),
                           choice.why.empty() ? "" : " " + choice.why),
               "Choose a name that ends in " + either_ending(choice.left),
               way_to(name, ending, choice.all),
               0,
               0};
}

OutputFormat output_format(const std::string& output, const FormatChoice& choice) {
  if (auto fault = fault_of_name(output, choice)) throw InputError(std::move(*fault));
  const Ending* ending = selected_by(ending_of(output));
  return ending == nullptr ? choice.left.front() : ending->format;
}

std::vector<std::string> format_names(std::span<const OutputFormat> formats) {
  std::vector<std::string> names;
  for (const OutputFormat format : formats) {
    const auto* ending = std::find_if(endings.begin(), endings.end(),
                                      [&](const Ending& one) { return one.format == format; });
    names.emplace_back(ending->name);
  }
  return names;
}

OutputFormat format_named(const std::string& ending) {
  const Ending* named = selected_by(ending);
  return named == nullptr ? OutputFormat::text : named->format;
}

SheetFormat sheet_format(OutputFormat format) {
  if (format == OutputFormat::html) return SheetFormat::html;
  return format == OutputFormat::markdown ? SheetFormat::markdown : SheetFormat::text;
}

std::string selecting_endings(std::span<const OutputFormat> formats) {
  std::vector<OutputFormat> selecting;
  for (const OutputFormat format : formats)
    if (format != OutputFormat::text) selecting.push_back(format);
  return either_ending(selecting);
}

}  // namespace firstdrop::cli
