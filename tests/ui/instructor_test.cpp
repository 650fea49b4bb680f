#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <string>

#include "app/library/reading/paths.h"
#include "app/records/verify.h"
#include "sim_core/hands/handles.h"
#include "sim_core/journal/journal.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// An instructor beside a learner's run, and a learner's first day: a run, a look back, another try from a
// moment of it.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;
namespace journal = stirbench::journal;
namespace hands = stirbench::hands;
namespace machine = stirbench::machine;
namespace library = stirbench::library;
namespace records = stirbench::records;

records::Person with_role(stirbench::desk::work::Desk& desk, const std::string& name, const std::string& pin,
                          records::Role role) {
  const records::Person person = desk.store->add_person(desk.store->nobody(), name);
  desk.store->set_own_pin(person.id, "", pin);
  desk.store->set_role(desk.store->nobody(), person.id, role);
  return person;
}

void start(DeskDriver& ui, const std::string& lesson) {
  ui->app().push("lesson", {{"lesson", lesson}});
  ui->frames(4);
  ui->click("lesson.start");
  REQUIRE(ui.run_until([&] { return ui->has("panel.key.stir"); }));
}

bool happened(DeskDriver& ui, const hands::Hand& hand) {
  const auto& history = ui.desk().run->history();
  return std::any_of(history.begin(), history.end(),
                     [&hand](const machine::Event& event) { return is_of(event, hand); });
}

}  // namespace

TEST_CASE(
    "an instructor signs in beside a run, changes conditions, breaks something, stops the clock, marks; the "
    "debrief shows it") {
  const TempFolder folder("ui-instructor");
  DeskDriver ui(folder.file("data"));
  auto& desk = ui.desk();
  const records::Person kim = desk.store->add_person("Kim Osei");
  with_role(desk, "Rosa Okoye", "604713", records::Role::instructor);
  with_role(desk, "Ana Ribeiro", "739182", records::Role::manager);
  desk.store->set_own_pin(kim.id, "", "8024");
  desk.person = *desk.store->person(kim.id);
  desk.access = desk.store->sign_in(kim.id, "8024");
  start(ui, "guards-stop-it");

  // A learner cannot: neither without a name, nor with the own one, nor with a wrong PIN.
  ui->click("train.instructor");
  ui->frames(3);
  REQUIRE(ui->has("instructor.who"));
  CHECK_FALSE(ui->has("instructor.freeze"));
  ui->fill("instructor.who", "Kim Osei");
  ui->fill("instructor.pin", "8024");
  ui->click("instructor.go");
  ui->frames(3);
  CHECK_FALSE(ui->has("instructor.freeze"));
  ui->fill("instructor.who", "Rosa Okoye");
  ui->fill("instructor.pin", "1234");
  ui->click("instructor.go");
  ui->frames(3);
  CHECK_FALSE(ui->has("instructor.freeze"));
  ui.shot("instructor-sign-in");
  ui->fill("instructor.pin", "604713");
  ui->click("instructor.go");
  ui->frames(3);
  REQUIRE(ui->has("instructor.freeze"));
  CHECK(desk.person.id == kim.id);  // the run stays the learner's
  ui.shot("instructor");

  ui->fill("instructor.room", "35");
  ui->click("instructor.room.set");
  REQUIRE(ui.run_until([&] { return happened(ui, hands::set_room); }));
  CHECK(desk.run->state().plant.environment.ambient_degC == doctest::Approx(35.0));
  ui->fill("instructor.note", "Looks into the vat first");
  ui->click("instructor.good");
  REQUIRE(ui.run_until([&] { return happened(ui, hands::mark_observation); }));
  ui->click("instructor.fault.set");
  REQUIRE(ui.run_until([&] { return happened(ui, hands::set_fault); }));

  // The clock stands; hands do nothing until it is handed back.
  ui->click("instructor.freeze");
  ui->frames(3);
  CHECK(desk.run->frozen());
  const std::uint64_t stood = desk.run->state().tick;
  ui->frames(20);
  CHECK(desk.run->state().tick == stood);
  CHECK(desk.run->act(hands::open_lid()) != "");
  ui.shot("instructor-frozen");
  ui->click("instructor.hand_back");
  REQUIRE(ui.run_until([&] { return desk.run->state().tick > stood + 5; }));
  ui->click("train.instructor");
  ui->frames(3);
  CHECK_FALSE(ui->has("instructor.freeze"));

  ui->app().back();
  ui->frames(3);
  ui->click("train.leave.score");
  REQUIRE(ui.run_until([&] { return ui->has("debrief.slider"); }));
  ui->click("debrief.side.1");
  ui->frames(4);
  bool shown = false;
  for (const auto& widget : ui->app().registry().all())
    shown = shown || widget.label.find("Looks into the vat first") != std::string::npos;
  CHECK(shown);
  ui.shot("instructor-debrief");
  journal::Journal journal;
  const std::string text = desk.store->journal_text(desk.store->attempts(kim.id).front());
  CHECK(journal::read_journal(text, journal).message == "");
  CHECK(journal::replay(desk.library.machine("hm-45"), journal).verified);
  CHECK(records::verify_records(*desk.store).faults.empty());
  CHECK(ui->app().registry().duplicates().empty());
}

