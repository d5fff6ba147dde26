// Records the arguments of every call to exp, log, pow and similar functions, for bench_plan_cost.
// The calls are those of one plan without sampling of each example. The linker replaces libm's
// functions with those below (ld's --wrap). It does so in this program only, so the program that is
// timed doesn't record anything.
//
//   bench_record_libm_calls > calls        lines like "hedge-lavender expm1 -0x1.8p-2 0"
#include <cstdio>
#include <string>
#include <vector>

#include "brief_plan.hpp"
#include "examples.hpp"

namespace {

struct Call {
  const char* function;
  double first;
  double second;
};

bool recording = false;
std::vector<Call> calls;

void record(const char* function, double first, double second = 0.0) {
  if (recording) calls.push_back({function, first, second});
}

}  // namespace

// NOLINTBEGIN(bugprone-reserved-identifier): ld's names.
#define FIRSTDROP_RECORD(name)                \
  extern "C" double __real_##name(double);    \
  extern "C" double __wrap_##name(double);    \
  extern "C" double __wrap_##name(double x) { \
    record(#name, x);                         \
    return __real_##name(x);                  \
  }
FIRSTDROP_RECORD(exp)
FIRSTDROP_RECORD(exp2)
FIRSTDROP_RECORD(expm1)
FIRSTDROP_RECORD(log)
FIRSTDROP_RECORD(log2)
FIRSTDROP_RECORD(log10)
FIRSTDROP_RECORD(log1p)
FIRSTDROP_RECORD(cbrt)
extern "C" double __real_pow(double, double);
extern "C" double __wrap_pow(double, double);
extern "C" double __wrap_pow(double x, double y) {
  record("pow", x, y);
  return __real_pow(x, y);
}
// NOLINTEND(bugprone-reserved-identifier)

int main() {
  for (const Example& example : examples()) {
    // Reads the tables and makes a first plan before anything is recorded.
    brief_plan(example.recipe, shipped_tables());
    calls.clear();
    recording = true;
    brief_plan(example.recipe, shipped_tables());
    recording = false;
    for (const Call& call : calls) {
      std::printf("%s %s %a %a\n", example.name.c_str(), call.function, call.first, call.second);
    }
  }
  return 0;
}
