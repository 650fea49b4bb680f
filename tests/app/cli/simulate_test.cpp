#include <doctest/doctest.h>

#include <cmath>
#include <sstream>

#include "tests/app/cli/run.h"

namespace {

using nlohmann::json;
using stirbench::cli_test::contains;
using stirbench::cli_test::json_of;
using stirbench::cli_test::run;
using stirbench::test_support::read_file;
using stirbench::test_support::TempFolder;
using stirbench::test_support::write_file;

// Largest of the energy terms: "the energy moved".
double moved_J(const json& energy) {
  double most = 0.0;
  for (const char* key :
       {"heaters_J", "drive_J", "chiller_J", "surroundings_J", "evaporation_J", "material_J"}) {
    most = std::max(most, std::abs(energy[key].get<double>()));
  }
  return most;
}

std::string water_actions(double kg, double degC) {
  return "{\"at_s\": 1, \"do\": \"open_lid\"}\n{\"at_s\": 2, \"do\": \"pour\", \"ingredient\": \"water\", "
         "\"kg\": " +
         std::to_string(kg) + ", \"degC\": " + std::to_string(degC) +
         "}\n{\"at_s\": 3, \"do\": \"close_lid\"}\n" +
         "{\"at_s\": 4, \"do\": \"press\", \"key\": \"stop\"}\n{\"at_s\": 6, \"do\": \"set_target\", "
         "\"degC\": 90}\n" +
         "{\"at_s\": 7, \"do\": \"press\", \"key\": \"heat\"}\n";
}

}  // namespace

TEST_CASE("simulate --json prints one object with the design's keys, and energy closes to 0.1 %") {
  TempFolder folder("simulate");
  struct Run {
    const char* name;
    std::vector<std::string> arguments;
  };
  write_file(folder.file("full.jsonl"), water_actions(44.0, 10.0));
  write_file(folder.file("half.jsonl"), water_actions(22.0, 10.0));
  const Run runs[] = {
      {"white base", {"--recipe", "white-base-high", "--until", "14400"}},
      {"water, full load", {"--actions", folder.file("full.jsonl"), "--until", "5400"}},
      {"water, half load", {"--actions", folder.file("half.jsonl"), "--until", "5400"}},
  };
  for (const Run& one : runs) {
    CAPTURE(one.name);
    std::vector<std::string> arguments = {"simulate", "--machine", "hm-45", "--json"};
    arguments.insert(arguments.end(), one.arguments.begin(), one.arguments.end());
    const auto result = run(arguments);
    REQUIRE(result.exit_code == 0);
    const json out = json_of(result);
    for (const char* key : {"machine", "simulated_s", "elapsed_s", "speedup", "state_hash", "product",
                            "energy", "alarms", "harms", "wear"}) {
      CHECK(out.contains(key));
    }
    const json& energy = out["energy"];
    double others = 0.0;
    for (const char* key :
         {"heaters_J", "drive_J", "chiller_J", "surroundings_J", "evaporation_J", "material_J"}) {
      others += energy[key].get<double>();
    }
    // Signed so that stored = sum of the others + residual (design, section 5).
    CHECK(energy["stored_J"].get<double>() ==
          doctest::Approx(others + energy["residual_J"].get<double>()).epsilon(1e-9));
    CHECK(std::abs(energy["residual_J"].get<double>()) <= 1.0e-3 * moved_J(energy));
    CHECK(moved_J(energy) > 1.0e6);
  }
}

