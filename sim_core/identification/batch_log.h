#pragma once

#include <string>
#include <vector>

// What a logger recorded of one batch.
namespace stirbench::identification {

// What the machine was doing, as far as a log can say it.
enum class Doing { rest, stir, heat, chill };

struct LogSample {
  double t_s = 0.0;
  double product_degC = 0.0;
};

// A column that the log may have, with its own samples: loggers leave cells empty.
struct LogColumn {
  std::vector<double> t_s;
  std::vector<double> value;
  bool empty() const { return t_s.empty(); }
};

// A spell of the machine's work: it lasts until the next one begins.
struct Spell {
  double from_s = 0.0;
  Doing doing = Doing::rest;
  // Heating whose slope fell off before its end: the controller tapered towards its target. Temperature and
  // slope at the end, smoothed.
  bool tapers = false;
  double end_degC = 0.0;
  double end_K_per_s = 0.0;
};

// In order of time, no time twice.
struct BatchLog {
  std::vector<LogSample> samples;
  LogColumn wall_degC;        // of the heated well's wall
  LogColumn element_degC;     // of the elements
  LogColumn condensing_degC;  // saturation at the discharge gauge
  LogColumn power_W;          // of the whole machine
  LogColumn heater_W;         // of the elements alone
  LogColumn ambient_degC;
  LogColumn fill_L;
  std::vector<Spell> spells;  // as its column of events states them; empty: it has none
  // Lid as the events state it: times at which it moved.
  struct LidMove {
    double t_s = 0.0;
    bool open = false;
  };
  std::vector<LidMove> lid;

  double begin_s() const { return samples.empty() ? 0.0 : samples.front().t_s; }
  double end_s() const { return samples.empty() ? 0.0 : samples.back().t_s; }
};

double mean_of(const LogColumn& column);
// Median step of the product's samples [s]; 0 with fewer than two.
double step_s(const BatchLog& log);
// Standard deviation of the noise from second differences, which a smooth curve hardly has: the median of
// their size over 0.6745 sqrt(6). Rounding to 0.1 K counts as noise of 0.029 K.
double noise_K(const BatchLog& log);

// Spells from what the log shows, in this order of trust: its column of events; its power (of the elements,
// then of the whole machine, with thresholds by the machine's rating: heating from 30 % of the elements'
// rated power, chilling from `chill_W`); the curve alone, by its slope over two minutes (heating above
// `rise_K_per_s`, chilling below `fall_K_per_s`).
struct Thresholds {
  double heat_W = 0.0;
  double chill_W = 0.0;
  double rise_K_per_s = 0.0;
  double fall_K_per_s = 0.0;
};
enum class SpellsFrom { events, heater_power, power, curve, actions };
struct Spells {
  std::vector<Spell> spells;
  SpellsFrom from = SpellsFrom::curve;
  double doubt_s = 0.0;  // how far a switching may be from where it stands
};
Spells spells_of(const BatchLog& log, const Thresholds& thresholds);

// Where a second batch begins: the product was heated and chilled by at least 20 K each, and then warms by
// 20 K again, or jumps by more than 20 K between two samples that belong together. Below 0: one batch.
double second_batch_s(const BatchLog& log);

}  // namespace stirbench::identification
