// JSON Schemas (draft 7) of documents, from the descriptions of their keys.
#pragma once

#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "firstdrop/tables/tables.hpp"
#include "readers/key.hpp"

namespace firstdrop {

/// The schema of a document in a file of its own, complete in itself. The plants, stills,
/// materials, liquids and release classes that it may name are those of `tables`.
nlohmann::ordered_json key_schema(const Document& document, const Tables& tables);

/// The schema of whichever of these documents an object is.
nlohmann::ordered_json schema_of_one(const std::string& title, const std::string& help,
                                     const std::vector<Document>& documents, const Tables& tables);

/// The schema of whichever of these tables a document is.
nlohmann::ordered_json table_schema(const std::string& help, const std::vector<Document>& documents,
                                    const Tables& tables);

}  // namespace firstdrop
