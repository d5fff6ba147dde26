// replay FOLDER...
//
// Feeds every file of the folders to a fuzz target, without libFuzzer. So inputs that were found
// once are tested with any compiler. A missing folder counts as empty.
#include <cstddef>
#include <cstdint>
#include <cstdio>
#include <ctime>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

// Limit for one input, in processor time because the machine may be busy. A target may make many
// plans for one input.
constexpr double most_seconds = 5.0;

bool replay(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  const std::vector<char> bytes((std::istreambuf_iterator<char>(file)),
                                std::istreambuf_iterator<char>());
  std::printf("%s\n", path.c_str());
  std::fflush(stdout);  // so that an abort doesn't lose the name of the file
  const std::clock_t begin = std::clock();
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
  const double seconds = static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
  if (seconds <= most_seconds) return true;
  std::printf("TOO SLOW: %.1f s\n", seconds);
  return false;
}

}  // namespace

int main(int argc, char** argv) {
  bool good = true;
  int files = 0;
  for (int i = 1; i < argc; ++i) {
    if (!std::filesystem::is_directory(argv[i])) continue;
    for (const auto& entry : std::filesystem::directory_iterator(argv[i])) {
      if (!entry.is_regular_file()) continue;
      good = replay(entry.path()) && good;
      ++files;
    }
  }
  std::printf("%d inputs\n", files);
  return good && files > 0 ? 0 : 1;
}
