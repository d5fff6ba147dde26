#include "generate/roff.hpp"

#include "base/text_layout.hpp"
#include "generate/template.hpp"

namespace firstdrop::generate {
namespace {

constexpr int widest_line = 78;  // mandoc warns above 80

/// A character beyond ASCII, and what mdoc writes for it.
struct Sign {
  std::string_view text;
  std::string_view escape;
};
constexpr Sign signs[] = {{"°", "\\(de"}, {"²", "\\(S2"},     {"³", "\\(S3"},
                          {"º", "\\(Om"}, {"℃", "\\[u2103]"}, {"℉", "\\[u2109]"}};

const Sign* sign_at(std::string_view text) {
  for (const Sign& sign : signs)
    if (text.starts_with(sign.text)) return &sign;
  return nullptr;
}

}  // namespace

std::string roff(std::string_view text) {
  std::string out;
  bool quoted = false;
  bool code = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '"') quoted = !quoted;
    if (text[i] == '-')
      out += "\\-";
    else if (text[i] == '\\')
      out += "\\e";
    else if (text[i] == ' ' && quoted)
      out += "\\~";
    else if (text[i] == '`')
      out += (code = !code) ? "\\fB" : "\\fR";
    else if (const auto* sign = sign_at(text.substr(i))) {
      out += sign->escape;
      i += sign->text.size() - 1;
    } else
      out += text[i];
  }
  return out;
}

std::string man_sentences(const std::string& help) {
  std::string out;
  for (const std::string& sentence : sentences(help)) {
    std::string lines = wrapped("", roff(sentence), widest_line);
    // A line that begins with a dot or quote would be a request.
    for (std::size_t at = 0; at < lines.size(); at = lines.find('\n', at) + 1)
      if (lines[at] == '.' || lines[at] == '\'') lines.insert(at, "\\&");
    out += lines;
  }
  return out;
}

}  // namespace firstdrop::generate
