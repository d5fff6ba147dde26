// firstdrop_generate WHAT [TEMPLATE] [-o FILE]
//
// Writes a file that is made from the program's own descriptions, when firstdrop is built. WHAT is
// one of the names in `results`, or "keys of DOCUMENT" for a manual page, or "table of DOCUMENT"
// for the keys in Markdown. The result goes to FILE, else to standard output.
#include <fmt/core.h>

#include <cstdio>
#include <exception>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <string>
#include <vector>

#include "campaign/documents.hpp"
#include "cli/parser.hpp"
#include "generate/completions.hpp"
#include "generate/key_pages.hpp"
#include "generate/man_page.hpp"
#include "generate/recipe_keys.hpp"
#include "generate/template.hpp"

namespace {

using namespace firstdrop;
using namespace firstdrop::generate;

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::string text{std::istreambuf_iterator<char>(file), {}};
  if (!file) throw std::runtime_error(fmt::format("can't read \"{}\"", path));
  return text;
}

struct Result {
  const char* name;
  std::string (*make)(const std::string& template_file);
};

const Result results[] = {
    {"man",
     [](const std::string& file) {
       return filled_in(text_of(file), man_page_parts(cli::Parser().description()));
     }},
    {"outputs",
     [](const std::string& file) { return filled_in(text_of(file), output_page_parts()); }},
    {"bash",
     [](const std::string& file) {
       return filled_in(text_of(file), bash_parts(cli::Parser().description(), recipe_keys()));
     }},
    {"zsh",
     [](const std::string& file) {
       return filled_in(text_of(file), zsh_parts(cli::Parser().description(), recipe_keys()));
     }},
    {"fish",
     [](const std::string& file) {
       return filled_in(text_of(file), fish_parts(cli::Parser().description(), recipe_keys()));
     }},
};

Document document_named(const std::string& name) {
  for (Document& document : documents())
    if (document.name == name) return document;
  throw std::runtime_error(fmt::format("there is no document \"{}\"", name));
}

std::string made(const std::string& what, const std::string& template_file) {
  for (const Result& result : results)
    if (what == result.name) return result.make(template_file);
  if (what.starts_with("keys of "))
    return filled_in(text_of(template_file), key_page_parts(document_named(what.substr(8))));
  if (what.starts_with("table of ")) return key_table(document_named(what.substr(9)));
  throw std::runtime_error(fmt::format("can't make \"{}\"", what));
}

void run(std::vector<std::string> words) {
  std::string output;
  if (words.size() >= 2 && words[words.size() - 2] == "-o") {
    output = words.back();
    words.resize(words.size() - 2);
  }
  if (words.empty() || words.size() > 2)
    throw std::runtime_error("write: firstdrop_generate WHAT [TEMPLATE] [-o FILE]");
  const std::string text = made(words[0], words.size() == 2 ? words[1] : "");
  if (output.empty()) {
    fmt::print("{}", text);
    return;
  }
  std::ofstream file(output, std::ios::binary);
  file << text;
  file.close();
  if (!file) throw std::runtime_error(fmt::format("can't write \"{}\"", output));
}

}  // namespace

int main(int argc, char** argv) {
  try {
    run({argv + 1, argv + argc});
    return 0;
  } catch (const std::exception& error) {
    fmt::print(stderr, "firstdrop_generate: {}\n", error.what());
    return 1;
  }
}
