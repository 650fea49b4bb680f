#include "sim_core/product/burns.h"

#include <array>
#include <cmath>
#include <limits>

namespace stirbench::product {

namespace {

constexpr double hour_s = 3600.0;
constexpr double minute_s = 60.0;
constexpr double never_s = std::numeric_limits<double>::infinity();

constexpr std::array<BurnRow, 10> rows{{{45.0, 2.0 * hour_s, 3.0 * hour_s},
                                        {47.0, 20.0 * minute_s, 45.0 * minute_s},
                                        {48.0, 15.0 * minute_s, 20.0 * minute_s},
                                        {49.0, 8.0 * minute_s, 10.0 * minute_s},
                                        {51.0, 2.0 * minute_s, 4.2 * minute_s},
                                        {55.0, 17.0, 30.0},
                                        {60.0, 3.0, 5.0},
                                        {63.0, 2.9, 2.9},
                                        {66.0, 1.5, 1.5},
                                        {68.0, 1.0, 1.0}}};

constexpr std::array<TouchRow, 5> metal{
    {{43.0, 8.0 * hour_s}, {48.0, 10.0 * minute_s}, {51.0, minute_s}, {55.0, 10.0}, {65.0, 1.0}}};
constexpr std::array<TouchRow, 5> other{
    {{43.0, 8.0 * hour_s}, {48.0, 10.0 * minute_s}, {51.0, minute_s}, {65.0, 10.0}, {85.0, 1.0}}};

double between(double degC, double low_degC, double low_s, double high_degC, double high_s) {
  const double share = (degC - low_degC) / (high_degC - low_degC);
  return std::exp(std::log(low_s) + share * (std::log(high_s) - std::log(low_s)));
}

double time_of(const BurnRow& row, BurnSeverity depth) {
  return depth == BurnSeverity::full ? row.full_s : row.partial_s;
}

}  // namespace

std::span<const BurnRow> burn_rows() { return rows; }

std::span<const TouchRow> touch_rows(Surface surface) {
  return surface == Surface::bare_metal ? std::span<const TouchRow>(metal) : std::span<const TouchRow>(other);
}

double burn_time_s(double degC, BurnSeverity depth) {
  if (depth == BurnSeverity::none || !(degC >= rows.front().degC)) return never_s;
  if (degC > rows.back().degC) return 0.0;
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (degC > rows[i].degC) continue;
    return between(degC, rows[i - 1].degC, time_of(rows[i - 1], depth), rows[i].degC,
                   time_of(rows[i], depth));
  }
  return 0.0;
}

BurnSeverity burn_severity(double degC, double contact_s) {
  if (!(contact_s > 0.0)) return BurnSeverity::none;
  if (contact_s >= burn_time_s(degC, BurnSeverity::full)) return BurnSeverity::full;
  return contact_s >= burn_time_s(degC, BurnSeverity::partial) ? BurnSeverity::partial : BurnSeverity::none;
}

double touch_time_s(Surface surface, double degC) {
  const std::span<const TouchRow> table = touch_rows(surface);
  if (!(degC >= table.front().degC)) return never_s;
  for (std::size_t i = 1; i < table.size(); ++i) {
    if (degC > table[i].degC) continue;
    return between(degC, table[i - 1].degC, table[i - 1].threshold_s, table[i].degC, table[i].threshold_s);
  }
  return 0.0;
}

bool touch_burns(Surface surface, double degC, double contact_s) {
  return contact_s > 0.0 && contact_s >= touch_time_s(surface, degC);
}

double basal_damage(double degC, double contact_s) {
  if (!(degC >= 44.0) || !(contact_s > 0.0)) return 0.0;
  constexpr double ln_rate = 226.784741;  // ln(3.1e98)
  return contact_s * std::exp(ln_rate - 75000.0 / (degC + 273.15));
}

}  // namespace stirbench::product
