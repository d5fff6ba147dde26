// The words of an enumeration: how files, options and pages write its values. Each enumeration has
// one list, from which come its reader, its JSON Schema, the man pages and the completions.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace firstdrop {

/// One value of an enumeration.
template <class E>
struct Word {
  E value{};
  const char* word = "";     ///< as files have it
  const char* meaning = "";  ///< for people, a few words; empty where the word says it
};

/// The words of E, in the order in which people read them. Each enumeration specialises it.
template <class E>
inline constexpr std::array<Word<E>, 0> words_of{};

/// The name of the enumeration among the definitions of a JSON Schema; "" if its words stand where
/// they are used, because a document has them only once.
template <class E>
inline constexpr const char* name_of_words = "";

/// The word for a value; "" for a value that is none of the enumeration's.
template <class E>
constexpr const char* word_of(E value) {
  for (const Word<E>& word : words_of<E>)
    if (word.value == value) return word.word;
  return "";
}

/// The value with this word, if there is one.
template <class E>
std::optional<E> value_of(std::string_view text) {
  for (const Word<E>& word : words_of<E>)
    if (word.word == text) return word.value;
  return std::nullopt;
}

/// All words of E.
template <class E>
std::vector<std::string> all_words() {
  std::vector<std::string> all;
  for (const Word<E>& word : words_of<E>) all.emplace_back(word.word);
  return all;
}

}  // namespace firstdrop
