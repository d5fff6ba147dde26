// The keys of a kind of file, as `firstdrop help recipe` lists them.
#pragma once

#include <string>

#include "readers/key.hpp"

namespace firstdrop::cli {

/// What the document is, its keys with their meaning, and where to read more.
std::string file_help(const Document& document);

}  // namespace firstdrop::cli
