#include "json/record_splitter.hpp"

#include <algorithm>
#include <array>

namespace firstdrop {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

// As many brackets as are told apart; the strict reader takes half of it.
constexpr std::size_t deepest = 64;

using Stops = std::array<bool, 256>;
constexpr Stops stops(std::string_view bytes) {
  Stops table{};
  for (const char byte : bytes) table[static_cast<unsigned char>(byte)] = true;
  return table;
}
constexpr Stops outside_strings = stops("\"{}[]\n");
constexpr Stops in_strings = stops("\"\\\n");
constexpr Stops in_rest_of_item = stops("\",]\n");

std::size_t next_stop(std::string_view text, std::size_t at, const Stops& table) {
  const char* const end = text.data() + text.size();
  const char* byte = text.data() + at;
  while (byte != end && !table[static_cast<unsigned char>(*byte)]) ++byte;
  return static_cast<std::size_t>(byte - text.data());
}

bool is_blank(char byte) {
  return byte == ' ' || byte == '\t' || byte == '\r';
}
bool is_space(char byte) {
  return is_blank(byte) || byte == '\n';
}

std::int64_t characters_in(std::string_view text) {
  return std::count_if(text.begin(), text.end(), [](char byte) {
    return (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
  });
}

}  // namespace

void RecordSplitter::add(std::string_view bytes, const Take& take) {
  if (begun_) {
    bytes_ = bytes;
    split(take);
    return;
  }
  // A byte order mark is no part of the text, wherever it is cut.
  const std::size_t taken = std::min(bytes.size(), byte_order_mark.size() - mark_.size());
  mark_ += bytes.substr(0, taken);
  if (byte_order_mark.starts_with(mark_) && mark_.size() < byte_order_mark.size()) return;
  begun_ = true;
  const std::string first = mark_ == byte_order_mark ? "" : mark_;
  bytes_ = first;
  split(take);
  bytes_ = bytes.substr(taken);
  split(take);
}

void RecordSplitter::finish(const Take& take) {
  if (!begun_) {
    begun_ = true;
    bytes_ = mark_;
    split(take);
  }
  bytes_ = {};
  at_ = begin_ = 0;
  if (state_ != State::between) end(0, take);
  if (list_) {
    fault("the end of the text in a list of recipes", "a comma or ] after the last of them", take);
  }
  list_ = false;
}

void RecordSplitter::split(const Take& take) {
  at_ = begin_ = line_begin_ = counted_ = 0;
  while (at_ < bytes_.size()) {
    switch (state_) {
      case State::between:
        between(take);
        break;
      case State::inside:
        inside(take);
        break;
      case State::past:
        past(take);
        break;
      case State::rest:
        rest(take);
        break;
    }
  }
  hold_what_is_left();
}

void RecordSplitter::hold_what_is_left() {
  characters_ += characters_in(bytes_.substr(counted_));
  bytes_before_ += bytes_.size() - line_begin_;
  if (state_ == State::between) return;
  if (state_ == State::inside) note_last(bytes_.size());
  length_before_ += bytes_.size() - begin_;
  if (length_before_ > longest_record) {
    held_.clear();
    held_.shrink_to_fit();
  } else {
    held_ += bytes_.substr(begin_);
  }
}

void RecordSplitter::between(const Take& take) {
  while (at_ < bytes_.size() && is_space(bytes_[at_])) {
    if (bytes_[at_] == '\n')
      line_end();
    else
      ++at_;
  }
  if (at_ == bytes_.size()) return;
  const char byte = bytes_[at_];
  if (list_) {
    in_list(byte, take);
  } else if (byte == '[') {
    list_ = true;
    next_ = Next::item_or_end;
    ++at_;
  } else {
    begin(byte == '{' ? State::inside : State::rest);
  }
}

void RecordSplitter::in_list(char byte, const Take& take) {
  if (byte == '[' && offset_in_line() == 0) {
    fault("a list of recipes that begins inside of another", "a comma or ] before it", take);
    next_ = Next::item_or_end;
    ++at_;
  } else if (byte == ',') {
    if (next_ != Next::comma_or_end) fault("a comma", "a recipe before it", take);
    next_ = Next::item;
    ++at_;
  } else if (byte == ']') {
    if (next_ == Next::item) fault("] after a comma", "a recipe, or no comma", take);
    list_ = false;
    ++at_;
  } else {
    if (next_ == Next::comma_or_end)
      fault("a recipe right after another in a list", "a comma between them", take);
    next_ = Next::comma_or_end;
    begin(byte == '{' || byte == '[' ? State::inside : State::rest);
  }
}

void RecordSplitter::begin(State state) {
  state_ = state;
  begin_ = at_;
  length_before_ = 0;
  record_line_ = line_;
  record_column_ = column();
  record_offset_ = offset_in_line();
  lists_ = 0;
  depth_ = 0;
  broken_ = in_string_ = escaped_ = false;
  blank_so_far_ = false;
  last_ = 0;
}

void RecordSplitter::inside(const Take& take) {
  while (at_ < bytes_.size()) {
    if (escaped_) {
      escaped_ = false;
      if (bytes_[at_] != '\n') ++at_;
      continue;
    }
    if (in_string_) {
      at_ = next_stop(bytes_, at_, in_strings);
      if (at_ == bytes_.size()) return;
      if (bytes_[at_] == '\n') {
        broken_ = true;  // a string of JSON never goes over a line end
        in_string_ = false;
        continue;
      }
      escaped_ = bytes_[at_] == '\\';
      in_string_ = escaped_;
      ++at_;
      continue;
    }
    if (blank_so_far_) {
      while (at_ < bytes_.size() && is_blank(bytes_[at_])) ++at_;
      if (at_ == bytes_.size()) return;
      if (bytes_[at_] != '\n') {
        if (begins_anew(bytes_[at_])) {
          end(at_, take);
          next_ = Next::item_or_end;  // if a comma was there, the broken one has it
          return;
        }
        blank_so_far_ = false;
      }
    }
    at_ = next_stop(bytes_, at_, outside_strings);
    if (at_ == bytes_.size()) return;
    const char byte = bytes_[at_];
    if (byte == '\n') {
      note_last(at_);
      line_end();
      continue;
    }
    ++at_;
    if (byte == '"') {
      in_string_ = true;
    } else if (byte == '{' || byte == '[') {
      lists_ = lists_ << 1U | (byte == '[' ? 1U : 0U);
      broken_ = broken_ || depth_ == deepest;
      ++depth_;
    } else {
      broken_ = broken_ || (lists_ & 1U) != (byte == ']' ? 1U : 0U);
      lists_ >>= 1U;
      if (--depth_ == 0) {
        state_ = State::past;
        return;
      }
    }
  }
}

// Whether a line that opens with this byte cannot go on with the open record.
bool RecordSplitter::begins_anew(char byte) const {
  if (offset_in_line() > record_offset_) return false;
  if (byte == '{' || byte == '[') return broken_ || !value_may_follow();
  return byte == ']' && list_ && (lists_ & 1U) == 0;
}

bool RecordSplitter::value_may_follow() const {
  if (last_ == ':') return true;
  return (last_ == '[' || last_ == ',') && (lists_ & 1U) != 0;
}

void RecordSplitter::note_last(std::size_t end) {
  const std::size_t from = std::max(begin_, line_begin_);
  while (end > from && is_blank(bytes_[end - 1])) --end;
  if (end > from) last_ = bytes_[end - 1];
}

void RecordSplitter::past(const Take& take) {
  while (at_ < bytes_.size() && is_blank(bytes_[at_])) ++at_;
  if (at_ == bytes_.size()) return;
  const char byte = bytes_[at_];
  const bool ends =
      byte == '\n' || byte == '{' || byte == '[' || (list_ && (byte == ',' || byte == ']'));
  if (ends)
    end(at_, take);
  else
    state_ = State::rest;  // belongs to it, and spoils it
}

void RecordSplitter::rest(const Take& take) {
  if (!list_) {
    at_ = std::min(bytes_.find('\n', at_), bytes_.size());
    if (at_ < bytes_.size()) end(at_, take);
    return;
  }
  while (at_ < bytes_.size()) {
    if (escaped_) {
      escaped_ = false;
      if (bytes_[at_] != '\n') ++at_;
      continue;
    }
    at_ = next_stop(bytes_, at_, in_string_ ? in_strings : in_rest_of_item);
    if (at_ == bytes_.size()) return;
    const char byte = bytes_[at_];
    if (byte == '\n' || byte == ',' || byte == ']') {
      end(at_, take);
      return;
    }
    ++at_;
    escaped_ = byte == '\\';
    if (byte == '"') in_string_ = !in_string_;
  }
}

void RecordSplitter::end(std::size_t end, const Take& take) {
  Record record;
  record.line = record_line_;
  record.column = record_column_;
  if (length_before_ + (end - begin_) > longest_record) {
    record.found = "more than 4 MiB in one recipe";
    record.wanted = "a recipe of some kilobytes";
  } else {
    const std::string_view part = bytes_.substr(begin_, end - begin_);
    if (held_.empty()) {
      record.text = part;
    } else {
      held_ += part;
      record.text = held_;
    }
    while (!record.text.empty() && is_space(record.text.back())) record.text.remove_suffix(1);
  }
  state_ = State::between;
  take(record);
  held_.clear();
}

void RecordSplitter::fault(std::string_view found, std::string_view wanted, const Take& take) {
  Record record;
  record.line = line_;
  record.column = column();
  record.found = found;
  record.wanted = wanted;
  take(record);
}

void RecordSplitter::line_end() {
  ++at_;
  ++line_;
  line_begin_ = counted_ = at_;
  bytes_before_ = 0;
  characters_ = 0;
  blank_so_far_ = true;
}

std::int64_t RecordSplitter::column() {
  if (at_ > counted_) {
    characters_ += characters_in(bytes_.substr(counted_, at_ - counted_));
    counted_ = at_;
  }
  return characters_ + 1;
}

std::size_t RecordSplitter::offset_in_line() const {
  return bytes_before_ + (at_ - line_begin_);
}

}  // namespace firstdrop
