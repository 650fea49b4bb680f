#include <doctest/doctest.h>

#include "tests/app/library/scratch.h"

// The circuit files: what the checker refuses, and where it says so.
using namespace stirbench;
using library_test::Scratch;

namespace {

constexpr const char* file = "circuits/hm-20.json";

std::string after(const char* from, const char* to) {
  Scratch scratch("circuit");
  scratch.change(file, from, to);
  return scratch.problems();
}

}  // namespace

TEST_CASE("each machine has its circuit, ready to solve") {
  for (const auto& [id, machine] : library_test::shipped().machines) {
    const auto network = library_test::shipped().network(id);
    CHECK(network.parts.size() > 20);
    CHECK(network.supply_V == machine.supply_V);
    CHECK(network.terminal("E1.1") >= 0);
  }
  CHECK_THROWS_AS(library_test::shipped().network("no-such"), std::out_of_range);
}

TEST_CASE("the checker refuses unknown, floating, double and missing things in a circuit") {
  CHECK(
      after("\"from\": \"K1.2\"", "\"from\": \"K1.9\"") ==
      "circuits/hm-20.json:/wires/39/from: expected a terminal of a part, such as \"K1.A1\", found \"K1.9\"");
  CHECK(after("\"number\": 71,", "\"number\": 72,") ==
        "circuits/hm-20.json:/wires/52/number: expected a number that no other wire has, found 72 again");
  // The probe's second lead goes to the third's terminal: T2 hangs in the air.
  CHECK(
      after("\"to\": \"A1.T2\"", "\"to\": \"A1.T3\"").find("expected a wire at terminal A1.T2, found none") !=
      std::string::npos);
  CHECK(after("{\"id\": \"E1\", \"kind\": \"element\", \"role\": \"heat\", \"title\": \"Heating element 1\", "
              "\"place\": \"under the well\", \"rated_W\": 1000",
              "{\"id\": \"E1\", \"kind\": \"element\", \"role\": \"heat\", \"title\": \"Heating element 1\", "
              "\"place\": \"under the well\", \"rated_W\": 2000") ==
        "circuits/hm-20.json:/parts/9/rated_W: expected the machine's rated_W_each (1000), found 2000");
  CHECK(after("\"role\": \"cutout\", ", "") ==
        "circuits/hm-20.json:/parts: expected one guard for cutout, found 0");
  CHECK(after("\"kind\": \"ntc\"", "\"kind\": \"thermocouple\"")
            .find("circuits/hm-20.json:/parts/32/kind: expected one of supply") == 0);
  CHECK(after("\"beta_K\": 3950", "\"insulation_MOhm\": 1") ==
        "circuits/hm-20.json:/parts/32/beta_K: expected a number above 0 for a part of kind ntc, found "
        "nothing");
  CHECK(after("\"id\": \"K2\"", "\"id\": \"K1\"")
            .find("/parts/13/id: expected an id that no other part has, found \"K1\" again") !=
        std::string::npos);
}

TEST_CASE("a machine without circuit, and a circuit without machine") {
  Scratch scratch("circuit-missing");
  scratch.remove(file);
  CHECK(scratch.problems() == "circuits/hm-20.json: expected the circuit of the machine, found no such file");
  Scratch other("circuit-stranger");
  other.write("circuits/hm-21.json", other.read(file));
  CHECK(other.problems().find("circuits/hm-21.json:/id: expected") == 0);
}
