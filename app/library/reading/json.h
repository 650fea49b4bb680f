#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "app/library/reading/problem.h"

// Reading JSON text with located faults, and writing it in one fixed layout.
namespace stirbench::library {

// Keys keep the order of the file, so that problems are reported in it.
using Json = nlohmann::ordered_json;

// Parses a whole text. Malformed: one problem at "line N, column M" (columns count bytes) and nullopt. Each
// duplicate key is a problem at its key path; so is nesting deeper than 64. Numbers that overflow a double
// are malformed. `line` > 0: `text` is that single line of a longer file and faults are located as "line
// LINE, column M".
std::optional<Json> parse_json(std::string_view text, const std::string& file, std::vector<Problem>& problems,
                               int line = 0);

// What "found" says of a value: `"text"`, `12.5`, `true`, `a list`, `an object`, `null`. Long text is cut.
std::string found_text(const Json& value);
std::string in_quotes(std::string_view text);

bool is_utf8(std::string_view text);

// Shortest decimal text of a number that reads back as the same double; whole numbers without a point.
std::string number_text(double value);

// A key as one step of a JSON pointer (RFC 6901): '~' and '/' escaped, with the leading '/'.
std::string pointer_step(std::string_view key);

// Two spaces, objects and lists without anything nested in one line when they fit into 110 columns; ends with
// a newline. The same value always gives the same bytes.
std::string pretty(const Json& value);

// An object of whose lists of objects each item stands on a line of its own, so that two files can be
// compared row by row; all else stays on the line where it begins. Ends with a newline; the same value always
// gives the same bytes.
std::string row_by_row(const Json& object);

}  // namespace stirbench::library
