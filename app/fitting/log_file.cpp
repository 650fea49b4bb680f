#include "app/fitting/log_file.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "app/fitting/log_cells.h"
#include "app/library/reading/json.h"
#include "app/library/reading/paths.h"
#include "app/records/csv.h"
#include "sim_core/identification/fit.h"

namespace stirbench::fitting {

namespace {

using identification::BatchLog;
using identification::Doing;
using identification::LogColumn;
using records::CsvRow;

constexpr double set_back_s = 1800.0;    // a clock that goes back by more was set
constexpr double least_share = 0.8;      // of rows with a temperature
constexpr double doubled_apart_K = 2.0;  // one stamp, two temperatures

struct Column {
  std::size_t place = 0;
  LogUnit unit = LogUnit::none;
};
using Columns = std::map<LogField, Column>;

// One row, with its time.
struct Row {
  const CsvRow* cells = nullptr;
  double t_s = 0.0;
};

class Parser {
 public:
  Parser(std::string file, LogResult& out) : file_(std::move(file)), out_(out) {}

  void read(std::string_view text) {
    const records::CsvFile csv = records::read_csv(text);
    if (!csv.problem.empty()) return problem(0, "a CSV file", csv.problem);
    if (csv.rows.size() < 2) return problem(0, "a row of headings and rows of numbers", "nothing to read");
    find_columns(csv.rows.front());
    if (!out_.problems.empty()) return;
    for (std::size_t i = 1; i < csv.rows.size() && out_.problems.empty(); ++i) take_time(csv.rows[i]);
    if (!out_.problems.empty()) return;
    put_in_order();
    for (const Row& row : rows_) take(row);
    if (!out_.problems.empty()) return;
    judge();
  }

 private:
  void problem(int line, const std::string& expected, const std::string& found) {
    out_.problems.push_back({file_, line > 0 ? "line " + std::to_string(line) : "", expected, found});
  }

  void find_columns(const CsvRow& headings) {
    bool by_probe = false;
    for (std::size_t i = 0; i < headings.cells.size(); ++i) {
      const Heading one = heading_of(headings.cells[i]);
      // Of two product temperatures the probe's is the log's; else the first.
      const bool better = one.field == LogField::product && one.probe && !by_probe;
      if (one.field == LogField::none || (columns_.count(one.field) > 0 && !better)) continue;
      by_probe = by_probe || better;
      columns_[one.field] = {i, one.unit};
    }
    if (columns_.count(LogField::time) == 0)
      problem(headings.line, "a column of times, headed time_s, time_min or time", "none");
    if (columns_.count(LogField::product) == 0)
      problem(headings.line,
              "a column of the product's temperature, headed temperature_degC or temperature_degF", "none");
    for (const auto& [field, column] : columns_) need_unit(headings, field, column);
  }

  void need_unit(const CsvRow& headings, LogField field, const Column& column) {
    const std::string found = library::in_quotes(headings.cells[column.place]);
    const bool thermal = field == LogField::product || field == LogField::wall ||
                         field == LogField::element || field == LogField::condensing ||
                         field == LogField::ambient;
    if (thermal && column.unit != LogUnit::degC && column.unit != LogUnit::degF)
      problem(headings.line, "degC or degF in the heading, as in temperature_degC", found);
    const bool electric = field == LogField::power || field == LogField::heater;
    if (electric && column.unit != LogUnit::watt && column.unit != LogUnit::kilowatt)
      problem(headings.line, "W or kW in the heading, as in power_kW", found);
  }

  std::string_view cell(const CsvRow& row, LogField field) const {
    const auto found = columns_.find(field);
    if (found == columns_.end() || found->second.place >= row.cells.size()) return {};
    return trimmed(row.cells[found->second.place]);
  }

