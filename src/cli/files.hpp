// The program's I/O boundary: files and streams.
#pragma once

#include <cstddef>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/recipe_json.hpp"

namespace firstdrop::cli {

/// A failure of the system: standard output is closed, the disk is full, or a folder doesn't exist.
class SystemError : public Error {
 public:
  using Error::Error;
};

/// Reads a whole file, or standard input for "-". Throws InputError if there is no such file, or if
/// it is larger than any recipe or table could be. A directory, device or pipe is an error too,
/// except a pipe that is already open, such as /dev/stdin.
std::string read_text_file(const std::string& path);

/// A file of any length, or standard input for "-", read piece by piece.
class InputFile {
 public:
  /// Throws InputError as read_text_file() does, except for the length. `wake` is a file
  /// descriptor, or -1 for none. Once it can be read from, read() no longer waits for this file.
  InputFile(const std::string& path, int wake);
  InputFile(const InputFile&) = delete;
  InputFile& operator=(const InputFile&) = delete;
  ~InputFile();

  /// Puts up to `most` bytes into `there` and returns how many: 0 at the end, or when woken.
  /// Throws InputError.
  std::size_t read(char* there, std::size_t most);
  /// Whether read() would return at once.
  bool ready() const;

 private:
  std::string path_;
  int wake_;
  int file_;
};

/// Reads files that a recipe names, relative to the recipe's own folder.
FileReader reader_beside(const std::string& recipe_path);

/// The files in a folder whose names end in .json, in order of name; of a very full folder only
/// some. An empty name is the current folder. Empty if it can't be read. Throws nothing.
std::vector<std::string> json_files_in(const std::string& folder);

/// The text of a file that the command only looks at, so that it may still write to it. Nothing if
/// it can't be read as read_text_file() would.
std::optional<std::string> glance_at(const std::string& path);

/// The file name that means standard output.
inline constexpr const char* standard_output = "-";

/// Whether results go to standard output rather than to a file with that name.
/// Throws InputError for an empty name, and if the output is the same file as the input.
bool to_standard_output(const std::string& output, const std::string& input = {});

/// Whether this command has read that file, under this name or any other.
bool was_read(const std::string& path);

/// The fault of a file that nobody has allowed to overwrite.
Fault already_there(const std::string& path);
/// Throws InputError if there is a file of this name, unless `force`. Then write_result() may
/// replace it even if this command has read it.
void allow_to_replace(const std::string& output, bool force);

/// Writes a result to standard output or to a file. Throws InputError for a file that this command
/// has read: a recipe, a still or plant that it names, or a table.
/// A file gets the full result or stays as it was: the text goes to a temporary file beside it,
/// which is then renamed. A device or pipe is written directly. A symbolic link stays, and its
/// target is replaced.
/// Throws SystemError unless every byte was written. Signals that end the program are held back
/// meanwhile. Only a signal that can't be held back, or a power failure, may leave the temporary
/// file behind; its name is .firstdrop-…
void write_result(const std::string& text, const std::string& output = standard_output);

/// Like write_result(), for results that come piece by piece. Only keep() replaces the file;
/// without it, the file stays as it was. The constructor and keep() both check whether the file was
/// read.
class ResultFile {
 public:
  explicit ResultFile(const std::string& output);
  ResultFile(const ResultFile&) = delete;
  ResultFile& operator=(const ResultFile&) = delete;
  ~ResultFile();

  void write(std::string_view text);
  void keep();
  /// Name of the temporary file, which must be removed if something else ends the program. Null if
  /// there is none.
  const char* beside() const;

 private:
  class Target;
  std::unique_ptr<Target> target_;
};

/// Prints a message to standard error.
void say(const std::string& text);

}  // namespace firstdrop::cli
