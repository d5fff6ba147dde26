// What --help prints, within the width of the terminal.
#pragma once

#include <memory>
#include <set>
#include <string>
#include <vector>

namespace CLI {
class App;
class FormatterBase;
class Option;
}  // namespace CLI

namespace firstdrop::cli {

/// Commands and options in two columns, with no line wider than the terminal. Options of a group
/// have a heading of their own. Lines of a description that begin with a blank are printed as they
/// are.
std::shared_ptr<CLI::FormatterBase> help_format();

/// What the page says of an option, including which options it needs and excludes.
std::string help_of(const CLI::Option* option, const CLI::App* app);

/// The names of some options of the app, in the order in which they were added. The set is ordered
/// by addresses, which differ from run to run.
std::vector<std::string> names_of(const std::set<CLI::Option*>& some, const CLI::App* app);

}  // namespace firstdrop::cli
