#include "sim_core/diagnosis/reading.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "sim_core/diagnosis/part_reader.h"
#include "sim_core/signals/instruments.h"

namespace stirbench::diagnosis {

namespace {

[[noreturn]] void refuse(const std::string& text, const std::string& what) {
  throw std::invalid_argument("reading \"" + text + "\": " + what);
}

std::string trimmed(std::string_view text) {
  while (text.starts_with(' ')) text.remove_prefix(1);
  while (text.ends_with(' ')) text.remove_suffix(1);
  return std::string(text);
}

ReadingSource source_of(const machine::Machine& machine, const std::string& text, const std::string& name) {
  ReadingSource out{name, signals::find_signal(name), knows_part(name)};
  if (out.signal != nullptr && out.signal->kind == signals::SignalKind::text)
    refuse(text, "signal \"" + name + "\" is a text and cannot be read");
  if (out.signal == nullptr && !out.part && !signals::knows_instrument(machine, name))
    refuse(text, "there is no signal, instrument or part \"" + name + "\" on this machine");
  return out;
}

struct JoinWord {
  std::string_view word;
  ReadingJoin join;
};
constexpr std::array<JoinWord, 6> join_words = {{{"least", ReadingJoin::least},
                                                 {"most", ReadingJoin::most},
                                                 {"sum", ReadingJoin::sum},
                                                 {"ratio", ReadingJoin::ratio},
                                                 {"off", ReadingJoin::off},
                                                 {"odd", ReadingJoin::odd}}};
constexpr std::array<std::pair<std::string_view, Fold>, 5> fold_words = {{{"max:", Fold::most},
                                                                          {"min:", Fold::least},
                                                                          {"mean:", Fold::mean},
                                                                          {"rise:", Fold::rise},
                                                                          {"when:", Fold::above}}};

// "NAME>VALUE" into the name; the value and the direction go out.
std::string when_of(const std::string& text, const std::string& rest, Fold& fold, double& threshold) {
  const std::size_t sign = rest.find_first_of("<>");
  if (sign == std::string::npos) refuse(text, "expected when:NAME>VALUE or when:NAME<VALUE");
  if (rest[sign] == '<') fold = Fold::below;
  const char* end = rest.data() + rest.size();
  const auto [stop, error] = std::from_chars(rest.data() + sign + 1, end, threshold);
  if (error != std::errc() || stop != end) refuse(text, "expected a number after the sign");
  return rest.substr(0, sign);
}

}  // namespace

double odd_one(double a, double b, double c) {
  constexpr double nothing = 0.1;
  constexpr double alike_norm = 0.12;
  const std::array<double, 3> v{a, b, c};
  std::array<std::size_t, 3> order{0, 1, 2};
  std::stable_sort(order.begin(), order.end(), [&v](std::size_t x, std::size_t y) { return v[x] < v[y]; });
  const auto alike = [&v](std::size_t x, std::size_t y) {
    return std::fabs(v[x] - v[y]) <= alike_norm * std::max(std::fabs(v[x]), std::fabs(v[y]));
  };
  if (v[order[2]] <= nothing) return 8.0;
  if (alike(order[0], order[2])) return 0.0;
  if (alike(order[0], order[1]) || v[order[1]] <= nothing) return static_cast<double>(order[2] + 1);
  return alike(order[1], order[2]) ? -static_cast<double>(order[0] + 1) : 9.0;
}

ParsedReading::ParsedReading(const machine::Machine& machine, const std::string& text) {
  std::string rest = text;
  for (const auto& [word, fold] : fold_words) {
    if (!text.starts_with(word)) continue;
    fold_ = fold;
    rest = text.substr(word.size());
    break;
  }
  if (fold_ == Fold::above) rest = when_of(text, rest, fold_, threshold_);
  const std::size_t open = rest.find('(');
  if (open == std::string::npos) {
    sources_.push_back(source_of(machine, text, rest));
    return;
  }
  const auto found = std::find_if(join_words.begin(), join_words.end(),
                                  [&](const JoinWord& one) { return one.word == rest.substr(0, open); });
  if (found == join_words.end())
    refuse(text, "expected least, most, sum, ratio, off or odd before the bracket");
  if (!rest.ends_with(')')) refuse(text, "expected a closing bracket at the end");
  join_ = found->join;
  const std::string inside = rest.substr(open + 1, rest.size() - open - 2);
  for (std::size_t at = 0; at <= inside.size();) {
    const std::size_t comma = std::min(inside.find(',', at), inside.size());
    sources_.push_back(source_of(machine, text, trimmed(std::string_view(inside).substr(at, comma - at))));
    at = comma + 1;
  }
  if (join_ == ReadingJoin::odd && sources_.size() != 3) refuse(text, "odd joins three readings");
  if (join_ == ReadingJoin::off && sources_.size() != 2) refuse(text, "off joins two readings");
}

void RunningValue::see(const ParsedReading& plan, double x, double t_s) {
  constexpr double never_s = 1.0e9;
  if (seen_ == 0) first_ = x;
  switch (plan.fold()) {
    case Fold::now: value_ = x; break;
    case Fold::most: value_ = seen_ == 0 ? x : std::max(value_, x); break;
    case Fold::least: value_ = seen_ == 0 ? x : std::min(value_, x); break;
    case Fold::mean:
      sum_ += x;
      value_ = sum_ / static_cast<double>(seen_ + 1);
      break;
    case Fold::rise: value_ = x - first_; break;
    case Fold::above:
    case Fold::below: {
      if (seen_ == 0) value_ = never_s;
      const bool holds = plan.fold() == Fold::above ? x > plan.threshold() : x < plan.threshold();
      if (holds && value_ >= never_s) value_ = t_s;
      break;
    }
  }
  ++seen_;
}

double ParsedReading::value(const machine::Machine& machine, const machine::State& state) const {
  std::array<double, 8> v{};
  const std::size_t n = std::min(sources_.size(), v.size());
  for (std::size_t i = 0; i < n; ++i) {
    const ReadingSource& source = sources_[i];
    v[i] = source.signal != nullptr ? source.signal->value(machine, state)
           : source.part            ? read_part(machine, state, source.name)
                                    : signals::read_instrument(machine, state, source.name);
  }
  const auto end = v.begin() + static_cast<std::ptrdiff_t>(n);
  switch (join_) {
    case ReadingJoin::one: break;
    case ReadingJoin::least: return *std::min_element(v.begin(), end);
    case ReadingJoin::most: return *std::max_element(v.begin(), end);
    case ReadingJoin::sum: return std::accumulate(v.begin(), end, 0.0);
    case ReadingJoin::ratio: {
      const double most = *std::max_element(v.begin(), end);
      return most > 0.0 ? *std::min_element(v.begin(), end) / most : 0.0;
    }
    case ReadingJoin::off: return v[0] - v[1];
    case ReadingJoin::odd: return odd_one(v[0], v[1], v[2]);
  }
  return v[0];
}

}  // namespace stirbench::diagnosis
