#include "loomleaf/takeoff/table.h"

#include <nlohmann/json.hpp>
#include <string_view>

namespace loomleaf {

namespace {

// A cell that starts like a formula is run by spreadsheets: https://owasp.org/www-community/attacks/CSV_Injection
bool starts_a_formula(std::string_view cell) {
  return !cell.empty() && std::string_view("=+-@\t\r").find(cell.front()) != std::string_view::npos;
}

std::string csv_cell(const std::string& text) {
  std::string cell = starts_a_formula(text) ? "'" : "";
  for (const char c : text) {
    const bool is_control = static_cast<unsigned char>(c) < 0x20 || c == 0x7f;
    if (c == '"') cell += '"';
    cell += is_control ? ' ' : c;
  }
  const bool needs_quotes = cell.find_first_of(",\"") != std::string::npos;
  return needs_quotes ? '"' + cell + '"' : cell;
}

void append_row(std::string& csv, const std::vector<std::string>& cells) {
  for (std::size_t k = 0; k < cells.size(); ++k) {
    if (k > 0) csv += ',';
    csv += csv_cell(cells[k]);
  }
  csv += "\r\n";
}

}  // namespace

std::string to_csv(const Table& table) {
  std::string csv;
  append_row(csv, table.columns);
  for (const std::vector<std::string>& row : table.rows) append_row(csv, row);
  return csv;
}

std::string to_json(const Table& table) {
  nlohmann::ordered_json json;
  json["format"] = "loomleaf-table/1";
  json["name"] = table.name;
  json["columns"] = table.columns;
  json["rows"] = table.rows;
  return json.dump(2, ' ', false, nlohmann::json::error_handler_t::replace) + "\n";
}

}  // namespace loomleaf
