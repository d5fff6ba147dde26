// The tables from JSON text: strict readers that report every fault at once.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "firstdrop/library.hpp"

namespace firstdrop {

/// The tables' JSON texts, one per file in data/.
struct LibraryTexts {
  std::string_view sources;
  std::string_view liquids;
  std::string_view materials;
  std::string_view practice;
  std::string_view forms;
  std::string_view release_classes;
  std::string_view plants;
  std::string_view stills;
  std::string_view findings;
};

/// Reads and validates the tables: every figure is cited, ordered and in its physical range, every
/// source, liquid and material that is named exists, every still's geometry is possible.
/// Throws InputError with all faults; `file` in a fault is "plants.json" and so on.
Library read_library(const LibraryTexts& texts);

/// Keys of entries in the tables of plants and stills.
struct LibraryPart {
  std::set<std::string> plants;
  std::set<std::string> stills;
};

/// The shipped tables with no other plants and stills than these, and with the keys of the sources
/// but not their records: a quarter of the work, for a program that plans one recipe. The texts are
/// taken to be sound. A name that is not in a table is left out; read_library() with all entries
/// can then say which names there are.
Library read_library(const LibraryTexts& texts, const LibraryPart& part);

/// The tables that were compiled in from data/.
LibraryTexts embedded_library_texts();

/// One still or plant from a JSON object of the tables' form, in the text of a file of a person's
/// own. A plain quantity string may stand for a figure: it is taken as exact and as measured.
/// Throws InputError with all faults.
Still read_still(std::string_view text, const std::string& file, const Library& library);
Plant read_plant(std::string_view text, const std::string& file, const Library& library);

}  // namespace firstdrop
