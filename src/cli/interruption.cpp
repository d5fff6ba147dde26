#include "cli/interruption.hpp"

#include <fcntl.h>
#include <unistd.h>

#include <array>
#include <atomic>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>

#include "cli/files.hpp"

namespace firstdrop::cli {
namespace {

constexpr std::array signals = {SIGINT, SIGTERM, SIGHUP, SIGQUIT};

// A signal handler may touch nothing else.
std::atomic<int> came = 0;
std::atomic<const char*> to_remove = nullptr;
std::array<int, 2> pipe_ends = {-1, -1};
std::array<struct sigaction, signals.size()> actions_before;
static_assert(std::atomic<int>::is_always_lock_free);
static_assert(std::atomic<const char*>::is_always_lock_free);

void end_by(int signal) {
  struct sigaction usual {};
  usual.sa_handler = SIG_DFL;
  sigaction(signal, &usual, nullptr);
  raise(signal);
  // If the signal is blocked now, it arrives as soon as it is unblocked.
}

void note(int signal) {
  const int error = errno;
  int none = 0;
  if (came.compare_exchange_strong(none, signal)) {
    Interruption::wake();
  } else {
    if (const char* name = to_remove) unlink(name);
    end_by(signal);
  }
  errno = error;
}

}  // namespace

Interruption::Interruption() {
  if (pipe2(pipe_ends.data(), O_CLOEXEC | O_NONBLOCK) != 0) throw SystemError(std::strerror(errno));
  struct sigaction action {};
  action.sa_handler = note;
  action.sa_flags = SA_RESTART;
  for (std::size_t i = 0; i < signals.size(); ++i) {
    sigaction(signals[i], nullptr, &actions_before[i]);
    if (actions_before[i].sa_handler != SIG_IGN) sigaction(signals[i], &action, nullptr);
  }
}

Interruption::~Interruption() {
  for (std::size_t i = 0; i < signals.size(); ++i)
    sigaction(signals[i], &actions_before[i], nullptr);
  to_remove = nullptr;
  for (int& end : pipe_ends) {
    close(end);
    end = -1;
  }
}

bool Interruption::asked() {
  return came != 0;
}

int Interruption::wake_file() {
  return pipe_ends[0];
}

void Interruption::wake() {
  const char byte = 0;
  if (write(pipe_ends[1], &byte, 1) < 0) return;  // the pipe is full, so the reader wakes anyway
}

void Interruption::remove_at_end(const char* name) {
  to_remove = name;
}

void Interruption::end_program() {
  end_by(came);
  std::_Exit(128 + came);
}

}  // namespace firstdrop::cli
