// Text that came from outside, made fit to stand in a one-line message.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace firstdrop {

/// The text with everything that would not show, or would break the line or the terminal, written
/// out: line feed as \n, escape as \u001b, a no-break space as \u00a0, a byte that is not UTF-8 as
/// \xff. Printable text is left as it is, so applying it twice changes nothing.
std::string visible(std::string_view text);

/// Whether a text, which is UTF-8, has characters that act on a terminal or turn the direction of
/// the text round them. Unlike visible(), it lets pass what is merely unseen in names and titles,
/// such as a no-break space.
bool has_acting_character(std::string_view text);

/// The visible text in double quotes, with quote and backslash escaped, and cut after `most`
/// characters.
std::string quoted(std::string_view text, std::size_t most = 60);

/// The visible text as HTML and XML have it between tags and in double quotes.
std::string as_markup(std::string_view text);

/// The text as Markdown (GitHub Flavored, https://github.github.com/gfm/) has it within a line:
/// what it would take for its own marks is written as text, also "://" and "www.", which make links
/// by themselves, and what would make a list of a line that begins with it.
std::string as_markdown(const std::string& words);

/// JSON text with <, > and & as \u003c, \u003e and \u0026: every parser reads the same values, and
/// a page into which it is pasted sees no markup. In JSON they stand inside of strings alone.
std::string without_markup(std::string_view json);

/// Appends a text, which is UTF-8, as JSON has it: in double quotes, and with <, >, & as above.
void append_json_text(std::string& out, std::string_view text);
/// The same by itself.
std::string json_text(std::string_view text);

}  // namespace firstdrop
