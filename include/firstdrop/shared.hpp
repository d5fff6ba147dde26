/// @file
/// A value whose copies share one place until one of them is changed.
#pragma once

#include <atomic>
#include <memory>
#include <utility>

namespace firstdrop {

/// Copies cost a count, not a copy: a plant has hundreds of texts, and every plan of a batch has
/// its plant. To the outside it is a value: what one copy changes, no other sees. Reading is safe
/// from many threads at once.
template <class T>
class Shared {
 public:
  /// An empty one; all those share one place, too.
  Shared() : value_(nothing()) {}
  /// Takes a value to be shared from here on.
  Shared(T value)  // NOLINT(google-explicit-constructor): it is a T
      : value_(std::make_shared<T>(std::move(value))) {}

  /// @{
  /// The value, to be read.
  const T& operator*() const { return *value_; }
  const T* operator->() const { return value_.get(); }
  operator const T&() const { return *value_; }  // NOLINT(google-explicit-constructor)
  /// @}

  /// The value to be changed, which is made this copy's own before. Holds until this is copied.
  T& change() {
    if (value_.use_count() != 1) value_ = std::make_shared<T>(*value_);
    // Another thread may have been the last to let go of it, and must be done reading.
    std::atomic_thread_fence(std::memory_order_acquire);
    return *value_;
  }

  /// Whether both are the same place, and so the same value; equal values may stand in two places.
  bool is_same_as(const Shared& other) const { return value_ == other.value_; }

 private:
  static const std::shared_ptr<T>& nothing() {
    static const auto empty = std::make_shared<T>();
    return empty;
  }

  std::shared_ptr<T> value_;
};

}  // namespace firstdrop
