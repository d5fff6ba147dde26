#include "cli/files.hpp"

#include <fcntl.h>
#include <fmt/core.h>
#include <poll.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <mutex>
#include <random>
#include <set>
#include <utility>

#include "base/suggestion.hpp"
#include "base/visible_text.hpp"
#include "firstdrop/base/error.hpp"

namespace firstdrop::cli {
namespace {

namespace fs = std::filesystem;

// Far more than a recipe or a user's own table needs. It keeps a wrong file from filling the
// memory.
constexpr std::size_t most_bytes = 4U << 20U;

/// An open file, closed when it goes out of scope.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(Descriptor&& other) noexcept : number_(other.release()) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  int number() const { return number_; }
  explicit operator bool() const { return number_ >= 0; }
  /// The caller must close it.
  int release() { return std::exchange(number_, -1); }
  /// False, with errno set, if some of the written data was lost.
  bool close() { return ::close(std::exchange(number_, -1)) == 0; }

 private:
  int number_;
};

// --- what was read

/// Every file that this command has read, by device and inode, so that a link to it or another name
/// for it is recognised too. The threads of a batch read files as well.
class FilesRead {
 public:
  static void note(int file) {
    struct stat status {};
    if (::fstat(file, &status) != 0 || !S_ISREG(status.st_mode)) return;
    const std::lock_guard lock(mutex());
    identities().insert({status.st_dev, status.st_ino});
  }
  static bool has(const std::string& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) return false;
    const std::lock_guard lock(mutex());
    return identities().contains({status.st_dev, status.st_ino});
  }
  static void forget(const std::string& path) {
    struct stat status {};
    if (::stat(path.c_str(), &status) != 0) return;
    const std::lock_guard lock(mutex());
    identities().erase({status.st_dev, status.st_ino});
  }

 private:
  using Identity = std::pair<dev_t, ino_t>;
  static std::mutex& mutex() {
    static std::mutex one;
    return one;
  }
  static std::set<Identity>& identities() {
    static std::set<Identity> all;
    return all;
  }
};

InputError read_and_written(const std::string& path) {
  return InputError(Fault{
      "", "", fmt::format("{} as the file to read and the file to write", firstdrop::quoted(path)),
      "Name another file to write to", "", 0, 0});
}

// --- reading

InputError unreadable(const std::string& path, const std::string& found,
                      const std::string& hint = {}) {
  const std::string other = path == "-" ? "" : "check the name, or use - for standard input";
  return InputError(Fault{visible(path), "", found, "Name a JSON file that can be read",
                          hint.empty() ? other : hint, 0, 0});
}

InputError too_long(const std::string& path) {
  return unreadable(path, fmt::format("This has more than {} MiB", most_bytes >> 20U));
}

std::string read_all(int file, const std::string& path) {
  std::string text;
  std::array<char, 1U << 16U> buffer{};
  for (;;) {
    const ssize_t n = ::read(file, buffer.data(), buffer.size());
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) throw unreadable(path, std::strerror(errno));
    if (n == 0) return text;
    text.append(buffer.data(), static_cast<std::size_t>(n));
    if (text.size() > most_bytes) throw too_long(path);
  }
}

/// Whether the name means something this process already has open, such as the shell's <(…).
/// Reading it never waits for somebody to open the other end.
bool is_open_already(const std::string& path) {
  return path == "/dev/stdin" || path.starts_with("/dev/fd/") || path.starts_with("/proc/self/fd/");
}

// The hint for a file that isn't there: files beside it with nearly that name.
std::string near_file(const std::string& path) {
  constexpr std::string_view ending = ".json";
  const auto stem_of = [&](std::string name) {
    if (name.ends_with(ending)) name.resize(name.size() - ending.size());
    return name;
  };
  const fs::path folder = fs::path(path).parent_path();
  std::vector<KnownName> stems;
  for (const std::string& name : json_files_in(folder.string())) stems.push_back({stem_of(name)});
  std::vector<std::string> files;
  for (const std::string& stem : near_names(stem_of(fs::path(path).filename().string()), stems))
    files.push_back((folder / (stem + std::string(ending))).string());
  return did_you_mean(files);
}

enum class Noted { yes, no };

