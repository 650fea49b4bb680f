#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <new>
#include <stdexcept>

#include "sim_core/bench/script.h"
#include "sim_core/bytes/hash64.h"
#include "sim_core/journal/journal.h"
#include "sim_core/journal/journal_text.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::journal;
using namespace stirbench::bench_test;

namespace {

const std::string present_format = "\"format\":" + std::to_string(journal_format);

SessionHeader some_header() {
  SessionHeader header;
  header.machine = "hm-45";
  header.lesson = "a \"lesson\"\\ with\ttab and °C";
  header.lesson_hash = "00ff";
  header.mode = "practice";
  header.program = "0.1.0";
  header.start.seed = 0xffffffffffffffffULL;
  header.start.environment = {0.1 + 0.2, 0.7, 0.95, 60.0};
  header.start.loaded = {{"whole_milk", 1.0 / 3.0 + 10.0, 5.0}, {"sugar", 0.1, 20.0}};
  header.start.recipe = "white_base";
  return header;
}

struct Kept {
  std::string text;
  State state;
  std::vector<Event> history;
};

// A short session that uses every type of parameter and ends between two seconds.
Kept play(const Machine& machine, int ticks = 44, bool end = true) {
  Kept kept;
  Session session(machine, some_header(), [&kept](std::string_view record) { kept.text += record; });
  for (int i = 0; i < ticks; ++i) {
    if (i == 2) session.act(hands::open_lid());
    if (i == 3) session.act(pour("cream", 0.1 + 0.2, 5.0));
    if (i == 3) session.act(hands::close_lid());
    if (i == 10) session.act(press("run", 0.5));
    if (i == 25) session.act(valve(1.0 / 3.0));
    if (i == 30) session.act(pour("cream", 1.0, 5.0));  // refused: kept all the same
    session.step();
  }
  if (end) session.end();
  kept.state = session.state();
  kept.history = session.history();
  return kept;
}

}  // namespace

TEST_CASE("a journal read back is what was done, to the last bit") {
  const Machine machine = small_kitchen_machine();
  const Kept kept = play(machine);
  Journal journal;
  const JournalProblem fault = read_journal(kept.text, journal);
  CHECK(fault.message == "");
  const SessionHeader header = some_header();
  CHECK(journal.header.lesson == header.lesson);
  CHECK(journal.header.start.seed == header.start.seed);
  CHECK(journal.header.start.environment.ambient_degC == header.start.environment.ambient_degC);
  CHECK(journal.header.start.environment.humidity_norm == header.start.environment.humidity_norm);
  CHECK(journal.header.start.environment.supply_norm == header.start.environment.supply_norm);
  CHECK(journal.header.start.environment.frequency_Hz == header.start.environment.frequency_Hz);
  REQUIRE(journal.header.start.loaded.size() == 2);
  CHECK(journal.header.start.loaded[0].kg == header.start.loaded[0].kg);
  CHECK(journal.content_hash == machine.content_hash);
  REQUIRE(journal.acts.size() == 6);
  CHECK(journal.acts[1].tick == 3);
  CHECK(journal.acts[1].action == pour("cream", 0.1 + 0.2, 5.0));
  CHECK(journal.acts[3].action == press("run", 0.5));
  CHECK(journal.acts[4].action == valve(1.0 / 3.0));
  CHECK(journal.hashes.size() == 4);
  CHECK(journal.ended);
  CHECK(journal.end_tick == 44);
  CHECK(journal.end_hash == state_hash(kept.state));
}

TEST_CASE("replay gives the same states and the same events") {
  const Machine machine = small_kitchen_machine();
  const Kept kept = play(machine, 1234);
  Journal journal;
  REQUIRE(read_journal(kept.text, journal).message == "");
  std::vector<Event> history;
  std::uint64_t ticks = 0;
  const ReplayResult result = replay(machine, journal, [&](const State&, const std::vector<Event>& events) {
    history.insert(history.end(), events.begin(), events.end());
    ++ticks;
  });
  CHECK(result.verified);
  CHECK(result.message == "");
  CHECK(result.tick == 1234);
  CHECK(ticks == 1234);
  CHECK(first_difference(result.state, kept.state) == "");
  REQUIRE(history.size() == kept.history.size());
  for (std::size_t i = 0; i < history.size(); ++i) {
    CHECK(history[i].kind == kept.history[i].kind);
    CHECK(history[i].tick == kept.history[i].tick);
    CHECK(history[i].text == kept.history[i].text);
    CHECK(history[i].number == kept.history[i].number);
  }
}

