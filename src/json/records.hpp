// Splits the text of a batch, which arrives in pieces, into recipes. The text is JSON Lines, one
// list or one document.
//
// JSON Lines take constant memory. A list or a document is held until its end. A text is JSON Lines
// if the name of its file ends in .jsonl, or if its first line that isn't blank is a complete
// object.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

#include "firstdrop/base/error.hpp"

namespace firstdrop {

/// The longest line of JSON Lines, and the longest list or document, in bytes.
inline constexpr std::size_t longest_line = 4U << 20U;
inline constexpr std::size_t longest_document = 64U << 20U;

/// Where something begins in a file, from 1, the column in characters.
struct PlaceInFile {
  std::int64_t line = 1;
  std::int64_t column = 1;
};

/// One recipe, or the fault in the text in its place.
struct Record {
  std::string_view text = {};    ///< without blanks around it; valid during the call only
  PlaceInFile begin = {};        ///< of the text
  std::string_view found = {};   ///< set if the text was too long; then `text` is empty
  std::string_view wanted = {};  ///< set with `found`
  bool is_fault() const { return !found.empty(); }
};

/// Where in the file a fault of a record is. The reader counts from the beginning of the record. A
/// fault without a place gets the record's line, and 0 for a column.
PlaceInFile place_in_file(const Fault& fault, const PlaceInFile& record);

class RecordReader {
 public:
  using Take = std::function<void(const Record&)>;

  explicit RecordReader(std::string_view file_name)
      : form_(file_name.ends_with(".jsonl") ? Form::lines : Form::unknown) {}

  /// The next bytes of the text, any number of them. Calls `take` for each record that is complete,
  /// in order. The records don't depend on how the text was cut into pieces.
  void add(std::string_view bytes, const Take& take);
  /// Ends the text. Calls `take` for the records that are left.
  void finish(const Take& take);
  /// Whether the text was one list. Known after finish().
  bool is_list() const { return is_list_; }

 private:
  enum class Form { unknown, lines, document };

  void hold(std::string_view bytes);
  void take_line(std::string_view line, const Take& take);
  void take_document(const Take& take);
  static void take_items(const Record& list, const Take& take);

  Form form_;
  bool is_list_ = false;
  std::string held_;       // the start of a line, list or document that isn't complete
  bool too_long_ = false;  // part of it was dropped
  std::int64_t line_ = 1;  // where `held_` begins
};

}  // namespace firstdrop