Descriptor opened_to_read(const std::string& path, Noted noted = Noted::yes) {
  // Without O_NONBLOCK, opening a pipe or a tape would block.
  Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
  struct stat status {};
  if (!file || ::fstat(file.number(), &status) != 0) {
    if (errno == ENOENT) throw unreadable(path, "No such file", near_file(path));
    throw unreadable(path, std::strerror(errno));
  }
  if (S_ISDIR(status.st_mode)) throw unreadable(path, "This is a directory");
  if (S_ISFIFO(status.st_mode) && is_open_already(path)) {
    const int flags = ::fcntl(file.number(), F_GETFL);
    if (flags < 0 || ::fcntl(file.number(), F_SETFL, flags & ~O_NONBLOCK) != 0)
      throw unreadable(path, std::strerror(errno));
    return file;
  }
  if (S_ISFIFO(status.st_mode))
    throw unreadable(path, "This is a named pipe", "to read a recipe from a pipe, use - < PIPE");
  if (!S_ISREG(status.st_mode)) throw unreadable(path, "This is a device");
  if (noted == Noted::yes) FilesRead::note(file.number());
  return file;
}

std::string read_opened(const Descriptor& file, const std::string& path) {
  struct stat status {};
  if (::fstat(file.number(), &status) == 0 && status.st_size > static_cast<off_t>(most_bytes))
    throw too_long(path);
  return read_all(file.number(), path);
}

// --- writing

SystemError unwritable(const std::string& path, const std::string& why) {
  return SystemError(fmt::format("cannot write {}: {}", visible(path), why));
}
SystemError unwritable(const std::string& path, int error) {
  return unwritable(path, std::strerror(error));
}

/// Whether all of the text was written; if not, errno says why.
bool written_all(int file, std::string_view text) {
  while (!text.empty()) {
    const ssize_t n = ::write(file, text.data(), text.size());
    if (n < 0 && errno == EAGAIN) {  // a terminal or pipe that another process made non-blocking
      pollfd ready{file, POLLOUT, 0};
      if (::poll(&ready, 1, -1) >= 0) continue;
    }
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) return false;
    text.remove_prefix(static_cast<std::size_t>(n));
  }
  return true;
}

/// While it exists, signals that end the program are held back, for a short time. So when the
/// program ends, the temporary file has been removed or has replaced the target.
class NoInterruption {
 public:
  NoInterruption() {
    sigset_t those;
    sigemptyset(&those);
    for (const int signal : {SIGINT, SIGTERM, SIGHUP, SIGQUIT}) sigaddset(&those, signal);
    sigprocmask(SIG_BLOCK, &those, &before_);
  }
  NoInterruption(const NoInterruption&) = delete;
  NoInterruption& operator=(const NoInterruption&) = delete;
  ~NoInterruption() { sigprocmask(SIG_SETMASK, &before_, nullptr); }

 private:
  sigset_t before_ = {};
};

/// A new temporary file in the target's folder, under a name that didn't exist before. It is
/// removed in the destructor, unless it has replaced the target.
class FileBeside {
 public:
  FileBeside(const fs::path& target, mode_t mode) {
    std::random_device random;
    do {
      path_ = target.parent_path() / fmt::format(".firstdrop-{:08x}{:08x}", random(), random());
      file_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode);
    } while (file_ < 0 && errno == EEXIST);
    made_ = file_ >= 0;
  }
  FileBeside(const FileBeside&) = delete;
  FileBeside& operator=(const FileBeside&) = delete;
  ~FileBeside() {
    if (file_ >= 0) ::close(file_);
    if (made_) ::unlink(path_.c_str());
  }

  int file() const { return file_; }
  const char* name() const { return path_.c_str(); }
  explicit operator bool() const { return made_; }
  /// Whether the data is on the disk and not only in a cache. A file system that can't sync is
  /// trusted.
  bool is_on_disk() {
    if (::fsync(file_) != 0 && errno != EINVAL && errno != ENOSYS) return false;
    return ::close(std::exchange(file_, -1)) == 0;
  }
  bool take_the_place_of(const fs::path& target) {
    if (::rename(path_.c_str(), target.c_str()) != 0) return false;
    made_ = false;
    return true;
  }

 private:
  fs::path path_;
  int file_ = -1;
  bool made_ = false;
};

/// The final target of a symbolic link, even if nothing exists there yet.
fs::path without_links(fs::path path, const std::string& name) {
  constexpr int most_links = 40;  // as the system's own limit
  std::error_code error;
  for (int links = 0; fs::is_symlink(fs::symlink_status(path, error)); ++links) {
    if (links == most_links) throw unwritable(name, ELOOP);
    const fs::path next = fs::read_symlink(path, error);
    if (error) throw unwritable(name, error.value());
    path = next.is_absolute() ? next : path.parent_path() / next;
  }
  return path;
}

