// A plain table, and its forms for spreadsheets and programs.
#pragma once

#include <string>
#include <vector>

namespace loomleaf {

struct Table {
  std::string name;                              // "labels"
  std::vector<std::string> columns;
  std::vector<std::vector<std::string>> rows;    // each as long as `columns`
};

// RFC 4180, UTF-8, CRLF. A cell that a spreadsheet would take for a formula (it begins with = + - @, a tab or a return) gets
// an apostrophe in front; control characters become spaces.
std::string to_csv(const Table& table);

// {"format": "loomleaf-table/1", "name": ..., "columns": [...], "rows": [[...]]}
std::string to_json(const Table& table);

}  // namespace loomleaf
