#include "json/json_reader.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <charconv>
#include <nlohmann/json.hpp>
#include <type_traits>
#include <utility>

#include "base/suggestion.hpp"
#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "quantity/typed_number.hpp"
#include "quantity/water_amount.hpp"
#include "quantity/words.hpp"

namespace firstdrop::json {
namespace {

constexpr std::size_t deepest = 32;
/// In bytes; far more than any recipe or table needs. It limits the memory that a hostile text can
/// take.
constexpr std::size_t longest_text = 8'000'000;
constexpr std::size_t most_faults = 100;
constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";

bool is_continuation(char byte) {
  return (static_cast<unsigned char>(byte) & 0xC0U) == 0x80U;
}

/// The first `most` bytes, or a few less, so that no character is split.
std::string cut(std::string_view text, std::size_t most) {
  if (text.size() <= most) return std::string(text);
  while (most > 0 && is_continuation(text[most])) --most;
  return std::string(text.substr(0, most)) + "…";
}

}  // namespace

std::string pointer_token(std::string_view key) {
  std::string token;
  for (const char byte : visible(cut(key, 80))) {
    if (byte == '~')
      token += "~0";
    else if (byte == '/')
      token += "~1";
    else
      token += byte;
  }
  return token;
}

std::string described(const Node& node) {
  switch (node.kind) {
    case Kind::null:
      return "null";
    case Kind::boolean:
      return node.truth ? "true" : "false";
    case Kind::number:
      return fmt::format("the number {}", node.number);
    case Kind::text:
      return firstdrop::quoted(node.text);
    case Kind::list:
      return "a list";
    case Kind::object:
      return "an object";
  }
  return {};
}

namespace {

struct LineAndColumn {
  int line;
  int column;
};

/// Counts characters, not bytes, to agree with the cursor position in an editor.
LineAndColumn place_of(std::string_view text, std::size_t offset) {
  const auto before = text.substr(0, std::min(offset, text.size()));
  const auto line_start = before.rfind('\n') + 1;  // npos + 1 is 0
  const auto line = std::count(before.begin(), before.end(), '\n') + 1;
  const auto in_line = before.substr(line_start);
  const auto column =
      std::count_if(in_line.begin(), in_line.end(), [](char c) { return !is_continuation(c); }) + 1;
  return {static_cast<int>(line), static_cast<int>(column)};
}

/// Offset of the first byte that isn't UTF-8, or the size of the text.
std::size_t first_not_utf8(std::string_view text) {
  std::size_t at = 0;
  while (at < text.size()) {
    const auto lead = static_cast<unsigned char>(text[at]);
    const std::size_t length = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    if (lead >= 0x80 && visible(text.substr(at, length)).starts_with("\\x")) return at;
    at += length;
  }
  return text.size();
}

/// How many objects and lists are open before this byte.
std::size_t depth_at(std::string_view text, std::size_t at) {
  std::size_t depth = 0;
  bool in_string = false;
  for (std::size_t i = 0; i < at; ++i) {
    const char c = text[i];
    if (in_string && c == '\\')
      ++i;
    else if (c == '"')
      in_string = !in_string;
    else if (!in_string && (c == '{' || c == '['))
      ++depth;
    else if (!in_string && (c == '}' || c == ']') && depth > 0)
      --depth;
  }
  return depth;
}

/// The sign that is missing before a value that begins at this byte: a comma or a colon; else 0.
/// `end` is the last byte before it that isn't blank.
char missing_sign(std::string_view text, std::size_t at, std::size_t end) {
  const auto is_one_of = [](char c, std::string_view all) {
    return all.find(c) != std::string_view::npos;
  };
  if (!is_one_of(text[at], "\"{[-0123456789") || !is_one_of(text[end], "\"}]0123456789el"))
    return 0;
  if (depth_at(text, at) == 0) return 0;
  if (text[end] != '"') return ',';
  // A text is a key after a brace, and a value after a colon or bracket. After a comma it can
  // be either.
  std::size_t begin = end;
  while (begin > 0 && !(text[begin - 1] == '"' && (begin < 2 || text[begin - 2] != '\\'))) --begin;
  if (begin < 2) return 0;
  const std::size_t before = text.find_last_not_of(" \t\r\n", begin - 2);
  if (before == std::string_view::npos) return 0;
  if (text[before] == '{') return ':';
  return text[before] == ':' || text[before] == '[' ? ',' : '\0';
}

/// How to fix a syntax error at this byte. Empty if there's no better hint than the parser's
/// message.
std::string syntax_hint(std::string_view text, std::size_t at) {
  const char here = at < text.size() ? text[at] : ' ';
  const auto before = text.substr(0, std::min(at, text.size())).find_last_not_of(" \t\r\n");
  if (before != std::string_view::npos && text[before] == ',' && (here == '}' || here == ']'))
    return "remove the comma before it";
  if (before != std::string_view::npos && at < text.size())
    if (const char sign = missing_sign(text, at, before))
      return sign == ',' ? "put a comma before it" : "put a colon before it";
  if (here == '/' || here == '#') return "JSON has no comments; use the key \"note\"";
  if (here == '\'') return "use double quotes";
  if (here == '\n' || here == '\r') return "close the quotes on the same line";
  if (at > 0 && text[at - 1] == '\\') return R"(write a backslash itself as \\)";
  if ((here >= 'a' && here <= 'z') || (here >= 'A' && here <= 'Z'))
    return "put text in double quotes";
  return {};
}

/// Whether a token is a complete quoted text or has only the characters of a number.
bool is_whole(std::string_view token) {
  if (token.starts_with('"')) return token.size() > 1 && token.ends_with('"');
  return !token.empty() && token.find_first_not_of("+-.0123456789eE") == std::string_view::npos;
}

/// A fault for a syntax error. It quotes the JSON library's message, which changes with the
/// library's version, so only its prefix is removed. `read` is how many bytes the parser had read,
/// and `token` is the last of them.
Fault syntax_fault(std::string_view text, std::size_t read, std::string_view token,
                   std::string_view message) {
  Fault fault;
  const std::size_t length = read <= text.size() && is_whole(token) ? token.size() : 1;
  std::size_t at = std::min(read - std::min(read, length), text.size());
  if (const std::size_t bad = first_not_utf8(text); bad < std::min(read, text.size())) {
    at = bad;
    fault.found = fmt::format("the byte {}, which is not UTF-8", visible(text.substr(at, 1)));
    fault.wanted = "text in UTF-8";
    fault.hint = "save the file with the encoding UTF-8";
  } else {
    // The message starts with an error number and a position in bytes. Leave both out.
    const std::size_t reason = message.find("syntax error");
    const std::size_t number_end = message.find("] ");
    const std::string_view words = reason < message.size()       ? message.substr(reason)
                                   : number_end < message.size() ? message.substr(number_end + 2)
                                                                 : message;
    fault.found = (words.starts_with("syntax") ? "a " : "") + visible(cut(words, 200));
    fault.wanted = "valid JSON";
    fault.hint = syntax_hint(text, at);
  }
  const auto place = place_of(text, at);
  fault.line = place.line;
  fault.column = place.column;
  return fault;
}

/// Finds where each token of a text begins. The parser reports tokens in their order, but not where
/// they are.
class Tokens {
 public:
  // The parser skips a byte order mark, too.
  explicit Tokens(std::string_view text)
      : text_(text), at_(text.starts_with(byte_order_mark) ? byte_order_mark.size() : 0) {}