/// Where results are written, piece by piece.
class Output {
 public:
  Output() = default;
  Output(const Output&) = delete;
  Output& operator=(const Output&) = delete;
  virtual ~Output() = default;
  virtual void write(std::string_view text) = 0;
  virtual void keep() {}
  virtual const char* beside() const { return nullptr; }
};

class StandardOutput : public Output {
 public:
  void write(std::string_view text) override {
    if (!written_all(STDOUT_FILENO, text)) {
      throw SystemError(fmt::format("cannot write the result: {}", std::strerror(errno)));
    }
  }
};

/// A device or pipe, written directly.
class StraightOutput : public Output {
 public:
  explicit StraightOutput(const std::string& path)
      : path_(path), file_(::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY)) {
    if (!file_) throw unwritable(path_, errno);
  }
  void write(std::string_view text) override {
    if (!written_all(file_.number(), text)) throw unwritable(path_, errno);
  }
  void keep() override {
    if (!file_.close()) throw unwritable(path_, errno);
  }

 private:
  std::string path_;
  Descriptor file_;
};

/// A file that is replaced in full or stays as it was. Symbolic links are followed and the owner is
/// kept, but another name for the same file (a hard link) keeps the old content.
class ReplacedFile : public Output {
 public:
  /// `before` is the status of the existing file, or null. `at_once` holds back signals that end
  /// the program.
  ReplacedFile(const std::string& name, const struct stat* before, bool at_once)
      : whole_(at_once ? std::make_unique<NoInterruption>() : nullptr),
        name_(name),
        target_(writable_target(name, before != nullptr)),
        beside_(target_, before == nullptr ? 0666 : 0600) {
    if (!beside_) throw unwritable(name_, errno);
    if (before == nullptr) return;
    // Only root can change the owner. For anyone else the new file is their own, and stays so.
    if (before->st_uid != ::geteuid() || before->st_gid != ::getegid()) {
      if (::fchown(beside_.file(), before->st_uid, before->st_gid) != 0) errno = 0;
    }
    if (::fchmod(beside_.file(), before->st_mode & 0777U) != 0) throw unwritable(name_, errno);
  }
  void write(std::string_view text) override {
    if (!written_all(beside_.file(), text)) throw unwritable(name_, errno);
  }
  void keep() override {
    // A batch reads files while it writes, so this is checked again.
    if (FilesRead::has(name_)) throw read_and_written(name_);
    if (!beside_.is_on_disk() || !beside_.take_the_place_of(target_))
      throw unwritable(name_, errno);
    // This makes the new name durable as well. The data is safe either way.
    const Descriptor place(::open(folder_of(target_).c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    if (place) static_cast<void>(::fsync(place.number()));
  }
  const char* beside() const override { return beside_.name(); }

 private:
  static fs::path folder_of(const fs::path& target) {
    return target.parent_path().empty() ? "." : target.parent_path();
  }
  static fs::path writable_target(const std::string& name, bool exists) {
    fs::path target = without_links(name, name);
    // A write-protected file must not be replaced, even if its folder's permissions would allow it.
    if (exists && ::access(target.c_str(), W_OK) != 0) throw unwritable(name, errno);
    std::error_code error;
    if (!fs::is_directory(folder_of(target), error)) {
      throw unwritable(name,
                       fmt::format("there is no folder {}", visible(folder_of(target).string())));
    }
    return target;
  }

  std::unique_ptr<NoInterruption> whole_;  // destroyed after beside_
  std::string name_;
  fs::path target_;
  FileBeside beside_;
};

std::unique_ptr<Output> opened(const std::string& output, bool at_once) {
  // Writing beyond the shell's limit for file sizes is then an error and doesn't end the program.
  std::signal(SIGXFSZ, SIG_IGN);
  if (to_standard_output(output)) return std::make_unique<StandardOutput>();
  struct stat before {};
  const bool exists = ::stat(output.c_str(), &before) == 0;
  if (FilesRead::has(output)) throw read_and_written(output);
  if (exists && S_ISDIR(before.st_mode)) throw unwritable(output, "it is a directory");
  if (exists && !S_ISREG(before.st_mode)) return std::make_unique<StraightOutput>(output);
  return std::make_unique<ReplacedFile>(output, exists ? &before : nullptr, at_once);
}

}  // namespace

std::string read_text_file(const std::string& path) {
  if (path == "-") {
    FilesRead::note(STDIN_FILENO);
    return read_all(STDIN_FILENO, path);
  }
  return read_opened(opened_to_read(path), path);
}

std::vector<std::string> json_files_in(const std::string& folder) {
  constexpr std::size_t most_names = 1000;
  std::vector<std::string> names;
  std::error_code error;
  fs::directory_iterator entry(folder.empty() ? "." : folder, error);
  for (; !error && entry != fs::directory_iterator() && names.size() < most_names;
       entry.increment(error)) {
    std::error_code of_entry;
    const std::string name = entry->path().filename().string();
    if (name.ends_with(".json") && entry->is_regular_file(of_entry)) names.push_back(name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

std::optional<std::string> glance_at(const std::string& path) {
  try {
    return read_opened(opened_to_read(path, Noted::no), path);
  } catch (const InputError&) {
    return std::nullopt;
  }
}

InputFile::InputFile(const std::string& path, int wake)
    : path_(path), wake_(wake), file_(path == "-" ? STDIN_FILENO : opened_to_read(path).release()) {
  if (file_ == STDIN_FILENO) FilesRead::note(file_);
}

InputFile::~InputFile() {
  if (file_ != STDIN_FILENO) ::close(file_);
}

std::size_t InputFile::read(char* there, std::size_t most) {
  for (;;) {
    std::array<pollfd, 2> files = {{{file_, POLLIN, 0}, {wake_, POLLIN, 0}}};
    if (::poll(files.data(), files.size(), -1) < 0 && errno != EINTR)
      throw unreadable(path_, std::strerror(errno));
    if (files[1].revents != 0) return 0;
    if (files[0].revents == 0) continue;
    const ssize_t n = ::read(file_, there, most);
    if (n >= 0) return static_cast<std::size_t>(n);
    if (errno != EINTR && errno != EAGAIN) throw unreadable(path_, std::strerror(errno));
  }
}

bool InputFile::ready() const {
  pollfd file{file_, POLLIN, 0};
  return ::poll(&file, 1, 0) != 0;
}

FileReader reader_beside(const std::string& recipe_path) {
  const fs::path folder = recipe_path == "-" ? fs::path() : fs::path(recipe_path).parent_path();
  return [folder](const std::string& path) { return read_text_file((folder / path).string()); };
}

bool to_standard_output(const std::string& output, const std::string& input) {
  if (output == standard_output || output == "/dev/stdout") return true;
  if (output.empty()) {
    throw InputError(Fault{"", "", "an empty name",
                           "Name a file to write to, or use - for standard output", "", 0, 0});
  }
  std::error_code error;
  if (!input.empty() && fs::is_regular_file(output, error) && fs::equivalent(input, output, error))
    throw read_and_written(output);
  return false;
}

bool was_read(const std::string& path) {
  return FilesRead::has(path);
}

void allow_to_replace(const std::string& output, bool force) {
  std::error_code error;
  if (!force && fs::is_regular_file(output, error)) throw InputError(already_there(output));
  FilesRead::forget(output);
}

Fault already_there(const std::string& path) {
  return {visible(path),
          "",
          "There is a file of this name already",
          "Choose another name with -o, or overwrite it with --force",
          "",
          0,
          0};
}

void write_result(const std::string& text, const std::string& output) {
  const std::unique_ptr<Output> target = opened(output, true);
  target->write(text);
  target->keep();
}

class ResultFile::Target {
 public:
  explicit Target(const std::string& output) : output_(opened(output, false)) {}
  Output& operator*() const { return *output_; }

 private:
  std::unique_ptr<Output> output_;
};

ResultFile::ResultFile(const std::string& output) : target_(std::make_unique<Target>(output)) {}
ResultFile::~ResultFile() = default;
void ResultFile::write(std::string_view text) {
  (**target_).write(text);
}
void ResultFile::keep() {
  (**target_).keep();
}
const char* ResultFile::beside() const {
  return (**target_).beside();
}

void say(const std::string& text) {
  // If that fails too, there is nowhere left to report it.
  static_cast<void>(written_all(STDERR_FILENO, text));
}

}  // namespace firstdrop::cli
