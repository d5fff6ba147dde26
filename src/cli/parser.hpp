// The parser of the command line. It holds each option with its help and its value, once.
#pragma once

#include <functional>
#include <map>
#include <memory>
#include <optional>
#include <string>

#include "cli/command_line.hpp"
#include "cli/commands.hpp"
#include "cli/table_folder.hpp"
#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {

/// What the command line asks for.
struct Options {
  DataFolder data;
  PlanOptions plan;
  BatchOptions batch;
  SheetOptions sheet;
  CampaignOptions campaign;
  NewOptions new_recipe;
  WaterRunOptions water_run;
  std::map<std::string, TableOptions> tables;  ///< by command, which is the table's name
  SchemasOptions schemas;
  CheckOptions check;
  HelpOptions help;
  /// Runs the command that the line names, and returns the exit status.
  std::function<int(const TableFolder&)> run;
};

/// A command line with no command, an unknown option, a value that isn't allowed, or a missing
/// argument.
class UsageError : public Error {
 public:
  using Error::Error;
};

class Parser {
 public:
  Parser();
  ~Parser();
  Parser(const Parser&) = delete;
  Parser& operator=(const Parser&) = delete;

  /// Fills options(). If the line asks for help or the version, returns that page instead. Throws
  /// UsageError; and InputError for an unknown command, and if the line asks for the version and
  /// --data has faults.
  std::optional<std::string> parse(int argc, const char* const* argv);
  const Options& options() const;
  CommandLine description() const;

 private:
  struct Definition;  // keeps the command-line library out of this header
  std::unique_ptr<Definition> definition_;
};

}  // namespace firstdrop::cli
