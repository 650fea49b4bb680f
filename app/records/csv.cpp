#include "app/records/csv.h"

#include <csv.h>

#include <algorithm>
#include <memory>
#include <stdexcept>

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

struct FreeParser {
  void operator()(csv_parser* parser) const {
    csv_free(parser);
    delete parser;
  }
};

std::unique_ptr<csv_parser, FreeParser> strict_parser(char separator) {
  auto parser = std::make_unique<csv_parser>();
  // Blank lines are told, so that the line in which a row begins is known.
  if (csv_init(parser.get(), CSV_STRICT | CSV_STRICT_FINI | CSV_APPEND_NULL | CSV_REPALL_NL) != 0)
    throw std::runtime_error("The reader of CSV files cannot be started.");
  csv_set_delim(parser.get(), static_cast<unsigned char>(separator));
  csv_set_space_func(parser.get(), [](unsigned char) { return 0; });  // blanks are part of a cell
  return std::unique_ptr<csv_parser, FreeParser>(parser.release());
}

// Gathers what the parser tells.
struct Reader {
  CsvFile file;
  CsvRow row{1, {}};
  bool between_rows = true;

  static void take_cell(void* text, std::size_t length, void* reader) {
    static_cast<Reader*>(reader)->row.cells.emplace_back(static_cast<const char*>(text), length);
  }
  static void end_row(int, void* reader) {
    Reader& self = *static_cast<Reader*>(reader);
    if (!is_blank(self.row)) self.file.rows.push_back(self.row);
    self.row.cells.clear();
    self.between_rows = true;
  }
};

}  // namespace

CsvFile read_csv(std::string_view text) {
  constexpr std::string_view mark = "\xEF\xBB\xBF";
  if (text.substr(0, mark.size()) == mark) text.remove_prefix(mark.size());
  const auto parser = strict_parser(separator_of(text));
  Reader reader;
  // Line by line, so that a row and a mistake have their line.
  for (int line = 1; !text.empty(); ++line) {
    const std::string_view piece = text.substr(0, std::min(text.find('\n'), text.size() - 1) + 1);
    text.remove_prefix(piece.size());
    if (reader.between_rows) reader.row.line = line;
    reader.between_rows = false;
    if (csv_parse(parser.get(), piece.data(), piece.size(), Reader::take_cell, Reader::end_row, &reader) ==
        piece.size())
      continue;
    reader.file.problem =
        "line " + std::to_string(line) + ": expected a quotation mark only around a whole cell";
    return reader.file;
  }
  if (csv_fini(parser.get(), Reader::take_cell, Reader::end_row, &reader) != 0)
    reader.file.problem = "line " + std::to_string(reader.row.line) + ": expected a closing quotation mark";
  return reader.file;
}

bool looks_like_formula(std::string_view text) {
  const std::size_t first = text.find_first_not_of(' ');
  return first != std::string_view::npos &&
         std::string_view("=+-@\t\r").find(text[first]) != std::string_view::npos;
}

void append_csv(std::string& out, std::string_view text) {
  if (text.find_first_of(",;\"\r\n\t") == std::string_view::npos) {
    out += text;
    return;
  }
  out += '"';
  for (const char c : text) {
    if (c == '"') out += '"';
    out += c;
  }
  out += '"';
}

std::string csv_cell(std::string_view text) {
  std::string out;
  if (!looks_like_formula(text))
    append_csv(out, text);
  else
    append_csv(out, "'" + std::string(text));
  return out;
}

std::string csv_line(const std::vector<std::string>& cells) {
  std::string out;
  for (std::size_t i = 0; i < cells.size(); ++i) out += (i == 0 ? "" : ",") + cells[i];
  return out + "\r\n";
}

}  // namespace stirbench::records
