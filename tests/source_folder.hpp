// Where the tests read files of the source tree. One source file knows it, so that a compiler cache
// serves all others in any folder.
#pragma once

#include <filesystem>

/// The root of the source tree.
std::filesystem::path source_folder();
