#include "firstdrop/base/shared.hpp"

#include <atomic>

namespace firstdrop {

// Who copies holds the value already, so that no order is needed. Who lets go has done with the
// value before the last holder takes it away or changes it.

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
