// Text that is generated into templates.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace firstdrop::generate {

/// The template with parts in place of its marker lines, which have the form "@NAME@". Throws
/// std::runtime_error if the template has a marker without a part, or a part without a marker.
std::string filled_in(std::string_view text, const std::map<std::string, std::string>& parts);

/// The sentences of a text. A sentence ends with a full stop, before a capital.
std::vector<std::string> sentences(std::string_view text);
/// The first of them, without its full stop.
std::string first_sentence(std::string_view text);

}  // namespace firstdrop::generate