  void take_time(const CsvRow& row) {
    const std::string_view text = cell(row, LogField::time);
    std::optional<double> t = time_of(text, columns_.at(LogField::time).unit);
    if (!t)
      return problem(row.line,
                     "seconds or minutes with the unit in the heading, h:mm:ss, or 2026-11-30T08:15:30",
                     library::in_quotes(text));
    *t += days_s_;
    if (!rows_.empty()) {
      const double back_s = rows_.back().t_s - *t;
      const bool of_day =
          text.find(':') != std::string_view::npos && text.find('-') == std::string_view::npos;
      if (of_day && back_s > 43200.0) {
        // Midnight.
        days_s_ += 86400.0;
        *t += 86400.0;
      } else if (back_s > set_back_s) {
        return problem(row.line,
                       "times that go on (a clock that was set: cut the log there, or log elapsed time)",
                       "a step back of " + library::number_text(back_s) + " s");
      }
      unordered_ += *t < rows_.back().t_s ? 1 : 0;
    }
    rows_.push_back({&row, *t});
  }

  void put_in_order() {
    if (unordered_ > 0) {
      if (unordered_ * 20 > static_cast<int>(rows_.size()))
        return problem(0, "rows in the order of their times", std::to_string(unordered_) + " that go back");
      out_.notices.push_back(std::to_string(unordered_) + " rows were out of order and have been sorted.");
    }
    std::stable_sort(rows_.begin(), rows_.end(), [](const Row& a, const Row& b) { return a.t_s < b.t_s; });
    const double begin_s = rows_.front().t_s;
    for (Row& row : rows_) row.t_s -= begin_s;
  }

  // A number of a column in its own unit; nothing when the cell is empty or holds none.
  std::optional<double> value(const CsvRow& row, LogField field) const {
    const std::string_view text = cell(row, field);
    if (text.empty()) return std::nullopt;
    const std::optional<double> number = number_of(text);
    if (!number) return std::nullopt;
    return converted(*number, columns_.at(field).unit);
  }

  void take(const Row& row) {
    take_product(row);
    take_column(row, LogField::wall, out_.log.wall_degC, -40.0, 400.0);
    take_column(row, LogField::element, out_.log.element_degC, -40.0, 900.0);
    take_column(row, LogField::condensing, out_.log.condensing_degC, -40.0, 90.0);
    take_column(row, LogField::ambient, out_.log.ambient_degC, -20.0, 60.0);
    take_column(row, LogField::power, out_.log.power_W, -100.0, 200000.0);
    take_column(row, LogField::heater, out_.log.heater_W, -100.0, 200000.0);
    take_column(row, LogField::fill, out_.log.fill_L, 0.0, 1500.0);
    take_event(row);
  }

  void take_product(const Row& row) {
    const std::optional<double> degC = value(*row.cells, LogField::product);
    if (!degC) {
      ++without_;
      return;
    }
    if (!(*degC >= -40.0 && *degC <= 200.0))
      return problem(row.cells->line, "a temperature of a product, -40 .. 200 degC",
                     library::number_text(*degC) + " degC");
    auto& samples = out_.log.samples;
    if (!samples.empty() && samples.back().t_s == row.t_s) {
      if (std::abs(samples.back().product_degC - *degC) > doubled_apart_K)
        return problem(row.cells->line, "one temperature for one time",
                       library::number_text(samples.back().product_degC) + " and " +
                           library::number_text(*degC) + " degC at the same time (two loggers in one file?)");
      samples.back().product_degC = 0.5 * (samples.back().product_degC + *degC);
      ++doubled_;
      return;
    }
    samples.push_back({row.t_s, *degC});
  }

  void take_column(const Row& row, LogField field, LogColumn& column, double low, double high) {
    const std::optional<double> number = value(*row.cells, field);
    if (!number) return;
    if (!(*number >= low && *number <= high))
      return problem(row.cells->line, library::number_text(low) + " .. " + library::number_text(high),
                     library::number_text(*number));
    if (!column.t_s.empty() && column.t_s.back() == row.t_s) return;
    column.t_s.push_back(row.t_s);
    column.value.push_back(*number);
  }

