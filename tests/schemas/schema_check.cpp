#include "schemas/schema_check.hpp"

#include <map>
#include <memory>
#include <stdexcept>
#include <utility>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include "campaign/schema.hpp"
#include "test_tables.hpp"

namespace schema_check {
namespace {

using nlohmann::json;
using valijson::adapters::NlohmannJsonAdapter;

class Checker {
 public:
  explicit Checker(json schema) : json_(std::move(schema)) {
    valijson::SchemaParser parser(valijson::SchemaParser::kDraft7);
    parser.populateSchema(NlohmannJsonAdapter(json_), schema_);
  }

  const json& as_json() const { return json_; }

  std::string faults(const json& document) {
    const NlohmannJsonAdapter adapted(document);
    if (validator_.validate(schema_, adapted, nullptr)) return {};
    valijson::ValidationResults results;  // a tenth slower, so only if there is a fault
    validator_.validate(schema_, adapted, &results);
    std::string text;
    for (const auto& error : results) {
      for (const std::string& step : error.context) text += step;
      text += ": " + error.description + '\n';
    }
    return text.empty() ? "not valid\n" : text;
  }

 private:
  json json_;
  valijson::Schema schema_;
  // Strong types: a text isn't a number, even if it looks like one. The validator is a member
  // because it caches compiled patterns.
  valijson::Validator validator_{valijson::Validator::kStrongTypes};
};

Checker& checker(const std::string& key) {
  static const std::map<std::string, std::unique_ptr<Checker>> checkers = [] {
    std::map<std::string, std::unique_ptr<Checker>> all;
    for (const firstdrop::Schema& schema : firstdrop::schemas(shipped_tables())) {
      all.emplace(schema.key, std::make_unique<Checker>(json::parse(schema.text)));
    }
    return all;
  }();
  const auto found = checkers.find(key);
  if (found == checkers.end()) throw std::logic_error("no schema " + key);
  return *found->second;
}

}  // namespace

const json& schema(const std::string& key) {
  return checker(key).as_json();
}

std::string faults(const std::string& key, const json& document) {
  return checker(key).faults(document);
}

std::function<std::string(const json&)> faults_by(const json& schema) {
  return [checker = std::make_shared<Checker>(schema)](const json& document) {
    return checker->faults(document);
  };
}

}  // namespace schema_check
