// Many JSON documents in one text, told apart piece by piece: JSON Lines, objects one after the
// other, or lists of objects, whose items come one by one.
//
// Only strings, brackets and line ends are followed here; what a document says is for the strict
// reader to judge. No valid document is ever cut. After a broken one the search goes on where the
// next can be seen to begin: at a line that opens one, no further in than the broken one began,
// where nothing could stand inside of it.
#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <string>
#include <string_view>

namespace firstdrop {

/// As much as the program takes for one recipe by itself.
inline constexpr std::size_t longest_record = 4U << 20U;

struct Record {
  std::string_view text;    ///< without blanks around it; of use during the call only
  std::int64_t line = 1;    ///< in which it begins, from 1
  std::int64_t column = 1;  ///< at which it begins, from 1, in characters

  // What the splitter itself finds wrong, in place of a text: too long, or between two records.
  std::string_view found = {};
  std::string_view wanted = {};
  bool is_fault() const { return !found.empty(); }
};

class RecordSplitter {
 public:
  using Take = std::function<void(const Record&)>;

  /// The next bytes of the text, however many. Calls `take` for each record that has come to its
  /// end, in order. Records do not depend on how the text was cut into pieces.
  void add(std::string_view bytes, const Take& take);
  /// The text is at its end.
  void finish(const Take& take);

 private:
  // Where in the text we are: between records, inside of one, past its last bracket but perhaps not
  // at its end, or in something that is no object and goes on to the end of its line.
  enum class State { between, inside, past, rest };
  // In a list: what has to come next.
  enum class Next { item_or_end, item, comma_or_end };

  void split(const Take& take);
  void between(const Take& take);
  void inside(const Take& take);
  void past(const Take& take);
  void rest(const Take& take);
  void in_list(char byte, const Take& take);
  void begin(State state);
  void end(std::size_t end, const Take& take);
  void fault(std::string_view found, std::string_view wanted, const Take& take);
  void line_end();
  bool begins_anew(char byte) const;
  bool value_may_follow() const;
  void note_last(std::size_t end);
  void hold_what_is_left();
  std::int64_t column();
  std::size_t offset_in_line() const;

  // The piece at hand and the place in it.
  std::string_view bytes_;
  std::size_t at_ = 0;
  std::size_t begin_ = 0;  // of the record, or of its part in this piece

  State state_ = State::between;
  bool list_ = false;
  Next next_ = Next::item_or_end;

  // Of the open record.
  std::string held_;  // its part in earlier pieces
  std::size_t length_before_ = 0;
  std::int64_t record_line_ = 1;
  std::int64_t record_column_ = 1;
  std::size_t record_offset_ = 0;  // bytes in its line before it
  std::uint64_t lists_ = 0;        // one bit for each open bracket: whether it is [
  std::size_t depth_ = 0;
  bool broken_ = false;
  bool in_string_ = false;
  bool escaped_ = false;
  char last_ = 0;  // its last byte, blanks aside, up to the line at hand

  // Of the line at hand.
  std::int64_t line_ = 1;
  bool blank_so_far_ = true;
  std::size_t line_begin_ = 0;    // in this piece
  std::size_t bytes_before_ = 0;  // of this line, in earlier pieces
  std::size_t counted_ = 0;       // in this piece, characters up to here are in the next number
  std::int64_t characters_ = 0;

  std::string mark_;  // what may be the beginning of a byte order mark
  bool begun_ = false;
};

}  // namespace firstdrop
