#include <doctest/doctest.h>

#include <cmath>
#include <functional>

#include "sim_core/product/cooling_watch.h"

using namespace stirbench::product;

namespace {

constexpr double hour_s = 3600.0;

Rules rules() {
  Rules out;
  CoolingRule two_stage;
  two_stage.start = CoolingStart::falls_below;
  two_stage.from_degC = 57.0;
  two_stage.stages = {{21.0, 2.0 * hour_s}, {5.0, 6.0 * hour_s}};
  CoolingRule after_heat;
  after_heat.start = CoolingStart::heat_ends;
  after_heat.from_degC = 65.6;
  after_heat.stages = {{7.2, 1.5 * hour_s}};
  CoolingRule made_cold;
  made_cold.start = CoolingStart::made_cold;
  made_cold.from_degC = 57.0;
  made_cold.stages = {{5.0, 4.0 * hour_s}};
  out.cooling = {two_stage, after_heat, made_cold};
  StorageRule limit;
  limit.at_most_degC = 5.0;
  limit.days = 7.0;
  out.storage = {limit};
  AgeingRule age;
  age.at_most_degC = 5.0;
  age.at_least_s = 4.0 * hour_s;
  out.ageing = {age};
  return out;
}

VatSample at(double t_s, double t_degC, double brought_kg = 40.0) {
  VatSample s;
  s.t_s = t_s;
  s.well_degC = s.vat_degC = s.head_space_degC = t_degC;
  s.mass_kg = 40.0;
  s.brought_kg = brought_kg;
  return s;
}

void feed(CoolingWatch& watch, double from_s, double to_s, const std::function<double(double)>& degC,
          double brought_kg = 40.0) {
  for (double t = from_s; t <= to_s; t += 10.0) watch.see(at(t, degC(t), brought_kg));
}

// Straight from 85 at 1 h to `end_degC` after `fall_s`, flat before and after.
std::function<double(double)> fall(double end_degC, double fall_s) {
  return [=](double t) { return 85.0 + (end_degC - 85.0) * std::clamp((t - hour_s) / fall_s, 0.0, 1.0); };
}

}  // namespace

TEST_CASE("two stages: both clocks run from 57, moments are found on the line") {
  const Rules r = rules();
  CoolingWatch watch(r);
  // 80 K in 2 h 40 min = 30 K/h: 57 at 56 min after 1 h, 21 after 1.2 h more, 5 after 1.7333 h.
  feed(watch, 0.0, 5.0 * hour_s, fall(5.0, 80.0 / 30.0 * hour_s));
  const CoolingVerdict v = watch.cooling(0);
  CHECK(v.state == CoolingState::kept);
  CHECK(v.start_s == doctest::Approx(hour_s + 28.0 / 30.0 * hour_s).epsilon(1e-9));
  CHECK(v.took_s[0] == doctest::Approx(1.2 * hour_s).epsilon(1e-9));
  CHECK(v.took_s[1] == doctest::Approx(52.0 / 30.0 * hour_s).epsilon(1e-6));
  // 1.5 h from the end of the heat treatment (83 degC, 4 min after 1 h): 7.2 is reached after 2.527 h: too
  // late.
  CHECK(watch.cooling(1).state == CoolingState::missed);
  CHECK(watch.cooling(1).start_s == doctest::Approx(hour_s + 240.0).epsilon(1e-6));
  CHECK(watch.cooling(1).at_s == doctest::Approx(hour_s + 240.0 + 1.5 * hour_s).epsilon(1e-6));
  CHECK(watch.cooling(2).state == CoolingState::does_not_apply);
}

TEST_CASE("each stage can be missed by itself") {
  const Rules r = rules();
  CoolingWatch slow(r);
  feed(slow, 0.0, 9.0 * hour_s, fall(5.0, 5.0 * hour_s));  // 16 K/h: 36 K take 2.25 h
  CHECK(slow.cooling(0).state == CoolingState::missed);
  CHECK(slow.cooling(0).stage == 0);
  CoolingWatch stuck(r);
  feed(stuck, 0.0, 9.0 * hour_s, fall(6.0, 1.0 * hour_s));  // quick to 6, and no further
  CHECK(stuck.cooling(0).state == CoolingState::missed);
  CHECK(stuck.cooling(0).stage == 1);
  CHECK(stuck.cooling(0).took_s[0] < hour_s);
  CHECK(stuck.cooling(0).at_s - stuck.cooling(0).start_s == doctest::Approx(6.0 * hour_s));
  CHECK(stuck.cooling(1).state == CoolingState::kept);
}

TEST_CASE("exactly in time is in time, a second more is not") {
  const Rules r = rules();
  for (const double over_s : {-1.0, 1.0}) {
    CoolingWatch watch(r);
    watch.see(at(0.0, 57.0));
    watch.see(at(7200.0 + over_s, 21.0));
    watch.see(at(7300.0, 20.0));
    CHECK((watch.cooling(0).state == CoolingState::missed) == (over_s > 0.0));
  }
}

TEST_CASE("the warmest zone counts") {
  const Rules r = rules();
  CoolingWatch watch(r);
  for (double t = 0.0; t <= 3.0 * hour_s; t += 10.0) {
    VatSample s = at(t, fall(3.0, hour_s)(t));
    s.vat_degC = std::max(s.vat_degC, 22.0);  // stands warm while nothing circulates
    watch.see(s);
  }
  CHECK(watch.cooling(0).state == CoolingState::running);
  CHECK(watch.cooling(0).stage == 0);
  CHECK(watch.storage(0).cold_s == -1.0);
}

