// One function per command; each returns the exit status.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/table_folder.hpp"
#include "readers/starter.hpp"

namespace firstdrop::cli {

// Exit statuses, the same for all commands.
inline constexpr int done = 0;
inline constexpr int refused = 1;
inline constexpr int bad_input = 2;
inline constexpr int system_failed = 3;

/// The recipe, and the options that go with it.
struct RecipeOptions {
  std::string recipe;
  std::optional<std::string> start;  ///< replaces the recipe's start
  std::string units;                 ///< metric or us; empty: the recipe's
  std::string samples;               ///< how many; empty: the default
  std::string jobs = "1";            ///< threads that share the samples
};

struct PlanOptions {
  RecipeOptions asked;
  bool json = false;
  bool explain = false;
  bool csv = false;  ///< only the timeline
  bool ics = false;  ///< the run as a calendar
  std::string color = "auto";
  std::string output = "-";  ///< file to write to, or - for standard output
};
int plan(const PlanOptions& options, const TableFolder& folder);

struct BatchOptions {
  std::vector<std::string> files;
  std::vector<std::string> set;   ///< key=value
  std::vector<std::string> vary;  ///< key=value,value or key=first..last by step
  bool brief = false;
  bool summary = false;
  bool json = false;    ///< write the summary as JSON
  std::string units;    ///< metric or us; empty: the recipes'
  std::string samples;  ///< how many; empty: the default, or none with --brief
  std::string jobs = "1";
  std::string output = "-";
};
int batch(const BatchOptions& options, const TableFolder& folder);

struct SheetOptions {
  RecipeOptions asked;
  std::string format;        ///< html, md or txt; empty: by the file's name
  std::string output = "-";  ///< file to write to, or - for standard output
};
int sheet(const SheetOptions& options, const TableFolder& folder);

struct CampaignOptions {
  std::string campaign;
  std::string units;       ///< metric or us; empty: the campaign's
  std::string samples;     ///< how many; empty: the default
  std::string jobs = "1";  ///< threads that share the samples
  bool json = false;
  bool ics = false;    ///< its runs as a calendar
  std::string run;     ///< number of the run whose sheet to write; empty: none
  std::string format;  ///< html, md or txt; empty: by the file's name
  std::string color = "auto";
  std::string output = "-";  ///< file to write to, or - for standard output
};
int campaign(const CampaignOptions& options, const TableFolder& folder);

struct NewOptions {
  std::string what = "recipe";  ///< or still
  Starter starter;              ///< what the command line gave of the recipe
  Starter still;                ///< what it gave of the still
  std::string output = "-";     ///< file to write to, or - for standard output
  bool force = false;           ///< overwrite an existing file
};
int new_document(const NewOptions& options, const TableFolder& folder);
int new_recipe(const NewOptions& options, const TableFolder& folder);
int new_still(const NewOptions& options, const TableFolder& folder);

struct WaterRunOptions {
  std::string still;  ///< a key, or the file of a still or recipe
  std::optional<std::string> setting;
  std::optional<std::string> altitude;
  std::optional<std::string> room;
  std::optional<std::string> fill;  ///< water poured in
  // What was written down; without any of it, the sheet is written.
  std::optional<std::string> boil;
  std::optional<std::string> first_drop;
  std::vector<std::string> caught;  ///< "102 mL at 19 min"
  std::optional<std::string> left;
  std::optional<std::string> energy;
  std::optional<std::string> day;  ///< none: today
  std::string units;               ///< metric or us; empty: the recipe's
  bool json = false;
  std::string format;  ///< html, md or txt; empty: by the file's name
  std::string color = "auto";
  std::string output = "-";  ///< file for the sheet or the still, or - for standard output
  bool force = false;        ///< overwrite an existing file
};
int water_run(const WaterRunOptions& options, const TableFolder& folder);

struct TableOptions {
  std::string table;               ///< plants, liquids, stills, findings or sources
  std::vector<std::string> words;  ///< a name, or words to search for; empty: list the entries
  bool json = false;
  std::string units = "metric";
  std::string output = "-";
};
int table(const TableOptions& options, const TableFolder& folder);

struct SchemasOptions {
  std::string key;  ///< empty: list the schemas
  std::string output = "-";
};
int schemas(const SchemasOptions& options, const TableFolder& folder);

struct HelpOptions {
  std::string topic;  ///< a command or a kind of file; empty: the program
};

struct CheckOptions {
  std::vector<std::string> files;
};
int check(const CheckOptions& options, const TableFolder& folder);

}  // namespace firstdrop::cli
