#include <doctest/doctest.h>

#include <limits>
#include <set>

#include "tests/sim_core/control/rig.h"

// The life of an alarm against the state table of ISA-18.2 / IEC 62682, as two independent secondary lists
// give it (paths of latched and shelved alarms from memory): each row is walked on the running controller.
using namespace stirbench;
using namespace stirbench::control;
using stirbench::control_test::Rig;
using stirbench::tests::relays;
using S = AlarmState;

namespace {

// "Hold interrupted" does not latch, the overload does; one rig for both.
struct AlarmRig : Rig {
  AlarmId id;
  explicit AlarmRig(AlarmId alarm) : id(alarm) {
    spec.alarms[static_cast<std::size_t>(AlarmId::hold_broken)].shelve_longest_s = 60.0;
    scan();
    if (id == AlarmId::hold_broken) begin_hold();
  }
  S state_now() const {
    return alarm_state(spec.alarms[static_cast<std::size_t>(id)], state.alarms[static_cast<std::size_t>(id)]);
  }
  void begin_hold() {
    run_to(3);
    probe(86.0, 20);
  }
  void cause(bool present) {
    if (id == AlarmId::hold_broken)
      probe(present ? 70.0 : 86.0, 2);
    else if (id == AlarmId::drive_overload)
      readings.overload_tripped = present;
    else
      readings.lid_closed = !present;
    scan();
  }
  void acknowledge() {
    panel.acknowledge = -1;
    scan();
    panel.acknowledge = PanelInputs::nothing;
  }
  void shelve(double for_s) {
    panel.shelve = static_cast<std::int32_t>(id);
    panel.shelve_s = for_s;
    scan();
    panel.shelve = PanelInputs::nothing;
  }
  void unshelve() {
    panel.unshelve = static_cast<std::int32_t>(id);
    scan();
    panel.unshelve = PanelInputs::nothing;
  }
  void reset() { press(Key::stop); }
};

// The ways to the table's "from" states that an alarm without latch has.
AlarmRig plain(S from) {
  AlarmRig rig(AlarmId::hold_broken);
  if (from == S::normal) return rig;
  if (from == S::shelved) {
    rig.shelve(30.0);
    return rig;
  }
  rig.cause(true);
  if (from == S::acknowledged) rig.acknowledge();
  if (from == S::returned_unacknowledged) rig.cause(false);
  return rig;
}
AlarmRig latching(S from) {
  AlarmRig rig(AlarmId::drive_overload);
  if (from == S::normal) return rig;
  rig.cause(true);
  if (from == S::acknowledged || from == S::latched_acknowledged) rig.acknowledge();
  if (from == S::latched_unacknowledged || from == S::latched_acknowledged) rig.cause(false);
  return rig;
}

enum class Do { cause_comes, cause_goes, acknowledge, reset, shelve, unshelve, nothing };

struct Row {
  bool latches;
  S from;
  Do event;
  S to;
};

void happen(AlarmRig& rig, Do event) {
  switch (event) {
    case Do::cause_comes: rig.cause(true); break;
    case Do::cause_goes: rig.cause(false); break;
    case Do::acknowledge: rig.acknowledge(); break;
    case Do::reset: rig.reset(); break;
    case Do::shelve: rig.shelve(30.0); break;
    case Do::unshelve: rig.unshelve(); break;
    case Do::nothing: rig.scan(5); break;
  }
}

}  // namespace

