/// @file
/// What-if: values that override a recipe's own, and all combinations of several of them.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace firstdrop {

/// A value that overrides a recipe's own, or a key to leave out.
struct Override {
  std::vector<std::string> path;  ///< the keys, outermost first: {"site", "altitude"}
  std::string json;               ///< the value as JSON; empty: leave the key out
  std::string said_by;            ///< the option, for messages: "--set"

  std::string key() const;    ///< "site.altitude"
  std::string words() const;  ///< the value for people: "900 m"; "left out"
};

/// `{"site.altitude": "900 m", …}` in their order, with null for a key that is left out.
std::string values_json(const std::vector<Override>& values);

/// Reads "site.altitude=900 m". The value comes after the first =. It is a number, true, false or
/// null as in JSON, a JSON text, object or list, or else plain text. An empty value leaves the key
/// out. Throws InputError for a text without key and value, broken JSON, control characters, and
/// text that isn't UTF-8. `said_by` names the option in the message. check_override() says whether
/// a recipe has such a key.
Override parse_override(std::string_view text, const std::string& said_by);

/// The values that one key takes, in order.
class Axis {
 public:
  /// Reads "charge=100 g,200 g,500 g", each value as parse_override() takes it. A comma that
  /// belongs to a value must be within quotes or brackets. Also reads a range, "charge=100 g..500 g
  /// by 50 g": from the first value to the last in even steps, up or down, all in the same unit. A
  /// last step beyond the end is left out. Steps are exact decimals: from 0.1 by 0.1, the third
  /// value is 0.3. Throws InputError as parse_override() does, and for a range without a step above
  /// zero.
  Axis(std::string_view text, const std::string& said_by);

  /// The key, as Override::path.
  const std::vector<std::string>& path() const { return path_; }
  /// Number of values; at least 1.
  std::uint64_t size() const { return size_; }
  /// One of the values, in their order.
  Override operator[](std::uint64_t index) const;  ///< index < size()

 private:
  bool read_range(std::string_view words);

  std::vector<std::string> path_;
  std::string said_by_;
  std::uint64_t size_ = 0;
  std::vector<std::string> values_;  // as JSON
  // Or a range: first + index x step, in units of the last decimal.
  std::int64_t first_ = 0;
  std::int64_t step_ = 0;
  int decimals_ = 0;
  std::string unit_;  // with the blank before it
};

/// A grid with more combinations is refused, because nobody can wait for it.
inline constexpr std::uint64_t most_grid_points = 1'000'000'000;

/// All combinations of the axes' values, the last axis fastest, together with values that stay
/// fixed.
class RecipeGrid {
 public:
  /// A grid with a single point that changes nothing.
  RecipeGrid() = default;
  /// Reads the texts of --set and --vary, each in the order given. Throws InputError as
  /// parse_override() does, for a key that is given twice, and for more than most_grid_points.
  RecipeGrid(const std::vector<std::string>& set, const std::vector<std::string>& vary);

  /// The values that stay fixed.
  const std::vector<Override>& set() const { return set_; }
  /// The keys that vary, with their values.
  const std::vector<Axis>& axes() const { return axes_; }
  /// Whether there are axes.
  bool varies() const { return !axes_.empty(); }
  /// Number of points: the product of the axes' sizes, 1 without axes.
  std::uint64_t size() const { return size_; }

  /// The varying values at one point of the grid, in the order of the axes; index < size().
  std::vector<Override> varied(std::uint64_t index) const;
  /// The fixed values and then the varying ones, as RecipeDocument::read() takes them.
  std::vector<Override> point(std::uint64_t index) const;

 private:
  std::vector<Override> set_;
  std::vector<Axis> axes_;
  std::uint64_t size_ = 1;
};

}  // namespace firstdrop
