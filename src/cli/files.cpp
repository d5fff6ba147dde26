#include "cli/files.hpp"

#include <fmt/format.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <memory>

#include "firstdrop/error.hpp"
#include "visible_text.hpp"

namespace firstdrop::cli {
namespace {

// Far more than a recipe or a table of a person's own needs; keeps a wrong file from filling
// memory.
constexpr std::size_t most_bytes = 4U << 20U;

InputError unreadable(const std::string& path, const std::string& found) {
  return InputError(Fault{visible(path), "", found, "a readable JSON file",
                          path == "-" ? "" : "check the name, or use - for standard input", 0, 0});
}

std::string read_all(std::FILE* file, const std::string& path) {
  std::string text;
  char buffer[1U << 16U];
  while (const std::size_t n = std::fread(buffer, 1, sizeof buffer, file)) {
    text.append(buffer, n);
    if (text.size() > most_bytes) {
      throw unreadable(path, fmt::format("more than {} MiB", most_bytes >> 20U));
    }
  }
  if (std::ferror(file)) throw unreadable(path, std::strerror(errno));
  return text;
}

}  // namespace

std::string read_text_file(const std::string& path) {
  if (path == "-") return read_all(stdin, path);
  std::error_code error;
  const auto status = std::filesystem::status(path, error);
  if (!std::filesystem::exists(status)) throw unreadable(path, "no such file");
  if (std::filesystem::is_directory(status)) throw unreadable(path, "a directory");
  if (std::filesystem::is_block_file(status) || std::filesystem::is_character_file(status)) {
    throw unreadable(path, "a device");
  }
  const std::unique_ptr<std::FILE, int (*)(std::FILE*)> file(std::fopen(path.c_str(), "rb"),
                                                             &std::fclose);
  if (!file) throw unreadable(path, std::strerror(errno));
  return read_all(file.get(), path);
}

FileReader reader_beside(const std::string& recipe_path) {
  const std::filesystem::path folder = recipe_path == "-"
                                           ? std::filesystem::path()
                                           : std::filesystem::path(recipe_path).parent_path();
  return [folder](const std::string& path) { return read_text_file((folder / path).string()); };
}

void write_result(const std::string& text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  if (!written || std::fflush(stdout) != 0) {
    throw SystemError(fmt::format("cannot write the result: {}", std::strerror(errno)));
  }
}

void say(const std::string& text) {
  std::fwrite(text.data(), 1, text.size(), stderr);
}

}  // namespace firstdrop::cli
