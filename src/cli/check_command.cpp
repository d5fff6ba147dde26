#include <fmt/format.h>

#include <algorithm>

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "firstdrop/campaign_json.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/library_json.hpp"
#include "firstdrop/recipe_json.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

// The fault of a text that is JSON but does not say what it is; else that of the recipe reader.
void refuse_unknown(const std::string& content, const std::string& path, const Library& library) {
  try {
    read_recipe(content, path, library, reader_beside(path));
  } catch (const InputError& error) {
    const bool syntax = std::any_of(error.faults().begin(), error.faults().end(),
                                    [](const Fault& fault) { return fault.line > 0; });
    if (syntax) throw;
    throw InputError(Fault{path, "", "nothing that says what it is",
                           "\"recipe\": 1, \"campaign\": 1, \"still\": 1 or \"plant\": 1 in it", "",
                           0, 0});
  }
}

// What the file is, once it has been read without a fault.
std::string read_as_what_it_is(const std::string& path, const Library& library) {
  const std::string content = read_text_file(path);
  switch (document_kind(content)) {
    case DocumentKind::still:
      return "a still, \"" + visible(read_still(content, path, library).title) + "\"";
    case DocumentKind::plant:
      return "a plant, \"" + visible(read_plant(content, path, library).name) + "\"";
    case DocumentKind::campaign:
      return "a campaign, \"" +
             visible(read_campaign(content, path, library, reader_beside(path)).title) + "\"";
    case DocumentKind::unknown:
      refuse_unknown(content, path, library);
      break;
    case DocumentKind::recipe:
      break;
  }
  return "a recipe, \"" + visible(read_recipe(content, path, library, reader_beside(path)).title) +
         "\"";
}

}  // namespace

int check(const CheckOptions& options) {
  const Library library = read_library(embedded_library_texts());
  std::string report;
  int status = done;
  for (const std::string& path : options.files) {
    try {
      report += fmt::format("{}: good, {}\n", visible(path), read_as_what_it_is(path, library));
    } catch (const InputError& error) {
      for (const Fault& fault : error.faults()) report += fault.text() + "\n";
      status = bad_input;
    }
  }
  write_result(report);
  return status;
}

}  // namespace firstdrop::cli