  /// Steps past the next token, and returns where it begins.
  std::uint32_t next() {
    while (at_ < text_.size() && (is_blank(text_[at_]) || text_[at_] == ',' || text_[at_] == ':'))
      ++at_;
    const std::size_t begin = at_;
    if (at_ == text_.size()) return static_cast<std::uint32_t>(begin);
    const char first = text_[at_++];
    if (first == '"')
      pass_rest_of_string();
    else if (first != '{' && first != '}' && first != '[' && first != ']')
      while (at_ < text_.size() && !ends_word(text_[at_])) ++at_;
    return static_cast<std::uint32_t>(begin);
  }

 private:
  static bool is_blank(char c) { return c == ' ' || c == '\n' || c == '\r' || c == '\t'; }
  /// Whether this byte ends a number or a literal.
  static bool ends_word(char c) { return is_blank(c) || c == ',' || c == ']' || c == '}'; }
  void pass_rest_of_string() {
    while (at_ < text_.size() && text_[at_] != '"') at_ += text_[at_] == '\\' ? 2U : 1U;
    at_ = std::min(at_ + 1, text_.size());
  }

  std::string_view text_;
  std::size_t at_;
};

/// Receives the parser's events and builds the tree.
class Builder {
 public:
  Builder(std::string_view text, Context& context)
      : text_(text), context_(context), tokens_(text) {}

