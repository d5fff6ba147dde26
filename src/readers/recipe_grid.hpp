/// @file
/// What-if: values in place of a recipe's own, and all combinations of several of them.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace firstdrop {

/// A value in place of a recipe's own, or a key that is left out.
struct Override {
  std::vector<std::string> path;  ///< of keys: {"site", "altitude"}
  std::string json;               ///< the value as JSON; empty: the key is left out
  std::string said_by;            ///< the option, for messages: "--set"

  std::string key() const;    ///< "site.altitude"
  std::string words() const;  ///< the value for people: "900 m"; "left out"
};

/// `{"site.altitude": "900 m", …}`, null for a key that is left out; in their order.
std::string values_json(const std::vector<Override>& values);

/// Reads "site.altitude=900 m". After the first = comes the value: a number, true, false or null as
/// JSON has them, a JSON text, object or list, or else plain text. Nothing there leaves the key
/// out. Throws InputError for what is no key and value, broken JSON, or no UTF-8; `said_by` names
/// the option in its words. Whether a recipe has such a key, check_override() says.
Override parse_override(std::string_view text, const std::string& said_by);

/// The values that one key takes, one after the other.
class Axis {
 public:
  /// Reads "charge=100 g,200 g,500 g", each as parse_override() takes it; a comma that belongs to a
  /// value stands in its quotes or brackets. Or "charge=100 g..500 g by 50 g": from the first to
  /// the last in even steps, up or down, all in the same unit; a last step that would lead beyond
  /// the end is left out. Steps are decimal: by 0.1 the third is 0.3. Throws InputError as
  /// parse_override() does, and for a range without a step above zero.
  Axis(std::string_view text, const std::string& said_by);

  /// The key, as Override::path.
  const std::vector<std::string>& path() const { return path_; }
  /// How many values; 1 at least.
  std::uint64_t size() const { return size_; }
  /// One of them, in their order.
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

/// More combinations than anybody can wait for are refused.
inline constexpr std::uint64_t most_grid_points = 1'000'000'000;

/// All combinations of the axes' values, the last axis fastest, beside values that stay.
class RecipeGrid {
 public:
  /// A single point, at which nothing is changed.
  RecipeGrid() = default;
  /// The texts of --set and --vary, each in the order given. Throws InputError, also for a key that
  /// is given twice and for more than most_grid_points.
  RecipeGrid(const std::vector<std::string>& set, const std::vector<std::string>& vary);

  /// The values that stay.
  const std::vector<Override>& set() const { return set_; }
  /// The values that vary.
  const std::vector<Axis>& axes() const { return axes_; }
  /// Whether there are axes.
  bool varies() const { return !axes_.empty(); }
  /// How many points: the product of the axes' sizes, 1 without axes.
  std::uint64_t size() const { return size_; }

  /// What varies, at one point of the grid, in the order of the axes; index < size().
  std::vector<Override> varied(std::uint64_t index) const;
  /// The same after what stays: all that RecipeDocument::read() puts in.
  std::vector<Override> point(std::uint64_t index) const;

 private:
  std::vector<Override> set_;
  std::vector<Axis> axes_;
  std::uint64_t size_ = 1;
};

}  // namespace firstdrop
