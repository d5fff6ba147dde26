#include "json/records.hpp"

#include <algorithm>
#include <utility>

#include "json/json_reader.hpp"

namespace firstdrop {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view blanks = " \t\r\n";

void move_past(char byte, PlaceInFile& place) {
  if (byte == '\n') {
    ++place.line;
    place.column = 1;
  } else if ((static_cast<unsigned char>(byte) & 0xC0U) != 0x80U) {
    ++place.column;
  }
}

// Removes blanks around the text, and a byte order mark in the first line. Moves `place` to where
// the rest begins.
std::string_view trimmed(std::string_view text, PlaceInFile& place) {
  if (place.line == 1 && text.starts_with(byte_order_mark)) {
    text.remove_prefix(byte_order_mark.size());
  }
  const std::size_t begin = std::min(text.find_first_not_of(blanks), text.size());
  for (const char byte : text.substr(0, begin)) move_past(byte, place);
  text.remove_prefix(begin);
  return text.substr(0, text.find_last_not_of(blanks) + 1);
}

// Keeps track of strings and brackets in JSON, byte by byte.
class Nesting {
 public:
  void step(char byte) {
    if (in_string_) {
      if (byte == '"' && !escaped_) in_string_ = false;
      escaped_ = byte == '\\' && !escaped_;
    } else if (byte == '"') {
      in_string_ = true;
    } else if (byte == '{' || byte == '[') {
      ++depth_;
    } else if (byte == '}' || byte == ']') {
      --depth_;
    }
  }
  bool in_string() const { return in_string_; }
  int depth() const { return depth_; }

 private:
  bool in_string_ = false;
  bool escaped_ = false;
  int depth_ = 0;
};

// Whether a line starts with an object and closes as many brackets as it opens.
bool is_whole_object(std::string_view line) {
  if (!line.starts_with('{')) return false;
  Nesting nesting;
  for (const char byte : line) nesting.step(byte);
  return !nesting.in_string() && nesting.depth() == 0;
}

}  // namespace

PlaceInFile place_in_file(const Fault& fault, const PlaceInFile& record) {
  if (fault.line == 0) return {record.line, 0};
  return {record.line + fault.line - 1, fault.column + (fault.line == 1 ? record.column - 1 : 0)};
}

void RecordReader::add(std::string_view bytes, const Take& take) {
  while (!bytes.empty() && form_ != Form::document) {
    const std::size_t end = bytes.find('\n');
    if (end == std::string_view::npos) break;
    if (held_.empty() && form_ == Form::lines) {
      take_line(bytes.substr(0, end), take);
    } else {
      hold(bytes.substr(0, end + 1));
      PlaceInFile begin;
      const std::string_view line = trimmed(held_, begin);
      if (form_ == Form::unknown && !line.empty()) {
        form_ = is_whole_object(line) ? Form::lines : Form::document;
      }
      if (form_ == Form::lines || line.empty()) {
        take_line(held_, take);
        held_.clear();
      }
    }
    bytes.remove_prefix(end + 1);
  }
  hold(bytes);
}

void RecordReader::finish(const Take& take) {
  if (form_ == Form::lines)
    take_line(held_, take);
  else
    take_document(take);
  held_.clear();
}

void RecordReader::hold(std::string_view bytes) {
  const std::size_t most = form_ == Form::lines ? longest_line + 1 : longest_document;
  const std::size_t room = most - std::min(most, held_.size());
  too_long_ = too_long_ || bytes.size() > room;
  held_ += bytes.substr(0, room);
}

void RecordReader::take_line(std::string_view line, const Take& take) {
  Record record;
  record.begin.line = line_++;
  if (line.ends_with('\n')) line.remove_suffix(1);
  record.text = trimmed(line, record.begin);
  if (std::exchange(too_long_, false) || line.size() > longest_line) {
    record.text = {};
    record.found = "more than 4 MiB in one line";
    record.wanted = "a recipe of some kilobytes";
  }
  if (!record.text.empty() || record.is_fault()) take(record);
}

void RecordReader::take_document(const Take& take) {
  Record record;
  record.begin.line = line_;
  record.text = trimmed(held_, record.begin);
  is_list_ = record.text.starts_with('[');
  if (too_long_) {
    record.text = {};
    record.found = "a list or document of more than 64 MiB";
    record.wanted = "so many recipes as JSON Lines, one on each line";
  }
  // A list that isn't valid JSON stays one record. The strict reader then reports the fault and its
  // place.
  if (is_list_ && !too_long_ && json::is_json(record.text)) {
    take_items(record, take);
  } else if (!record.text.empty() || record.is_fault()) {
    take(record);
  }
}

void RecordReader::take_items(const Record& list, const Take& take) {
  Nesting nesting;
  PlaceInFile place = list.begin;
  Record item;
  std::size_t begin = 0;
  for (std::size_t i = 0; i < list.text.size(); ++i) {
    const char byte = list.text[i];
    const bool between = !nesting.in_string() && nesting.depth() == 1;
    const bool ends = between && (byte == ',' || byte == ']');
    if (ends) {
      item.text = trimmed(list.text.substr(begin, i - begin), item.begin);
      if (!item.text.empty()) take(item);
    }
    nesting.step(byte);
    move_past(byte, place);
    if (ends || i == 0) {
      begin = i + 1;
      item.begin = place;
    }
  }
}

}  // namespace firstdrop
