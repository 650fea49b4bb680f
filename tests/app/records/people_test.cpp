#include <doctest/doctest.h>

#include <filesystem>

#include "app/records/roster.h"
#include "app/records/verify.h"
#include "tests/app/records/rooms.h"

using namespace stirbench;
using namespace stirbench::records;
using namespace stirbench::records_test;

TEST_CASE("roles: an open store is everybody's; with the first manager the rules hold") {
  on_both([](bool on_server) {
    CAPTURE(on_server);
    const Room room("roles", on_server);
    const auto store = room.open();
    CHECK(store->nobody().open);
    const Person kim = store->add_person("Kim");
    CHECK(says(error_of([&] { store->set_role(store->nobody(), kim.id, Role::manager); }), "no PIN yet"));
    const Managed m = make_managed(*store);
    CHECK(store->managed());
    const Access nobody = store->nobody();
    CHECK_FALSE(nobody.open);
    // Nobody, and a learner, may nothing of this; a stale right from the open time neither.
    store->reset_pin(m.manager, kim.id, "2580");
    const Access learner = store->sign_in(kim.id, "2580");
    Access stale;
    stale.open = true;
    for (const Access& who : {nobody, learner}) {
      CHECK(says(error_of([&] { store->add_person(who, "Mallory"); }), "takes a manager, an instructor"));
      CHECK(says(error_of([&] { store->set_role(who, m.ana.id, Role::learner); }), "takes a manager"));
      CHECK(says(error_of([&] { store->reset_pin(who, m.ana.id, "999111"); }), "takes a manager"));
      CHECK(says(error_of([&] { store->anonymise(who, m.ana.id); }), "takes a manager"));
      CHECK(says(error_of([&] { store->put_demand(who, "x", "{}"); }), "takes a manager"));
      CHECK(why_not(who, Right::see_everybody) != "");
      CHECK(why_not(who, Right::see_attempts, m.ana.id) != "");
    }
    CHECK(says(error_of([&] { store->add_person("Mallory"); }), "signed in with a PIN"));
    CHECK(says(error_of([&] { store->set_role(stale, kim.id, Role::manager); }), "takes a manager"));
    CHECK(why_not(learner, Right::see_attempts, kim.id) == "");
    // Never for oneself, and never the last manager.
    CHECK(says(error_of([&] { store->set_role(m.manager, m.ana.id, Role::auditor); }), "for themselves"));
    store->reset_pin(m.manager, kim.id, "258014");
    store->set_role(m.manager, kim.id, Role::manager);
    const Access second = store->sign_in(kim.id, "258014");
    CHECK(second.role == Role::manager);
    store->reset_pin(second, m.ana.id, "864209");  // recovery by a second manager
    CHECK(says(error_of([&] { store->sign_in(m.ana.id, "739182"); }), "not the PIN"));
    CHECK(store->sign_in(m.ana.id, "864209").role == Role::manager);
    store->set_role(second, m.ana.id, Role::learner);
    CHECK(verify_records(*store).faults.empty());
  });
}

TEST_CASE("SQL in names, notes and reasons is only text, on both engines") {
  on_both([](bool on_server) {
    const Room room("injection", on_server);
    const auto store = room.open();
    const Managed m = make_managed(*store);
    for (const char* hostile : {"Robin'); DROP TABLE person; --", "x' OR '1'='1", ":name :id $1 $$ %s",
                                "\\'; SELECT pg_sleep(9); --", "\xc3\xa9 \" ; PRAGMA"}) {
      CAPTURE(hostile);
      const Person person = store->add_person(m.manager, hostile, "n' --");
      CHECK(store->person_named(hostile)->id == person.id);
      CHECK(store->person(person.id)->number == "n' --");
      Observation seen;
      seen.person = person.id;
      seen.task = hostile;
      seen.machine = hostile;
      seen.note = hostile;
      store->add_observation(m.manager, seen);
      CHECK(store->observations(person.id).at(0).note == hostile);
      CHECK(
          run_attempt(*store, person, std::string("../../") + hostile, "test", true).journal_file.find('/') ==
          std::string::npos);
      store->anonymise(m.manager, person.id);
    }
    CHECK_FALSE(store->person_named("x' OR '1'='1"));
    CHECK(store->people().size() == 1);
    CHECK(verify_records(*store).faults.empty());
  });
}

TEST_CASE("PINs: rules, own change, five tries and a wait that doubles, across programs") {
  on_both([](bool on_server) {
    const Room room("pins", on_server);
    auto store = room.open();
    const Person kim = store->add_person("Kim");
    for (const char* weak : {"123", "0000", "1234", "4567"})
      CHECK(error_of([&] { store->set_own_pin(kim.id, "", weak); }) != "");
    store->set_own_pin(kim.id, "", "8024");
    CHECK(says(error_of([&] { store->set_own_pin(kim.id, "wrong", "5555x"); }), "not the PIN"));
    store->set_own_pin(kim.id, "8024", "9135");
    for (int i = 0; i < 4; ++i) CHECK(says(error_of([&] { store->sign_in(kim.id, "0000"); }), "not the PIN"));
    CHECK(store->sign_in(kim.id, "9135").person == kim.id);  // the count starts again
    for (int i = 0; i < 5; ++i) CHECK(says(error_of([&] { store->sign_in(kim.id, "0000"); }), "not the PIN"));
    CHECK(says(error_of([&] { store->sign_in(kim.id, "9135"); }), "Wait 30 s"));
    store.reset();
    store = room.open();  // another start of the program does not help
    *room.now += 29;
    CHECK(says(error_of([&] { store->sign_in(kim.id, "9135"); }), "Wait 1 s"));
    *room.now += 1;
    CHECK(says(error_of([&] { store->sign_in(kim.id, "0000"); }), "not the PIN"));
    CHECK(says(error_of([&] { store->sign_in(kim.id, "9135"); }), "Wait 60 s"));
    std::int64_t wait = 60;
    for (int i = 0; i < 8; ++i) {
      *room.now += wait;
      CHECK(says(error_of([&] { store->sign_in(kim.id, "0000"); }), "not the PIN"));
      wait = std::min<std::int64_t>(wait * 2, 900);
    }
    CHECK(says(error_of([&] { store->sign_in(kim.id, "9135"); }), "Wait 900 s"));
    *room.now += 900;
    CHECK(store->sign_in(kim.id, "9135").person == kim.id);
    CHECK(verify_records(*store).faults.empty());
  });
}