TEST_CASE("heating again stops the clock, but a miss stays") {
  const Rules r = rules();
  CoolingWatch watch(r);
  feed(watch, 0.0, 2.0 * hour_s, fall(40.0, 0.5 * hour_s));
  REQUIRE(watch.cooling(0).state == CoolingState::running);
  watch.see(at(2.1 * hour_s, 70.0));
  CHECK(watch.cooling(0).state == CoolingState::waiting);
  watch.see(at(2.2 * hour_s, 40.0));
  CHECK(watch.cooling(0).state == CoolingState::running);
  CHECK(watch.cooling(0).start_s > 2.1 * hour_s);
  watch.see(at(6.0 * hour_s, 40.0));
  REQUIRE(watch.cooling(0).state == CoolingState::missed);
  watch.see(at(6.1 * hour_s, 70.0));
  watch.see(at(6.2 * hour_s, 3.0));
  CHECK(watch.cooling(0).state == CoolingState::missed);
}

TEST_CASE("cold product poured into hot product starts the clock too") {
  const Rules r = rules();
  CoolingWatch watch(r);
  watch.see(at(0.0, 60.0));
  watch.see(at(10.0, 50.0, 45.0));
  CHECK(watch.cooling(0).state == CoolingState::running);
  CHECK(watch.cooling(0).start_s == doctest::Approx(10.0));
}

TEST_CASE("made without heat: four hours from the last addition") {
  const Rules r = rules();
  CoolingWatch watch(r);
  watch.see(at(0.0, 22.0));
  CHECK(watch.cooling(2).state == CoolingState::running);
  watch.see(at(3600.0, 20.0, 41.0));  // an addition: from now on
  CHECK(watch.cooling(2).start_s == doctest::Approx(3600.0));
  watch.see(at(3600.0 + 4.0 * hour_s - 10.0, 6.0, 41.0));
  CHECK(watch.cooling(2).state == CoolingState::running);
  watch.see(at(3600.0 + 4.0 * hour_s - 1.0, 4.9, 41.0));
  CHECK(watch.cooling(2).state == CoolingState::kept);
  // Something more afterwards starts it again.
  watch.see(at(6.0 * hour_s, 12.0, 42.0));
  CHECK(watch.cooling(2).state == CoolingState::running);
}

TEST_CASE(
    "storage counts time above the limit after it was cold, with the longest stretch and the date mark") {
  const Rules r = rules();
  CoolingWatch watch(r);
  watch.see(at(0.0, 4.0));     // cold ingredients: cold from the start
  watch.see(at(100.0, 60.0));  // heated: begins anew
  watch.see(at(1000.0, 4.0));
  CHECK(watch.storage(0).cold_s == doctest::Approx(1000.0));
  CHECK(watch.storage(0).use_by_s == doctest::Approx(7.0 * 86400.0));
  watch.see(at(1100.0, 6.0));  // passes 5 at 1050
  watch.see(at(1200.0, 6.0));
  watch.see(at(1300.0, 4.0));  // back at 1250
  watch.see(at(1400.0, 4.0));
  watch.see(at(1500.0, 6.0));  // 1450 .. 1550
  watch.see(at(1600.0, 4.0));
  CHECK(watch.storage(0).above_s == doctest::Approx(200.0 + 100.0));
  CHECK(watch.storage(0).longest_s == doctest::Approx(200.0));
  CHECK(watch.storage(0).warmest_degC == doctest::Approx(6.0));
}

TEST_CASE("a moment above a storage limit does not count; a minute counts from its beginning") {
  const Rules r = rules();
  CoolingWatch watch(r);
  watch.see(at(0.0, 60.0));
  watch.see(at(1000.0, 4.9));
  for (int i = 0; i < 50; ++i) {  // swings about the limit, each time less than a second above it
    watch.see(at(1001.0 + 2.0 * i, 5.1));
    watch.see(at(1002.0 + 2.0 * i, 4.9));
  }
  CHECK(watch.storage(0).above_s == 0.0);
  CHECK(watch.storage(0).longest_s == 0.0);
  CHECK(watch.storage(0).warmest_degC == doctest::Approx(5.1));
  // Passes 5 half way to 1201 and back half way to 1261: 60 s; a second less does not count.
  watch.see(at(1200.0, 4.0));
  watch.see(at(1201.0, 6.0));
  watch.see(at(1259.0, 6.0));
  watch.see(at(1260.0, 4.0));
  CHECK(watch.storage(0).above_s == 0.0);
  watch.see(at(1300.0, 4.0));
  watch.see(at(1301.0, 6.0));
  watch.see(at(1360.0, 6.0));
  CHECK(watch.storage(0).above_s == 0.0);
  watch.see(at(1361.0, 4.0));
  CHECK(watch.storage(0).above_s == doctest::Approx(60.0));
  CHECK(watch.storage(0).longest_s == doctest::Approx(60.0));
}

TEST_CASE("ageing adds up while cold and is lost when the fat melts") {
  const Rules r = rules();
  CoolingWatch watch(r);
  feed(watch, 0.0, 2.0 * hour_s, [](double) { return 4.0; });
  CHECK(watch.ageing(0).aged_s == doctest::Approx(2.0 * hour_s));
  watch.see(at(2.5 * hour_s, 8.0));  // not counted, not lost
  watch.see(at(2.6 * hour_s, 4.0));
  feed(watch, 2.6 * hour_s + 10.0, 4.6 * hour_s + 10.0, [](double) { return 4.0; });
  CHECK(watch.ageing(0).done_s > 0.0);
  watch.see(at(5.0 * hour_s, 16.0));
  CHECK(watch.ageing(0).aged_s == 0.0);
  CHECK(watch.ageing(0).done_s == -1.0);
}
