#include "base/suggestion.hpp"

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string_view>
#include <utility>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"

namespace firstdrop {

namespace {

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

// --- several near names

constexpr std::size_t most_near = 3;
/// How many edits a name may be farther away than the nearest.
constexpr double farther = 2.0;
/// Shorter words are parts of too many names.
constexpr std::size_t shortest_part = 3;

/// The words in a text with hyphens.
std::vector<std::string_view> words_in(std::string_view text) {
  std::vector<std::string_view> words;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('-'), text.size());
    if (end >= shortest_part) words.push_back(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
  }
  return words;
}

/// The edits between two texts, if they are few for the length of `word`: two fifths of it, or
/// `always` if that is more.
std::optional<double> few_edits(std::string_view word, std::string_view name, std::size_t always) {
  const std::size_t limit = std::max(always, word.size() * 2 / 5);
  const std::size_t longer = std::max(word.size(), name.size());
  if (longer - std::min(word.size(), name.size()) > limit) return std::nullopt;
  const std::size_t distance = edit_distance(word, name);
  // Two short words can be few edits apart and still have little in common.
  if (distance > limit || 2 * distance > longer) return std::nullopt;
  return static_cast<double>(distance);
}

/// How far a name is from the word, in edits; the smallest of several ways to compare them. Both
/// are in small letters with hyphens.
std::optional<double> distance_to(std::string_view word, std::string_view name) {
  std::optional<double> best;
  const auto take = [&best](std::optional<double> distance) {
    if (distance && (!best || *distance < *best)) best = distance;
  };
  take(few_edits(word, name, 2));
  if (word.size() >= shortest_part && name.find(word) != std::string_view::npos) take(1.0);
  if (name.size() > shortest_part && word.find(name) != std::string_view::npos) take(1.0);
  for (const std::string_view part : words_in(name)) {
    if (const auto edits = few_edits(word, part, 1)) take(*edits + 0.5);
  }
  for (const std::string_view part : words_in(word)) {
    if (part == word) continue;
    if (const auto edits = few_edits(part, name, 1)) take(*edits + 1.0);
  }
  return best;
}

std::optional<double> distance_to(std::string_view word, const KnownName& known) {
  std::optional<double> best = distance_to(word, plain_name(known.name));
  for (const std::string& name : known.also) {
    const auto distance = distance_to(word, plain_name(name));
    if (distance && (!best || *distance < *best)) best = distance;
  }
  return best;
}

/// "a", "b" or "c".
std::string quoted_or(std::vector<std::string> names) {
  for (std::string& name : names) name = quoted(name);
  return in_a_row(names, "or");
}

}  // namespace

std::string plain_name(std::string_view text) {
  std::string all;
  for (const char c : text) all += c == ' ' || c == ',' ? '-' : folded(c);
  return all;
}

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
  if (!nearest.empty() || word.size() < 4) return nearest;
  // "steel" is meant for "stainless-steel", if it is a part of no other name.
  for (const std::string& name : names) {
    if (name.find(word) == std::string::npos) continue;
    if (!nearest.empty()) return {};
    nearest = name;
  }
  return nearest;
}

std::vector<std::string> near_names(const std::string& word, const std::vector<KnownName>& known) {
  std::vector<std::pair<double, std::string>> near;
  const std::string wanted = plain_name(word);
  if (wanted.empty()) return {};
  for (const KnownName& one : known)
    if (const auto distance = distance_to(wanted, one)) near.emplace_back(*distance, one.name);
  std::stable_sort(near.begin(), near.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  std::vector<std::string> names;
  for (const auto& [distance, name] : near)
    if (names.size() < most_near && distance <= near.front().first + farther) names.push_back(name);
  return names;
}

std::string did_you_mean(const std::vector<std::string>& near) {
  return near.empty() ? "" : "did you mean " + quoted_or(near) + "?";
}

std::string did_you_mean(const std::string& word, const std::vector<std::string>& names) {
  const std::string nearest = nearest_name(word, names);
  return nearest.empty() ? nearest : did_you_mean({nearest});
}

std::string did_you_mean(const std::string& word, const std::vector<KnownName>& known,
                         const std::string& command) {
  const std::string near = did_you_mean(near_names(word, known));
  const std::string list = "un `" + command + "` to list all";
  return near.empty() ? 'r' + list : near + " R" + list;
}

}  // namespace firstdrop
