// The hint that names what was probably meant. See also nearest_name().
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "firstdrop/base/error.hpp"

namespace firstdrop {

/// A name as it is compared with others: in small letters, with a hyphen for each blank, comma or
/// underscore.
std::string plain_name(std::string_view text);

/// A name that can be written, and what else people call the same thing.
struct KnownName {
  std::string name;
  std::vector<std::string> also = {};
};

/// The names that a person may have meant by `word`, nearest first: three at most. One is near if
/// the word is few edits away from it, from what else it is called, or from a word in these; or if
/// one contains the other. Few edits are two, or two fifths of the letters if that is more. Names
/// that are much farther away than the nearest are left out. Case doesn't count, and a blank or
/// underscore counts as a hyphen. Equally near names keep the order of `known`.
std::vector<std::string> near_names(const std::string& word, const std::vector<KnownName>& known);

/// A hint with the one name that is nearest to the word, "did you mean \"fresh\"?", or "" if none
/// is near; see nearest_name(). For keys and words that have no other names.
std::string did_you_mean(const std::string& word, const std::vector<std::string>& names);

/// A hint with these names, "did you mean \"a\", \"b\" or \"c\"?", or "" if there are none.
std::string did_you_mean(const std::vector<std::string>& near);

/// A hint for the name of something that there is a list of: the nearest names, and the command
/// that lists all, such as "firstdrop plants".
std::string did_you_mean(const std::string& word, const std::vector<KnownName>& known,
                         const std::string& command);

}  // namespace firstdrop