TEST_CASE("any single changed byte is a fault") {
  const Kept kept = play(small_kitchen_machine());
  Journal journal;
  for (std::size_t at = 0; at < kept.text.size(); ++at) {
    for (const int change : {1, 2, 4, 8, 16, 32, 64, 128, 0x0a ^ static_cast<unsigned char>(kept.text[at]),
                             '"' ^ static_cast<unsigned char>(kept.text[at])}) {
      if (change == 0) continue;
      std::string text = kept.text;
      text[at] = static_cast<char>(static_cast<unsigned char>(text[at]) ^ change);
      const JournalProblem fault = read_journal(text, journal);
      if (fault.message.empty()) FAIL_CHECK("accepted with byte ", at, " changed by ", change);
    }
  }
}

TEST_CASE("a byte taken out, put in or doubled is a fault") {
  const Kept kept = play(small_kitchen_machine());
  Journal journal;
  for (std::size_t at = 0; at < kept.text.size(); ++at) {
    std::string less = kept.text;
    less.erase(at, 1);
    std::string more = kept.text;
    more.insert(at, 1, kept.text[at] == ' ' ? 'x' : ' ');
    std::string twice = kept.text;
    twice.insert(at, 1, kept.text[at]);
    CHECK(read_journal(less, journal).message != "");
    CHECK(read_journal(more, journal).message != "");
    CHECK(read_journal(twice, journal).message != "");
  }
}

TEST_CASE("a journal cut off anywhere is a fault; what came before it can still be replayed") {
  const Machine machine = small_kitchen_machine();
  const Kept kept = play(machine);
  for (std::size_t length = 0; length < kept.text.size(); ++length) {
    CAPTURE(length);
    Journal journal;
    const JournalProblem fault = read_journal(std::string_view(kept.text).substr(0, length), journal);
    CHECK((fault.message.find("cut off") == 0 || fault.message == "the journal is empty"));
    if (journal.header.machine.empty() || journal.header.start.loaded.size() < 2) continue;
    const ReplayResult result = replay(machine, journal);
    CHECK(result.verified);
    CHECK(result.tick == journal.hashes.size() * 10);
  }
}

TEST_CASE("a killed program loses at most the last second") {
  const Machine machine = small_kitchen_machine();
  const Kept kept = play(machine, 44, false);
  Journal journal;
  const JournalProblem fault = read_journal(kept.text, journal);
  CHECK(fault.message == "cut off after record 12 at tick 40");
  CHECK(journal.hashes.back().tick == 40);
}

TEST_CASE("lines out of place are named: dropped, doubled, swapped, added after the end") {
  const Kept kept = play(small_kitchen_machine());
  std::vector<std::string> lines;
  for (std::size_t at = 0; at < kept.text.size();) {
    const std::size_t end = kept.text.find('\n', at) + 1;
    lines.push_back(kept.text.substr(at, end - at));
    at = end;
  }
  const auto fault_of = [](const std::vector<std::string>& some) {
    std::string text;
    for (const std::string& line : some) text += line;
    Journal journal;
    return read_journal(text, journal);
  };
  for (std::size_t i = 0; i < lines.size(); ++i) {
    CAPTURE(i);
    auto dropped = lines;
    dropped.erase(dropped.begin() + static_cast<std::ptrdiff_t>(i));
    const JournalProblem fault = fault_of(dropped);
    CHECK(fault.message != "");
    if (i + 1 < lines.size()) {
      CHECK(fault.message.find("record " + std::to_string(i) + ", line " + std::to_string(i + 1)) == 0);
      auto swapped = lines;
      std::swap(swapped[i], swapped[i + 1]);
      CHECK(fault_of(swapped).message != "");
    }
    auto doubled = lines;
    doubled.insert(doubled.begin() + static_cast<std::ptrdiff_t>(i), lines[i]);
    CHECK(fault_of(doubled).message != "");
  }
  auto junk = lines;
  junk.push_back("hello\n");
  CHECK(fault_of(junk).message.find("expected nothing after the end record") != std::string::npos);
}

