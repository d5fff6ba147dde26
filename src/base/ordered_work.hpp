// Work that several threads share, with results in the order in which it came.
#pragma once

#include <condition_variable>
#include <cstddef>
#include <deque>
#include <exception>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>
#include <utility>
#include <vector>

namespace firstdrop {

/// Takes pieces of work one by one, has each worked on by one of `workers` threads, and hands them
/// on to `done` in the order in which they were given, from one thread of its own. So many
/// pieces are in hand at most, whether they wait, are worked on, or wait for their turn.
///
/// What a worker or `done` throws ends it: nothing more is handed on, and add() or finish() throw
/// it.
template <class Piece>
class OrderedWork {
 public:
  using Work = std::function<void(Piece&)>;

  /// `new_worker` is called once in each of the threads and gives what it does, with a memory of
  /// its own.
  OrderedWork(int workers, std::size_t queue_limit, std::function<Work()> new_worker,
              std::function<void(Piece&)> done)
      : queue_limit_(queue_limit), new_worker_(std::move(new_worker)), done_(std::move(done)) {
    try {
      for (int i = 0; i < workers; ++i) threads_.emplace_back([this] { work_off(); });
      threads_.emplace_back([this] { hand_on(); });
    } catch (...) {
      abandon();
      throw;
    }
  }
  OrderedWork(const OrderedWork&) = delete;
  OrderedWork& operator=(const OrderedWork&) = delete;
  ~OrderedWork() { abandon(); }

  /// Waits while too many are in hand.
  void add(Piece piece) {
    std::unique_lock lock(mutex_);
    room_.wait(lock, [&] { return failure_ || slots_.size() < queue_limit_; });
    if (failure_) std::rethrow_exception(failure_);
    slots_.push_back(std::make_unique<Slot>(Slot{std::move(piece)}));
    waiting_.push_back(slots_.back().get());
    more_.notify_one();
  }

  /// Waits until all has been handed on.
  void finish() {
    {
      const std::unique_lock lock(mutex_);
      ended_ = true;
      wake_all();
    }
    for (std::thread& thread : threads_) thread.join();
    threads_.clear();
    if (failure_) std::rethrow_exception(failure_);
  }

 private:
  struct Slot {
    Piece piece;
    bool ready = false;
  };

  void work_off() {
    Work work;
    if (!safely([&] { work = new_worker_(); })) return;
    for (;;) {
      Slot* slot = nullptr;
      {
        std::unique_lock lock(mutex_);
        more_.wait(lock, [&] { return failure_ || ended_ || !waiting_.empty(); });
        if (failure_ || waiting_.empty()) return;
        slot = waiting_.front();
        waiting_.pop_front();
      }
      if (!safely([&] { work(slot->piece); })) return;
      const std::unique_lock lock(mutex_);
      slot->ready = true;
      if (slot == slots_.front().get()) turn_.notify_one();
    }
  }

  void hand_on() {
    for (;;) {
      Slot* slot = nullptr;
      {
        std::unique_lock lock(mutex_);
        turn_.wait(lock,
                   [&] { return failure_ || (slots_.empty() ? ended_ : slots_.front()->ready); });
        if (failure_ || slots_.empty()) return;
        slot = slots_.front().get();
      }
      if (!safely([&] { done_(slot->piece); })) return;
      const std::unique_lock lock(mutex_);
      slots_.pop_front();
      room_.notify_one();
    }
  }

  template <class Do>
  bool safely(const Do& act) {
    try {
      act();
      return true;
    } catch (...) {
      const std::unique_lock lock(mutex_);
      if (!failure_) failure_ = std::current_exception();
      wake_all();
      return false;
    }
  }

  void wake_all() {
    room_.notify_all();
    more_.notify_all();
    turn_.notify_all();
  }

  // What is in hand is dropped, save for what a thread is at just now.
  void abandon() {
    {
      const std::unique_lock lock(mutex_);
      ended_ = true;
      if (!threads_.empty() && !failure_) {
        failure_ = std::make_exception_ptr(std::exception());
      }
      wake_all();
    }
    for (std::thread& thread : threads_) thread.join();
    threads_.clear();
  }

  std::size_t queue_limit_;
  std::function<Work()> new_worker_;
  std::function<void(Piece&)> done_;
  std::mutex mutex_;
  // Each is waited for by its own kind of thread, so that nobody wakes in vain.
  std::condition_variable room_;             // for one more piece: the one who adds
  std::condition_variable more_;             // to do: the workers
  std::condition_variable turn_;             // of the first piece has come: who hands on
  std::deque<std::unique_ptr<Slot>> slots_;  // in order; their places stay while they are in hand
  std::deque<Slot*> waiting_;                // of them, those that nobody has begun
  bool ended_ = false;
  std::exception_ptr failure_;
  std::vector<std::thread> threads_;
};

}  // namespace firstdrop
