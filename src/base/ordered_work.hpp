// Shares work among several threads and returns the results in the order in which it came in.
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

/// Takes pieces of work one by one and has each processed by one of `workers` threads. One more
/// thread passes the processed pieces to `done`, in the order in which they were added. The queue
/// holds at most `queue_limit` pieces. They count until they have been passed on.
///
/// An exception from a worker or from `done` ends the work. Then nothing more is passed on, and
/// add() or finish() rethrows the exception.
template <class Piece>
class OrderedWork {
 public:
  using Work = std::function<void(Piece&)>;

  /// Each worker thread calls `new_worker` once. It returns the function that processes a piece in
  /// that thread; the function can have state of its own.
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

  /// Waits while the queue is full. Rethrows what a worker or `done` threw.
  void add(Piece piece) {
    std::unique_lock lock(mutex_);
    room_.wait(lock, [&] { return failure_ || slots_.size() < queue_limit_; });
    if (failure_) std::rethrow_exception(failure_);
    slots_.push_back(std::make_unique<Slot>(Slot{std::move(piece)}));
    waiting_.push_back(slots_.back().get());
    more_.notify_one();
  }

  /// Waits until every piece has been passed on. Rethrows what a worker or `done` threw.
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

  // Drops the queued pieces. Each thread still finishes the piece that it is working on.
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
  // Each condition has its own kind of waiting thread, so that no thread wakes up for nothing.
  std::condition_variable room_;             // the queue has room: the thread that adds
  std::condition_variable more_;             // a piece is waiting: the workers
  std::condition_variable turn_;             // the first piece is ready: the thread that passes on
  std::deque<std::unique_ptr<Slot>> slots_;  // in order; a slot's address stays valid in the queue
  std::deque<Slot*> waiting_;                // those in slots_ that no worker has taken
  bool ended_ = false;
  std::exception_ptr failure_;
  std::vector<std::thread> threads_;
};

}  // namespace firstdrop
