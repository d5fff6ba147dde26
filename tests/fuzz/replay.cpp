// replay FOLDER...
//
// Feeds every file of the folders to a fuzz target, without libFuzzer: what was found once is
// tested by any compiler. A folder that is not there counts as empty.
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

// Processor time, since the machine may be busy; the targets plan up to nine times for one input.
constexpr double most_seconds = 5.0;

bool replay(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  const std::vector<char> bytes((std::istreambuf_iterator<char>(file)),
                                std::istreambuf_iterator<char>());
  std::printf("%s\n", path.c_str());
  std::fflush(stdout);  // an abort must not swallow which file it was
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
