// The command line as data: commands, options and values. Help, completions and the manual page are
// made from it.
#pragma once

#include <string>
#include <vector>

namespace firstdrop::cli {

/// What an option or an argument takes.
struct Value {
  enum class Kind {
    none,         ///< nothing: a flag
    text,         ///< any text, such as a mass or a time
    word,         ///< one of `choices`
    file,         ///< a file whose name ends in one of `choices`; any file if there are none
    folder,       ///< a folder
    key,          ///< a key of `table`
    key_or_file,  ///< a key of `table`, or a file of one's own
    setting,      ///< a key of a recipe, = and a value
    settings,     ///< a key of a recipe, = and several values
  };
  Kind kind = Kind::none;
  std::string name = {};                  ///< in help: "FILE", "MASS", "metric|us"
  std::vector<std::string> choices = {};  ///< words, or endings of files without the dot
  std::string table = {};                 ///< the command that lists the keys: "plants"
};

/// An option, or an argument if it has no names.
struct OptionDescription {
  std::vector<std::string> names;  ///< "-o", "--output"
  Value value;
  std::string help;       ///< sentences
  std::string one_of;     ///< the heading of options of which a line has one at most; may be empty
  bool required = false;  ///< only arguments are
  bool repeats = false;   ///< it may be given several times
  bool after_command = true;               ///< it may also follow the command
  bool ends = false;                       ///< it prints something and ends: help and version
  std::vector<std::string> excludes = {};  ///< names of options that can't go with it
};

struct CommandDescription {
  std::string name;
  std::string about;  ///< a sentence without its full stop
  /// Without those of all commands.
  std::vector<OptionDescription> options;
  std::vector<OptionDescription> arguments;
};

/// The program's commands, and the options of all commands.
struct CommandLine {
  std::vector<OptionDescription> options;
  std::vector<CommandDescription> commands;
};

}  // namespace firstdrop::cli
