#include <doctest/doctest.h>

#include <filesystem>
#include <string>

#include "app/library/reading/paths.h"
#include "app/records/certifying.h"
#include "app/records/verify.h"
#include "sim_core/training/lesson_run.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// A manager certifies, revokes, and the certificate is looked at with another data folder; a learner sees
// only the own row.
namespace {

using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;
namespace records = stirbench::records;
namespace training = stirbench::training;
namespace machine = stirbench::machine;
namespace library = stirbench::library;

constexpr const char* demand_file =
    R"({"format": 1, "id": "guards-only", "title": "Safe beside the guards", "skills": ["guards", "alarms", "isolation"],
  "tests_each": 3, "lessons_each": 1, "days_apart": 0, "p_not": 0.4, "p_competent": 0.85, "alpha": 0.025, "beta": 0.025, "most": 20, "must_pass_all": true,
  "seen_tasks": ["Shows both guards"], "valid_days": 365})";

// A whole run of guards-stop-it by its right actions, kept as a test so many days ago.
void keep_run(stirbench::desk::work::Desk& desk, const records::Person& person, int days_ago, bool passed) {
  const training::Lesson& lesson = desk.library.lessons.at("guards-stop-it");
  const machine::Machine machine = desk.library.machine(lesson.machine);
  records::Attempt a;
  a.person = person.id;
  a.lesson = lesson.id;
  a.lesson_hash = lesson.hash;
  a.mode = "test";
  a.machine = machine.plant.id;
  a.started_utc = records::utc_text(desk.store->now_s() - 86400LL * days_ago);
  a = desk.store->begin_attempt(a);
  records::JournalFile journal(desk.store->journal_path(a));
  training::LessonRun run(machine, lesson, "test", STIRBENCH_VERSION, 7,
                          [&](std::string_view record) { journal.write(record); });
  training::play_to_end(run, library::read_actions(desk.content_dir + "/lessons/guards-stop-it/" +
                                                       (passed ? "right" : "wrong-reach-in") + ".jsonl",
                                                   machine)
                                 .actions);
  const training::ScoreCard card = run.card();
  a.passed = card.passed;
  a.score_norm = card.score_norm;
  a.simulated_s = machine::time_s(run.session().state());
  // The wrong run loses a must-pass item.
  a.card_json = card.passed ? "[]" : R"([{"id":"hands-out","must_pass":true,"met":false}])";
  desk.store->finish_attempt(a);
}

records::Person manager(stirbench::desk::work::Desk& desk) {
  const records::Person ana = desk.store->add_person("Ana Ribeiro");
  desk.store->set_own_pin(ana.id, "", "739182");
  desk.store->set_role(desk.store->nobody(), ana.id, records::Role::manager);
  return ana;
}

void sign_in(DeskDriver& ui, const records::Person& person, const std::string& pin) {
  ui->app().home(true);
  ui->frames(3);
  ui->click("home.person");
  ui->click("people." + std::to_string(person.id));
  ui->fill("people.ask.pin", pin);
  ui->click("people.ask.go");
  ui->frames(4);
}

}  // namespace

