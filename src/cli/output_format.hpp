// The format in which a result is written, by the options and the file's name. All commands with
// --output follow one rule:
//   - An ending that names a format which the command can write selects it.
//   - An ending of another known format, or of one that an option rules out, is an error.
//   - Any other ending, .txt, no ending and standard output select nothing. Then an option decides;
//     without one it is text, or what the command writes instead of text.
#pragma once

#include <array>
#include <optional>
#include <span>
#include <string>
#include <utility>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/output/write.hpp"

namespace firstdrop::cli {

enum class OutputFormat { text, html, markdown, json, json_lines, csv, calendar };

// What each command can write, with any options. The first is the default.
inline constexpr std::array plan_formats = {OutputFormat::text, OutputFormat::json,
                                            OutputFormat::csv, OutputFormat::calendar};
inline constexpr std::array sheet_formats = {OutputFormat::text, OutputFormat::html,
                                             OutputFormat::markdown};
inline constexpr std::array campaign_formats = {OutputFormat::text, OutputFormat::html,
                                                OutputFormat::markdown, OutputFormat::json,
                                                OutputFormat::calendar};
inline constexpr std::array batch_formats = {OutputFormat::json_lines, OutputFormat::text,
                                             OutputFormat::json};
inline constexpr std::array table_formats = {OutputFormat::text, OutputFormat::json};
inline constexpr std::array recipe_formats = {OutputFormat::json};

/// The formats that a command can write, and those that its options leave.
struct FormatChoice {
  std::span<const OutputFormat> all;
  std::vector<OutputFormat> left = {all.begin(), all.end()};  ///< the first is the default
  std::string why = {};  ///< "with --json"; empty if all are left

  void leave(std::vector<OutputFormat> formats, std::string because) {
    left = std::move(formats);
    why = std::move(because);
  }
};

/// What is wrong with a file's name for these formats, if anything.
std::optional<Fault> fault_of_name(const std::string& output, const FormatChoice& choice);

/// The format to write. Throws InputError with what fault_of_name() says.
OutputFormat output_format(const std::string& output, const FormatChoice& choice);

/// The names of formats, which are their endings: "txt", "html".
std::vector<std::string> format_names(std::span<const OutputFormat> formats);

/// The format that --format names by its ending: html, md or txt.
OutputFormat format_named(const std::string& ending);

/// For the pages that are written as text, HTML or Markdown.
SheetFormat sheet_format(OutputFormat format);

/// The endings that select one of these formats: ".json, .csv or .ics".
std::string selecting_endings(std::span<const OutputFormat> formats);

}  // namespace firstdrop::cli
