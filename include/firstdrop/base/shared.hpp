/// @file
/// A value whose copies share one place until one of them is changed.
#pragma once

#include <utility>

namespace firstdrop {

/// How many hold a value. Safe from many threads at once: it is counted by atomic operations, in
/// shared.cpp, since the headers atomic and memory are long and this is included nearly everywhere.
class HolderCount {
 public:
  /// One more.
  void add();
  /// One less; whether that was the last, which may then take the value away.
  bool drop();
  /// Whether there is one only, who then may change the value.
  bool is_one() const;

 private:
  mutable int count_ = 1;
};

/// Copies cost a count, not a copy: a plant has hundreds of texts, and every plan of a batch has
/// its plant. To the outside it is a value: what one copy changes, no other sees. Reading is safe
/// from many threads at once. What was moved away may only be assigned to.
template <class T>
class Shared {
 public:
  /// An empty one; all those share one place, too.
  Shared() : Shared(nothing()) {}
  /// Takes a value to be shared from here on.
  Shared(T value)  // NOLINT(google-explicit-constructor): it is a T
      : place_(new Place{std::move(value), {}}) {}

  /// @{
  /// Copies share the value.
  Shared(const Shared& other) : place_(other.place_) {
    if (place_ != nullptr) place_->holders.add();
  }
  Shared(Shared&& other) noexcept : place_(std::exchange(other.place_, nullptr)) {}
  Shared& operator=(Shared other) noexcept {
    std::swap(place_, other.place_);
    return *this;
  }
  ~Shared() {
    if (place_ != nullptr && place_->holders.drop()) delete place_;
  }
  /// @}

  /// @{
  /// The value, to be read.
  const T& operator*() const { return place_->value; }
  const T* operator->() const { return &place_->value; }
  operator const T&() const { return place_->value; }  // NOLINT(google-explicit-constructor)
  /// @}

  /// The value to be changed, which is made this copy's own before. Holds until this is copied.
  T& change() {
    if (!place_->holders.is_one()) *this = Shared(place_->value);
    return place_->value;
  }

  /// Whether both are the same place, and so the same value; equal values may stand in two places.
  bool is_same_as(const Shared& other) const { return place_ == other.place_; }

 private:
  struct Place {
    T value;
    HolderCount holders;
  };

  static const Shared& nothing() {
    static const Shared empty{T()};
    return empty;
  }

  Place* place_;
};

}  // namespace firstdrop
