#include "cli/new_file.hpp"

#include <fmt/core.h>

#include <filesystem>

#include "base/visible_text.hpp"
#include "cli/files.hpp"
#include "cli/questions.hpp"

namespace firstdrop::cli {

namespace fs = std::filesystem;

bool is_file(const std::string& path) {
  std::error_code error;
  return fs::is_regular_file(path, error);
}

std::optional<Fault> obstacle(const std::string& path, bool force, const FormatChoice& formats) {
  if (to_standard_output(path)) return std::nullopt;
  if (auto fault = fault_of_name(path, formats)) return fault;
  if (!force && is_file(path)) return already_there(path);
  // For example a user's own still or plant, named in an answer.
  if (was_read(path)) {
    return Fault{visible(path),
                 "",
                 "This recipe reads this file",
                 "Choose another file to write to",
                 "",
                 0,
                 0};
  }
  const fs::path folder = fs::path(path).parent_path();
  std::error_code error;
  if (folder.empty() || fs::is_directory(folder, error)) return std::nullopt;
  return Fault{visible(path),
               "",
               fmt::format("There is no folder {}", visible(folder.string())),
               "Choose a file in a folder that exists",
               "",
               0,
               0};
}

std::optional<Fault> fault_of_still_file(const std::string& path) {
  if (to_standard_output(path) || path.ends_with(".json")) return std::nullopt;
  return Fault{visible(path),
               "",
               "The name of a still's file must end in .json",
               fmt::format("Choose {}.json", visible(path)),
               "",
               0,
               0};
}

std::string free_name(const std::string& stem) {
  std::string name = stem + ".json";
  for (int i = 2; is_file(name); ++i) name = fmt::format("{}-{}.json", stem, i);
  return name;
}

std::string ask_new_file(const std::string& question, const std::string& stem, bool force,
                         const FormatChoice& formats,
                         const std::function<std::string(const std::string& path)>& faults) {
  const std::string fallback = free_name(stem);
  for (;;) {
    std::string answer = answer_to(question, fallback);
    if (const auto fault = obstacle(answer, force, formats)) {
      say(fault->text() + "\n");
      continue;
    }
    const std::string more = faults(answer);
    if (more.empty()) return answer;
    say(more);
  }
}

}  // namespace firstdrop::cli
