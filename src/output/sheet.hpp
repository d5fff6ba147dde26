// Writes the content of a sheet in one of the formats.
#pragma once

#include <functional>
#include <string>

#include "firstdrop/output/write.hpp"
#include "output/sheet_content.hpp"

namespace firstdrop {

/// `picture` makes the picture of the run, which only HTML shows; empty for none.
std::string sheet_in(SheetFormat format, const SheetContent& sheet,
                     const std::function<std::string()>& picture = {});

}  // namespace firstdrop
