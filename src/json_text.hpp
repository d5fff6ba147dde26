// Text as JSON has it.
#pragma once

#include <string>
#include <string_view>

namespace firstdrop {

/// In double quotes and on one line, with <, > and & written out so that no page sees markup in it
/// (RFC 8259, 7). Bytes are taken as they are: the text has to be UTF-8.
std::string json_text(std::string_view text);

}  // namespace firstdrop
