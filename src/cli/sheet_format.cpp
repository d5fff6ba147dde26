#include "cli/sheet_format.hpp"

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "firstdrop/error.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

constexpr std::array<std::pair<std::string_view, SheetFormat>, 3> formats = {
    {{"txt", SheetFormat::text}, {"md", SheetFormat::markdown}, {"html", SheetFormat::html}}};

}  // namespace

SheetFormat sheet_format(const std::string& format, const std::string& output, bool to_file) {
  const std::size_t point = output.rfind('.');
  std::string name = format;
  if (name.empty() && !to_file) name = "txt";
  if (name.empty() && point != std::string::npos) name = output.substr(point + 1);
  const auto found = std::find_if(formats.begin(), formats.end(),
                                  [&](const auto& known) { return known.first == name; });
  if (found == formats.end()) {
    throw InputError(Fault{"", "", firstdrop::quoted(output) + " for --output",
                           "a name that ends in .html, .md or .txt",
                           "--format says what another name shall hold", 0, 0});
  }
  return found->second;
}

}  // namespace firstdrop::cli
