// What --help prints, within the width of the terminal.
#pragma once

#include <memory>

namespace CLI {
class FormatterBase;
}

namespace firstdrop::cli {

/// Commands and options in two columns, with no line wider than the terminal. Each option says
/// which options it excludes and which it needs. Lines of a description that begin with a blank are
/// printed as they are.
std::shared_ptr<CLI::FormatterBase> help_format();

}  // namespace firstdrop::cli
