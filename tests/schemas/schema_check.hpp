// Applies the program's JSON Schemas with an independent validator, valijson.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <string>

namespace schema_check {

/// The program's schema with this key for the shipped tables, as JSON (see firstdrop::schemas()).
const nlohmann::json& schema(const std::string& key);

/// The faults that the schema with this key finds in a document, one per line; empty if none.
std::string faults(const std::string& key, const nlohmann::json& document);

/// The same check by any schema, as a function that can be called for many documents.
std::function<std::string(const nlohmann::json&)> faults_by(const nlohmann::json& schema);

}  // namespace schema_check
