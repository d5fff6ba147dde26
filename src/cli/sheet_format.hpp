// In which format a page for the bench is written.
#pragma once

#include <string>

#include "firstdrop/sheet.hpp"

namespace firstdrop::cli {

/// The format asked for, else that of the file's name, else plain text.
/// Throws InputError for a name that tells none.
SheetFormat sheet_format(const std::string& format, const std::string& output, bool to_file);

}  // namespace firstdrop::cli
