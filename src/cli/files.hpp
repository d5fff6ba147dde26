// The program's edge to files and streams.
#pragma once

#include <stdexcept>
#include <string>

#include "firstdrop/recipe_json.hpp"

namespace firstdrop::cli {

/// The system would not do it: standard output is closed, the disk is full.
class SystemError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// The whole of a file, or of standard input for "-". Throws InputError when there is no such file,
/// when it is a directory or device, or when it is larger than any recipe or table could be.
std::string read_text_file(const std::string& path);

/// Reads files that a recipe names, relative to the recipe's own folder.
FileReader reader_beside(const std::string& recipe_path);

/// Writes results to standard output. Throws SystemError unless every byte went out.
void write_result(const std::string& text);
/// Words about the run, to standard error.
void say(const std::string& text);

}  // namespace firstdrop::cli