  void take_event(const Row& row) {
    std::string text(cell(*row.cells, LogField::event));
    std::transform(text.begin(), text.end(), text.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    if (text.empty()) return;
    static const std::map<std::string, Doing> doings = {{"heat", Doing::heat},  {"chill", Doing::chill},
                                                        {"cool", Doing::chill}, {"stir", Doing::stir},
                                                        {"stop", Doing::rest},  {"off", Doing::rest}};
    const auto doing = doings.find(text);
    if (doing != doings.end()) {
      auto& spells = out_.log.spells;
      if (spells.empty() || spells.back().doing != doing->second)
        spells.push_back({.from_s = row.t_s, .doing = doing->second});
      return;
    }
    const bool open = text == "lid open";
    if (open || text == "lid shut" || text == "lid closed") {
      out_.log.lid.push_back({row.t_s, open});
    } else {
      problem(row.cells->line, "an event: heat, chill, stir, stop, lid open, lid shut",
              library::in_quotes(text));
    }
  }

  void judge() {
    const BatchLog& log = out_.log;
    if (static_cast<double>(log.samples.size() + static_cast<std::size_t>(doubled_)) <
        least_share * static_cast<double>(rows_.size()))
      return problem(
          0, "a temperature in four of five rows at least",
          std::to_string(without_) + " of " + std::to_string(rows_.size()) + " rows without a number");
    if (log.samples.size() < identification::least_samples)
      return problem(0, "at least " + std::to_string(identification::least_samples) + " samples",
                     std::to_string(log.samples.size()));
    if (without_ > 0)
      out_.notices.push_back(std::to_string(without_) + " rows without a temperature were left out.");
    if (doubled_ > 0) out_.notices.push_back(std::to_string(doubled_) + " doubled stamps were put together.");
    const double usual_s = identification::step_s(log);
    if (usual_s > 300.0)
      problem(0, "a sample each 5 min at least", "one each " + library::number_text(usual_s) + " s");
    for (std::size_t i = 1; i < log.samples.size(); ++i) {
      const double gap_s = log.samples[i].t_s - log.samples[i - 1].t_s;
      if (gap_s > std::max(10.0 * usual_s, 120.0))
        out_.notices.push_back("A gap of " + library::number_text(std::round(gap_s)) + " s begins at " +
                               library::number_text(std::round(log.samples[i - 1].t_s)) + " s.");
    }
  }

  std::string file_;
  LogResult& out_;
  Columns columns_;
  std::vector<Row> rows_;
  double days_s_ = 0.0;
  int unordered_ = 0;
  int without_ = 0;
  int doubled_ = 0;
};

}  // namespace

LogResult parse_log(std::string_view text, const std::string& file) {
  LogResult out;
  Parser(file, out).read(text);
  return out;
}

LogResult read_log(const std::string& file) {
  try {
    return parse_log(library::read_file(file), file);
  } catch (const std::exception& failure) {
    LogResult out;
    out.problems.push_back({file, "", "a file that can be read", failure.what()});
    return out;
  }
}

void cut(BatchLog& log, double from_s, double until_s) {
  const double begin_s = std::max(0.0, from_s);
  const double end_s = until_s < 0.0 ? log.end_s() : until_s;
  const auto outside = [&](double t_s) { return t_s < begin_s || t_s > end_s; };
  std::erase_if(log.samples, [&](const auto& one) { return outside(one.t_s); });
  for (auto& one : log.samples) one.t_s -= begin_s;
  for (LogColumn* column : {&log.wall_degC, &log.element_degC, &log.condensing_degC, &log.power_W,
                            &log.heater_W, &log.ambient_degC, &log.fill_L}) {
    LogColumn kept;
    for (std::size_t i = 0; i < column->t_s.size(); ++i) {
      if (outside(column->t_s[i])) continue;
      kept.t_s.push_back(column->t_s[i] - begin_s);
      kept.value.push_back(column->value[i]);
    }
    *column = std::move(kept);
  }
  // What was going on at the beginning goes on.
  for (auto& spell : log.spells) spell.from_s = std::max(0.0, spell.from_s - begin_s);
  while (log.spells.size() > 1 && log.spells[1].from_s <= 0.0) log.spells.erase(log.spells.begin());
  std::erase_if(log.lid, [&](const auto& one) { return outside(one.t_s); });
  for (auto& one : log.lid) one.t_s -= begin_s;
}

}  // namespace stirbench::fitting
