#include "sim_core/identification/batch_log.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace stirbench::identification {

namespace {

double median(std::vector<double> values) {
  if (values.empty()) return 0.0;
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

// Begins a new spell where the doing changes; half way between two samples.
void go_on(std::vector<Spell>& spells, double before_s, double now_s, Doing doing) {
  if (spells.empty()) {
    spells.push_back({now_s, doing});
  } else if (spells.back().doing != doing) {
    spells.push_back({0.5 * (before_s + now_s), doing});
  }
}

std::vector<Spell> by_power(const LogColumn& power, double heat_W, double chill_W) {
  std::vector<Spell> out;
  for (std::size_t i = 0; i < power.t_s.size(); ++i) {
    const double W = power.value[i];
    const Doing doing = W >= heat_W ? Doing::heat : W >= chill_W ? Doing::chill : Doing::stir;
    go_on(out, power.t_s[i == 0 ? 0 : i - 1], power.t_s[i], doing);
  }
  return out;
}

// Slope at sample i over a minute to either side [K/s], by least squares.
double slope(const std::vector<LogSample>& samples, std::size_t i, double reach_s) {
  double n = 0.0, st = 0.0, sy = 0.0, stt = 0.0, sty = 0.0;
  const double here = samples[i].t_s;
  const auto add = [&](const LogSample& one) {
    const double t = one.t_s - here;
    n += 1.0;
    st += t;
    sy += one.product_degC;
    stt += t * t;
    sty += t * one.product_degC;
  };
  add(samples[i]);
  for (std::size_t k = i; k-- > 0 && here - samples[k].t_s <= reach_s;) add(samples[k]);
  for (std::size_t k = i + 1; k < samples.size() && samples[k].t_s - here <= reach_s; ++k) add(samples[k]);
  const double spread = n * stt - st * st;
  return spread > 0.0 ? (n * sty - st * sy) / spread : 0.0;
}

// Standard error of the slope of a line through so many seconds of the log, sampled evenly.
double slope_error(const BatchLog& log, double noise, double span_s) {
  const double count = std::max(2.0, span_s / std::max(0.1, step_s(log)));
  return noise / (span_s * std::sqrt(count / 12.0));
}

// So far to either side a slope is taken that its standard error is a third of the lower threshold: less, and
// noise switches the machine; a quarter of an hour at most.
double reach_s(const BatchLog& log, const Thresholds& limits) {
  constexpr double longest_s = 450.0;
  const double least = std::min(limits.rise_K_per_s, -limits.fall_K_per_s);
  const double noise = noise_K(log);
  double reach = std::max(60.0, 3.0 * step_s(log));
  while (reach < longest_s && 3.0 * slope_error(log, noise, 2.0 * reach) > least) reach *= 1.2;
  return reach;
}

std::vector<Spell> by_curve(const BatchLog& log, const Thresholds& limits, double reach_s) {
  std::vector<Spell> out;
  for (std::size_t i = 0; i < log.samples.size(); ++i) {
    const double now = slope(log.samples, i, reach_s);
    const Doing doing = now > limits.rise_K_per_s   ? Doing::heat
                        : now < limits.fall_K_per_s ? Doing::chill
                                                    : Doing::stir;
    go_on(out, log.samples[i == 0 ? 0 : i - 1].t_s, log.samples[i].t_s, doing);
  }
  return out;
}

// Spells shorter than this are what noise at a threshold makes: they join the one before. At the log's
// beginning it is the probe that comes to the product's temperature, nothing was on; a level beginning is
// one, however short.
std::vector<Spell> without_flicker(std::vector<Spell> spells, double least_s) {
  std::vector<Spell> out;
  for (std::size_t i = 0; i < spells.size(); ++i) {
    const bool last = i + 1 == spells.size();
    const bool begins_level = i == 0 && spells[i].doing == Doing::stir;
    if (!last && !begins_level && spells[i + 1].from_s - spells[i].from_s < least_s) continue;
    if (out.empty() || out.back().doing != spells[i].doing) out.push_back(spells[i]);
  }
  return out;
}

// A probe shows a switching so much late at most: six times the lag of a usual one (choice).
constexpr double probe_late_s = 120.0;

// Mean of the log over so many seconds from a moment on.
double level_degC(const BatchLog& log, double from_s, double span_s) {
  double sum = 0.0, n = 0.0;
  for (const LogSample& one : log.samples) {
    if (one.t_s < from_s || one.t_s > from_s + span_s) continue;
    sum += one.product_degC;
    n += 1.0;
  }
  return n > 0.0 ? sum / n : 0.0;
}

// Machines are switched on after their logger: what the curve calls work from its first sample on, or a
// change of less than a kelvin before it, is a level beginning whose end is to be found. A larger change is
// the probe that comes to the product's temperature.
void begin_level(const BatchLog& log, double reach_s, std::vector<Spell>& spells) {
  constexpr double settles_K = 1.0;
  if (spells.size() < 2) return;
  if (spells.front().doing == Doing::stir) return;
  const bool short_one = spells[1].from_s - spells[0].from_s < std::max(180.0, reach_s);
  if (!short_one) {
    const double begin_s = spells.front().from_s;
    spells.front().from_s += 0.5 * reach_s;
    spells.insert(spells.begin(), Spell{begin_s, Doing::stir});
  } else if (std::abs(level_degC(log, spells[1].from_s, 30.0) - level_degC(log, spells[0].from_s, 30.0)) <
             settles_K) {
    spells.front().doing = Doing::stir;
  }
}

std::vector<Spell> spells_by_curve(const BatchLog& log, const Thresholds& limits, double reach_s) {
  std::vector<Spell> spells = by_curve(log, limits, reach_s);
  begin_level(log, reach_s, spells);
  return without_flicker(std::move(spells), std::max(180.0, reach_s));
}

}  // namespace

double mean_of(const LogColumn& column) {
  double sum = 0.0;
  for (const double value : column.value) sum += value;
  return column.empty() ? 0.0 : sum / static_cast<double>(column.value.size());
}

double step_s(const BatchLog& log) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < log.samples.size(); ++i)
    steps.push_back(log.samples[i].t_s - log.samples[i - 1].t_s);
  return median(std::move(steps));
}

