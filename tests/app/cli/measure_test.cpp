#include <doctest/doctest.h>

#include "tests/app/cli/run.h"

using namespace stirbench::cli_test;

namespace {

nlohmann::json measured(std::vector<std::string> more) {
  std::vector<std::string> arguments = {"measure", "--machine", "hm-45", "--json"};
  arguments.insert(arguments.end(), more.begin(), more.end());
  const auto result = run(arguments);
  INFO(result.err);
  REQUIRE(result.exit_code == 0);
  return json_of(result);
}

}  // namespace

TEST_CASE("measure: each instrument on the command line") {
  CHECK(measured({"--meter", "V~", "--between", "E1.1", "E1.2", "--demand", "heat", "drive"})["value"] ==
        doctest::Approx(400.0));
  CHECK(measured({"--meter", "V~", "--between", "E1.1", "E1.2", "--demand", "heat", "drive",
                  "--lid-open"})["value"] == doctest::Approx(0.0));
  CHECK(measured({"--meter", "Ohm", "--between", "X2.1", "X2.2", "--isolated"})["value"] ==
        doctest::Approx(53.3));
  CHECK(measured({"--meter", "Ohm", "--between", "X1.1", "X1.2"})["mishap"] == "fuse_blown");
  CHECK(measured({"--meter", "clamp", "--wire", "50", "--demand", "heat", "drive"})["value"] ==
        doctest::Approx(8.66));
  CHECK(measured({"--meter", "insulation", "--between", "M1.U", "X5.1", "--isolated"})["value"] ==
        doctest::Approx(200.0e6).epsilon(0.002));
  CHECK(measured({"--meter", "V=", "--between", "X4.1", "X4.2"})["value"] == doctest::Approx(24.0));
  // At rest both sides of the chiller stand at the saturation pressure of the room: propane at 22 degC, less
  // the air's.
  CHECK(measured({"--meter", "gauges"})["low_bar_gauge"] == doctest::Approx(7.8).epsilon(0.02));
  CHECK(measured({"--meter", "contact", "--at", "well_wall"})["value_degC"] == doctest::Approx(22.0));
  CHECK(measured({"--list"})["parts"].size() > 20);
}

TEST_CASE("measure: what it cannot do is said, exit 2") {
  const auto refused = [](std::vector<std::string> more) {
    std::vector<std::string> arguments = {"measure", "--machine", "hm-45"};
    arguments.insert(arguments.end(), more.begin(), more.end());
    const auto result = run(arguments);
    CHECK(result.exit_code == 2);
    CHECK(result.out.empty());
    return result.err;
  };
  CHECK(contains(refused({"--meter", "V~", "--between", "K1.A1", "K1.A9"}), "expected a terminal"));
  CHECK(
      contains(refused({"--meter", "volts", "--between", "K1.A1", "K1.A2"}), "--meter: expected one of V~"));
  CHECK(contains(refused({"--meter", "clamp", "--wire", "7777"}), "--wire: expected"));
  CHECK(contains(refused({"--meter", "contact", "--at", "moon"}), "--at: expected"));
  CHECK(contains(refused({"--meter", "V~", "--between", "K1.A1", "K1.A2", "--demand", "sing"}),
                 "--demand: expected"));
}
