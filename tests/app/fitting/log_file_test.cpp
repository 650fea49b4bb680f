#include "app/fitting/log_file.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

#include "app/fitting/log_cells.h"

using namespace stirbench::fitting;

namespace {

// A file of rows "TIME,TEMPERATURE" made by `row(i)` under a heading.
template <typename Row>
std::string file_of(const std::string& heading, int rows, Row&& row) {
  std::string out = heading + "\n";
  for (int i = 0; i < rows; ++i) out += row(i) + "\n";
  return out;
}

std::string plain(int i) { return std::to_string(10 * i) + "," + std::to_string(8.0 + 0.1 * i); }

// The only problem of a text, as people see it.
std::string problem_of(const std::string& text) {
  const LogResult read = parse_log(text, "log.csv");
  REQUIRE(read.problems.size() == 1);
  return read.problems.front().text();
}

bool contains(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

// Seconds between the first two rows.
double step_of(const std::string& text) {
  const LogResult read = parse_log(text, "log.csv");
  REQUIRE(read.problems.empty());
  return read.log.samples[1].t_s - read.log.samples[0].t_s;
}

}  // namespace

TEST_CASE("times in seconds, minutes, h:mm:ss and ISO 8601, with commas or semicolons") {
  CHECK(step_of(file_of("time_s,temperature_degC", 40, plain)) == doctest::Approx(10.0));
  CHECK(step_of(file_of("Time [min];Temp (C)", 40, [](int i) {
          return std::to_string(i / 2) + (i % 2 == 0 ? ",0" : ",5") + ";20,5";
        })) == doctest::Approx(30.0));
  const auto two = [](int i) { return (i < 10 ? "0" : "") + std::to_string(i); };
  CHECK(step_of(file_of("time,product_degC", 40, [&](int i) { return "8:00:" + two(i) + ",21"; })) ==
        doctest::Approx(1.0));
  CHECK(step_of(file_of("timestamp,product_degC", 40, [&](int i) {
          return "2026-11-30T08:" + two(i) + ":00+01:00,21";
        })) == doctest::Approx(60.0));
}

TEST_CASE("midnight goes on") {
  const LogResult read = parse_log(file_of("time,product_degC", 60,
                                           [](int i) {
                                             const int minute = (23 * 60 + 30 + i) % 1440;
                                             return std::to_string(minute / 60) + ":" +
                                                    (minute % 60 < 10 ? "0" : "") +
                                                    std::to_string(minute % 60) + ":00,30";
                                           }),
                                   "log.csv");
  REQUIRE(read.problems.empty());
  CHECK(read.log.end_s() == doctest::Approx(59.0 * 60.0));
}

TEST_CASE("units are turned into degC and W") {
  const LogResult read = parse_log(file_of("time_s,temperature_degF,power_kW,ambient_degF", 40,
                                           [](int i) { return std::to_string(10 * i) + ",212,6.3,68"; }),
                                   "log.csv");
  REQUIRE(read.problems.empty());
  CHECK(read.log.samples.front().product_degC == doctest::Approx(100.0));
  CHECK(read.log.power_W.value.front() == doctest::Approx(6300.0));
  CHECK(read.log.ambient_degC.value.front() == doctest::Approx(20.0));
}

TEST_CASE("of two product temperatures the probe's is taken: the program's own trace can be read") {
  const LogResult read =
      parse_log(file_of("time_s,product_degC,well_degC,probe_degC,well_wall_degC,heaters_W", 40,
                        [](int i) { return std::to_string(i) + ",1,2,3,4,5"; }),
                "trace.csv");
  REQUIRE(read.problems.empty());
  CHECK(read.log.samples.front().product_degC == 3.0);
  CHECK(read.log.wall_degC.value.front() == 4.0);
  CHECK(read.log.heater_W.value.front() == 5.0);
}

TEST_CASE("put right and told: order, doubled stamps, empty cells, gaps") {
  const LogResult read = parse_log(file_of("time_s,temperature_degC", 60,
                                           [](int i) {
                                             if (i == 20) return plain(21);
                                             if (i == 21) return plain(20);
                                             if (i == 30) return plain(29);
                                             if (i == 40) return std::string("400,---");
                                             return i > 50 ? plain(i + 100) : plain(i);
                                           }),
                                   "log.csv");
  REQUIRE(read.problems.empty());
  CHECK(read.notices.size() == 4);
  for (std::size_t i = 1; i < read.log.samples.size(); ++i)
    CHECK(read.log.samples[i].t_s > read.log.samples[i - 1].t_s);
}

TEST_CASE("refused with the line and the way out") {
  CHECK(contains(problem_of("time_s,temperature\n0,1\n1,2\n"), "log.csv:line 1: expected degC or degF"));
  CHECK(contains(problem_of("time,temperature_degC\n0,1\n1,2\n"), "line 2: expected seconds or minutes"));
  CHECK(contains(problem_of("when,temperature_degC\n0,1\n1,2\n"), "a column of times"));
  CHECK(contains(problem_of("time_s,power_W\n0,1\n1,2\n"), "a column of the product's temperature"));
  CHECK(contains(problem_of("time_s,temperature_degC,power\n0,1,2\n1,2,2\n"), "W or kW"));
  CHECK(contains(problem_of("time_s,temperature_degC\n0,1\n1,2\n"), "at least 30 samples, found 2"));
  CHECK(contains(problem_of(""), "a row of headings"));
  const auto with_row = [](const std::string& row) {
    return file_of("time_s,temperature_degC", 40, [&](int i) { return i == 20 ? row : plain(i); });
  };
  CHECK(contains(problem_of(with_row("200,4000")), "line 22: expected a temperature of a product"));
  CHECK(contains(problem_of(with_row("nine,8")), "line 22: expected seconds or minutes"));
  CHECK(contains(problem_of(with_row("190,60")), "two loggers in one file"));
  const std::string set_back =
      file_of("time_s,temperature_degC", 400, [](int i) { return plain(i < 300 ? i : i - 250); });
  CHECK(contains(problem_of(set_back), "line 302: expected times that go on"));
  CHECK(contains(problem_of(file_of("time_s,temperature_degC,event", 40,
                                    [](int i) { return plain(i) + (i == 5 ? ",warm" : ","); })),
                 "line 7: expected an event"));
  CHECK(contains(
      problem_of(file_of("time_s,temperature_degC", 40,
                         [](int i) { return i % 2 == 0 ? plain(i) : std::to_string(10 * i) + ",OL"; })),
      "four of five rows"));
}

TEST_CASE("a cut log begins at 0 and keeps what was going on") {
  LogResult read = parse_log(file_of("time_s,temperature_degC,event", 100,
                                     [](int i) {
                                       return plain(i) + (i == 5 ? ",heat" : i == 60 ? ",stir" : ",");
                                     }),
                             "log.csv");
  REQUIRE(read.problems.empty());
  cut(read.log, 200.0, 800.0);
  CHECK(read.log.samples.front().t_s == 0.0);
  CHECK(read.log.end_s() == doctest::Approx(600.0));
  REQUIRE(read.log.spells.size() == 2);
  CHECK(read.log.spells[0].from_s == 0.0);
  CHECK(read.log.spells[1].from_s == doctest::Approx(400.0));
}

TEST_CASE("cells that are no numbers or times") {
  for (const char* text : {"", "-", "1.2.3", "12abc", "nan", "1e999"})
    CHECK_FALSE(number_of(text).has_value());
  for (const char* text : {"25:61:00", "8:00:75", "2026-13-01T08:00:00", "2026-02-30 08:00:00", "x:y"})
    CHECK_FALSE(time_of(text, LogUnit::none).has_value());
  CHECK(*number_of(" +1,5 ") == doctest::Approx(1.5));
}