double noise_K(const BatchLog& log) {
  std::vector<double> sizes;
  const std::vector<LogSample>& s = log.samples;
  for (std::size_t i = 1; i + 1 < s.size(); ++i)
    sizes.push_back(std::abs(s[i - 1].product_degC - 2.0 * s[i].product_degC + s[i + 1].product_degC));
  // With coarse rounding most differences are 0; the rounding's own spread is the least there can be.
  return std::max(median(std::move(sizes)) / (0.6745 * std::sqrt(6.0)), 1.0e-3);
}

namespace {

Spells plain_spells_of(const BatchLog& log, const Thresholds& limits) {
  const double sampling_s = step_s(log);
  const double reach = reach_s(log, limits);
  if (!log.spells.empty()) return {log.spells, SpellsFrom::events, sampling_s};
  if (!log.heater_W.empty()) {
    // Chilling does not show in the elements' power: it is taken from the curve while they are off.
    Spells out{{}, SpellsFrom::heater_power, sampling_s};
    const std::vector<Spell> heating =
        without_flicker(by_power(log.heater_W, limits.heat_W, 1.0e99), 2.0 * sampling_s);
    const std::vector<Spell> curve = spells_by_curve(log, limits, reach);
    const auto doing_at = [](const std::vector<Spell>& spells, double t_s) {
      Doing doing = Doing::stir;
      for (const Spell& one : spells)
        if (one.from_s <= t_s) doing = one.doing;
      return doing;
    };
    std::vector<double> times;
    times.reserve(heating.size() + curve.size());
    for (const Spell& one : heating) times.push_back(one.from_s);
    for (const Spell& one : curve)
      if (one.doing == Doing::chill || doing_at(curve, one.from_s - 1.0) == Doing::chill)
        times.push_back(one.from_s);
    std::sort(times.begin(), times.end());
    for (const double t : times) {
      Doing doing = doing_at(heating, t);
      if (doing != Doing::heat) doing = doing_at(curve, t) == Doing::chill ? Doing::chill : Doing::stir;
      go_on(out.spells, t, t, doing);
    }
    out.doubt_s = reach;
    return out;
  }
  if (!log.power_W.empty())
    return {without_flicker(by_power(log.power_W, limits.heat_W, limits.chill_W), 2.0 * sampling_s),
            SpellsFrom::power, sampling_s};
  return {spells_by_curve(log, limits, reach), SpellsFrom::curve, reach + probe_late_s};
}

// Straight line through the samples of a stretch: value at its end and slope; no samples, no slope.
std::pair<double, double> line_to(const BatchLog& log, double from_s, double to_s) {
  double n = 0.0, t = 0.0, y = 0.0, tt = 0.0, ty = 0.0;
  for (const LogSample& one : log.samples) {
    if (one.t_s < from_s || one.t_s > to_s) continue;
    const double x = one.t_s - to_s;
    n += 1.0;
    t += x;
    y += one.product_degC;
    tt += x * x;
    ty += x * one.product_degC;
  }
  const double spread = n * tt - t * t;
  if (!(n >= 3.0) || !(spread > 0.0)) return {0.0, 0.0};
  const double slope = (n * ty - t * y) / spread;
  return {(y - slope * t) / n, slope};
}

// The taper of a controller takes up to half of the power away over the last dozen kelvin. Only what stands
// out of the log's noise by three standard errors: a taper that was none costs more than one not seen. Where
// the curve alone says when heating ended, it says so late by about half of the doubt, and what follows the
// end is no part of the line.
void see_tapers(const BatchLog& log, Spells& spells) {
  constexpr double falls_off_norm = 0.8;
  const double noise = noise_K(log);
  const double error =
      std::hypot(slope_error(log, noise, 130.0), falls_off_norm * slope_error(log, noise, 500.0));
  const bool late = spells.from == SpellsFrom::curve;
  const double short_s = late ? spells.doubt_s : 20.0;
  const double onward_s = late ? 0.5 * spells.doubt_s : 20.0;
  for (std::size_t i = 0; i + 1 < spells.spells.size(); ++i) {
    Spell& spell = spells.spells[i];
    const double end_s = spells.spells[i + 1].from_s;
    if (spell.doing != Doing::heat || end_s - spell.from_s < 1200.0) continue;
    const double before = line_to(log, end_s - 1200.0, end_s - 700.0).second;
    const auto [degC, slope] = line_to(log, end_s - 130.0 - short_s, end_s - short_s);
    if (!(before > 0.0) || !(slope > 0.0) || slope + 3.0 * error > falls_off_norm * before) continue;
    spell.tapers = true;
    spell.end_K_per_s = slope;
    spell.end_degC = degC + onward_s * slope;
  }
}

}  // namespace