TEST_CASE("a first PIN cannot be set for a person who already has attempts") {
  const Room room("firstpin", false);
  const auto store = room.open();
  const Person kim = store->add_person("Kim");
  run_attempt(*store, kim, "guards-stop-it", "guided", true);
  make_managed(*store);
  CHECK(says(error_of([&] { store->set_own_pin(kim.id, "", "8024"); }), "A manager gives the first PIN"));
}

TEST_CASE("a person taken out: the name is nowhere in the files, attempts stay, the chain verifies") {
  on_both([](bool on_server) {
    const Room room("removed", on_server);
    std::string uid;
    {
      const auto store = room.open();
      const Managed m = make_managed(*store);
      const Person person = store->add_person(m.manager, "Wilhelmina Quarkenbrueck", "4711-XY");
      uid = person.uid;
      const Attempt attempt = run_attempt(*store, person, "never-dry", "test", true);
      Observation seen;
      seen.person = person.id;
      seen.task = "Locks out";
      seen.machine = "The left one";
      seen.note = "Quarkenbrueck was quick.";
      seen.passed = true;
      store->add_observation(m.manager, seen);
      store->anonymise(m.manager, person.id);
      CHECK(store->people().size() == 1);
      REQUIRE(store->people(true).size() == 2);
      CHECK_FALSE(store->person_named("Wilhelmina Quarkenbrueck"));
      CHECK(store->attempt(attempt.id)->passed);
      CHECK(store->observations(person.id).at(0).note == "");
      CHECK(error_of([&] { store->anonymise(m.manager, person.id); }) != "");
      CHECK(says(error_of([&] { run_attempt(*store, person, "never-dry", "test", true); }), "no person"));
      const VerifyResult verified = verify_records(*store);
      CHECK(verified.faults.empty());
      CHECK(verified.journals == 1);
    }
    if (on_server) return;
    for (const auto& entry : std::filesystem::recursive_directory_iterator(room.dir())) {
      if (!entry.is_regular_file()) continue;
      CAPTURE(entry.path().string());
      const std::string bytes = test_support::read_file(entry.path());
      CHECK(bytes.find("Quarkenbrueck") == std::string::npos);
      CHECK(bytes.find("4711-XY") == std::string::npos);
    }
  });
}

TEST_CASE("roster: looked at first, taken over whole, formulas and doubles refused with their line") {
  on_both([](bool on_server) {
    const Room room("roster", on_server);
    const auto store = room.open();
    store->add_person("Noor Haddad");
    const std::string good =
        "\xEF\xBB\xBFNumber;Name;Team\r\n17;\"Vega, Tomas\";A\r\n18;noor haddad;B\r\n\r\n19;Zoë \"\"\r\n";
    CHECK(plan_roster(*store, good).problem != "");  // the quotation mark in the middle of a cell
    const std::string list =
        "\xEF\xBB\xBFNumber;Name;Team\r\n17;\"Vega, Tomas\";A\r\n18;noor haddad;B\r\n\r\n19;\"Zoë \"\"Z\"\" "
        "Lind\";C\r\n";
    const RosterPlan plan = plan_roster(*store, list);
    CHECK(plan.problem == "");
    REQUIRE(plan.lines.size() == 3);
    CHECK(plan.lines[0].name == "Vega, Tomas");
    CHECK(plan.lines[0].number == "17");
    CHECK(plan.lines[1].step == RosterStep::known);
    CHECK(plan.lines[2].name == "Zoë \"Z\" Lind");
    CHECK(plan.lines[2].line == 5);
    CHECK(plan.ignored == std::vector<std::string>{"Team"});
    CHECK(store->people().size() == 1);  // looking writes nothing
    CHECK(take_roster(*store, store->nobody(), plan) == 2);
    CHECK(store->people().size() == 3);
    CHECK(error_of([&] { take_roster(*store, store->nobody(), plan); }) != "");  // the plan no longer fits
    CHECK(store->people().size() == 3);

    const RosterPlan bad = plan_roster(*store, "name,number\n=HYPERLINK(1),1\n@cmd,2\nAda,3\nADA,4\nEve,3\n" +
                                                   std::string(81, 'x') + ",9\n,5\nOk Name,17\n");
    CHECK_FALSE(bad.good());
    REQUIRE(bad.lines.size() == 8);
    for (const std::size_t i : {0U, 1U, 3U, 4U, 5U, 6U, 7U}) {
      CAPTURE(i);
      CHECK(bad.lines[i].step == RosterStep::wrong);
    }
    CHECK(bad.lines[2].step == RosterStep::add);
    CHECK(says(bad.lines[7].why, "belongs to Vega, Tomas"));
    CHECK(says(error_of([&] { take_roster(*store, store->nobody(), bad); }), "Nothing was changed"));
    CHECK(says(plan_roster(*store, "nome\nA\n").problem, "expected a heading \"name\""));
    CHECK(says(plan_roster(*store, "name\n\"open\n").problem, "closing quotation mark"));
    CHECK(verify_records(*store).faults.empty());
  });
}
