#include "source_folder.hpp"

std::filesystem::path source_folder() {
  return FIRSTDROP_SOURCE_DIR;
}
