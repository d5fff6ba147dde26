#include "schemas/every_key.hpp"

#include <stdexcept>

#include "campaign/documents.hpp"
#include "readers/table_fields.hpp"
#include "test_tables.hpp"

namespace every_key {
namespace {

using firstdrop::Key;
using firstdrop::KeyForm;
using nlohmann::json;

json figure(const std::string& text, const firstdrop::QuantityKind& kind, const json& known) {
  const std::size_t blank = text.find(' ');
  const double number = std::stod(text.substr(0, blank));
  json range = {{"low", number},      {"typical", number},
                {"high", number},     {"unit", text.substr(blank + 1)},
                {"basis", "made up"}, {"source", {"own-invention", "common-practice"}},
                {"known", known}};
  if (kind.has_ratio && number > 0.0) range["scale"] = "ratio";
  return range;
}

class Maker {
 public:
  explicit Maker(const Making& making) : making_(making) {}

  json object(const std::vector<Key>& keys, const std::string& before) const {
    json made = json::object();
    for (const Key& key : keys) {
      const std::string path = before + key.name;
      if (making_.left_out.contains(path)) continue;
      if (key.outside_tables && making_.in_table && !before.empty()) continue;
      made[key.name] = value(key, path);
    }
    return made;
  }

 private:
  // An example or a default as JSON.
  static json written(const Key& key, const std::string& usual) {
    const std::string& text = !key.example.empty() ? key.example : key.standard;
    return text.empty() ? json(usual) : json(text);
  }
  static json parsed(const Key& key, const json& usual) {
    const std::string& text = !key.example.empty() ? key.example : key.standard;
    return text.empty() ? usual : json::parse(text);
  }

  json amount(const Key& key) const {
    const std::string text = written(key, key.quantities.front().middle).get<std::string>();
    if (key.form == KeyForm::figure && (making_.with_ranges || making_.in_table))
      return figure(text, key.quantities.front().kind, known());
    return text;
  }

  json known() const { return making_.in_table ? "own-invention" : "measured"; }

  json value(const Key& key, const std::string& path) const {
    switch (key.form) {
      case KeyForm::version:
        return 1;
      case KeyForm::remark:
      case KeyForm::text:
      case KeyForm::words:
        return written(key, "Made up.");
      case KeyForm::special:
      case KeyForm::day:
      case KeyForm::time_of_day:
      case KeyForm::minute:
        return written(key, "2026-07-11");
      case KeyForm::truth:
        return parsed(key, true);
      case KeyForm::number:
        return parsed(key, (key.low + key.high) / 2);
      case KeyForm::whole_number:
        return parsed(key, static_cast<int>((key.low + key.high) / 2));
      case KeyForm::quantity:
      case KeyForm::figure:
        return amount(key);
      case KeyForm::choice:
        return key.name == "known" ? known() : written(key, key.words.front());
      case KeyForm::name:
        return written(key, shipped_tables().materials.begin()->first);
      case KeyForm::reference:
        return making_.by_name ? written(key, "") : object(key.keys, path + '.');
      case KeyForm::object:
        return object(key.keys, path + '.');
      case KeyForm::map:
        return map(key, path + '.' + key.keys.front().name);
      case KeyForm::list:
        return parsed(key, json::array({value(key.keys.front(), path + "[]")}));
      case KeyForm::any_text:
      case KeyForm::range:
      case KeyForm::any:
        break;  // firstdrop writes them, and reads none
    }
    throw std::logic_error("a key of no form: " + path);
  }

  json map(const Key& key, const std::string& path) const {
    const Key& one = key.keys.front();
    std::vector<std::string> names = key.words;
    if (!key.pattern.empty()) names = making_.entries;
    const json example = parsed(key, json::object());
    for (const auto& member : example.items()) names.push_back(member.key());
    json made = json::object();
    for (const std::string& name : names) made[name] = value(one, path);
    return made;
  }

  const Making& making_;
};

}  // namespace

json document(const std::string& name, const Making& making) {
  for (const auto& all : {firstdrop::documents(), firstdrop::table_documents()})
    for (const firstdrop::Document& description : all)
      if (description.name == name) return Maker(making).object(description.root.keys, "");
  throw std::logic_error("no document " + name);
}

}  // namespace every_key
