// The keys of a document: for its manual page, and as a table in Markdown.
#pragma once

#include <map>
#include <string>

#include "readers/key.hpp"

namespace firstdrop::generate {

/// Parts of a page of section 5: "keys", and also "figures" and "quantities" if the document has
/// figures or is the recipe.
std::map<std::string, std::string> key_page_parts(const Document& document);

/// Parts of the page of what firstdrop prints: the keys of each kind of object, and the columns of
/// the timeline.
std::map<std::string, std::string> output_page_parts();

/// A table of the document's outermost keys in Markdown, with what is inside each.
std::string key_table(const Document& document);

}  // namespace firstdrop::generate
