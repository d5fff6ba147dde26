// A run sheet as one self-contained HTML page, made to be printed on A4 or US Letter.
#pragma once

#include <string>

#include "output/sheet_content.hpp"

namespace firstdrop {

/// `picture` is an svg element, put in as it is; empty for none.
std::string sheet_as_html(const SheetContent& sheet, const std::string& picture);

}  // namespace firstdrop
