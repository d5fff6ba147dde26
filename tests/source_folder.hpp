// Where the tests find files of the source tree. Only one source file contains the path, so that a
// compiler cache works for all others in any folder.
#pragma once

#include <filesystem>

/// The root of the source tree.
std::filesystem::path source_folder();
