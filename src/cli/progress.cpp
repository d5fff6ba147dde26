#include "cli/progress.hpp"

#include <fmt/core.h>
#include <unistd.h>

#include <cstdlib>
#include <cstring>
#include <utility>

#include "cli/files.hpp"

namespace firstdrop::cli {
namespace {

constexpr const char* clear_line = "\r\x1b[K";

bool is_dumb() {
  const char* terminal = std::getenv("TERM");
  return terminal == nullptr || std::strcmp(terminal, "dumb") == 0;
}

}  // namespace

ProgressLine::ProgressLine(bool wanted)
    : wanted_(wanted && isatty(STDERR_FILENO) == 1 && !is_dumb()) {}

void ProgressLine::show(const std::string& words) {
  if (!wanted_) return;
  say(clear_line + words);
  on_screen_ = true;
}

void ProgressLine::clear() {
  if (std::exchange(on_screen_, false)) say(clear_line);
}

SamplingProgress::SamplingProgress() : line_(true) {
  if (line_.wanted()) watcher_ = std::thread([this] { watch(); });
}

SamplingProgress::~SamplingProgress() {
  if (!watcher_.joinable()) return;
  {
    const std::lock_guard lock(mutex_);
    done_ = true;
  }
  ended_.notify_one();
  watcher_.join();
}

Sampling SamplingProgress::counting(Sampling sampling) {
  sampling.sampled = &sampled_;
  return sampling;
}

void SamplingProgress::watch() {
  using Clock = std::chrono::steady_clock;
  constexpr std::chrono::seconds nobody_wonders(1);
  constexpr std::chrono::milliseconds often_enough(200);
  const auto begin = Clock::now();
  std::unique_lock lock(mutex_);
  if (ended_.wait_for(lock, nobody_wonders, [this] { return done_; })) return;
  do {
    const std::chrono::duration<double> taken = Clock::now() - begin;
    line_.show(fmt::format("{} samples run, {:.0f} s", sampled_.load(std::memory_order_relaxed),
                           taken.count()));
  } while (!ended_.wait_for(lock, often_enough, [this] { return done_; }));
}

}  // namespace firstdrop::cli
