#include <fmt/core.h>

#include "base/text_layout.hpp"
#include "generate/completions.hpp"
#include "generate/template.hpp"

namespace firstdrop::generate {
namespace {

using cli::OptionDescription;
using cli::Value;

// In single quotes.
std::string zsh_quoted(const std::string& text) {
  std::string out = "'";
  for (const char c : text) out += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return out + "'";
}

// The first sentence, with a backslash before what _arguments or _describe would take for a mark.
std::string zsh_about(const std::string& help) {
  std::string out;
  for (const char c : first_sentence(help)) {
    if (std::string_view("\\[]:").find(c) != std::string_view::npos) out += '\\';
    out += c;
  }
  return out;
}

std::string zsh_files(const std::vector<std::string>& endings) {
  return endings.empty() ? "_files" : fmt::format("_files -g \"*.({})(-.)\"", joined(endings, "|"));
}

// The action of _arguments. A blank in front of an action keeps its words as they are.
std::string zsh_action(const Value& value) {
  switch (value.kind) {
    case Value::Kind::none:
    case Value::Kind::text:
      return "";
    case Value::Kind::word:
      return fmt::format("({})", joined(value.choices, " "));
    case Value::Kind::file:
      return zsh_files(value.choices);
    case Value::Kind::folder:
      return "_files -/";
    case Value::Kind::key:
      return " _firstdrop_table " + value.table;
    case Value::Kind::key_or_file:
      return " _firstdrop_key_or_file " + value.table;
    case Value::Kind::setting:
      return " _firstdrop_setting one";
    case Value::Kind::settings:
      return " _firstdrop_setting several";
  }
  return "";
}

// A specification for _arguments for each name: '(--csv)--json[Print the plan as JSON]'.
std::string zsh_specifications(const OptionDescription& option) {
  if (option.names.empty()) {
    return fmt::format("        {}\n",
                       zsh_quoted(fmt::format("{}:{}:{}", option.repeats ? "*" : "1",
                                              option.value.name, zsh_action(option.value))));
  }
  std::string rows;
  for (const std::string& name : option.names) {
    std::string text = option.ends ? "(- *)"
                       : option.excludes.empty()
                           ? ""
                           : fmt::format("({})", joined(option.excludes, " "));
    if (option.repeats) text += "*";
    text += name;
    const bool is_long = name.starts_with("--");
    if (option.value.kind != Value::Kind::none) text += is_long ? "=" : "+";
    text += fmt::format("[{}]", zsh_about(option.help));
    if (option.value.kind != Value::Kind::none)
      text += fmt::format(":{}:{}",
                          option.value.kind == Value::Kind::word ? option.names.back().substr(2)
                                                                 : option.value.name,
                          zsh_action(option.value));
    rows += fmt::format("        {}\n", zsh_quoted(text));
  }
  return rows;
}

}  // namespace

Parts zsh_parts(const cli::CommandLine& line, const std::vector<CompletionKey>& keys) {
  std::string for_all;
  std::string before;
  for (const OptionDescription& option : line.options)
    (option.after_command ? for_all : before) += zsh_specifications(option);
  std::string commands;
  std::string cases;
  for (const cli::CommandDescription& command : line.commands) {
    commands += fmt::format("    {}\n", zsh_quoted(command.name + ":" + zsh_about(command.about)));
    std::string rows;
    for (const OptionDescription& option : command.options) rows += zsh_specifications(option);
    for (const OptionDescription& argument : command.arguments)
      rows += zsh_specifications(argument);
    cases +=
        fmt::format("    ({})\n      specifications+=(\n{}      )\n      ;;\n", command.name, rows);
  }
  std::string all_keys;
  std::string key_cases;
  for (const CompletionKey& key : keys) {
    all_keys += "    " + key.key + "\n";
    if (!key.words.empty()) {
      key_cases += fmt::format("    ({}) _wanted values expl value compadd - {} ;;\n", key.key,
                               joined(key.words, " "));
    } else if (!key.table.empty()) {
      key_cases += fmt::format("    ({}) _firstdrop_table {} ;;\n", key.key, key.table);
    }
  }
  return {
      {"data",
       fmt::format("_firstdrop_commands() {{\n"
                   "  local -a commands=(\n{}  )\n"
                   "  _describe -t commands command commands\n"
                   "}}\n"
                   "\n"
                   "# Sets `specifications` to what may follow a command; without one, to what\n"
                   "# may stand before it.\n"
                   "_firstdrop_specifications() {{\n"
                   "  specifications=(\n{}  )\n"
                   "  case $1 in\n"
                   "    ('')\n      specifications+=(\n{}      )\n      ;;\n"
                   "{}    (*) return 1 ;;\n  esac\n"
                   "}}\n"
                   "\n"
                   "# The keys for --set and --vary.\n"
                   "_firstdrop_keys() {{\n"
                   "  local expl\n"
                   "  local -a keys=(\n{}  )\n"
                   "  _wanted keys expl 'key of a recipe' compadd -S = -a keys\n"
                   "}}\n"
                   "\n"
                   "# What the value of a key can be.\n"
                   "_firstdrop_values() {{\n"
                   "  local expl\n"
                   "  case $1 in\n"
                   "{}"
                   "    (*) _message value ;;\n"
                   "  esac\n"
                   "}}\n",
                   commands, for_all, before, cases, all_keys, key_cases)}};
}

}  // namespace firstdrop::generate
