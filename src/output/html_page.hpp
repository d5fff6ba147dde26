// Shared by all printable HTML pages: the head, the style, and text as markup.
#pragma once

#include <string>
#include <string_view>

namespace firstdrop {

/// Text as markup; a figure and its unit stay on one line.
std::string marked_up(const std::string& text);

/// A page up to the beginning of its body. The page is self-contained and has no scripts or
/// external files. `title` is markup. `style` has the page's own CSS rules, which come after the
/// common ones.
std::string html_head(std::string_view title, std::string_view style);

}  // namespace firstdrop
