// Reads tables of published figures for the reference tests. Lines with '#' are remarks; then come
// the names of the columns, then the rows. A cell with a comma is in double quotes (RFC 4180).
#pragma once

#include <fstream>
#include <map>
#include <stdexcept>
#include <string>
#include <vector>

#include "source_folder.hpp"

namespace csv_table {

using Row = std::map<std::string, std::string>;

inline std::vector<std::string> cells_of(const std::string& line) {
  std::vector<std::string> cells(1);
  bool quoted = false;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const char c = line[i];
    if (c == '"') {
      // A doubled quote inside a quoted cell is one quote.
      if (quoted && i + 1 < line.size() && line[i + 1] == '"') {
        cells.back() += line[++i];
      } else {
        quoted = !quoted;
      }
    } else if (c == ',' && !quoted) {
      cells.emplace_back();
    } else if (c != '\r') {
      cells.back() += c;
    }
  }
  return cells;
}

/// The rows of a file, each keyed by column name. The path is relative to the top folder.
inline std::vector<Row> read_at(const std::string& name) {
  std::ifstream file(source_folder() / name);
  std::vector<std::string> columns;
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#') continue;
    const std::vector<std::string> cells = cells_of(line);
    if (columns.empty()) {
      columns = cells;
      continue;
    }
    if (cells.size() != columns.size()) throw std::runtime_error(name + ": " + line);
    Row& row = rows.emplace_back();
    for (std::size_t i = 0; i < cells.size(); ++i) row[columns[i]] = cells[i];
  }
  return rows;
}

/// The rows of a file in tests/reference.
inline std::vector<Row> read(const std::string& name) {
  return read_at("tests/reference/" + name);
}

}  // namespace csv_table
