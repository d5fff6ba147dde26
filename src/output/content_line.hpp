// Lines of an iCalendar file, as RFC 5545 requires them.
#pragma once

#include <string>
#include <string_view>

namespace firstdrop {

/// A value of type TEXT (section 3.3.11). Backslash, semicolon, comma and line break are escaped,
/// so that no text can become a property of its own. Control characters aren't allowed in TEXT.
/// They and other invisible characters are written out, as visible() does.
std::string escaped(std::string_view text);

/// "NAME:value" with CRLF, folded (section 3.1): no line is longer than 75 octets, and no character
/// is split. The value is used unchanged, so TEXT must be escaped first.
std::string content_line(std::string_view name, std::string_view value);

}  // namespace firstdrop
