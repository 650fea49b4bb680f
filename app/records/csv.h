#pragma once

#include <string>
#include <string_view>
#include <vector>

// Comma-separated values (RFC 4180): read by libcsv, written here.
namespace stirbench::records {

struct CsvRow {
  int line = 0;  // where it begins, from 1
  std::vector<std::string> cells;
};
struct CsvFile {
  std::vector<CsvRow> rows;  // blank lines are left out
  std::string problem;       // empty: good; else "line N: ..."
};

// A byte-order mark is passed over; the separator is the first of , ; and tab that the first line holds
// outside of quotes.
CsvFile read_csv(std::string_view text);

// A cell as it is, quoted where it has to be, added to `out`.
void append_csv(std::string& out, std::string_view text);
// A cell for people's spreadsheets. Text that a spreadsheet could take for a formula (=, +, -, @, tab or
// return in front) gets an apostrophe in front; numbers are written by the caller without this.
std::string csv_cell(std::string_view text);
// Cells joined, with CR LF at the end.
std::string csv_line(const std::vector<std::string>& cells);
bool looks_like_formula(std::string_view text);

}  // namespace stirbench::records
