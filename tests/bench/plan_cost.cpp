// Compares the time of one plan without sampling, in process, with the time of the calls to exp,
// log, pow and similar functions that it makes.
//
//   bench_record_libm_calls | bench_plan_cost
//
// The calls of the plan are repeated with the same arguments, one function after the other. That is
// the least they can cost, because no call waits for the result of another. Plan and calls are
// timed alternately, and the medians are printed as a Markdown table. It's an error if standard
// input has no calls for an example.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <cstddef>
#include <cstdlib>
#include <iostream>
#include <map>
#include <sstream>
#include <string>
#include <vector>

#include "brief_plan.hpp"
#include "examples.hpp"
#include "libm_calls.hpp"

namespace {

using Clock = std::chrono::steady_clock;

struct Arguments {
  std::vector<double> first;
  std::vector<double> second;
};
/// The arguments of all calls in one plan, for each of libm_functions.
using Calls = std::array<Arguments, libm_functions.size()>;

// Uses strtod, because streams don't read hexadecimal floating-point numbers.
std::map<std::string, Calls> read_calls(std::istream& in) {
  std::map<std::string, Calls> all;
  std::string example, function, first, second;
  while (in >> example >> function >> first >> second) {
    const auto found =
        std::find_if(libm_functions.begin(), libm_functions.end(),
                     [&](const LibmFunction& known) { return function == known.name; });
    Arguments& arguments =
        all[example].at(static_cast<std::size_t>(found - libm_functions.begin()));
    arguments.first.push_back(std::strtod(first.c_str(), nullptr));
    arguments.second.push_back(std::strtod(second.c_str(), nullptr));
  }
  return all;
}

volatile double sink;

void make_again(const Calls& calls) {
  double sum = 0.0;
  for (std::size_t f = 0; f < calls.size(); ++f) {
    const Arguments& a = calls[f];
    if (const auto one = libm_functions[f].one) {
      for (const double x : a.first) sum += one(x);
    } else {
      for (std::size_t i = 0; i < a.first.size(); ++i) {
        sum += libm_functions[f].two(a.first[i], a.second[i]);
      }
    }
  }
  sink = sum;
}

template <class Work>
double microseconds(int times, Work work) {
  const auto begin = Clock::now();
  for (int i = 0; i < times; ++i) work();
  return std::chrono::duration<double, std::micro>(Clock::now() - begin).count() / times;
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace

int main() {
  constexpr int rounds = 101;
  constexpr int plans_a_round = 50;
  const std::map<std::string, Calls> calls_of = read_calls(std::cin);

  std::string head = "| one plan without sampling |";
  for (const LibmFunction& f : libm_functions) head += fmt::format(" {} |", f.name);
  fmt::print("{} calls, µs | plan, µs | beyond, µs |\n", head);
  fmt::print("| --- |");
  for (std::size_t i = 0; i < libm_functions.size() + 3; ++i) fmt::print(" ---: |");
  fmt::print("\n");

  std::vector<double> all_calls, all_plans, all_beyond;
  for (const Example& example : examples()) {
    const auto found = calls_of.find(example.name);
    if (found == calls_of.end()) {
      std::cerr << "bench_plan_cost: no calls of " << example.name << " on standard input\n";
      return 1;
    }
    const Calls& calls = found->second;
    std::vector<double> of_calls, of_plan, beyond;
    for (int round = 0; round < rounds; ++round) {
      of_calls.push_back(microseconds(plans_a_round, [&] { make_again(calls); }));
      of_plan.push_back(microseconds(plans_a_round, [&] {
        sink = brief_plan(example.recipe, shipped_tables()).boiling.kelvin();
      }));
      beyond.push_back(of_plan.back() - of_calls.back());
    }
    fmt::print("| {} |", example.name);
    for (const Arguments& arguments : calls) fmt::print(" {} |", arguments.first.size());
    fmt::print(" {:.2f} | {:.2f} | {:.2f} |\n", median(of_calls), median(of_plan), median(beyond));
    all_calls.push_back(median(of_calls));
    all_plans.push_back(median(of_plan));
    all_beyond.push_back(median(beyond));
  }
  fmt::print("| median |");
  for (std::size_t i = 0; i < libm_functions.size(); ++i) fmt::print(" |");
  fmt::print(" {:.2f} | {:.2f} | {:.2f} |\n", median(all_calls), median(all_plans),
             median(all_beyond));
  return 0;
}
