#include "firstdrop/base/shared.hpp"

#include <atomic>

namespace firstdrop {

// The holder that is copied keeps the value alive, so counting up needs no memory ordering.
// Counting down needs it: every use of the value by other holders must come before the last holder
// deletes or changes it.

void HolderCount::add() {
  std::atomic_ref(count_).fetch_add(1, std::memory_order_relaxed);
}

bool HolderCount::drop() {
  return std::atomic_ref(count_).fetch_sub(1, std::memory_order_acq_rel) == 1;
}

bool HolderCount::is_one() const {
  return std::atomic_ref(count_).load(std::memory_order_acquire) == 1;
}

}  // namespace firstdrop
