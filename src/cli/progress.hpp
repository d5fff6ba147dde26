// One line on the terminal that shows the progress of a long command.
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

/// A line on standard error, if that is a terminal that can clear a line; otherwise it does
/// nothing. The destructor clears it.
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

/// While it exists, it shows how many samples have been run, starting after one second. It only
/// watches: the plan is the same with and without it.
class SamplingProgress {
 public:
  SamplingProgress();
  SamplingProgress(const SamplingProgress&) = delete;
  SamplingProgress& operator=(const SamplingProgress&) = delete;
  ~SamplingProgress();

  /// The same sampling, with its samples counted here.
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