TEST_CASE(
    "a learner's first day: a name, a run, a look back, what the right run did, another try from a moment, a "
    "paper") {
  const TempFolder folder("ui-first-day");
  DeskDriver ui(folder.file("data"));
  auto& desk = ui.desk();
  ui->click("home.person");
  ui->fill("people.name", "Kim Osei");
  ui->click("people.add");
  ui->frames(3);
  start(ui, "guards-stop-it");
  ui->click("panel.key.stir");
  REQUIRE(ui.run_until([&] { return desk.run->state().plant.flows.agitator_rpm > 20.0; }));
  ui->click("hand.open_lid");
  REQUIRE(ui.run_until([&] { return desk.run->state().plant.fittings.lid_open; }));
  const std::uint64_t opened = desk.run->state().tick;
  REQUIRE(ui.run_until([&] { return desk.run->state().tick > opened + 40; }));
  ui->app().back();
  ui->frames(3);
  ui->click("train.leave.score");
  REQUIRE(ui.run_until([&] { return ui->has("debrief.slider"); }));
  const auto first = desk.store->attempts(desk.person.id);
  REQUIRE(first.size() == 1);

  ui->click("debrief.side.3");
  REQUIRE(ui.run_until([&] { return ui->has("debrief.compare.title"); }));
  // The lesson draws its start and its guide can be followed: the guide's own play of this very start.
  CHECK(ui->label("debrief.compare.title").find("this very start") != std::string::npos);
  CHECK(ui->has("debrief.best.0"));
  ui.shot("debrief-best");

  ui->click("debrief.pdf");
  ui->frames(3);
  bool written = false;
  for (const auto& entry : std::filesystem::directory_iterator(folder.file("data/exports")))
    written = written || entry.path().extension() == ".pdf";
  CHECK(written);

  // At the end there is nothing to take up; in the middle there is.
  CHECK_FALSE(ui->widget("debrief.from_here").enabled);
  ui->click("debrief.slider");
  ui->frames(3);
  REQUIRE(ui->widget("debrief.from_here").enabled);
  ui->click("debrief.from_here");
  REQUIRE(ui.run_until([&] { return ui->has("panel.key.stir"); }));
  REQUIRE(desk.run);
  CHECK(desk.run->mode() == stirbench::desk::work::RunMode::retry);
  const std::uint64_t from = desk.run->state().tick;
  CHECK(from > 0);
  REQUIRE(ui.run_until([&] { return desk.run->state().tick > from + 20; }));
  ui.shot("train-retry");
  ui->app().back();
  ui->frames(3);
  ui->click("train.leave.score");
  REQUIRE(ui.run_until([&] { return ui->has("debrief.slider"); }));
  const auto both = desk.store->attempts(desk.person.id);
  REQUIRE(both.size() == 2);
  CHECK(both.front().mode == "retry");
  journal::Journal journal;
  CHECK(journal::read_journal(desk.store->journal_text(both.front()), journal).message == "");
  CHECK(journal.header.branch_of == first.front().uid);
  CHECK(journal.header.branch_tick > 0);
  CHECK(journal.header.branch_tick <= from);
  const journal::ReplayResult again = journal::replay(desk.library.machine("hm-45"), journal);
  CHECK(again.verified);
  // The moment it went on from is the other run's moment, to the last bit.
  journal::Journal other;
  CHECK(journal::read_journal(desk.store->journal_text(first.front()), other).message == "");
  for (std::size_t i = 0; i < journal.hashes.size() && journal.hashes[i].tick <= journal.header.branch_tick;
       ++i)
    CHECK(journal.hashes[i].hash == other.hashes.at(i).hash);
  CHECK(ui->app().registry().duplicates().empty());
}