TEST_CASE("a manager signs in, looks at the evidence, signs what was seen, certifies, revokes") {
  const TempFolder folder("ui-certify");
  DeskDriver ui(folder.file("data"));
  auto& desk = ui.desk();
  const records::Person imani = desk.store->add_person("Imani Castellanos");
  const records::Person jonas = desk.store->add_person("Jonas Petrov");
  const records::Person leilani = desk.store->add_person("Leilani Adair");
  desk.store->add_person("Priya Natarajan");
  for (int i = 5; i > 0; --i) keep_run(desk, imani, i, true);
  for (int i = 5; i > 0; --i) keep_run(desk, jonas, 150 + i, true);
  keep_run(desk, leilani, 3, false);
  desk.store->put_demand(desk.store->nobody(), "guards-only", demand_file);
  const records::Person ana = manager(desk);
  desk.store->set_site(desk.store->sign_in(ana.id, "739182"), "Tidewater Row");

  // Nobody sees anybody; a wrong PIN lets nobody in.
  ui->app().push("certify");
  ui->frames(4);
  CHECK(ui->has("certify.nobody"));
  ui.shot("certify-nobody");
  ui->app().home(true);
  ui->frames(3);
  ui->click("home.person");
  ui->click("people." + std::to_string(ana.id));
  ui->fill("people.ask.pin", "000000");
  ui->click("people.ask.go");
  ui->frames(3);
  CHECK(desk.person.id == 0);
  ui.shot("certify-wrong-pin");
  ui->app().home(true);
  ui->frames(3);
  sign_in(ui, ana, "739182");
  CHECK(desk.person.id == ana.id);

  ui->click("home.certify");
  ui->frames(4);
  ui.choose("certify.demand", "Safe beside the guards");
  ui->frames(4);
  const std::string cell = "certify.cell." + std::to_string(imani.id) + ".guards";
  ui->click(cell);
  ui->frames(3);
  CHECK(ui->label("certify.answer") == "Competent");
  CHECK(ui->widget("certify.cell." + std::to_string(jonas.id) + ".guards").value == "due within 30 days");
  CHECK_FALSE(ui->widget("certify.issue").enabled);
  CHECK(ui->widget("certify.issue").reason.size() > 10);
  ui.shot("certify-table");

  // Who is due, who is stuck, who is called so.
  ui->click("certify.show.2");
  ui->frames(3);
  CHECK_FALSE(ui->has(cell));
  CHECK(ui->has("certify.cell." + std::to_string(jonas.id) + ".guards"));
  ui->click("certify.show.3");
  ui->frames(3);
  CHECK(ui->has("certify.cell." + std::to_string(leilani.id) + ".guards"));
  CHECK_FALSE(ui->has("certify.cell." + std::to_string(jonas.id) + ".guards"));
  ui.shot("certify-stuck");
  ui->click("certify.show.0");
  ui->fill("certify.find", "imani");
  ui->frames(3);
  CHECK(ui->has(cell));
  CHECK_FALSE(ui->has("certify.cell." + std::to_string(jonas.id) + ".guards"));

  // From the cell to the replay: the second click.
  const std::string first = "certify.evidence." + std::to_string(desk.store->attempts(imani.id).front().id);
  ui->click(first);
  CHECK(ui.run_until([&] { return ui->has("debrief.slider"); }));
  ui.shot("certify-replay");
  ui->click("bar.back");
  ui->frames(4);

  ui->click(cell);
  ui->click("certify.sign.0");
  ui->fill("certify.machine", "The left mixer");
  ui->fill("certify.pin", "739182");
  ui.shot("certify-sign");
  ui->click("certify.dialog.go");
  ui->frames(4);
  REQUIRE(desk.store->observations(imani.id).size() == 1);
  ui->click("certify.issue");
  ui->fill("certify.pin", "111111");
  ui->click("certify.dialog.go");
  ui->frames(3);
  CHECK(desk.store->certificates().empty());  // a wrong PIN signs nothing
  ui->fill("certify.pin", "739182");
  ui->click("certify.dialog.go");
  ui->frames(4);
  REQUIRE(desk.store->certificates().size() == 1);
  ui.shot("certify-certified");
  // The board for the shift names who may work today, and nobody else under it.
  ui.choose("certify.export", "Board for the shift");
  ui->frames(4);
  CHECK(ui->has("board.may." + std::to_string(imani.id)));
  CHECK_FALSE(ui->has("board.may." + std::to_string(leilani.id)));
  CHECK(ui->has("board.other." + std::to_string(leilani.id)));
  ui.shot("board");
  ui->app().back();
  ui->frames(4);
  ui->click("certify.save");
  ui->frames(4);
  const std::string serial = desk.store->certificates().front().uid;
  const std::string file = folder.file("data/exports/" + serial + ".certificate");
  REQUIRE(std::filesystem::exists(file));
  CHECK(std::filesystem::exists(folder.file("data/exports/" + serial + ".pdf")));
  const auto away = stirbench::test_support::run_program(
      {STIRBENCH_PROGRAM, "certify", "verify", file, "--data", folder.file("second"), "--json"});
  CHECK(away.exit_code == 0);
  CHECK(away.out.find("Imani Castellanos") != std::string::npos);

  ui->click("certify.revoke");
  ui->fill("certify.reason", "Went round a guard");
  ui->fill("certify.pin", "739182");
  ui->click("certify.dialog.go");
  ui->frames(4);
  CHECK(desk.store->certificates().front().state == records::CertificateState::revoked);
  CHECK(records::verify_records(*desk.store).faults.empty());
  CHECK(stirbench::test_support::run_program(
            {STIRBENCH_PROGRAM, "certify", "verify", file, "--data", folder.file("data")})
            .exit_code == 1);

  // What it asks for: the numbers say what they mean.
  ui->click("certify.edit");
  ui->frames(4);
  ui->fill("demand.tests_each", "7");
  ui.shot("certify-demand");
  CHECK(ui->label("demand.meaning").find("At least 7") != std::string::npos);
  ui->click("demand.save");
  ui->frames(4);
  CHECK(records::demands_in_force(*desk.store, desk.library).at("guards-only").tests_each == 7);
  CHECK(ui->widget(cell).value == "not yet");

  // A sealed test hands the computer over: the manager's rights go with the manager.
  ui->click(cell);
  ui.choose("certify.sealed", "Guards stop it");
  CHECK(ui.run_until([&] { return ui->has("panel.key.stir"); }));
  CHECK(desk.person.id == imani.id);
  CHECK_FALSE(
      records::why_not(stirbench::desk::work::who_is_here(desk), records::Right::see_everybody).empty());
  REQUIRE(desk.run);
  CHECK(desk.run->attempt()->mode == "test");
  CHECK(desk.run->attempt()->person == imani.id);
  ui.shot("certify-sealed");
}

TEST_CASE("a learner in records with a manager: the first PIN, then only the own row and the own attempts") {
  const TempFolder folder("ui-learner");
  DeskDriver ui(folder.file("data"));
  auto& desk = ui.desk();
  const records::Person kim = desk.store->add_person("Kim Osei");
  const records::Person bo = desk.store->add_person("Bo Lind");
  keep_run(desk, bo, 2, true);
  manager(desk);
  ui->click("home.person");
  CHECK_FALSE(ui->has("people.add"));
  ui->click("people." + std::to_string(kim.id));
  ui->fill("people.new.next", "8024");
  ui->click("people.new.go");
  ui->frames(4);
  CHECK(desk.store->person(kim.id)->has_pin);
  ui.shot("learner-pin");
  ui->app().home(true);
  ui->frames(3);
  ui->click("home.certify");
  ui->frames(4);
  CHECK(ui->has("certify.cell." + std::to_string(kim.id) + ".guards"));
  CHECK_FALSE(ui->has("certify.cell." + std::to_string(bo.id) + ".guards"));
  CHECK_FALSE(ui->has("certify.export"));
  CHECK_FALSE(ui->widget("certify.sign.0").enabled);
  ui.shot("learner-row");
  ui->app().home(true);
  ui->frames(3);
  ui->click("home.attempts");
  ui->frames(3);
  CHECK_FALSE(ui->has("attempts.row.1"));
}
