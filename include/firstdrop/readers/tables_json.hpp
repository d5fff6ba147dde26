/// @file
/// The tables from JSON text: strict readers that report every fault at once.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// The tables' JSON texts, one per file in data/. They must stay as long as these views are used.
struct TableTexts {
  std::string_view sources;          ///< sources.json
  std::string_view liquids;          ///< liquids.json
  std::string_view materials;        ///< materials.json
  std::string_view design_defaults;  ///< design_defaults.json
  std::string_view forms;            ///< forms.json
  std::string_view release_classes;  ///< release_classes.json
  std::string_view plants;           ///< plants.json
  std::string_view stills;           ///< stills.json
  std::string_view findings;         ///< findings.json
};

/// Reads and validates the tables: every figure is cited, ordered and in its physical range, every
/// source, liquid and material that is named exists, every still's geometry is possible.
/// Throws InputError with all faults (a hundred at most, and how many more there are); `file` in a
/// fault is "plants.json" and so on. The library needs the texts no longer. With the shipped tables
/// some milliseconds.
Tables read_tables(const TableTexts& texts);

/// Keys of entries in the tables of plants and stills.
struct TablePart {
  std::set<std::string> plants;  ///< keys of plants.json
  std::set<std::string> stills;  ///< keys of stills.json
};

/// The shipped tables with no other plants and stills than these, no other liquids than those
/// plants name (all, if none is asked for), and of the sources only their keys and what of them was
/// seen: a sixth of the work, for a program that plans one recipe. The texts are taken to be sound.
/// A name that is not in a table is left out; read_tables() with all entries can then say which
/// names there are.
Tables read_tables(const TableTexts& texts, const TablePart& part);

/// The tables that were compiled in from data/. They are there for as long as the program runs.
TableTexts embedded_table_texts();

/// One still from a JSON object of the tables' form with `"still": 1`, in the text of a file of a
/// person's own. A plain quantity string may stand for a figure: it is taken as exact and as
/// measured. Its geometry is checked, and materials are looked up in the library.
/// Throws InputError with all faults, in which `file` names the text.
Still read_still(std::string_view text, const std::string& file, const Tables& tables);
/// One plant in the same way, with `"plant": 1`. Form, release class and constituents are looked up
/// in the library.
/// Throws InputError with all faults, in which `file` names the text.
Plant read_plant(std::string_view text, const std::string& file, const Tables& tables);

}  // namespace firstdrop
