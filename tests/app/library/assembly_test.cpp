#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "tests/app/library/scratch.h"
#include "tests/support/assembly_rules.h"

// The rules of taking apart in a machine file: as the other tests have them, and what the reader refuses.
using nlohmann::json;
using namespace stirbench;
using library_test::Scratch;

TEST_CASE("the shipped rules are those that the bench's tests are played with") {
  const plant::AssemblySpec code = tests::assembly_rules();
  for (const auto& [id, machine] : library_test::shipped().machines) {
    CAPTURE(id);
    for (std::size_t i = 0; i < plant::part_count; ++i) {
      CAPTURE(std::string(plant::part_key(static_cast<plant::PartId>(i))));
      const plant::PartRule& rule = machine.assembly.rules[i];
      CHECK(rule.known);
      CHECK(rule.tool == code.rules[i].tool);
      CHECK(rule.grip == code.rules[i].grip);
      CHECK(rule.behind.bits == code.rules[i].behind.bits);
      CHECK(rule.on.bits == code.rules[i].on.bits);
      CHECK(rule.in_vat == code.rules[i].in_vat);
    }
  }
  CHECK(library_test::shipped().machines.at("hm-45").assembly.plunger_gap_m == code.plunger_gap_m);
  // Each can be seen: the bodies have parts of the same names.
  for (const auto& [id, body] : library_test::shipped().bodies)
    for (std::size_t i = 0; i < plant::part_count; ++i)
      CHECK(body.part(std::string(plant::part_key(static_cast<plant::PartId>(i)))) != nullptr);
}

TEST_CASE("bad rules are refused with their place") {
  struct Change {
    const char* pointer;
    json value;
    const char* message;
  };
  const std::vector<Change> changes = {
      {"/assembly/parts/0/part", "valve_hanle", "/assembly/parts/0/part: expected one of"},
      {"/assembly/parts/1/part", "valve_handle",
       "/assembly/parts/1/part: expected each part once, found \"valve_handle\" again"},
      {"/assembly/parts/0/tool", "hammer",
       "/assembly/parts/0/tool: expected one of hand, spanner, pick, press, found \"hammer\""},
      {"/assembly/parts/0/grip", "twist", "/assembly/parts/0/grip: expected one of"},
      {"/assembly/parts/0/behind", json::array({"valve_nut"}),
       "/assembly/parts: expected rules by which every part can come off"},
      {"/assembly/parts", json::array({json{{"part", "agitator"}, {"tool", "hand"}, {"grip", "lift"}}}),
       "/assembly/parts: expected a rule for each part, found none for \"valve_handle\""},
      {"/assembly/plunger_gap_m", 1.0, "/assembly/plunger_gap_m: expected a number in"}};
  Scratch scratch("bad-assembly");
  const std::string before = scratch.read("machines/hm-45.json");
  for (const Change& change : changes) {
    CAPTURE(std::string(change.message));
    json changed = json::parse(before);
    changed[json::json_pointer(change.pointer)] = change.value;
    scratch.write("machines/hm-45.json", changed.dump());
    const std::string found = scratch.problems();
    CAPTURE(found);
    CHECK(found.find(std::string("machines/hm-45.json:") + change.message) != std::string::npos);
  }
}

TEST_CASE("actions files name places and things, and are refused others") {
  const machine::Machine machine = library_test::shipped().machine("hm-45");
  const auto read = [&](const std::string& text) { return library::parse_actions(text, "a.jsonl", machine); };
  CHECK(library_test::joined(read("{\"at_s\": 1, \"do\": \"take_part_off\", \"part\": \"valve_nut\"}\n"
                                  "{\"at_s\": 2, \"do\": \"pick_up\", \"thing\": \"new_oring_front\"}\n"
                                  "{\"at_s\": 3, \"do\": \"grease\"}\n")
                                 .problems) == "");
  CHECK(library_test::joined(
            read("{\"at_s\": 1, \"do\": \"take_part_off\", \"part\": \"valve_nutt\"}").problems)
            .find("valve_nut") != std::string::npos);
  CHECK(library_test::joined(read("{\"at_s\": 1, \"do\": \"pick_up\", \"thing\": \"hammer\"}").problems) !=
        "");
}
