#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/signals/signals.h"

// The text of a reading taken apart. It names what is read, how several places are joined to one number, and
// what is done with that number over a run:
//   [FOLD:]SOURCE   or   [FOLD:]JOIN(SOURCE, SOURCE, ...)
// SOURCE: a signal of bench/signals.h, an instrument of bench/instruments.h ("meter:V~:X2.1:X2.2",
// "gauge:low_bar"), or a part that somebody looks at (part_reader.h).
// FOLD: "max:" "min:" "mean:" over the run so far, "rise:" now less at the start, "when:SOURCE>VALUE" and
// "when:SOURCE<VALUE" the first second at which it holds (1e9 when it never does); none: its value at the
// reading's moment. JOIN: least, most, sum; ratio (least over most, 0 when all are 0); off (first less
// second); odd (of three: which one is out of line).
namespace stirbench::diagnosis {

enum class Fold : std::uint8_t { now, most, least, mean, above, below, rise };
enum class ReadingJoin : std::uint8_t { one, least, most, sum, ratio, off, odd };

struct ReadingSource {
  std::string name;
  const signals::Signal* signal = nullptr;  // nullptr: an instrument or a part
  bool part = false;
};

class ParsedReading {
 public:
  // Throws std::invalid_argument naming what is unknown on this machine.
  ParsedReading(const machine::Machine& machine, const std::string& text);

  double value(const machine::Machine& machine, const machine::State& state) const;
  Fold fold() const { return fold_; }
  double threshold() const { return threshold_; }
  const std::vector<ReadingSource>& sources() const { return sources_; }

 private:
  Fold fold_ = Fold::now;
  ReadingJoin join_ = ReadingJoin::one;
  double threshold_ = 0.0;
  std::vector<ReadingSource> sources_;
};

// A reading's value over a run, its fold applied; fed in order, once a second.
class RunningValue {
 public:
  void see(const ParsedReading& plan, double x, double t_s);
  double value() const { return value_; }

 private:
  double value_ = 0.0;
  double first_ = 0.0;
  double sum_ = 0.0;
  unsigned seen_ = 0;
};

// Of three readings that should be alike: 0 they are (within 12 %, choice), k the k-th is above two that are
// alike, -k it is below them, 9 all three differ, 8 none of them is above 0.1.
double odd_one(double a, double b, double c);

}  // namespace stirbench::diagnosis
