#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/signals.h"
#include "sim_core/bench/step.h"

// Conditions over one moment: what lesson steps, ends and monitors are made of.
//   {"signal":"probe_degC","at_least":84}            number against a bound (at_least, at_most, above, below)
//   {"signal":"lid_open","is":true}                  flag
//   {"signal":"phase","is":"hold"}                   text
//   {"event":"acted","name":"pour","of":"sugar"}     this tick's events: kind, action or alarm or phase name, subject
//   {"all":[...]} {"any":[...]} {"not":{...}}
namespace stirbench::training {

enum class Op : unsigned char { at_least, at_most, above, below, is_flag, is_text, event, all, any, negate };

struct Condition {
  Op op = Op::all;                 // empty `all` is true
  const bench::Signal* signal = nullptr;
  double number = 0.0;
  bool flag = false;
  std::string text;                // is_text, or event's name: action name, alarm key, phase id, harm key
  bench::EventKind event = bench::EventKind::acted;
  std::string of;                  // event: ingredient or key, empty = any
  double event_at_least = 0.0;     // event: number at least (e.g. kg), 0 = any
  std::vector<Condition> parts;
};

// What a condition is judged on.
struct Moment {
  const bench::Machine& machine;
  const bench::State& state;
  const std::vector<bench::Event>& events;  // of this tick
};

bool holds(const Condition& condition, const Moment& moment);

}  // namespace stirbench::training
