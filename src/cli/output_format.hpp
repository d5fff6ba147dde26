// In which format a result is written, by the options and the name of the file. One rule for every
// command with --output:
//   - an ending that names a format which the command can write selects it;
//   - one that names another known format, or not the one that an option asks for, is an error;
//   - any other ending, .txt, no ending and standard output say nothing: there an option decides,
//     else it is text, or what the command writes instead of text.
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

// What each command can write, whatever its options. The first is written where nothing says which.
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

/// What a command can write, and what its options leave of that.
struct FormatChoice {
  std::span<const OutputFormat> all;
  std::vector<OutputFormat> left = {all.begin(), all.end()};  ///< the first as in `all`
  std::string why = {};                                       ///< "with --json", if not all

  void leave(std::vector<OutputFormat> formats, std::string because) {
    left = std::move(formats);
    why = std::move(because);
  }
};

/// What is wrong with the name of a file for one of these formats, if anything is.
std::optional<Fault> fault_of_name(const std::string& output, const FormatChoice& choice);

/// The format to write. Throws InputError with what fault_of_name() says.
OutputFormat output_format(const std::string& output, const FormatChoice& choice);

/// The format that --format names by its ending: html, md or txt.
OutputFormat format_named(const std::string& ending);

/// For the pages that are written as text, HTML or Markdown.
SheetFormat sheet_format(OutputFormat format);

/// The endings that select one of these formats: ".json, .csv or .ics".
std::string selecting_endings(std::span<const OutputFormat> formats);

}  // namespace firstdrop::cli
