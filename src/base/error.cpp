#include "firstdrop/base/error.hpp"

#include <algorithm>
#include <cstddef>
#include <string_view>

#include "base/visible_text.hpp"

namespace firstdrop {

namespace {

std::string joined(const std::vector<Fault>& faults) {
  if (faults.empty()) return "the input cannot be used";
  std::string text;
  for (const Fault& fault : faults) {
    if (!text.empty()) text += '\n';
    text += fault.text();
  }
  return text;
}

/// Lower-cases letters and turns an underscore into a hyphen, so that names that differ only in
/// these compare as equal.
char folded(char c) {
  if (c >= 'A' && c <= 'Z') return static_cast<char>(c - 'A' + 'a');
  return c == '_' ? '-' : c;
}

/// The fewest insertions, deletions and replacements that turn one text into the other
/// (Levenshtein).
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::size_t> row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    std::size_t diagonal = row[0];
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = diagonal + (folded(a[i - 1]) == folded(b[j - 1]) ? 0U : 1U);
      diagonal = row[j];
      row[j] = std::min({replaced, row[j] + 1, row[j - 1] + 1});
    }
  }
  return row[b.size()];
}

}  // namespace

std::string Fault::text() const {
  std::string place;
  if (!file.empty()) place += visible(file);
  if (line > 0) {
    place += (place.empty() ? "line " : ":") + std::to_string(line);
    if (column > 0) place += ":" + std::to_string(column);
  }
  if (!pointer.empty()) place += (place.empty() ? "" : ": ") + visible(pointer);

  std::string says;
  if (!found.empty()) says += "found " + visible(found);
  if (!wanted.empty()) says += (says.empty() ? "wanted " : "; wanted ") + visible(wanted);
  if (!hint.empty()) says += (says.empty() ? "" : "; ") + visible(hint);

  return place + (place.empty() || says.empty() ? "" : ": ") + says;
}

InputError::InputError(std::vector<Fault> faults)
    : Error(joined(faults)), faults_(std::move(faults)) {}

InputError::InputError(Fault fault) : InputError(std::vector<Fault>{std::move(fault)}) {}

std::string nearest_name(const std::string& word, const std::vector<std::string>& names) {
  const std::size_t limit = std::max<std::size_t>(2, word.size() / 3);
  std::size_t best = limit + 1;
  std::string nearest;
  for (const std::string& name : names) {
    const std::size_t longer = std::max(word.size(), name.size());
    if (longer - std::min(word.size(), name.size()) > limit) continue;
    const std::size_t distance = edit_distance(word, name);
    // Two short words can be few edits apart and still differ in every letter. Those aren't near.
    if (distance < best && distance < longer) {
      best = distance;
      nearest = name;
    }
  }
  return nearest;
}

}  // namespace firstdrop