  // The JSON library prescribes the names and signatures of these functions.
  bool null() {
    put(Kind::null);
    return true;
  }
  bool boolean(bool value) {
    put(Kind::boolean).truth = value;
    return true;
  }
  bool number_integer(std::int64_t value) {
    put(Kind::number).number = static_cast<double>(value);
    return true;
  }
  bool number_unsigned(std::uint64_t value) {
    Node& node = put(Kind::number);
    node.number = static_cast<double>(value);
    node.whole = value;
    return true;
  }
  bool number_float(double value, const std::string& /*as_written*/) {
    put(Kind::number).number = value;
    return true;
  }
  bool string(std::string& value) {
    put(Kind::text).text = std::move(value);
    return true;
  }
  static bool binary(nlohmann::json::binary_t& /*value*/) { return false; }  // never in JSON text
  bool start_object(std::size_t /*size*/) { return open(Kind::object); }
  bool start_array(std::size_t /*size*/) { return open(Kind::list); }
  bool end_object() { return close(); }
  bool end_array() { return close(); }
  bool key(std::string& value) {
    key_ = std::move(value);
    key_begin_ = tokens_.next();
    return true;
  }
  bool parse_error(std::size_t read, const std::string& token,
                   const nlohmann::json::exception& error) {
    context_.add(syntax_fault(text_, read, token, error.what()));
    return false;
  }

  Node take() { return std::move(root_); }

 private:
  Node& put(Kind kind) {
    Node& node = open_.empty() ? root_ : open_.back()->children.emplace_back();
    node.kind = kind;
    node.begin = tokens_.next();
    node.key = std::exchange(key_, {});
    node.key_begin = std::exchange(key_begin_, no_place);
    return node;
  }
  bool open(Kind kind) {
    if (open_.size() == deepest) {
      Fault fault;
      for (std::size_t level = 1; level < open_.size(); ++level) {
        const Node& node = *open_[level];
        const Node& parent = *open_[level - 1];
        fault.pointer += '/';
        fault.pointer += parent.kind == Kind::list ? std::to_string(parent.children.size() - 1)
                                                   : pointer_token(node.key);
      }
      fault.found = fmt::format("more than {} levels of nesting", deepest);
      fault.wanted = fmt::format("at most {} levels", deepest);
      context_.add_at(tokens_.next(), std::move(fault));
      return false;
    }
    // The pointer stays valid, because its parent gets no more children until this node is closed.
    open_.push_back(&put(kind));
    return true;
  }
  bool close() {
    tokens_.next();
    open_.pop_back();
    return true;
  }

