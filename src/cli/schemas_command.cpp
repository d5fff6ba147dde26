#include <algorithm>
#include <utility>
#include <vector>

#include "cli/commands.hpp"
#include "cli/files.hpp"
#include "cli/tables.hpp"
#include "cli/terminal.hpp"
#include "firstdrop/error.hpp"
#include "firstdrop/schema.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

std::string list_page(const std::vector<Schema>& all) {
  int key_width = 0;
  for (const Schema& schema : all) key_width = std::max(key_width, text_width(schema.key));
  const Look look = look_of_stdout("never");
  std::string page;
  for (const Schema& schema : all) {
    // What it is; how to read it stands in the schema itself.
    const std::size_t end = schema.about.find(". ");
    const std::string about = schema.about.substr(0, end == std::string::npos ? end : end + 1);
    page += wrapped(padded(schema.key, key_width) + "  ", about, look);
  }
  return page;
}

std::string result_of(const SchemasOptions& options, const Tables& tables) {
  const std::vector<Schema> all = firstdrop::schemas(tables.library());
  if (options.key.empty()) return list_page(all);
  std::vector<std::string> keys;
  for (const Schema& schema : all) {
    if (schema.key == options.key) return schema.text + "\n";
    keys.push_back(schema.key);
  }
  const std::string nearest = nearest_name(options.key, keys);
  throw InputError(Fault{"", "", quoted(options.key), "a key that `firstdrop schemas` lists",
                         nearest.empty() ? "" : "did you mean \"" + nearest + "\"?", 0, 0});
}

}  // namespace

int schemas(const SchemasOptions& options, const Tables& tables) {
  write_result(result_of(options, tables), options.output);
  return done;
}

}  // namespace firstdrop::cli
