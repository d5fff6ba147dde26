// The shipped tables, read once for all tests.
#pragma once

#include "firstdrop/library_json.hpp"

inline const firstdrop::Library& shipped_library() {
  static const firstdrop::Library library =
      firstdrop::read_library(firstdrop::embedded_library_texts());
  return library;
}