TEST_CASE("another format is named as such") {
  Kept kept = play(small_kitchen_machine());
  kept.text.replace(kept.text.find(present_format), present_format.size(),
                    "\"format\":" + std::to_string(journal_format + 1));
  Journal journal;
  CHECK(read_journal(kept.text, journal).message == "record 0, line 1: expected journal format 1 to " +
                                                        std::to_string(journal_format) + ", found format " +
                                                        std::to_string(journal_format + 1));
}

namespace {

// Writes lines with a right chain, as somebody would who forges a journal.
std::string chained(const std::vector<std::string>& bodies) {
  std::string text;
  std::uint64_t chain = bytes::fnv_basis;
  for (const std::string& body : bodies) {
    chain = bytes::fnv1a(body, chain);
    text += body + " #";
    bytes::append_hex64(text, chain);
    text += '\n';
  }
  return text;
}

std::vector<std::string> bodies_of(const std::string& text) {
  std::vector<std::string> bodies;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = text.find('\n', at);
    bodies.push_back(text.substr(at, end - at - 18));
    at = end + 1;
  }
  return bodies;
}

}  // namespace

TEST_CASE("a journal of format 1, which had no frequency, is read as of 50 Hz") {
  std::vector<std::string> bodies = bodies_of(play(small_kitchen_machine()).text);
  const std::string frequency = ",\"frequency_Hz\":60";
  REQUIRE(bodies[0].find(frequency) != std::string::npos);
  bodies[0].replace(bodies[0].find(present_format), present_format.size(), "\"format\":1");
  bodies[0].erase(bodies[0].find(frequency), frequency.size());
  Journal journal;
  CHECK(read_journal(chained(bodies), journal).message == "");
  CHECK(journal.header.start.environment.frequency_Hz == 50.0);
  CHECK(journal.header.start.environment.supply_norm == 0.95);
  CHECK(journal.acts.size() == 6);
}

TEST_CASE(
    "a journal of an older format is run again, and its replay says that the hashes cannot be compared") {
  const Machine machine = small_kitchen_machine();
  std::vector<std::string> bodies = bodies_of(play(machine).text);
  bodies[0].replace(bodies[0].find(present_format), present_format.size(), "\"format\":2");
  Journal journal;
  REQUIRE(read_journal(chained(bodies), journal).message == "");
  CHECK(journal.format == 2);
  int seen = 0;
  const ReplayResult result =
      replay(machine, journal, [&seen](const State&, const std::vector<Event>&) { ++seen; });
  CHECK(seen == 44);
  CHECK_FALSE(result.verified);
  CHECK_FALSE(result.comparable);
  CHECK(result.message ==
        "the journal is of format 2, whose state hashes this program cannot compare: it was run again to its "
        "end, but not verified");
}

TEST_CASE("the reader checks more than the chain") {
  const auto good = bodies_of(play(small_kitchen_machine()).text);
  Journal journal;
  REQUIRE(read_journal(chained(good), journal).message == "");
  const auto fault_with = [&](std::size_t record, const std::string& from, const std::string& to) {
    auto bodies = good;
    const std::size_t at = bodies[record].find(from);
    REQUIRE(at != std::string::npos);
    bodies[record].replace(at, from.size(), to);
    Journal other;
    return read_journal(chained(bodies), other).message;
  };
  CHECK(fault_with(3, "open_lid", "open_sesame").find("expected a known action") != std::string::npos);
  CHECK(fault_with(3, "\"r\":3", "\"r\":4").find("expected record number 3") != std::string::npos);
  CHECK(fault_with(0, "\"tick_ms\":100", "\"tick_ms\":50").find("tick_ms") != std::string::npos);
  CHECK(fault_with(1, "\"kg\":", "\"lb\":").find("kg") != std::string::npos);
  CHECK(fault_with(0, "\"loads\":2", "\"loads\":3").find("load") != std::string::npos);
  CHECK(fault_with(0, "\"loads\":2", "\"loads\":1").find("expected") != std::string::npos);
  CHECK(fault_with(6, "\"tick\":10,", "\"tick\":20,").find("expected the hash of tick 10") !=
        std::string::npos);
  CHECK(fault_with(good.size() - 1, "\"tick\":44", "\"tick\":444444444444").find("expected the hash") !=
        std::string::npos);
  CHECK(fault_with(4, "\"degC\":5}", "\"degC\":5,\"more\":1}").find("expected") != std::string::npos);
}

