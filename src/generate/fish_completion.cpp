#include <fmt/core.h>

#include "base/text_layout.hpp"
#include "generate/completions.hpp"
#include "generate/template.hpp"

namespace firstdrop::generate {
namespace {

using cli::OptionDescription;
using cli::Value;

// In single quotes.
std::string fish_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) {
    if (c == '\'' || c == '\\') out += '\\';
    out += c;
  }
  return out + "'";
}

// The first sentence, for -d.
std::string fish_about(const std::string& help) {
  return fish_quoted(first_sentence(help));
}

// What `complete -a` takes; empty if there is nothing to offer.
std::string fish_offers(const Value& value) {
  switch (value.kind) {
    case Value::Kind::none:
    case Value::Kind::text:
      return "";
    case Value::Kind::word:
      return joined(value.choices, " ");
    case Value::Kind::file:
      return value.choices.empty()
                 ? ""
                 : fmt::format("(__firstdrop_files {})", joined(value.choices, " "));
    case Value::Kind::folder:
      return "(__firstdrop_folders)";
    case Value::Kind::key:
      return fmt::format("(__firstdrop_table {})", value.table);
    case Value::Kind::key_or_file:
      return fmt::format("(__firstdrop_table {}; __firstdrop_files {})", value.table,
                         joined(value.choices, " "));
    case Value::Kind::setting:
    case Value::Kind::settings:
      return "(__firstdrop_setting)";
  }
  return "";
}

// -x: it takes a value, which isn't a file unless it is offered.
std::string fish_value(const Value& value) {
  if (value.kind == Value::Kind::none) return "";
  if (value.kind == Value::Kind::file && value.choices.empty()) return " -r -F";
  const std::string offers = fish_offers(value);
  return offers.empty() ? " -x" : " -x -a " + fish_quoted(offers);
}

std::string fish_option(const std::string& condition, const OptionDescription& option) {
  std::string names;
  for (const std::string& name : option.names) {
    const bool is_long = name.starts_with("--");
    names += (is_long ? " -l " : " -s ") + name.substr(is_long ? 2 : 1);
  }
  return fmt::format("complete -c firstdrop{}{}{} -d {}\n", condition, names,
                     fish_value(option.value), fish_about(option.help));
}

// The patterns of options that take a value.
void add_patterns(std::vector<std::string>& patterns, const std::string& before,
                  const std::vector<OptionDescription>& options) {
  for (const OptionDescription& option : options)
    if (option.value.kind != Value::Kind::none)
      for (const std::string& name : option.names) patterns.push_back(fish_quoted(before + name));
}

}  // namespace

Parts fish_parts(const cli::CommandLine& line, const std::vector<CompletionKey>& keys) {
  std::string rows;
  std::vector<std::string> patterns;
  for (const OptionDescription& option : line.options)
    rows += fish_option(option.after_command ? "" : " -n __firstdrop_is", option);
  add_patterns(patterns, "* ", line.options);
  for (const cli::CommandDescription& command : line.commands) {
    rows += fmt::format("\ncomplete -c firstdrop -n __firstdrop_is -a {} -d {}\n", command.name,
                        fish_about(command.about));
    for (const OptionDescription& argument : command.arguments) {
      rows += fmt::format("complete -c firstdrop -n '{} {}' -a {}\n",
                          argument.repeats ? "__firstdrop_is" : "__firstdrop_starts", command.name,
                          fish_quoted(fish_offers(argument.value)));
    }
    for (const OptionDescription& option : command.options)
      rows += fish_option(fmt::format(" -n '__firstdrop_is {}'", command.name), option);
    add_patterns(patterns, command.name + " ", command.options);
  }
  std::string all_keys;
  std::string key_cases;
  for (const CompletionKey& key : keys) {
    all_keys += " \\\n        " + key.key;
    if (!key.words.empty()) {
      key_cases += fmt::format("        case {}\n            printf '%s\\n' {}\n", key.key,
                               joined(key.words, " "));
    } else if (!key.table.empty()) {
      key_cases +=
          fmt::format("        case {}\n            __firstdrop_table {}\n", key.key, key.table);
    }
  }
  return {{"options", rows},
          {"data", fmt::format("# Whether an option takes a value, by command and option.\n"
                               "function __firstdrop_takes_value\n"
                               "    switch \"$argv[1] $argv[2]\"\n"
                               "        case {}\n"
                               "            return 0\n"
                               "    end\n"
                               "    return 1\n"
                               "end\n"
                               "\n"
                               "# The keys for --set and --vary.\n"
                               "function __firstdrop_keys\n"
                               "    printf '%s\\n'{}\n"
                               "end\n"
                               "\n"
                               "# What the value of a key can be.\n"
                               "function __firstdrop_values\n"
                               "    switch $argv[1]\n"
                               "{}    end\n"
                               "end\n",
                               joined(patterns, " \\\n            "), all_keys, key_cases)}};
}

}  // namespace firstdrop::generate
