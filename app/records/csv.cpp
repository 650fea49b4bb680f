#include "app/records/csv.h"

namespace stirbench::records {

namespace {

char separator_of(std::string_view text) {
  bool quoted = false;
  for (const char c : text) {
    if (c == '"') quoted = !quoted;
    if (quoted) continue;
    if (c == ',' || c == ';' || c == '\t') return c;
    if (c == '\n' || c == '\r') break;
  }
  return ',';
}

bool is_blank(const CsvRow& row) {
  for (const std::string& cell : row.cells) {
    if (cell.find_first_not_of(" \t") != std::string::npos) return false;
  }
  return true;
}

}  // namespace

CsvFile read_csv(std::string_view text) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (text.substr(0, mark.size()) == mark) text.remove_prefix(mark.size());
  const char separator = separator_of(text);
  CsvFile file;
  CsvRow row{1, {}};
  std::string cell;
  int line = 1;
  bool quoted = false;
  bool was_quoted = false;
  const auto end_row = [&] {
    row.cells.push_back(cell);
    cell.clear();
    was_quoted = false;
    if (!is_blank(row)) file.rows.push_back(row);
    row = {line, {}};
  };
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\n') ++line;
    if (quoted) {
      if (c != '"') cell += c;
      else if (i + 1 < text.size() && text[i + 1] == '"') cell += text[++i];
      else quoted = false;
    } else if (c == '"') {
      if (!cell.empty() || was_quoted) {
        file.problem = "line " + std::to_string(line) + ": expected a quotation mark only around a whole cell";
        return file;
      }
      quoted = true;
      was_quoted = true;
    } else if (c == separator) {
      row.cells.push_back(cell);
      cell.clear();
      was_quoted = false;
    } else if (c == '\n') {
      end_row();
    } else if (c != '\r' || (i + 1 < text.size() && text[i + 1] != '\n')) {
      cell += c;
    }
  }
  if (quoted) file.problem = "line " + std::to_string(row.line) + ": expected a closing quotation mark";
  if (!cell.empty() || !row.cells.empty()) end_row();
  return file;
}

bool looks_like_formula(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first != std::string_view::npos && std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
}

std::string csv_cell(std::string_view text) {
  std::string out = looks_like_formula(text) ? "'" : "";
  out += text;
  if (out.find_first_of(",;\"\r\n\t'") == std::string::npos) return out;
  std::string quoted = "\"";
  for (const char c : out) {
    if (c == '"') quoted += '"';
    quoted += c;
  }
  return quoted + "\"";
}

std::string csv_line(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) out += (i == 0 ? "" : ",") + cells[i];
  return out + "\r\n";
}

}  // namespace stirbench::records
