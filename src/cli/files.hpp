// The program's edge to files and streams.
#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

#include "firstdrop/base/error.hpp"
#include "firstdrop/readers/recipe_json.hpp"

namespace firstdrop::cli {

/// The system would not do it: standard output is closed, the disk is full, there is no such
/// folder.
class SystemError : public Error {
 public:
  using Error::Error;
};

/// The whole of a file, or of standard input for "-". Throws InputError when there is no such file,
/// when it is a directory, device or pipe (save one that is open already, as /dev/stdin), or when
/// it is larger than any recipe or table could be.
std::string read_text_file(const std::string& path);

/// A file of any length, or standard input for "-", piece by piece.
class InputFile {
 public:
  /// Throws InputError as read_text_file() does, save for the length. Once something can be read
  /// from `wake`, a file as well, nobody waits for this one any longer.
  InputFile(const std::string& path, int wake);
  InputFile(const InputFile&) = delete;
  InputFile& operator=(const InputFile&) = delete;
  ~InputFile();

  /// Puts up to `most` bytes there and says how many: none at the end, or when woken.
  /// Throws InputError.
  std::size_t read(char* there, std::size_t most);
  /// Whether read() would come back at once.
  bool ready() const;

 private:
  std::string path_;
  int wake_;
  int file_;
};

/// Reads files that a recipe names, relative to the recipe's own folder.
FileReader reader_beside(const std::string& recipe_path);

/// The output that means standard output.
inline constexpr const char* standard_output = "-";

/// Whether results go to standard output rather than to a file of that name.
/// Throws InputError for an empty name, and where the output is the input.
bool to_standard_output(const std::string& output, const std::string& input = {});

/// Whether this command has read the file of that name, under this or any other name.
bool was_read(const std::string& path);

/// Writes results to standard output or to a file, but never over one that this command has read: a
/// recipe, or a still or plant that it names, or a table. Then it throws InputError. A file either
/// has all of it or is as it was before: it is written beside under a name of its own, then
/// renamed. A device or pipe is written straight, a link's target in the target's place. Throws
/// SystemError unless every byte went out. Signals that end the program wait meanwhile; only one
/// that cannot be held up, or the power, may leave the file beside, named .firstdrop-…
void write_result(const std::string& text, const std::string& output = standard_output);

/// The same for results that come piece by piece: a file has all of it once keep() has been called,
/// and else is as it was before. Both ResultFile() and keep() look whether it was read.
class ResultFile {
 public:
  explicit ResultFile(const std::string& output);
  ResultFile(const ResultFile&) = delete;
  ResultFile& operator=(const ResultFile&) = delete;
  ~ResultFile();

  void write(std::string_view text);
  void keep();
  /// The file beside, which a program that ends otherwise than by its own will has to remove; null
  /// where there is none.
  const char* beside() const;

 private:
  class Target;
  std::unique_ptr<Target> target_;
};

/// Words about the run, to standard error.
void say(const std::string& text);

}  // namespace firstdrop::cli
