// A run sheet as plain text, 80 columns wide, and as Markdown.
#pragma once

#include <string>

#include "output/sheet_content.hpp"

namespace firstdrop {

std::string sheet_as_text(const SheetContent& sheet);

/// GitHub Flavored Markdown, because it has task lists and tables: https://github.github.com/gfm/
std::string sheet_as_markdown(const SheetContent& sheet);

}  // namespace firstdrop