Spells spells_of(const BatchLog& log, const Thresholds& limits) {
  Spells out = plain_spells_of(log, limits);
  see_tapers(log, out);
  return out;
}

double second_batch_s(const BatchLog& log) {
  constexpr double change_K = 20.0;
  const std::vector<LogSample>& s = log.samples;
  const double usual_s = step_s(log);
  // Turning points of at least 20 K: up, down, up again is a second batch.
  double low = 1.0e9, high = -1.0e9, low_s = 0.0;
  bool rising = false, fallen = false;
  for (std::size_t i = 0; i < s.size(); ++i) {
    const double t = s[i].product_degC;
    const bool together = i > 0 && s[i].t_s - s[i - 1].t_s < 5.0 * usual_s;
    if (together && std::abs(t - s[i - 1].product_degC) > change_K) {
      // One wild reading comes back in the next.
      const bool comes_back =
          i + 1 < s.size() && std::abs(s[i + 1].product_degC - s[i - 1].product_degC) < 5.0;
      if (!comes_back) return s[i].t_s;
    }
    if (t < low) {
      low = t;
      low_s = s[i].t_s;
    }
    high = std::max(high, t);
    if (!rising && t > low + change_K) {
      if (fallen) return low_s;
      rising = true;
      high = t;
    } else if ((rising || !fallen) && t < high - change_K) {
      // Also a log that begins with a hot product: what follows is the next batch.
      rising = false;
      fallen = true;
      low = t;
      low_s = s[i].t_s;
    }
  }
  return -1.0;
}

}  // namespace stirbench::identification
