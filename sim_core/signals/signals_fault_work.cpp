#include "sim_core/machine/fault_readings.h"
#include "sim_core/signals/signals.h"
#include "sim_core/signals/signals_internal.h"

// Readings of finding and mending: what the instrument shows, what was named, repaired and proved, what it
// took.
namespace stirbench::signals {

using machine::HandOverStage;
using machine::Lapse;

namespace {

template <Lapse lapse>
double lapses(M, S s) {
  return static_cast<double>(s.work.lapses[static_cast<std::size_t>(lapse)]);
}

double all_lapses(M, S s) {
  double sum = 0.0;
  for (const std::uint32_t one : s.work.lapses) sum += static_cast<double>(one);
  return sum;
}

void add_instruments(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      {"tool", SignalKind::text, "instrument in the hand", nullptr,
       [](M, S s) { return machine::instrument_word(s.work.tool); }, false},
      number("tool_reading", "what the instrument shows: V, Ohm, A, degC or bar",
             [](M, S s) { return s.work.reading.value; }),
      flag("tool_over_range", "the instrument shows that it cannot show it",
           [](M, S s) { return as_number(s.work.reading.over_range); }),
      flag("meter_fuse_blown", "the multimeter's fuse is blown",
           [](M, S s) { return as_number(s.work.fuse_blown); }),
      number("checks_done", "readings taken with instruments",
             [](M, S s) { return static_cast<double>(s.work.checks); }),
      number("precaution_lapses", "precautions left out in all", all_lapses),
      number("lapse_no_lock", machine::lapse_words(Lapse::no_lock), lapses<Lapse::no_lock>),
      number("lapse_not_proved", machine::lapse_words(Lapse::not_proved), lapses<Lapse::not_proved>),
      number("lapse_live_unlicensed", machine::lapse_words(Lapse::live_unlicensed),
             lapses<Lapse::live_unlicensed>),
      number("lapse_live_unprotected", machine::lapse_words(Lapse::live_unprotected),
             lapses<Lapse::live_unprotected>),
      number("lapse_ohms_live", machine::lapse_words(Lapse::ohms_live), lapses<Lapse::ohms_live>),
      number("lapse_electronics", machine::lapse_words(Lapse::electronics), lapses<Lapse::electronics>),
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace

void add_fault_work_signals(std::vector<Signal>& list) {
  add_instruments(list);
  const std::vector<Signal> more = {
      number("work_min", "minutes of work so far: the run's own time and what hands took beyond it",
             [](M, S s) { return machine::work_min(s); }),
      number("work_over_plan",
             "minutes of work over those of the fault guide's own way; 0 when that is not known",
             [](M, S s) {
               const double plan_min = s.lockout.situation.plan_min;
               return plan_min > 0.0 ? machine::work_min(s) / plan_min : 0.0;
             }),
      number("faults_left", "faults still in the machine",
             [](M m, S s) { return static_cast<double>(machine::faults_left(m, s)); }),
      number("causes_found", "causes named that were right",
             [](M, S s) { return static_cast<double>(machine::causes_found(s)); }),
      number("causes_wrong", "causes named that were wrong",
             [](M, S s) { return static_cast<double>(machine::causes_wrong(s)); }),
      number("causes_missed", "faults that nobody named",
             [](M, S s) { return static_cast<double>(machine::causes_missed(s)); }),
      number("repairs_done", "repairs made, by you or by a licensed colleague",
             [](M, S s) { return static_cast<double>(s.work.repairs); }),
      number("repairs_needless", "repairs that put nothing right",
             [](M, S s) { return static_cast<double>(s.work.needless_repairs); }),
      number("needless_parts_min", "price of parts fitted for nothing, as minutes of work",
             [](M, S s) { return s.work.needless_parts_min; }),
      number("handed_off", "times that the fault was handed to a colleague",
             [](M, S s) { return static_cast<double>(s.work.handed_off); }),
      flag("handed_over", "a colleague was called with a report",
           [](M, S s) { return as_number(s.work.hand_over.stage != HandOverStage::none); }),
      flag("colleague_here", "the colleague works behind their own padlock",
           [](M, S s) { return as_number(s.work.hand_over.stage == HandOverStage::here); }),
      flag("given_back", "the colleague has given the machine back",
           [](M, S s) { return as_number(s.work.hand_over.stage == HandOverStage::given_back); }),
      flag("as_suspected", "the colleague found what the report suspected",
           [](M, S s) { return as_number(s.work.hand_over.as_suspected); }),
      number("names_taken_back", "causes named and taken back",
             [](M, S s) { return static_cast<double>(s.work.names_taken_back); }),
      flag("proved", "seen working again since the last repair",
           [](M, S s) { return as_number(s.work.proved); }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace stirbench::signals