TEST_CASE("40 kg of water from 10 to 80 degC: between m cp dT / P and 1.15 times that (closed form)") {
  TempFolder folder("heating");
  write_file(folder.file("a.jsonl"), water_actions(40.0, 10.0));
  const auto result = run({"simulate", "--machine", "hm-45", "--actions", folder.file("a.jsonl"), "--until",
                           "3600", "--trace", folder.file("t.csv"), "--every", "1"});
  REQUIRE(result.exit_code == 0);
  std::istringstream trace(read_file(folder.file("t.csv")));
  std::string line;
  std::getline(trace, line);
  CHECK(
      line.rfind(
          "time_s,product_degC,well_degC,probe_degC,well_wall_degC,fill_L,heaters_W,chiller_W,drive_W,"
          "agitator_rpm,"
          "torque_Nm,circulation_L_per_min,draw_L_per_min,viscosity_Pa_s,log10_reduction,mode,phase,lid_open,"
          "shaft_cover_open,alarms",
          0) == 0);
  double began_s = -1.0;
  double reached_s = -1.0;
  while (std::getline(trace, line)) {
    std::istringstream row(line);
    std::string time;
    std::string product;
    std::getline(row, time, ',');
    std::getline(row, product, ',');
    const double t = std::stod(time);
    if (began_s < 0.0 && t >= 7.0) began_s = t;
    if (reached_s < 0.0 && std::stod(product) >= 80.0) reached_s = t;
  }
  REQUIRE(reached_s > 0.0);
  const double ideal_s = 40.0 * 4186.0 * 70.0 / 6000.0;  // mean cp of water 10..80 degC, IAPWS-IF97
  MESSAGE("heating took " << reached_s - began_s << " s, ideal " << ideal_s << " s");
  CHECK(reached_s - began_s >= ideal_s);
  CHECK(reached_s - began_s <= 1.15 * ideal_s);
}

// Common practice: kitchens get hot; a machine for them keeps working, only slower (climatic class T, 43
// degC, from memory).
TEST_CASE(
    "a whole batch under the controller in rooms of 5 to 43 degC: no alarm of the chiller, cold in the end") {
  double before_s = 0.0;
  for (const char* room : {"5", "22", "35", "43"}) {
    CAPTURE(room);
    const json out = json_of(run({"simulate", "--machine", "hm-45", "--recipe", "white-base-high", "--until",
                                  "14400", "--ambient", room, "--json"}));
    for (const json& alarm : out["alarms"]) CHECK(alarm["id"] != "chiller_pressure");
    CHECK(out["harms"].empty());
    CHECK(out["product"]["temperature_degC"].get<double>() < 5.0);
    double took_s = 0.0;
    for (const json& rule : out["cooling"]["rules"]) {
      if (rule["id"] == "uk_7_2c_1h30") took_s = rule["stages"][0]["took_s"].get<double>();
    }
    CHECK(took_s > before_s);
    before_s = took_s;
  }
}

TEST_CASE("hot product cools with everything off, and nothing scorches") {
  TempFolder folder("stands");
  write_file(folder.file("stands.jsonl"),
             "{\"at_s\": 1, \"do\": \"open_lid\"}\n"
             "{\"at_s\": 2, \"do\": \"pour\", \"ingredient\": \"whole_milk\", \"kg\": 40, \"degC\": 85}\n"
             "{\"at_s\": 20, \"do\": \"close_lid\"}\n");
  const json out = json_of(run({"simulate", "--machine", "hm-45", "--actions", folder.file("stands.jsonl"),
                                "--until", "10800", "--json"}));
  CHECK(out["harms"].empty());
  CHECK(out["quality"]["deposit_g"].get<double>() < 0.1);
  CHECK(out["product"]["temperature_degC"].get<double>() < 80.0);
}

TEST_CASE(
    "same actions and seed give the same state hash; another seed or room does not stop it from running") {
  const std::vector<std::string> base = {"simulate",        "--machine", "hm-45", "--recipe",
                                         "white-base-high", "--until",   "1800",  "--json"};
  const json first = json_of(run(base));
  const json second = json_of(run(base));
  CHECK(first["state_hash"] == second["state_hash"]);
  std::vector<std::string> warm = base;
  warm.insert(warm.end(), {"--ambient", "35"});
  CHECK(json_of(run(warm))["state_hash"] != first["state_hash"]);
  for (const auto& [option, value] :
       {std::pair{"--humidity", "0.9"}, {"--supply", "0.95"}, {"--frequency", "60"}}) {
    CAPTURE(option);
    std::vector<std::string> other = base;
    other.insert(other.end(), {option, value});
    CHECK(json_of(run(other))["state_hash"] != first["state_hash"]);
  }
}

TEST_CASE("a simulated session's journal replays, and the smaller machine runs by the same code") {
  TempFolder folder("journal");
  REQUIRE(run({"simulate", "--machine", "hm-45", "--recipe", "white-base-high", "--until", "900", "--journal",
               folder.file("j.journal")})
              .exit_code == 0);
  CHECK(run({"replay", folder.file("j.journal")}).exit_code == 0);
  const auto small = run({"simulate", "--machine", "hm-20", "--until", "60", "--json"});
  REQUIRE(small.exit_code == 0);
  CHECK(json_of(small)["machine"] == "hm-20");
}
