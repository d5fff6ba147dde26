// One line on the terminal that says how far a long command is.
#pragma once

#include <atomic>
#include <chrono>
#include <condition_variable>
#include <cstdint>
#include <mutex>
#include <string>
#include <thread>

#include "model/sampling.hpp"

namespace firstdrop::cli {

/// On standard error, where that is a terminal that can clear a line; else it does nothing. Cleared
/// when it goes.
class ProgressLine {
 public:
  explicit ProgressLine(bool wanted);
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;
  ~ProgressLine() { clear(); }

  bool wanted() const { return wanted_; }
  void show(const std::string& words);
  void clear();

 private:
  bool wanted_;
  bool on_screen_ = false;
};

/// While it lives it says how many samples have been run, from the first second on. It only looks
/// on: the plan is the same with it and without.
class SamplingProgress {
 public:
  SamplingProgress();
  SamplingProgress(const SamplingProgress&) = delete;
  SamplingProgress& operator=(const SamplingProgress&) = delete;
  ~SamplingProgress();

  /// The same sampling, counted for this.
  Sampling counting(Sampling sampling);

 private:
  void watch();

  ProgressLine line_;
  std::atomic<std::int64_t> sampled_ = 0;
  std::mutex mutex_;
  std::condition_variable ended_;
  bool done_ = false;
  std::thread watcher_;
};

}  // namespace firstdrop::cli
