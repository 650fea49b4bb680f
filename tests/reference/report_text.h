#pragma once

#include <string>
#include <vector>

#include "tests/reference/report.h"

namespace stirbench::tests {

// Rows that count as evidence about the world: measured and worked examples that no constant was chosen on.
int independent_count(const std::vector<ReferenceRow>& rows);
// Those of them that are figures of the physical world: neither methods of training and diagnosis nor
// directions.
int physical_count(const std::vector<ReferenceRow>& rows);

// By part and, within it, by source, each in the order of its first row: the report's order.
std::vector<ReferenceRow> in_groups(const std::vector<ReferenceRow>& rows);

// The parts in the order in which they first appear, and the name of a part's figure.
std::vector<std::string> parts_of(const std::vector<ReferenceRow>& rows);
std::string figure_name(const std::string& part);

// The rows as Markdown, values rounded so that the last bits of a library function do not show.
std::string reference_report(const std::vector<ReferenceRow>& rows);

// One part as SVG: every row's difference over its source's uncertainty, and the series with the most points.
std::string part_figure(const std::string& part, const std::vector<ReferenceRow>& rows);

}  // namespace stirbench::tests
