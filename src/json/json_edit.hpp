// Changes values in a JSON text and leaves everything else as its owner wrote it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace firstdrop::json {

/// The text of the value that begins at this byte of a valid JSON text.
std::string_view value_at(std::string_view text, std::size_t begin);

/// The text with `value`, which is JSON, under the last key of `path`. The other keys of `path`
/// lead to the object that it belongs to, which must be there. A key that is there keeps its place;
/// a new one comes last in its object, on a line of its own if the last member has one. `text` must
/// be valid JSON, and an object.
std::string with_value(const std::string& text, const std::vector<std::string>& path,
                       std::string_view value);

}  // namespace firstdrop::json
