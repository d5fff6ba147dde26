/// @file
/// The tables from JSON text: strict readers that report every fault at once.
#pragma once

#include <set>
#include <string>
#include <string_view>

#include "firstdrop/tables/tables.hpp"

namespace firstdrop {

/// JSON texts of the tables, one per file in data/. The texts must outlive these views.
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

/// Reads and validates the tables. Every figure must be cited, in order and within its physical
/// range. Every source, liquid and material that is named must exist. Every still must have a
/// possible geometry.
/// Throws InputError with all faults (at most a hundred, and the number of any others); `file` in a
/// fault is "plants.json" and so on. The texts aren't needed afterwards. Takes some milliseconds
/// for the shipped tables.
Tables read_tables(const TableTexts& texts);

/// Keys of entries in the tables of plants and stills.
struct TablePart {
  std::set<std::string> plants;  ///< keys of plants.json
  std::set<std::string> stills;  ///< keys of stills.json
  /// For a plant that is like another: its own name must not be in the table.
  bool all_plants = false;
};

/// Reads a part of the shipped tables: only these plants and stills, and only the liquids that
/// those plants name. All liquids are read if no plant is asked for, or one that isn't in the
/// table. All plants are read for a name that ends in ".json": that plant may be like any of them.
/// Of each source, only the key and `seen` are read. This is a sixth of the work, for a program
/// that plans one recipe. The texts are assumed to be valid. A name that isn't in a table is left
/// out; read_tables() with all entries can then list the valid names.
Tables read_tables(const TableTexts& texts, const TablePart& part);

/// The tables compiled in from data/. Their texts stay valid as long as the program runs.
TableTexts embedded_table_texts();

/// Reads one still from a user's own file: a JSON object in the tables' form, with `"still": 1`. A
/// plain quantity string may replace a figure; it counts as exact and as measured. The geometry is
/// checked, and materials are looked up in `tables`.
/// Throws InputError with all faults, in which `file` names the text.
Still read_still(std::string_view text, const std::string& file, const Tables& tables);
/// Reads one plant in the same way, with `"plant": 1`. Form, release class and constituents are
/// looked up in `tables`.
/// Throws InputError with all faults, in which `file` names the text.
Plant read_plant(std::string_view text, const std::string& file, const Tables& tables);

}  // namespace firstdrop
