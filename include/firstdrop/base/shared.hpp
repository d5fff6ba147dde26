/// @file
/// Copy-on-write: copies of a value share one object until one of them is changed.
#pragma once

#include <utility>

namespace firstdrop {

/// Counts the holders of a value. Many threads may use it at once, because it counts by atomic
/// operations. They are in shared.cpp, because the headers atomic and memory are long and this
/// header is included nearly everywhere.
class HolderCount {
 public:
  /// Adds a holder.
  void add();
  /// Removes a holder. Returns whether it was the last, which may then delete the value.
  bool drop();
  /// Whether there is only one holder, which may then change the value.
  bool is_one() const;

 private:
  mutable int count_ = 1;
};

/// A value that is cheap to copy: copies share one object and only count its holders. A plant has
/// hundreds of texts, and every plan of a batch holds its plant. It still behaves as a value:
/// changing one copy doesn't affect the others. Many threads may read it at once. A moved-from
/// object may only be assigned to or destroyed.
template <class T>
class Shared {
 public:
  /// A default-constructed value. All of these share one object, too.
  Shared() : Shared(nothing()) {}
  /// Takes over a value, which copies will share.
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
  /// The value, for reading.
  const T& operator*() const { return place_->value; }
  const T* operator->() const { return &place_->value; }
  operator const T&() const { return place_->value; }  // NOLINT(google-explicit-constructor)
  /// @}

  /// The value, for changing. If other copies share it, this one gets a value of its own first. The
  /// reference may be used until this object is copied.
  T& change() {
    if (!place_->holders.is_one()) *this = Shared(place_->value);
    return place_->value;
  }

  /// Whether both share one object. Equal values can also be in two separate objects.
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
