#pragma once

#include <string>
#include <string_view>

// Numbers and moments in words, for the reasons of a score. Independent of the locale; the same text on every
// machine.
namespace stirbench::training {

// Simulated seconds as m:ss, rounded down: 751.9 -> "12:31"; minutes go on past 59.
std::string clock_text(double t_s);

// `value` with `decimals` digits after the point, rounded to nearest; no "-0". Not a number: "?".
std::string fixed_text(double value, int decimals);

// Value with the unit that the signal's name ends with: ("probe_degC", 84.17) -> "84.2 °C", ("..._norm",
// 0.25) -> "25 %".
std::string value_text(std::string_view signal_name, double value);
// A difference of two such values, always positive; kelvins for temperatures: ("probe_degC", -0.83) ->
// "0.8 K".
std::string difference_text(std::string_view signal_name, double difference);
// A length of time: "0.4 s", "28 s", "3 min 20 s".
std::string duration_text(double duration_s);

// What a criterion's text may quote. Empty fields are shown as "?".
struct Placeholders {
  std::string time;   // {time}   moment that decided it, or of the reading quoted
  std::string value;  // {value}  reading, event number or sum
  std::string bound;  // {bound}  what it was compared with
  std::string by;     // {by}     how far apart value and bound are
  std::string name;   // {name}   what the event was about
  std::string held;   // {held}   longest unbroken time
  std::string done;   // {done}   steps done in order, "2 of 3"
  std::string low;    // {low}    total's range
  std::string high;   // {high}
};

// A number behind a placeholder, for showing it in other units.
struct QuotedNumber {
  std::string Placeholders::*slot = nullptr;
  std::string_view signal;  // its unit is what the name ends with; static text
  double value = 0.0;
  bool difference = false;  // of two values: kelvins
};

// The names above, for the content checker.
bool known_placeholder(std::string_view name);

// `text` with each {name} replaced. Unknown names stay as they are (the content checker refuses them).
std::string fill_placeholders(std::string_view text, const Placeholders& placeholders);

}  // namespace stirbench::training
