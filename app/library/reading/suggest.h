#pragma once

#include <string>
#include <string_view>
#include <vector>

// "Did you mean": the known name nearest to a mistyped one.
namespace stirbench::library {

// Edit distance with swaps of neighbours counting one (restricted Damerau-Levenshtein), letters' case
// ignored.
std::size_t edit_distance(std::string_view a, std::string_view b);

// The nearest of `known` within a third of the name's length (at least 2 edits), "" when none is near. Ties:
// the first.
std::string nearest(std::string_view name, const std::vector<std::string>& known);

// `what (did you mean "x"?)` when one is near, else `what (one of a, b, c)`, else `what`. What "expected"
// says of a name.
std::string expect_name(const std::string& what, std::string_view name,
                        const std::vector<std::string>& known);

}  // namespace stirbench::library