TEST_CASE("a forged input shows in the first hash after it") {
  const Machine machine = small_kitchen_machine();
  auto bodies = bodies_of(play(machine).text);
  const std::string from = "\"opening_norm\":";
  bool found = false;
  for (std::string& body : bodies) {
    const std::size_t at = body.find(from);
    if (at == std::string::npos) continue;
    body = body.substr(0, at + from.size()) + "1}";
    found = true;
  }
  REQUIRE(found);
  Journal journal;
  REQUIRE(read_journal(chained(bodies), journal).message == "");
  const ReplayResult result = replay(machine, journal);
  CHECK_FALSE(result.verified);
  CHECK(result.tick == 30);  // turned at tick 25
  CHECK(result.message.find("differs at tick 30") != std::string::npos);
}

TEST_CASE("replay on another machine or content says so") {
  Machine machine = small_kitchen_machine();
  Journal journal;
  REQUIRE(read_journal(play(machine).text, journal).message == "");
  Machine other = machine;
  other.content_hash = "fedcba9876543210";
  ReplayResult result = replay(other, journal);
  CHECK(result.verified);  // nothing that mattered has changed
  CHECK(result.message.find("content has changed") != std::string::npos);
  other.plant.elements.contact_W_per_K *= 1.01;
  result = replay(other, journal);
  CHECK_FALSE(result.verified);
  CHECK(result.message.find("content has changed") != std::string::npos);
  other.plant.id = "hm-90";
  CHECK(replay(other, journal).message.find("hm-90") != std::string::npos);
  Machine without = machine;
  without.ingredients.clear();
  CHECK(replay(without, journal).message.find("the start cannot be built") == 0);
}

TEST_CASE("random text is a fault and nothing worse") {
  Journal journal;
  Random random{7};
  for (int i = 0; i < 20000; ++i) {
    std::string text;
    const std::size_t length = random.next() % 200;
    for (std::size_t k = 0; k < length; ++k)
      text += "{}\":,#\n 0123456789abcdefrtickndhs\\u"[random.next() % 35];
    CHECK(read_journal(text, journal).message != "");
  }
}

TEST_CASE(
    "an act with a parameter that its hand does not take is refused with the known ones, one that lacks its "
    "own by name") {
  const auto read_with = [](const std::string& act) {
    std::vector<std::string> bodies = bodies_of(play(small_kitchen_machine()).text);
    for (std::string& body : bodies) {
      if (body.find("\"kind\":\"act\"") != std::string::npos) {
        body = body.substr(0, body.find(",\"do\"")) + act + "}";
        break;
      }
    }
    Journal journal;
    return read_journal(chained(bodies), journal).message;
  };
  CHECK(read_with(",\"do\":\"wipe_floor\",\"degC\":5")
            .find("\"degC\" is not a parameter of \"wipe_floor\"; it takes nothing") != std::string::npos);
  CHECK(read_with(",\"do\":\"pour\",\"ingredient\":\"water\",\"kg\":1,\"litres\":1")
            .find("\"litres\" is not a parameter of \"pour\"; it takes ingredient, kg, degC") !=
        std::string::npos);
  CHECK(read_with(",\"do\":\"pour\",\"ingredient\":\"water\"").find("kg") != std::string::npos);
}

TEST_CASE(
    "a journal of format 5 is read and run, not verified; its freezer water, whose kilograms stand twice, is "
    "poured as it was then") {
  const Machine machine = small_kitchen_machine();
  std::string text;
  Session session(machine, some_header(), [&text](std::string_view record) { text += record; });
  session.act(hands::freezer_lid(true));
  session.act(hands::freezer_water(0.5));
  for (int i = 0; i < 30; ++i) session.step();
  session.end();
  std::vector<std::string> bodies = bodies_of(text);
  bodies[0].replace(bodies[0].find(present_format), present_format.size(), "\"format\":5");
  bool twice = false;
  for (std::string& body : bodies) {
    const std::size_t water = body.find("\"do\":\"freezer_water\",\"kg\":0.5");
    if (water == std::string::npos) continue;
    body.insert(body.size() - 1, ",\"degC\":0.5");
    twice = true;
  }
  REQUIRE(twice);
  Journal journal;
  REQUIRE(read_journal(chained(bodies), journal).message == "");
  CHECK(journal.acts[1].action == hands::freezer_water(0.5));
  const ReplayResult result = replay(machine, journal);
  CHECK_FALSE((result.verified || result.comparable));
  CHECK(state_hash(result.state) == state_hash(session.state()));
}
