#include "readers/fields.hpp"

#include <fmt/core.h>

#include <algorithm>
#include <stdexcept>

#include "base/text_layout.hpp"
#include "base/visible_text.hpp"
#include "quantity/clock_time.hpp"
#include "quantity/words.hpp"

namespace firstdrop {

void KeyPath::fault(std::string found, std::string wanted, std::string hint) const {
  faults_->push_back({"", pointer(), std::move(found), std::move(wanted), std::move(hint), 0, 0});
}

std::string KeyPath::pointer() const {
  const std::string outer = outer_ == nullptr ? std::string() : outer_->pointer();
  return key_.empty() ? outer : outer + '/' + json::pointer_token(key_);
}

std::string_view marker_of(const json::Node& object) {
  // A recipe has keys "plant" and "still" too, but never a number under them.
  std::string_view marker;
  for (const json::Node& member : object.children) {
    if (member.key == "campaign") return "campaign";
    if (member.key == "recipe") return "recipe";
    const bool still = member.key == "still";
    if (!still && member.key != "plant") continue;
    if (member.kind != json::Kind::number) return "recipe";
    marker = still ? "still" : "plant";
  }
  return marker;
}

namespace field_detail {

bool is_other_document(const json::Value& value, std::string_view type, const Reading& reading) {
  if (reading.form != Form::own_file || !value.pointer().empty()) return false;
  constexpr std::string_view prefix = "inline_";  // a recipe may hold such a document, too
  if (type.starts_with(prefix)) type.remove_prefix(prefix.size());
  if (type != "recipe" && type != "still" && type != "plant") return false;
  const std::string_view marker = marker_of(value.node());
  if (marker.empty() || marker == type) return false;
  std::string hint;
  if (type == "recipe")
    hint = marker == "campaign"
               ? "run `firstdrop campaign` with this file"
               : fmt::format("run `firstdrop new --{}` with this file, which writes one", marker);
  value.fault(fmt::format("a {}", marker), fmt::format("a {}", type), hint);
  return true;
}

Key described(const char* name, KeyForm form, const Says& says, Need need) {
  Key key;
  key.name = name;
  key.form = form;
  key.need = need;
  key.outside_tables = says.outside_tables;
  key.help = says.help;
  key.needed_if = says.needed_if;
  key.left_out = says.left_out;
  key.standard = says.standard;
  key.example = says.example;
  key.measure = says.measure;
  key.has_default = says.has_default;
  return key;
}

bool is_needed(Need need, Form form) {
  switch (need) {
    case Need::always:
      return true;
    case Need::in_file:
      return form == Form::own_file;
    case Need::in_table:
      return form == Form::table_entry;
    case Need::no:
    case Need::by_rule:
      break;
  }
  return false;
}

Report report_in(const json::Value& value) {
  return Report(
      [&value](std::string_view path, std::string found, std::string wanted, std::string hint) {
        if (path.empty()) {
          value.fault(std::move(found), std::move(wanted), std::move(hint));
          return;
        }
        const std::size_t slash = path.find('/');
        const std::string_view key = path.substr(0, slash);
        const auto inner = value.member(key);
        if (!inner) {
          if (found != "nothing") found = "nothing, which means " + found;
          value.fault_at(key, std::move(found), std::move(wanted), std::move(hint));
          return;
        }
        report_in(*inner).fault(slash == std::string_view::npos ? "" : path.substr(slash + 1),
                                std::move(found), std::move(wanted), std::move(hint));
      });
}

Report report_at(const KeyPath& here) {
  return Report(
      [&here](std::string_view path, std::string found, std::string wanted, std::string hint) {
        const std::size_t slash = path.find('/');
        if (path.empty()) {
          here.fault(std::move(found), std::move(wanted), std::move(hint));
        } else {
          const KeyPath inner = here.at(path.substr(0, slash));
          report_at(inner).fault(slash == std::string_view::npos ? "" : path.substr(slash + 1),
                                 std::move(found), std::move(wanted), std::move(hint));
        }
      });
}

bool is_default_word(const json::Value& value, const Says& says, const Reading& reading) {
  return says.has_default && reading.form != Form::table_entry && value.is(json::Kind::text) &&
         value.node().text == default_word;
}

std::size_t faults_so_far(const json::Value& value) {
  return value.context().faults.size() + value.context().left_out;
}

bool has_items(const json::Value& value, std::size_t least, std::size_t most) {
  const std::size_t count = value.node().children.size();
  if (!value.is(json::Kind::list) || (count >= least && (most == 0 || count <= most))) return true;
  value.fault(fmt::format("{} items", count), most == 0
                                                  ? fmt::format("at least {}", least)
                                                  : fmt::format("{} to {} items", least, most));
  return false;
}

std::optional<std::chrono::local_days> day_from(const json::Value& value) {
  if (!value.is(json::Kind::text)) {
    value.refuse(local_day_form);
    return std::nullopt;
  }
  const auto day = parse_local_day(value.node().text);
  if (!day) value.refuse_with(local_day_fault(value.node().text));
  return day;
}

}  // namespace field_detail

namespace {

std::string wanted_quantities(const std::vector<KeyQuantity>& quantities) {
  std::string all;
  for (const KeyQuantity& one : quantities) {
    if (!all.empty()) all += "; or ";
    all += one.kind.with_unit;
  }
  return all;
}

}  // namespace

std::string bounds_in_words(const Key& key) {
  if (key.quantities.size() == 1) return key.quantities.front().bounds;
  std::vector<std::string> all;
  for (const KeyQuantity& one : key.quantities) all.push_back(one.kind.wanted + ' ' + one.bounds);
  return joined(all, ", or ");
}

std::string wanted_for(const Key& key) {
  switch (key.form) {
    case KeyForm::version:
      return fmt::format("the format version, \"{}\": 1", key.name);
    case KeyForm::remark:
    case KeyForm::text:
      return "text in double quotes";
    case KeyForm::words:
      return "text that is not empty";
    case KeyForm::truth:
      return "true or false";
    case KeyForm::number:
      return fmt::format("a plain number from {} to {}", plain(key.low), plain(key.high));
    case KeyForm::whole_number:
      return "a whole number, zero or more";
    case KeyForm::quantity:
    case KeyForm::figure:
      return wanted_quantities(key.quantities);
    case KeyForm::choice:
      return json::either(key.words);
    case KeyForm::name:
      return fmt::format("a key of the {} table", key.table);
    case KeyForm::reference:
      return key.table.empty()
                 ? std::string("a path that ends in .json, or an object")
                 : fmt::format("a key of the {} table, a path that ends in .json, or an object",
                               key.table);
    case KeyForm::day:
      return local_day_form;
    case KeyForm::time_of_day:
      return time_of_day_form;
    case KeyForm::minute:
      return local_minute_form;
    case KeyForm::special:
      return key.example.empty() ? std::string("text")
                                 : fmt::format("text such as \"{}\"", key.example);
    case KeyForm::object: {
      std::vector<std::string> needed;
      for (const Key& inner : key.keys)
        if (inner.need == Need::always) needed.push_back(inner.name);
      return needed.empty() ? std::string("an object, { … }")
                            : fmt::format("an object with {}", in_a_row(needed, "and"));
    }
    case KeyForm::map:
      return key.words.empty() ? std::string("an object, { … }")
                               : fmt::format("an object with {}", json::either(key.words));
    case KeyForm::list:
      return key.example.empty() ? "a list, [ … ]" : "a list, such as " + key.example;
    case KeyForm::any_text:
    case KeyForm::range:
    case KeyForm::any:
      break;  // nobody writes them
  }
  return {};
}

const std::vector<Key>& evidence_keys() {
  static const std::vector<Key> keys = [] {
    using field_detail::described;
    Key basis = described(
        "basis", KeyForm::words,
        {.help =
             "What exactly the figure is of: fresh or dry, by mass or by volume, by which method."},
        Need::always);
    Key source = described("source", KeyForm::name,
                           {.help = "Where it comes from: a key that `firstdrop sources` lists, or "
                                    "a list of several. Put a reference of your own into basis.",
                            .example = "common-practice"},
                           Need::no);
    source.table = "source";
    Key known = described(
        "known", KeyForm::choice,
        {.help = "How the figure is known. If it combines several, choose the least reliable."},
        Need::always);
    describe_words<Known>(known);
    return std::vector<Key>{std::move(basis), std::move(source), std::move(known)};
  }();
  return keys;
}

const std::vector<Key>& percentile_keys() {
  using field_detail::described;
  static const std::vector<Key> keys = {
      described("p10", KeyForm::number, {.help = "10th percentile."}, Need::always),
      described("p50", KeyForm::number, {.help = "Median."}, Need::always),
      described("p90", KeyForm::number, {.help = "90th percentile."}, Need::always),
  };
  return keys;
}

const std::vector<Key>& figure_keys() {
  static const std::vector<Key> keys = [] {
    using field_detail::described;
    std::vector<Key> all = {
        described("low", KeyForm::number, {.help = "10th percentile: one batch in ten lies lower."},
                  Need::always),
        described("typical", KeyForm::number, {.help = "Median: half of all batches lie lower."},
                  Need::always),
        described("high", KeyForm::number,
                  {.help = "90th percentile: one batch in ten lies higher."}, Need::always),
        described("unit", KeyForm::words, {.help = "The unit of all three."}, Need::always),
        described("scale", KeyForm::choice,
                  {.help = "Write ratio if the range goes by factors: twice the median is as "
                           "likely as half of it. Not for temperatures.",
                   .left_out = "by differences"},
                  Need::no),
    };
    all.back().words = {"ratio"};
    all.back().meanings = {""};
    all.insert(all.end(), evidence_keys().begin(), evidence_keys().end());
    return all;
  }();
  return keys;
}

namespace {

void visit_keys(const std::vector<Key>& keys, const std::string& before,
                const std::function<void(const std::string&, const Key&)>& visit) {
  for (const Key& key : keys) {
    const std::string path = before + key.name;
    visit(path, key);
    if (key.form == KeyForm::object) visit_keys(key.keys, path + '.', visit);
    if (key.form == KeyForm::map) {
      const Key& one = key.keys.front();
      visit(path + '.' + one.name, one);
      if (one.form == KeyForm::object) visit_keys(one.keys, path + '.' + one.name + '.', visit);
    }
    if (key.form == KeyForm::list && key.keys.front().form == KeyForm::object)
      visit_keys(key.keys.front().keys, path + "[].", visit);
  }
}

}  // namespace

const Key& key_at(const std::vector<Key>& keys, const std::string& path) {
  const std::vector<Key>* among = &keys;
  std::string_view rest = path;
  for (;;) {
    const std::size_t dot = std::min(rest.find('.'), rest.size());
    const auto key = std::find_if(among->begin(), among->end(),
                                  [&](const Key& one) { return one.name == rest.substr(0, dot); });
    if (key == among->end()) throw std::out_of_range("there is no key " + path);
    if (dot == rest.size()) return *key;
    among = &key->keys;
    rest.remove_prefix(dot + 1);
  }
}

void for_each_key(const std::vector<Key>& keys,
                  const std::function<void(const std::string&, const Key&)>& visit) {
  visit_keys(keys, "", visit);
}

}  // namespace firstdrop
