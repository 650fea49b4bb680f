#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "app/records/csv.h"

using namespace stirbench::records;

namespace {

using Cells = std::vector<std::string>;

// Rows of a text that is good.
std::vector<Cells> rows_of(std::string_view text) {
  const CsvFile file = read_csv(text);
  CHECK(file.problem == "");
  std::vector<Cells> out;
  for (const CsvRow& row : file.rows) out.push_back(row.cells);
  return out;
}

}  // namespace

TEST_CASE("RFC 4180, section 2: rows, last line without an end, quoted cells, quotation marks doubled") {
  CHECK(rows_of("aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n") ==
        std::vector<Cells>{{"aaa", "bbb", "ccc"}, {"zzz", "yyy", "xxx"}});
  CHECK(rows_of("aaa,bbb\r\nzzz,yyy") == std::vector<Cells>{{"aaa", "bbb"}, {"zzz", "yyy"}});
  CHECK(rows_of("aaa,bbb\nzzz,yyy\n") == std::vector<Cells>{{"aaa", "bbb"}, {"zzz", "yyy"}});
  // Spaces are part of a cell.
  CHECK(rows_of("aaa , bbb\r\n") == std::vector<Cells>{{"aaa ", " bbb"}});
  CHECK(rows_of("\"aaa\",\"b\r\nbb\",\"c,cc\"\r\nzzz,,\r\n") ==
        std::vector<Cells>{{"aaa", "b\r\nbb", "c,cc"}, {"zzz", "", ""}});
  CHECK(rows_of("\"aaa\",\"b\"\"bb\",\"\"\r\n") == std::vector<Cells>{{"aaa", "b\"bb", ""}});
  CHECK(rows_of("").empty());
  CHECK(rows_of("one") == std::vector<Cells>{{"one"}});
}

TEST_CASE("byte-order mark, semicolons and tabs, blank lines") {
  CHECK(rows_of("\xEF\xBB\xBFname;number\nKim, jr;7\n") ==
        std::vector<Cells>{{"name", "number"}, {"Kim, jr", "7"}});
  CHECK(rows_of("name\tnumber\nKim\t7\n") == std::vector<Cells>{{"name", "number"}, {"Kim", "7"}});
  CHECK(rows_of("\"a;b\",c\n") == std::vector<Cells>{{"a;b", "c"}});
  CHECK(rows_of("\r\na,b\r\n\r\n  \r\n,\r\nc,d\r\n\r\n") == std::vector<Cells>{{"a", "b"}, {"c", "d"}});
  CHECK(rows_of("ä,°C\n") == std::vector<Cells>{{"ä", "°C"}});
}

TEST_CASE("each row knows the line on which it begins") {
  const CsvFile file = read_csv("a,b\r\n\r\n\"two\r\nlines\",c\r\nd,e\r\n\"f\",\"g\nh\"");
  REQUIRE(file.rows.size() == 4);
  CHECK(file.rows[0].line == 1);
  CHECK(file.rows[1].line == 3);
  CHECK(file.rows[2].line == 5);
  CHECK(file.rows[3].line == 6);
}

TEST_CASE("a quotation mark out of place is refused with its line; the rows before it are there") {
  for (const char* bad : {"a,b\nc,d\"e\n", "a,b\nc,\"d\"e\n", "a,b\nc, \"d\"\n", "a,b\nc,\"d\"\"\"e\n"}) {
    CAPTURE(bad);
    const CsvFile file = read_csv(bad);
    CHECK(file.problem == "line 2: expected a quotation mark only around a whole cell");
    CHECK(file.rows.size() == 1);
  }
  CHECK(read_csv("a,b\nc,\"d\ne,f\n").problem == "line 2: expected a closing quotation mark");
}

TEST_CASE("what is written reads back; what a spreadsheet would take for a formula does not stay one") {
  for (const char* text : {"", "plain", "with, comma", "with \"quotes\"", "two\nlines", "a;b", "tab\there",
                           "'quoted'", " blank "}) {
    CAPTURE(text);
    std::string line = "first,";
    append_csv(line, text);
    CHECK(rows_of(line + "\r\n") == std::vector<Cells>{{"first", text}});
    CHECK(rows_of("first," + csv_cell(text) + "\r\n") == std::vector<Cells>{{"first", text}});
  }
  for (const char* formula : {"=1+1", "+1", "-1", "@x", " =1", "\t=1", "\r=1"}) {
    CAPTURE(formula);
    CHECK(looks_like_formula(formula));
    CHECK(rows_of("first," + csv_cell(formula) + "\r\n") ==
          std::vector<Cells>{{"first", "'" + std::string(formula)}});
    std::string as_it_is = "first,";
    append_csv(as_it_is, formula);
    CHECK(rows_of(as_it_is + "\r\n") == std::vector<Cells>{{"first", formula}});
  }
  CHECK_FALSE(looks_like_formula("a=b"));
  CHECK(csv_line({"a", "b"}) == "a,b\r\n");
}
