// Text in the language mdoc(7).
#pragma once

#include <string>
#include <string_view>

namespace firstdrop::generate {

/// The text with what roff would take for something else escaped. What is between backticks
/// becomes bold. An amount in quotes stays on one line.
std::string roff(std::string_view text);

/// Lines for the text. Each sentence begins on a line of its own, as mdoc wants it.
std::string man_sentences(const std::string& text);

}  // namespace firstdrop::generate
