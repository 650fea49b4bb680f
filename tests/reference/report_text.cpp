#include "tests/reference/report_text.h"

#include <algorithm>
#include <cctype>
#include <cmath>

#include "tests/reference/known_differences.h"

namespace stirbench::tests {
namespace {

using Rows = std::vector<ReferenceRow>;

constexpr Worth worths[] = {Worth::measured, Worth::worked_example, Worth::own_arithmetic, Worth::look_up};
constexpr const char* worth_names[] = {"measured", "worked example", "own arithmetic", "look-up"};

const char* name_of(Worth worth) {
  for (std::size_t i = 0; i < std::size(worths); ++i)
    if (worths[i] == worth) return worth_names[i];
  return "unclassified";
}

std::string formatted(const char* format, double value) {
  char text[48];
  std::snprintf(text, sizeof text, format, value);
  return text;
}

// Without the sign of a zero that rounding made.
std::string difference_of(const ReferenceRow& row) {
  const double off = row.ours - row.reference;
  const double shown = !row.tolerance.is_relative || off == 0.0 ? off : 100.0 * off / row.reference;
  std::string text = formatted(row.tolerance.is_relative ? "%+.3f" : "%+.4f", shown);
  if (text.find_first_not_of("+-0.") == std::string::npos) text.erase(0, 1);
  return row.tolerance.is_relative ? text + " %" : text;
}

std::string uncertainty_of(const Tolerance& t) {
  return t.is_relative ? formatted("%.3g %%", 100.0 * t.uncertainty) : formatted("%.3g", t.uncertainty);
}

std::string k_of(const ReferenceRow& row) {
  std::string text = formatted("%.3g", row.tolerance.k);
  if (!row.tolerance.beyond.empty()) text += ": " + row.tolerance.beyond;
  return row.differs ? text + "; **differs**" : text;
}

template <typename Match>
std::string count(const Rows& rows, Match&& match) {
  return std::to_string(std::count_if(rows.begin(), rows.end(), match));
}

bool is_counted(const ReferenceRow& row) { return row.source.worth != Worth::look_up; }
bool is_evidence(const ReferenceRow& row) {
  return row.source.worth == Worth::measured || row.source.worth == Worth::worked_example;
}

bool is_independent(const ReferenceRow& row) { return is_evidence(row) && row.source.use != Use::fitted_on; }
bool is_from_memory(const ReferenceRow& row) {
  return row.source.text.find("from memory") != std::string::npos;
}
bool is_physical(const ReferenceRow& row) {
  return row.part != "Training" && row.part != "Diagnosis" &&
         row.what.find("(direction)") == std::string::npos;
}

constexpr const char* row_head =
    "\n\n| value | ours | reference | difference | uncertainty | k |\n"
    "| --- | ---: | ---: | ---: | ---: | --- |\n";

// A bar would end the table's cell.
std::string cell(const std::string& text) {
  std::string out;
  for (const char c : text) out += c == '|' ? std::string("\\|") : std::string(1, c);
  return out;
}

std::string row_text(const ReferenceRow& row) {
  return "| " + cell(row.what) + " | " + formatted("%.5g", row.ours) + " | " +
         formatted("%.5g", row.reference) + " | " + difference_of(row) + " | " +
         uncertainty_of(row.tolerance) + " | " + k_of(row) + " |\n";
}

std::string counts_table(const Rows& rows) {
  std::string text =
      "| class | values | held out | fitted on | what it says |\n| --- | ---: | ---: | ---: | --- |\n";
  constexpr const char* meaning[] = {
      "somebody's measurement, or a handbook's value that rests on measurements",
      "a published equation or method against its own published example, table or test vector",
      "our algebra, worked out a second way: guards the code, says nothing about the world",
      "a number that the program merely holds, compared with itself: listed below, not counted"};
  for (std::size_t i = 0; i < std::size(worths); ++i) {
    const auto use = [&](Use u) {
      return count(rows, [&](const auto& r) { return r.source.worth == worths[i] && r.source.use == u; });
    };
    text += std::string("| ") + worth_names[i] + " | " +
            count(rows, [&](const auto& r) { return r.source.worth == worths[i]; }) + " | " +
            use(Use::held_out) + " | " + use(Use::fitted_on) + " | " + meaning[i] + " |\n";
  }
  return text;
}

std::string parts_table(const Rows& rows) {
  std::string text =
      "| part | measured | worked example | own arithmetic | look-up | fitted on | held out | differs |\n"
      "| --- | ---: | ---: | ---: | ---: | ---: | ---: | ---: |\n";
  for (const std::string& part : parts_of(rows)) {
    const auto in = [&](auto&& match) {
      return " | " + count(rows, [&](const auto& r) { return r.part == part && match(r); });
    };
    text += "| " + part;
    for (const Worth worth : worths) text += in([&](const auto& r) { return r.source.worth == worth; });
    text += in([](const auto& r) { return r.source.use == Use::fitted_on; });
    text += in([](const auto& r) { return r.source.use == Use::held_out; });
    text += in([](const auto& r) { return r.differs; }) + " |\n";
  }
  return text;
}

std::string differences_table(const Rows& rows) {
  std::string text =
      "| value | ours | reference | ratio | source | why |\n| --- | ---: | ---: | ---: | --- | --- |\n";
  for (const ReferenceRow& row : rows) {
    const KnownDifference* known = row.differs ? find_known_difference(row.part, row.what) : nullptr;
    if (known == nullptr) continue;
    text += "| " + row.part + ": " + row.what + " | " + formatted("%.4g", row.ours) + " | " +
            formatted("%.4g", row.reference) + " | " + formatted("%.3f", row.ours / row.reference) + " | " +
            row.source.text + " | " + known->why + " |\n";
  }
  return text;
}

std::string head(const Rows& rows) {
  std::string text =
      "# Our models against values from outside\n\n"
      "Written by `test_reference`, which fails when this file, its figures and its own values disagree. To "
      "write them anew:\n"
      "run all of `test_reference` with the environment variable `STIRBENCH_WRITE_REPORT=1`. Differences "
      "are in per cent where\n"
      "the uncertainty is. A row passes within k times its source's uncertainty; k is at most 3 unless its "
      "reason stands beside\n"
      "it. Values \"from memory\" were not looked up again. *Fitted on*: a constant of the code was chosen "
      "on these values;\n"
      "*held out*: it was not, although its kin were used. Rows called \"(direction)\" compare signs.\n\n";
  const auto independent = [&](auto&& match) {
    return count(rows, [&](const auto& r) { return is_independent(r) && match(r); });
  };
  text += count(rows, is_counted) + " values are checked, of which **" +
          std::to_string(independent_count(rows)) +
          " are independent**: measured or worked examples on which nothing was fitted.\nOf these " +
          independent(is_physical) +
          " are figures of the physical world (the others are methods of training and diagnosis, and "
          "directions), " +
          independent([](const auto& r) { return is_physical(r) && !is_from_memory(r); }) +
          " of them read, " + independent([](const auto& r) { return is_physical(r) && is_from_memory(r); }) +
          " from memory.\nConstants were fitted on " +
          count(rows, [](const auto& r) { return is_evidence(r) && r.source.use == Use::fitted_on; }) +
          " more measured values. " + count(rows, [](const auto& r) { return r.differs; }) +
          " values differ.\n\n";
  text += counts_table(rows) + "\n## By part\n\n" + parts_table(rows);
  text +=
      "\n## Where we differ\n\nNot widened: each of these is outside k times its source's uncertainty, is "
      "named in\n`known_differences.cpp` with its ratio, and fails when the ratio moves.\n\n" +
      differences_table(rows);
  text +=
      "\n## The whole machine\n\nRuns of the whole machine, or of one whole circuit of it. No published "
      "curve of such a machine was found: what there is\nare handbook values, a published freezing curve, "
      "common practice and first principles.\n\n";
  text +=
      "| value | ours | reference | difference | uncertainty | class | source |\n"
      "| --- | ---: | ---: | ---: | ---: | --- | --- |\n";
  for (const ReferenceRow& row : rows) {
    if (!row.source.whole_machine) continue;
    text += "| " + row.part + ": " + row.what + " | " + formatted("%.5g", row.ours) + " | " +
            formatted("%.5g", row.reference) + " | " + difference_of(row) + " | " +
            uncertainty_of(row.tolerance) + " | " + name_of(row.source.worth) + " | " + row.source.text +
            " |\n";
  }
  return text;
}

std::string section(const std::string& part, const Rows& rows) {
  std::string text =
      "\n## " + part + "\n\n![" + part + ": ours and the sources](figures/" + figure_name(part) + ")\n";
  const Source* group = nullptr;
  for (const ReferenceRow& row : rows) {
    if (row.part != part || !is_counted(row)) continue;
    const bool goes_on = group != nullptr && group->text == row.source.text &&
                         group->worth == row.source.worth && group->use == row.source.use;
    if (!goes_on) {
      text += std::string("\n**") + name_of(row.source.worth) +
              (row.source.use == Use::fitted_on  ? ", fitted on"
               : row.source.use == Use::held_out ? ", held out"
                                                 : "") +
              "** " + row.source.text + ". Uncertainty: " + row.source.reason + "." + row_head;
    }
    group = &row.source;
    text += row_text(row);
  }
  return text;
}

std::string look_ups(const Rows& rows) {
  std::string text =
      "\n## Look-ups\n\nNumbers that the program holds as its sources print them, against a transcription in "
      "the tests. They are no\nevidence; the tests beside them check what the program does at and just "
      "beside "
      "each.\n\n| value | number | source |\n| --- | ---: | --- |\n";
  for (const ReferenceRow& row : rows) {
    if (is_counted(row)) continue;
    text += "| " + row.part + ": " + row.what + " | " + formatted("%.6g", row.reference) + " | " +
            row.source.text + " |\n";
  }
  return text;
}

}  // namespace

Rows in_groups(const Rows& rows) {
  const auto first = [&](auto&& same) { return std::find_if(rows.begin(), rows.end(), same) - rows.begin(); };
  std::vector<std::pair<std::pair<long, long>, const ReferenceRow*>> order;
  for (const ReferenceRow& row : rows) {
    const long part = first([&](const auto& r) { return r.part == row.part; });
    const long source = first([&](const auto& r) {
      return r.part == row.part && r.source.text == row.source.text && r.source.worth == row.source.worth &&
             r.source.use == row.source.use;
    });
    order.push_back({{part, source}, &row});
  }
  std::stable_sort(order.begin(), order.end(),
                   [](const auto& a, const auto& b) { return a.first < b.first; });
  Rows sorted;
  for (const auto& [key, row] : order) sorted.push_back(*row);
  return sorted;
}

int independent_count(const Rows& rows) {
  return static_cast<int>(std::count_if(rows.begin(), rows.end(), is_independent));
}

int physical_count(const Rows& rows) {
  return static_cast<int>(std::count_if(
      rows.begin(), rows.end(), [](const ReferenceRow& r) { return is_independent(r) && is_physical(r); }));
}

std::vector<std::string> parts_of(const Rows& rows) {
  std::vector<std::string> parts;
  for (const ReferenceRow& row : rows)
    if (std::find(parts.begin(), parts.end(), row.part) == parts.end()) parts.push_back(row.part);
  return parts;
}

std::string figure_name(const std::string& part) {
  std::string name;
  for (const char c : part) {
    if (std::isalnum(static_cast<unsigned char>(c)) != 0)
      name += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    else if (!name.empty() && name.back() != '_')
      name += '_';
  }
  return name + ".svg";
}

std::string reference_report(const Rows& unsorted) {
  const Rows rows = in_groups(unsorted);
  std::string text = head(rows);
  for (const std::string& part : parts_of(rows)) {
    const bool counted = std::any_of(rows.begin(), rows.end(),
                                     [&](const ReferenceRow& r) { return r.part == part && is_counted(r); });
    if (counted) text += section(part, rows);
  }
  return text + look_ups(rows);
}

}  // namespace stirbench::tests
