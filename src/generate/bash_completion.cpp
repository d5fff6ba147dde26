#include <fmt/core.h>

#include "base/text_layout.hpp"
#include "generate/completions.hpp"

namespace firstdrop::generate {
namespace {

using cli::OptionDescription;
using cli::Value;

// What _firstdrop_offer() takes: a kind, and its words.
std::string bash_value(const Value& value) {
  switch (value.kind) {
    case Value::Kind::none:
      return "";
    case Value::Kind::text:
      return "text";
    case Value::Kind::word:
      return "words " + joined(value.choices, " ");
    case Value::Kind::file:
      return value.choices.empty() ? "file" : "file " + joined(value.choices, " ");
    case Value::Kind::folder:
      return "folder";
    case Value::Kind::key:
      return "key " + value.table;
    case Value::Kind::key_or_file:
      return fmt::format("key-or-file {} {}", value.table, joined(value.choices, " "));
    case Value::Kind::setting:
      return "setting";
    case Value::Kind::settings:
      return "settings";
  }
  return "";
}

// A row for each name of an option that takes a value.
std::string bash_rows(const std::string& command, const std::vector<OptionDescription>& options) {
  std::string rows;
  for (const OptionDescription& option : options) {
    if (option.value.kind == Value::Kind::none) continue;
    for (const std::string& name : option.names)
      rows += fmt::format("  ['{}']='{}'\n", command + name, bash_value(option.value));
  }
  return rows;
}

void add_names(std::vector<std::string>& names, const std::vector<OptionDescription>& options,
               bool after_command) {
  for (const OptionDescription& option : options)
    if (option.after_command || !after_command)
      names.insert(names.end(), option.names.begin(), option.names.end());
}

}  // namespace

Parts bash_parts(const cli::CommandLine& line, const std::vector<CompletionKey>& keys) {
  std::vector<std::string> names;
  add_names(names, line.options, false);
  std::string commands;
  std::string options = fmt::format("  [none]='{}'\n", joined(names, " "));
  std::string values = bash_rows("", line.options);
  std::string arguments;
  std::string repeated;
  for (const cli::CommandDescription& command : line.commands) {
    commands += (commands.empty() ? "" : " ") + command.name;
    names.clear();
    add_names(names, command.options, true);
    add_names(names, line.options, true);
    options += fmt::format("  [{}]='{}'\n", command.name, joined(names, " "));
    values += bash_rows(command.name + " ", command.options);
    for (const OptionDescription& argument : command.arguments) {
      arguments += fmt::format("  [{}]='{}'\n", command.name, bash_value(argument.value));
      if (argument.repeats) repeated += fmt::format("  [{}]=yes\n", command.name);
    }
  }
  std::string all_keys;
  std::string key_values;
  for (const CompletionKey& key : keys) {
    all_keys += "  " + key.key + "\n";
    if (!key.words.empty())
      key_values += fmt::format("  [{}]='words {}'\n", key.key, joined(key.words, " "));
    else if (!key.table.empty())
      key_values += fmt::format("  [{}]='key {}'\n", key.key, key.table);
  }
  return {
      {"data", fmt::format("_firstdrop_commands='{}'\n"
                           "declare -gA _firstdrop_options=(\n{})\n"
                           "# What an option takes, by command and option.\n"
                           "declare -gA _firstdrop_values=(\n{})\n"
                           "declare -gA _firstdrop_arguments=(\n{})\n"
                           "declare -gA _firstdrop_repeated=(\n{})\n"
                           "# The keys for --set and --vary, and what some of them take.\n"
                           "_firstdrop_keys='\n{}'\n"
                           "declare -gA _firstdrop_key_values=(\n{})\n",
                           commands, options, values, arguments, repeated, all_keys, key_values)}};
}

}  // namespace firstdrop::generate
