// The program's JSON Schemas applied by a validator that is not ours, valijson.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <string>

namespace schema_check {

/// The program's schema of this key with the shipped tables, as JSON (see firstdrop::schemas()).
const nlohmann::json& schema(const std::string& key);

/// What it finds wrong with a document, a line for each fault; empty when it finds nothing.
std::string faults(const std::string& key, const nlohmann::json& document);

/// The same of any schema, for documents one after the other.
std::function<std::string(const nlohmann::json&)> faults_by(const nlohmann::json& schema);

}  // namespace schema_check
