#include "cli/file_help.hpp"

#include <fmt/core.h>

#include <vector>

#include "base/text_layout.hpp"
#include "cli/terminal.hpp"

namespace firstdrop::cli {
namespace {

std::string words_about(const Key& key) {
  std::string about = key.help;
  const auto add = [&about](const std::string& sentence) {
    about += (about.empty() ? "" : " ") + sentence;
  };
  if (key.form == KeyForm::choice) add("One of " + joined(key.words, ", ") + ".");
  if (!key.example.empty()) add("For example " + key.example + ".");
  const std::string& left_out = key.left_out.empty() ? key.standard : key.left_out;
  if (key.need == Need::always || key.need == Need::in_file)
    add("Required.");
  else if (key.need == Need::by_rule)
    add("Required " + key.needed_if + ".");
  else if (!left_out.empty())
    add("If left out: " + left_out + ".");
  return about;
}

}  // namespace

std::string file_help(const Document& document) {
  const Look look = look_of_stdout("never");
  std::string page = wrapped("", document.help, look) + "\n";
  for_each_key(document.root.keys, [&](const std::string& path, const Key& key) {
    const bool is_evidence =
        path.ends_with(".basis") || path.ends_with(".source") || path.ends_with(".known");
    if (key.form == KeyForm::remark || is_evidence) return;
    page += fmt::format("  {}\n{}", path, wrapped("      ", words_about(key), look));
  });
  return page + "\n" +
         wrapped("",
                 fmt::format("The manual page firstdrop-{0}(5) also has the kinds and units of the "
                             "values. `firstdrop schemas {0}` writes the schema for an editor. "
                             "`firstdrop check` lists what is wrong in a file.",
                             document.name),
                 look);
}

}  // namespace firstdrop::cli