TEST_CASE("each row of the published state table") {
  const Row rows[] = {
      // Normal · condition true · Unacknowledged
      {false, S::normal, Do::cause_comes, S::unacknowledged},
      {true, S::normal, Do::cause_comes, S::unacknowledged},
      // Unacknowledged · acknowledge · Acknowledged
      {false, S::unacknowledged, Do::acknowledge, S::acknowledged},
      {true, S::unacknowledged, Do::acknowledge, S::acknowledged},
      // Unacknowledged · condition clears · returned to normal unacknowledged, or latched unacknowledged
      {false, S::unacknowledged, Do::cause_goes, S::returned_unacknowledged},
      {true, S::unacknowledged, Do::cause_goes, S::latched_unacknowledged},
      // Acknowledged · condition clears · Normal, or latched acknowledged
      {false, S::acknowledged, Do::cause_goes, S::normal},
      {true, S::acknowledged, Do::cause_goes, S::latched_acknowledged},
      // Returned to normal unacknowledged · acknowledge · Normal
      {false, S::returned_unacknowledged, Do::acknowledge, S::normal},
      // Returned to normal unacknowledged · condition true again · Unacknowledged
      {false, S::returned_unacknowledged, Do::cause_comes, S::unacknowledged},
      // Latched unacknowledged · acknowledge · Latched acknowledged
      {true, S::latched_unacknowledged, Do::acknowledge, S::latched_acknowledged},
      // Latched acknowledged · reset, condition false · Normal
      {true, S::latched_acknowledged, Do::reset, S::normal},
      // From Normal, Unacknowledged and Acknowledged · shelve · Shelved
      {false, S::normal, Do::shelve, S::shelved},
      {false, S::unacknowledged, Do::shelve, S::shelved},
      {false, S::acknowledged, Do::shelve, S::shelved},
      // Shelved · un-shelve · by the condition as it is
      {false, S::shelved, Do::unshelve, S::normal},
      // And what is no row leads nowhere.
      {true, S::unacknowledged, Do::nothing, S::unacknowledged},
      {true, S::latched_unacknowledged, Do::nothing, S::latched_unacknowledged},
      {true, S::latched_acknowledged, Do::acknowledge, S::latched_acknowledged},
      {false, S::returned_unacknowledged, Do::nothing, S::returned_unacknowledged},
      {true, S::unacknowledged, Do::shelve, S::unacknowledged},
      // Reset with the cause present acknowledges and resets nothing.
      {true, S::unacknowledged, Do::reset, S::acknowledged},
      {true, S::acknowledged, Do::reset, S::acknowledged},
      // A cause that comes again asks again.
      {true, S::latched_acknowledged, Do::cause_comes, S::unacknowledged},
      {true, S::latched_unacknowledged, Do::cause_comes, S::unacknowledged},
  };
  std::set<S> visited;
  for (const Row& row : rows) {
    CAPTURE(alarm_state_name(row.from));
    CAPTURE(static_cast<int>(row.event));
    CAPTURE(row.latches);
    AlarmRig rig = row.latches ? latching(row.from) : plain(row.from);
    REQUIRE(alarm_state_name(rig.state_now()) == alarm_state_name(row.from));
    happen(rig, row.event);
    CHECK(alarm_state_name(rig.state_now()) == alarm_state_name(row.to));
    visited.insert(row.from);
    visited.insert(row.to);
  }
  CHECK(visited.size() == 7);  // suppressed and out of service come from the machine's content, below
}

TEST_CASE("suppressed by design and out of service: tracked, but never annunciated") {
  for (const AlarmDuty duty : {AlarmDuty::suppressed, AlarmDuty::out_of_service}) {
    AlarmRig rig(AlarmId::hold_broken);
    rig.spec.alarms[static_cast<std::size_t>(rig.id)].duty = duty;
    const S expected = duty == AlarmDuty::suppressed ? S::suppressed : S::out_of_service;
    CHECK(rig.state_now() == expected);
    rig.readings.probe_degC = 70.0;
    rig.scan(3);
    CHECK(rig.alarm(rig.id).active);
    CHECK(rig.count(Notice::alarm_raised) == 0);
    CHECK(rig.count(Notice::alarm_state) == 0);
    CHECK(rig.state_now() == expected);
    rig.shelve(10.0);
    CHECK(rig.refusal() != "");
  }
}

