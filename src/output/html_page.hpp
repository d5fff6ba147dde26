// What all printable HTML pages share: their head, their style, and text as markup.
#pragma once

#include <string>
#include <string_view>

namespace firstdrop {

/// Text as markup; a figure and its unit stay on one line.
std::string marked_up(const std::string& text);

/// A page up to the beginning of its body: self-contained, without script or requests. `title` is
/// markup; `style` has the page's own rules, which come after the common ones.
std::string html_head(std::string_view title, std::string_view style);

}  // namespace firstdrop
