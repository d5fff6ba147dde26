// The program's edge to files and streams.
#pragma once

#include <stdexcept>
#include <string>

#include "firstdrop/recipe_json.hpp"

namespace firstdrop::cli {

/// The system would not do it: standard output is closed, the disk is full, there is no such
/// folder.
class SystemError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The whole of a file, or of standard input for "-". Throws InputError when there is no such file,
/// when it is a directory, device or pipe (save one that is open already, as /dev/stdin), or when
/// it is larger than any recipe or table could be.
std::string read_text_file(const std::string& path);

/// Reads files that a recipe names, relative to the recipe's own folder.
FileReader reader_beside(const std::string& recipe_path);

/// The output that means standard output.
inline constexpr const char* standard_output = "-";

/// Whether results go to standard output rather than to a file of that name.
/// Throws InputError for an empty name, and where the output is the input.
bool to_standard_output(const std::string& output, const std::string& input = {});

/// Writes results to standard output or to a file. A file either has all of it or is as it was
/// before: it is written beside under a name of its own, then renamed. A device or pipe is written
/// straight, a link's target in the target's place. Throws SystemError unless every byte went out.
/// Signals that end the program wait meanwhile; only one that cannot be held up, or the power, may
/// leave the file beside, named .firstdrop-…
void write_result(const std::string& text, const std::string& output = standard_output);
/// Words about the run, to standard error.
void say(const std::string& text);

}  // namespace firstdrop::cli
