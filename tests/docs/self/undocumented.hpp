// A header for the test of the test: each thing in it lacks words in one way.
#pragma once

namespace firstdrop {

/// Says what it does and no more.
double without_range(double number);

/// Leads to @ref no_such_thing. Range: any number. Source: definition.
double with_a_dead_link(double number);

/// Has one value with words.
enum class HalfSaidChoice {
  one,  ///< the first
  two,
};

}  // namespace firstdrop
