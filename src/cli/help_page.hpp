// What --help prints, in the width of the terminal.
#pragma once

#include <memory>

namespace CLI {
class FormatterBase;
}

namespace firstdrop::cli {

/// Commands and options in two columns, no line wider than the page. Each option says what it
/// cannot stand beside, and what it needs. Lines of a description that begin with a blank are
/// printed as they are.
std::shared_ptr<CLI::FormatterBase> help_format();

}  // namespace firstdrop::cli