TEST_CASE("a shelf empties itself when its time is over, by the condition as it is then") {
  for (const bool present : {false, true}) {
    AlarmRig rig(AlarmId::hold_broken);
    rig.shelve(2.0);
    rig.readings.probe_degC = present ? 70.0 : 86.0;
    rig.scan(19);
    CHECK(rig.count(Notice::alarm_raised) == 0);
    CHECK(rig.state_now() == S::shelved);
    rig.scan(2);
    CHECK(rig.state_now() == (present ? S::unacknowledged : S::normal));
    CHECK(rig.count(Notice::alarm_raised) == (present ? 1 : 0));
  }
}

TEST_CASE(
    "what protects people or the machine cannot be shelved, nor anything for longer than the content "
    "allows") {
  Rig rig;
  for (AlarmRule& rule : rig.spec.alarms) rule.shelve_longest_s = 60.0;
  rig.scan();
  for (std::size_t i = 0; i < alarm_count; ++i) {
    const auto id = static_cast<std::int32_t>(i);
    CAPTURE(alarm_key(static_cast<AlarmId>(i)));
    CHECK(why_not_shelve(rig.spec, rig.state, id, 30.0).empty() == !alarm_latches(static_cast<AlarmId>(i)));
    CHECK_FALSE(why_not_shelve(rig.spec, rig.state, id, 61.0).empty());
    CHECK_FALSE(why_not_shelve(rig.spec, rig.state, id, 0.0).empty());
    CHECK_FALSE(why_not_shelve(rig.spec, rig.state, id, std::numeric_limits<double>::quiet_NaN()).empty());
  }
  CHECK_FALSE(why_not_shelve(rig.spec, rig.state, -1, 30.0).empty());
}

TEST_CASE("first out: the alarm that found none standing") {
  Rig rig;
  rig.press(Key::stir);
  rig.readings.overload_tripped = true;
  rig.scan(2);
  rig.readings.lid_closed = false;
  rig.scan(2);
  rig.readings.cutout_tripped = true;
  rig.scan(2);
  CHECK(rig.alarm(AlarmId::drive_overload).order == 1);
  CHECK(rig.alarm(AlarmId::lid_guard).order == 2);
  CHECK(rig.alarm(AlarmId::over_temperature).order == 3);
  rig.readings = {};
  rig.press(Key::stop);
  rig.press(Key::stop);
  CHECK_FALSE(any_latched(rig.state));
  CHECK(rig.alarm(AlarmId::drive_overload).order == 1);  // still told afterwards
  rig.readings.cutout_tripped = true;
  rig.scan(2);
  CHECK(rig.alarm(AlarmId::over_temperature).order == 1);  // a new cascade
}

TEST_CASE("acknowledging clears nothing and lets nothing start") {
  AlarmRig rig(AlarmId::drive_overload);
  rig.cause(true);
  rig.cause(false);
  rig.acknowledge();
  rig.press(Key::stir);
  CHECK(rig.still());
  CHECK(rig.refusal() != "");
  CHECK(any_latched(rig.state));
  rig.acknowledge();
  CHECK(rig.refusal() == "No alarm waits to be acknowledged.");
}

TEST_CASE(
    "one press of Stop on a latched alarm goes the table's way: acknowledged when it goes down, normal when "
    "it comes up") {
  AlarmRig rig(AlarmId::drive_overload);
  rig.cause(true);
  rig.cause(false);
  REQUIRE(rig.state_now() == S::latched_unacknowledged);
  rig.down(Key::stop);
  rig.scan();
  CHECK(rig.state_now() == S::latched_acknowledged);
  rig.up(Key::stop);
  rig.scan();
  CHECK(rig.state_now() == S::normal);
}