  std::string_view text_;
  Context& context_;
  Tokens tokens_;
  Node root_;
  std::string key_;
  std::uint32_t key_begin_ = no_place;
  std::vector<Node*> open_;
};

void refuse_duplicates(const Value& value) {
  const auto& children = value.node().children;
  if (value.is(Kind::object)) {
    const auto refuse = [&](const Node& node) {
      Value(node, value.context(), &value)
          .fault(fmt::format("the key {} a second time", firstdrop::quoted(node.key)),
                 "each key once");
    };
    if (children.size() <= 16) {
      for (std::size_t i = 1; i < children.size(); ++i)
        for (std::size_t j = 0; j < i; ++j)
          if (children[i].key == children[j].key) {
            refuse(children[i]);
            break;
          }
    } else {
      std::vector<const Node*> sorted;
      for (const Node& child : children) sorted.push_back(&child);
      std::stable_sort(sorted.begin(), sorted.end(),
                       [](const Node* a, const Node* b) { return a->key < b->key; });
      for (std::size_t i = 1; i < sorted.size(); ++i)
        if (sorted[i]->key == sorted[i - 1]->key) refuse(*sorted[i]);
    }
  }
  for (const Node& child : children)
    if (!child.children.empty()) refuse_duplicates(Value(child, value.context(), &value));
}

template <class Q>
void refuse_bare_number(const Value& value, const Bounds<Q>& bounds) {
  const std::string number = fmt::format("{}", value.node().number);
  const std::string found = fmt::format("the number {} without a unit", number);
  const QuantityKind kind = kind_within(bounds);
  if constexpr (std::is_same_v<Q, Fraction>) {
    value.fault(found, parse_quantity<Q>(number).fault.wanted, "put it in quotes");
  } else {
    value.fault(found, kind.with_unit,
                fmt::format("put it in quotes, such as \"{} {}\"", number, kind.units.front()));
  }
}

}  // namespace

void Context::add(Fault fault) {
  if (fault.file.empty()) fault.file = file;
  for (const auto& [pointer, option] : given) {
    if (fault.file != file) break;
    const bool of_it = fault.pointer == pointer || fault.pointer.starts_with(pointer + '/');
    const bool around_it = !fault.pointer.empty() && pointer.starts_with(fault.pointer + '/');
    if (!of_it && !around_it) continue;
    if (!fault.hint.empty()) fault.hint += fault.hint.ends_with('?') ? " " : ". ";
    std::string key = pointer.substr(1);
    std::replace(key.begin(), key.end(), '/', '.');
    fault.hint += of_it ? "It comes from " + option
                        : fmt::format("The value of {} comes from {}", key, option);
  }
  if (faults.size() < most_faults)
    faults.push_back(std::move(fault));
  else
    ++left_out;
}

void Context::add_at(std::uint32_t begin, Fault fault) {
  if (begin != no_place && !full()) {
    const LineAndColumn place = place_of(text, begin);
    fault.line = place.line;
    fault.column = place.column;
  }
  add(std::move(fault));
}

void Context::add_in(const Node& root, Fault fault) {
  const Node* node = &root;
  std::string_view rest = fault.pointer;
  while (!rest.empty()) {
    rest.remove_prefix(1);
    const std::string_view step = rest.substr(0, rest.find('/'));
    rest.remove_prefix(step.size());
    const auto& children = node->children;
    const auto next = std::find_if(children.begin(), children.end(), [&](const Node& child) {
      return node->kind == Kind::list ? std::to_string(&child - children.data()) == step
                                      : pointer_token(child.key) == step;
    });
    if (next == children.end()) break;
    node = &*next;
  }
  const std::uint32_t begin = fault.pointer.empty() ? no_place : node->begin;
  add_at(begin, std::move(fault));
}

bool Context::full() const {
  return faults.size() >= most_faults;
}

void Context::finish() const {
  if (faults.empty()) return;
  auto all = faults;
  if (left_out > 0) {
    Fault more;
    more.file = file;
    more.found = fmt::format("{} more faults", left_out);
    more.wanted = "Correct the others first";
    all.push_back(std::move(more));
  }
  throw InputError(std::move(all));
}

std::optional<Node> parse(std::string_view text, Context& context) {
  if (text.starts_with(byte_order_mark)) text.remove_prefix(byte_order_mark.size());
  context.text = text;
  if (text.size() > longest_text) {
    Fault fault;
    fault.found = fmt::format("a text of {} bytes", text.size());
    fault.wanted = fmt::format("a text of at most {} bytes", longest_text);
    context.add(std::move(fault));
    return std::nullopt;
  }
  if (text.find_first_not_of(" \t\r\n") == std::string_view::npos) {
    Fault fault;
    fault.found = "an empty text";
    fault.wanted = "a JSON object";
    context.add(std::move(fault));
    return std::nullopt;
  }
  // The parser would take a NUL for the end of the text and ignore what follows.
  if (const auto nul = text.find('\0'); nul != std::string_view::npos) {
    const auto place = place_of(text, nul);
    Fault fault;
    fault.found = "a NUL byte";
    fault.wanted = "text in UTF-8";
    fault.hint = "save the file with the encoding UTF-8";
    fault.line = place.line;
    fault.column = place.column;
    context.add(std::move(fault));
    return std::nullopt;
  }
  Builder builder(text, context);
  if (!nlohmann::json::sax_parse(text.begin(), text.end(), &builder)) return std::nullopt;
  Node root = builder.take();
  refuse_duplicates(Value(root, context));
  return root;
}

bool is_json(std::string_view text) {
  return nlohmann::json::accept(text);
}

std::string either(const std::vector<std::string>& names) {
  return in_a_row(names, "or");
}

template <class Q>
std::string wanted_of() {
  return parse_quantity<Q>({}).fault.wanted;
}

void set_place(Node& node, std::uint32_t begin) {
  node.begin = node.key_begin = begin;
  for (Node& child : node.children) set_place(child, begin);
}

std::string Value::pointer() const {
  if (parent_ == nullptr) return {};
  const auto& siblings = parent_->node_->children;
  return parent_->pointer() + '/' +
         (parent_->is(Kind::list) ? std::to_string(node_ - siblings.data())
                                  : pointer_token(node_->key));
}

void Value::fault(std::string found, std::string wanted, std::string hint) const {
  Fault fault{context_->file, pointer(), std::move(found), std::move(wanted), std::move(hint)};
  const std::uint32_t begin = fault.is_about_key() ? node_->key_begin : node_->begin;
  context_->add_at(begin, std::move(fault));
}

void Value::refuse_with(const Fault& without_place) const {
  fault(visible(without_place.found), visible(without_place.wanted), visible(without_place.hint));
}

void Value::refuse(std::string wanted, std::string hint) const {
  fault(described(*node_), std::move(wanted), std::move(hint));
}

void Value::refuse_name(const std::vector<std::string>& names, const std::string& of_what,
                        std::string hint) const {
  if (is(Kind::text))
    if (std::string nearest = did_you_mean(node_->text, names); !nearest.empty())
      hint = std::move(nearest);
  // A long list would hide the hint behind it.
  constexpr std::size_t most_names = 15;
  if (of_what.empty())
    refuse(either(names), std::move(hint));
  else if (names.size() > most_names)
    refuse(of_what, std::move(hint));
  else
    refuse(fmt::format("{}: {}", of_what, either(names)), std::move(hint));
}

std::optional<std::string> Value::text() const {
  if (!is(Kind::text)) {
    refuse("text in double quotes");
  } else if (has_acting_character(node_->text)) {
    refuse("text without control characters");
  } else if (node_->text.size() > longest_words) {
    refuse(fmt::format("text of at most {} bytes", longest_words));
  } else {
    return node_->text;
  }
  return std::nullopt;
}

std::optional<std::string> Value::words() const {
  auto result = text();
  if (result && result->find_first_not_of(' ') == std::string::npos) {
    refuse("text that is not empty");
    return std::nullopt;
  }
  return result;
}

std::optional<double> Value::number(double low, double high) const {
  if (is(Kind::number) && node_->number >= low && node_->number <= high) return node_->number;
  const std::string& text = node_->text;
  const bool quoted_number =
      is(Kind::text) && !text.empty() && text.find_first_not_of("0123456789.") == std::string::npos;
  refuse(fmt::format("a plain number from {} to {}", plain(low), plain(high)),
         quoted_number ? fmt::format("write it without quotes: {}", text) : std::string());
  return std::nullopt;
}

std::optional<std::uint64_t> Value::whole_number() const {
  if (!node_->whole)
    refuse("a whole number, zero or more",
           is(Kind::number) && node_->number > 1e18 ? "the largest is 18446744073709551615" : "");
  return node_->whole;
}

std::optional<bool> Value::truth() const {
  if (is(Kind::boolean)) return node_->truth;
  refuse("true or false");
  return std::nullopt;
}

std::vector<Value> Value::members() const {
  std::vector<Value> result;
  if (!is(Kind::object)) {
    refuse("an object, { … }");
  } else {
    result.reserve(node_->children.size());
    for (const Node& child : node_->children) result.emplace_back(child, *context_, this);
  }
  return result;
}

std::vector<Value> Value::items() const {
  std::vector<Value> result;
  if (!is(Kind::list)) {
    refuse("a list, [ … ]");
  } else {
    result.reserve(node_->children.size());
    for (const Node& child : node_->children) result.emplace_back(child, *context_, this);
  }
  return result;
}

namespace {

/// A hint for an amount that is too small: the same number with a unit that puts it within bounds.
template <class Q>
std::string slip_of_unit(const std::string& text, const Bounds<Q>& bounds) {
  const std::string number = plain_number(text);
  for (const std::string& unit : kind_within(bounds).units) {
    const std::string meant = fmt::format("{} {}", number, unit);
    const auto amount = parse_within(meant, bounds);
    if (amount && bounds.holds(*amount))
      return fmt::format("this is too little to be meant. Did you mean \"{}\"?", meant);
  }
  return "this is too little to be meant: check the number and its unit";
}

}  // namespace

template <class Q>
std::optional<Q> Value::quantity(const Bounds<Q>& bounds) const {
  if (is(Kind::number)) {
    refuse_bare_number(*this, bounds);
    return std::nullopt;
  }
  if (!is(Kind::text)) {
    refuse(kind_within(bounds).with_unit);
    return std::nullopt;
  }
  const auto parsed = parse_within(node_->text, bounds);
  if (!parsed) {
    refuse_with(parsed.fault);
    return std::nullopt;
  }
  if (!bounds.holds(*parsed)) {
    const bool a_slip = bounds.too_little(*parsed) && *parsed > Q();
    const bool below = *parsed < bounds.make(bounds.low);
    refuse("a value " + bounds.text(), a_slip  ? slip_of_unit(node_->text, bounds)
                                       : below ? std::string(bounds.why)
                                               : std::string());
    return std::nullopt;
  }
  return *parsed;
}

template <class Q>
Cited<Q> Value::figure(const Bounds<Q>& bounds) const {
  constexpr auto form =
      R"(a figure {"low": …, "typical": …, "high": …, "unit": …, "basis": …, "known": …})";
  Cited<Q> figure;
  if (is(Kind::number)) {
    refuse_bare_number(*this, bounds);
    return figure;
  }
  if (is(Kind::text)) {
    if (context_->shipped) {
      refuse(form);
    } else if (const auto value = quantity(bounds)) {
      figure.range = Range<Q>::exactly(*value);
      figure.evidence = {"stated in the file", {}, Known::measured};
    }
    return figure;
  }
  if (!is(Kind::object)) {
    refuse(context_->shipped
               ? std::string(form)
               : fmt::format("{}, in quotes, or {}", kind_within(bounds).with_unit, form));
    return figure;
  }

  bool good = true;
  std::string unit;
  if (const auto value = needed("unit", "a unit in quotes")) {
    unit = value->words().value_or("");
    // Converting any number shows whether the unit is valid.
    if (!unit.empty())
      if (const auto trial = from_unit_within(1.0, unit, bounds); !trial) {
        value->fault(visible(trial.fault.found), trial.fault.wanted, visible(trial.fault.hint));
        unit.clear();
      }
  }
  std::vector<double> numbers;
  const auto percentile = [&](const char* key, Q& into) {
    const auto value = needed(key, "a number");
    if (!value) return false;
    if (!value->is(Kind::number)) {
      value->refuse("a plain number, with its unit in \"unit\"");
      return false;
    }
    if (unit.empty()) return false;
    const double number = value->node().number;
    const auto converted = from_unit_within(number, unit, bounds);
    if (!converted || !bounds.holds(*converted)) {
      value->fault(fmt::format("{} {}", number, visible(unit)), "a value " + bounds.text());
      return false;
    }
    into = *converted;
    numbers.push_back(number);
    return true;
  };
  good = percentile("low", figure.range.low) && good;
  good = percentile("typical", figure.range.typical) && good;
  good = percentile("high", figure.range.high) && good;
  if (good && !figure.range.ordered()) {
    fault(fmt::format("low {}, typical {}, high {} {}", numbers[0], numbers[1], numbers[2],
                      visible(unit)),
          "low, typical and high in rising order");
    good = false;
  }
  if (good && *bounds.no_range && figure.range.low < figure.range.high) {
    const std::string value = fmt::format("{} {}", numbers[1], visible(unit));
    fault(fmt::format("low {} to high {} {}", numbers[0], numbers[2], visible(unit)),
          context_->shipped ? fmt::format("one value: low, typical and high all {}", value)
                            : fmt::format("one value, such as \"{}\"", value),
          bounds.no_range);
    good = false;
  }
  if (const auto scale = member("scale")) {
    if (!HasRatio<Q>) {
      scale->refuse("no \"scale\", because a temperature has no ratio");
    } else if (!scale->is(Kind::text) || scale->node().text != "ratio") {
      scale->refuse("\"ratio\" for a range by factors, or leave the key out");
    } else if (good && numbers[0] <= 0.0) {
      scale->fault(fmt::format("low {}", numbers[0]), "a low above 0, for a range by factors");
    }
    figure.range.by_ratio = true;
  }
  figure.evidence = evidence();
  refuse_other_keys({"low", "typical", "high", "unit", "scale", "basis", "source", "known"});
  if (!good) figure.evidence.basis.clear();
  return figure;
}

std::optional<Value> Value::member(std::string_view key) const {
  if (is(Kind::object))
    for (const Node& child : node_->children)
      if (child.key == key) return Value(child, *context_, this);
  return std::nullopt;
}

std::optional<Value> Value::needed(std::string_view key, std::string_view wanted) const {
  auto value = member(key);
  if (!value) missing(key, std::string(wanted));
  return value;
}

void Value::missing(std::string_view key, std::string wanted) const {
  if (is(Kind::object)) fault_at(key, "nothing", std::move(wanted));
}

void Value::fault_at(std::string_view key, std::string found, std::string wanted,
                     std::string hint) const {
  Fault fault{context_->file, pointer() + '/' + pointer_token(key), std::move(found),
              std::move(wanted), std::move(hint)};
  // A missing key has no place, so that of the object serves.
  std::uint32_t begin = node_->begin;
  for (const Node& child : node_->children) {
    if (child.key != key) continue;
    begin = fault.is_about_key() ? child.key_begin : child.begin;
    break;
  }
  context_->add_at(begin, std::move(fault));
}

void Value::refuse_key(const std::vector<std::string>& names) const {
  fault(fmt::format("the unknown key {}", firstdrop::quoted(node_->key)), "one of " + either(names),
        did_you_mean(node_->key, names));
}

void Value::refuse_other_keys(const std::vector<std::string_view>& names) const {
  if (!is(Kind::object)) return;
  std::vector<std::string> all;
  for (const Node& child : node_->children) {
    if (std::find(names.begin(), names.end(), child.key) != names.end()) continue;
    if (context_->full()) {  // comparing names for many thousands would be slow
      ++context_->left_out;
      continue;
    }
    if (all.empty()) all.assign(names.begin(), names.end());
    Value(child, *context_, this).refuse_key(all);
  }
}

Evidence Value::evidence() const {
  Evidence evidence;
  if (const auto basis = needed("basis", "what exactly the figure is of"))
    evidence.basis = basis->words().value_or("");

  const auto source = member("source");
  const auto take = [&](const Value& value) {
    const auto key = value.words();
    if (!key) return;
    const auto* known_sources = context_->sources;
    if (known_sources != nullptr && !known_sources->contains(*key)) {
      std::vector<KnownName> keys;
      for (const auto& entry : *known_sources) keys.push_back({entry.first});
      value.refuse("a key of the source table, or put a reference of your own into \"basis\"",
                   did_you_mean(*key, keys, "firstdrop sources"));
      return;
    }
    evidence.sources.push_back(*key);
  };
  if (source && source->is(Kind::list)) {
    for (const auto& item : source->items()) take(item);
  } else if (source) {
    take(*source);
  }

  const auto known = needed("known", "how the figure is known");
  if (!known) return evidence;
  const auto choice = known->choice<Known>();
  if (!choice) return evidence;
  evidence.known = *choice;
  // A person's own file may name a source that isn't in the source table in "basis" instead.
  const bool needs_source =
      context_->shipped && (*choice == Known::read || *choice == Known::computed);
  if (needs_source && (!source || (source->is(Kind::list) && source->node().children.empty())))
    fault_at("source", "nothing",
             fmt::format("the source of a figure that was {}", to_string(*choice)));
  if (*choice == Known::measured && context_->shipped)
    known->refuse("another value: a shipped table holds nothing measured on a person's bench");
  return evidence;
}

// clang-format off
#define FIRSTDROP_READS(Q)                                                       \
  template std::string wanted_of<Q>();                                           \
  template std::optional<Q> Value::quantity<Q>(const Bounds<Q>&) const;            \
  template Cited<Q> Value::figure<Q>(const Bounds<Q>&) const;
FIRSTDROP_READS(Fraction)
FIRSTDROP_READS(Mass)
FIRSTDROP_READS(Length)
FIRSTDROP_READS(Area)
FIRSTDROP_READS(Volume)
FIRSTDROP_READS(Duration)
FIRSTDROP_READS(Rate)
FIRSTDROP_READS(VolumeFlow)
FIRSTDROP_READS(Power)
FIRSTDROP_READS(Pressure)
FIRSTDROP_READS(Density)
FIRSTDROP_READS(SpecificVolume)
FIRSTDROP_READS(Temperature)
FIRSTDROP_READS(TemperatureDifference)
FIRSTDROP_READS(SpecificHeat)
FIRSTDROP_READS(HeatTransfer)
FIRSTDROP_READS(MolarMass)
FIRSTDROP_READS(Current)
FIRSTDROP_READS(Voltage)
#undef FIRSTDROP_READS
// clang-format on

}  // namespace firstdrop::json
