// Makes text from outside safe to show in one-line messages, markup, Markdown and JSON.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace firstdrop {

/// The text, with everything written out that would not show, would break the line or would act on
/// the terminal: a line feed as \n, escape as \u001b, a no-break space as \u00a0, a byte that is
/// not UTF-8 as \xff. Printable text stays as it is, so applying this twice changes nothing.
std::string visible(std::string_view text);

/// Whether a UTF-8 text has characters that act on a terminal, break a line, or change the
/// direction of the text around them. The byte order mark counts too. Unlike visible(), it allows
/// characters that are only invisible in names and titles, such as a no-break space.
bool has_acting_character(std::string_view text);

/// The visible text in double quotes, with quotes and backslashes escaped. It is cut off after
/// `most` characters.
std::string quoted(std::string_view text, std::size_t most = 60);

/// The visible text, escaped for HTML and XML between tags and in double quotes.
std::string as_markup(std::string_view text);

/// The text, escaped for use within a line of Markdown (GitHub Flavored,
/// https://github.github.com/gfm/). It escapes Markdown's own marks. It also escapes "://" and
/// "www.", which make links by themselves, and anything that would turn the line into a list.
std::string as_markdown(const std::string& words);

/// JSON text with <, > and & as \u003c, \u003e and \u0026. Every parser reads the same values, and
/// a page that the text is pasted into finds no markup. In JSON, these characters occur only inside
/// strings.
std::string without_markup(std::string_view json);

/// Appends a UTF-8 text as a JSON string: in double quotes, with <, > and & escaped as above.
void append_json_text(std::string& out, std::string_view text);
/// A UTF-8 text as a JSON string; see append_json_text().
std::string json_text(std::string_view text);

}  // namespace firstdrop
