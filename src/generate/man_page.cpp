#include "generate/man_page.hpp"

#include <fmt/core.h>

#include "base/text_layout.hpp"
#include "generate/roff.hpp"

namespace firstdrop::generate {
namespace {

using cli::OptionDescription;
using cli::Value;

// "Fl \-output Ar FILE"
std::string with_value(const std::string& name, const Value& value) {
  std::string out = "Fl " + roff(name.substr(1));
  if (value.kind == Value::Kind::none) return out;
  if (value.kind == Value::Kind::word) return out + " Cm " + roff(joined(value.choices, " | "));
  return out + " Ar " + roff(value.name);
}

std::string synopsis(const cli::CommandLine& line) {
  std::string out;
  for (const cli::CommandDescription& command : line.commands) {
    out += fmt::format(".Nm\n.Cm {}\n", command.name);
    std::string one_of;  // the open group
    for (std::size_t i = 0; i < command.options.size(); ++i) {
      const OptionDescription& option = command.options[i];
      const std::string words = with_value(option.names.front(), option.value);
      if (option.one_of.empty()) {
        out += fmt::format(".Op {}\n", words);
        continue;
      }
      const bool ends =
          i + 1 == command.options.size() || command.options[i + 1].one_of != option.one_of;
      if (one_of != option.one_of) out += ".Oo\n";
      out += fmt::format(".{}{}\n", words, ends ? "\n.Oc" : " |");
      one_of = ends ? "" : option.one_of;
    }
    for (const OptionDescription& argument : command.arguments) {
      out += fmt::format(".{}Ar {}{}\n", argument.required ? "" : "Op ", argument.value.name,
                         argument.repeats ? " ..." : "");
    }
  }
  for (const OptionDescription& option : line.options) {
    const std::string words = with_value(option.names.front(), option.value);
    if (!option.ends)
      out += fmt::format(".Nm\n.Op {}\n.Ar COMMAND ...\n", words);
    else
      out += fmt::format(".Nm\n{}.{}\n", option.after_command ? ".Op Ar COMMAND\n" : "", words);
  }
  return out;
}

std::string item(const OptionDescription& option) {
  std::vector<std::string> names;
  for (const std::string& name : option.names) names.push_back(with_value(name, option.value));
  if (names.empty()) names.push_back("Ar " + option.value.name);
  std::string out = fmt::format(".It {}\n", joined(names, " , "));
  if (!option.one_of.empty()) out += option.one_of + ":\n";
  return out + man_sentences(option.help);
}

std::string list(const std::vector<OptionDescription>& first,
                 const std::vector<OptionDescription>& then = {}) {
  std::string out = ".Bl -tag -width Ds\n";
  for (const auto* options : {&first, &then})
    for (const OptionDescription& option : *options) out += item(option);
  return out + ".El\n";
}

}  // namespace

std::map<std::string, std::string> man_page_parts(const cli::CommandLine& line) {
  std::map<std::string, std::string> parts = {{"synopsis", synopsis(line)},
                                              {"options", list(line.options)}};
  for (const cli::CommandDescription& command : line.commands)
    parts["options of " + command.name] = list(command.arguments, command.options);
  return parts;
}

}  // namespace firstdrop::generate
