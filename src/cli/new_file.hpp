// The file that a command makes for a person: where it may be written, and the question for it.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "cli/output_format.hpp"
#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {

/// Whether there is a file of this name.
bool is_file(const std::string& path);

/// What prevents writing a file there, as far as it can be known before. Without `force`, an
/// existing file does.
std::optional<Fault> obstacle(const std::string& path, bool force, const FormatChoice& formats);

/// What is wrong with a name for the file of a still: recipes name it by its ending.
std::optional<Fault> fault_of_still_file(const std::string& path);

/// "stem.json", or "stem-2.json" and so on if there is a file of that name.
std::string free_name(const std::string& stem);

/// Asks for the file to write to until nothing prevents that, and returns its name, or - for none.
/// In brackets stands free_name(stem). `faults` says what else is wrong with a name, or nothing.
std::string ask_new_file(const std::string& question, const std::string& stem, bool force,
                         const FormatChoice& formats,
                         const std::function<std::string(const std::string& path)>& faults);

}  // namespace firstdrop::cli
