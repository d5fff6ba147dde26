// A header for the test of the test: each thing in it lacks words in one way, save the first.
#pragma once

namespace firstdrop {

/// Is as it should be. Range: any number. Source: definition.
double twice(double number);

double without_words(double number);

/// Says what it does and no more.
double without_range(double number);

/// Leads to @ref no_such_thing. Range: any number. Source: definition.
double with_a_dead_link(double number);

/// Has one member with words.
struct HalfSaid {
  double said = 0.0;  ///< a number
  double unsaid = 0.0;
};

enum class Unsaid { one };

/// Has one value with words.
enum class HalfSaidChoice {
  one,  ///< the first
  two,
};

}  // namespace firstdrop
