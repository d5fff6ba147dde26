#include "campaign/schema.hpp"

#include <nlohmann/json.hpp>
#include <string_view>
#include <utility>

#include "batch/batch_outputs.hpp"
#include "campaign/campaign_outputs.hpp"
#include "campaign/documents.hpp"
#include "output/plan_outputs.hpp"
#include "output/water_run_outputs.hpp"
#include "readers/key_schema.hpp"
#include "readers/table_fields.hpp"

namespace firstdrop {
namespace {

using Json = nlohmann::ordered_json;

// Replaces no-break and thin spaces with escapes, because they can't be told from plain spaces.
std::string with_visible_blanks(std::string text) {
  static const std::vector<std::pair<std::string_view, std::string_view>> blanks = {
      {"\u00a0", "\\u00a0"}, {"\u2009", "\\u2009"}, {"\u202f", "\\u202f"}};
  for (const auto& [blank, escape] : blanks) {
    for (auto at = text.find(blank); at != std::string::npos; at = text.find(blank, at)) {
      text.replace(at, blank.size(), escape);
    }
  }
  return text;
}

}  // namespace

std::vector<Schema> schemas(const Tables& tables) {
  std::vector<Schema> all;
  const auto add = [&](const std::string& key, const std::string& about, const Json& schema) {
    all.push_back({key, about, with_visible_blanks(schema.dump(2))});
  };
  for (const Document& document : documents())
    add(document.name, document.help, key_schema(document, tables));
  const Document plan = plan_document();
  add(plan.name, plan.help, key_schema(plan, tables));
  const std::string of_lines =
      "What `firstdrop batch` writes on each line: a plan, a plan in brief (`--brief`), or what is "
      "wrong with a recipe.";
  add("batch-line", of_lines,
      schema_of_one("Line of a batch", of_lines, {plan, brief_document(), broken_document()},
                    tables));
  for (const Document& document :
       {summary_document(), campaign_plan_document(), water_run_document()})
    add(document.name, document.help, key_schema(document, tables));
  const std::string about =
      "A table that firstdrop carries: plants, stills, liquids, materials, design defaults, forms, "
      "release classes, findings or sources. Every figure has its range and says where it comes "
      "from.";
  add("table", about, table_schema(about, table_documents(), tables));
  return all;
}

}  // namespace firstdrop