TEST_CASE("a prompt has no life as an alarm") {
  Rig rig;
  rig.run_to(1);
  CHECK(rig.alarm(AlarmId::addition_waiting).active);
  CHECK_FALSE(rig.alarm(AlarmId::addition_waiting).unacknowledged);
  CHECK(rig.alarm(AlarmId::addition_waiting).order == 0);
  for (const ScanNotice& notice : rig.said) CHECK(notice.kind != Notice::alarm_state);
}

TEST_CASE("emergency stop: all off at once, latched, and turning it free neither clears nor starts") {
  Rig rig;
  for (const Key start : {Key::heat, Key::chill, Key::stir, Key::rinse}) {
    rig.readings.probe_degC = start == Key::chill ? 60.0 : 20.0;
    rig.press(start);
    REQUIRE(rig.outputs.drive);
    rig.readings.emergency_stop_in = true;
    rig.scan();
    CHECK(rig.still());
    CHECK(rig.relays_still());
    CHECK(rig.alarm(AlarmId::emergency_stop).latched);
    rig.press(Key::stop);
    CHECK(any_latched(rig.state));  // the cause is present
    rig.readings.emergency_stop_in = false;
    rig.scan(5);
    CHECK(rig.relays_still());
    rig.press(start);
    CHECK(rig.relays_still());
    rig.press(Key::stop);
    CHECK_FALSE(any_latched(rig.state));
    rig.scan(5);
    CHECK(rig.relays_still());
    rig.press(start);
    CHECK(rig.actuators.drive_on);
    rig.press(Key::stop);
  }
}

TEST_CASE("the emergency stop's own contactor cuts all, whatever controller and welded contactors do") {
  const Outputs everything{1.0, true, true};
  plant::SensorReadings readings;
  plant::Fittings fittings;
  plant::SafetyParts welded;
  welded.drive_welded = welded.heat_welded = welded.chill_welded = true;
  const plant::Actuators on = relays({}, readings, fittings, welded);
  CHECK(on.drive_on);
  CHECK(on.heat_norm == 1.0);
  CHECK(on.chiller_on);
  readings.emergency_stop_in = true;
  for (const plant::SafetyParts& parts : {plant::SafetyParts{}, welded}) {
    const plant::Actuators off = relays(everything, readings, fittings, parts);
    CHECK_FALSE(off.drive_on);
    CHECK(off.heat_norm == 0.0);
    CHECK_FALSE(off.chiller_on);
  }
  welded.emergency_contactor_welded = true;
  CHECK(relays({}, readings, fittings, welded).drive_on);
  fittings.isolator_on = false;
  CHECK_FALSE(relays(everything, readings, fittings, welded).drive_on);
}

TEST_CASE("welded contactors: what still cuts them is what lies in their own line") {
  plant::SensorReadings readings;
  const plant::Fittings fittings;
  plant::SafetyParts drive, heat, chill;
  drive.drive_welded = true;
  heat.heat_welded = true;
  chill.chill_welded = true;
  readings.lid_closed = false;
  readings.overload_tripped = true;  // in the coil: no help
  CHECK(relays({}, readings, fittings, drive).drive_on);
  CHECK(relays({}, readings, fittings, heat).heat_norm == 1.0);
  readings.cutout_tripped = true;  // in the elements' line
  CHECK(relays({}, readings, fittings, heat).heat_norm == 0.0);
  CHECK(relays({}, readings, fittings, chill).chiller_on);
  readings.pressure_tripped = true;  // in the compressor's line
  CHECK_FALSE(relays({}, readings, fittings, chill).chiller_on);
}

TEST_CASE("no heat while the drive is not switched on, whatever is commanded") {
  const plant::SensorReadings readings;
  const plant::Fittings fittings;
  CHECK(relays({1.0, false, false}, readings, fittings).heat_norm == 0.0);
  CHECK(relays({1.0, true, false}, readings, fittings).heat_norm == 1.0);
  plant::SensorReadings tripped;
  tripped.overload_tripped = true;
  CHECK(relays({1.0, true, false}, tripped, fittings).heat_norm == 0.0);
}
