#include "app/records/certifying.h"

#include <doctest/doctest.h>

#include <filesystem>

#include "app/records/csv.h"
#include "app/records/verify.h"
#include "app/reports/export.h"
#include "app/reports/paper.h"
#include "app/reports/papers.h"
#include "app/reports/xapi.h"
#include "tests/app/records/rooms.h"
#include "tests/app/reports/shipped_content.h"

using namespace stirbench;
using namespace stirbench::records;
using namespace stirbench::records_test;
using reports_test::content;

namespace {

// A demand that the shipped lessons can meet: two skills, one task.
training::Demand small_demand() {
  training::Demand d;
  d.id = "small";
  d.title = "Safe beside the guards";
  d.skills = {"guards", "isolation"};
  d.tests_each = 3;
  d.lessons_each = 1;
  d.days_apart = 0;
  d.seen_tasks = {"Shows both guards"};
  return d;
}

void tests(Store& store, const Person& person, const std::string& results, const std::string& mode = "test",
           int day = 1) {
  for (std::size_t i = 0; i < results.size(); ++i) {
    const std::string at = "2026-11-" + std::string(day + static_cast<int>(i) < 10 ? "0" : "") +
                           std::to_string(day + static_cast<int>(i)) + "T08:00:00Z";
    run_attempt(store, person, "guards-stop-it", mode, results[i] == '+', at, results[i] == 'm');
  }
}

void see_task(Store& store, const Access& who, const Person& person, bool passed = true) {
  Observation seen;
  seen.person = person.id;
  seen.demand = "small";
  seen.task = "Shows both guards";
  seen.machine = "The left mixer";
  seen.passed = passed;
  store.add_observation(who, seen);
}

Standing standing(Store& store, const Person& person) {
  return standings(store, content(), small_demand(), person.id).at(0);
}

}  // namespace

TEST_CASE(
    "a demand: tests by the sequential rule, must-pass without exception, tasks observed by another person") {
  on_both([](bool on_server) {
    CAPTURE(on_server);
    const Room room("demand", on_server);
    const auto store = room.open();
    const Managed m = make_managed(*store);
    const Person kim = store->add_person(m.manager, "Kim");
    tests(*store, kim, "+++++", "practice");
    CHECK(standing(*store, kim).demand.skills.at("guards").all_tests == 0);  // practice is no test
    tests(*store, kim, "++++", "test", 6);
    CHECK(standing(*store, kim).cells.at("guards").state == StandingState::not_yet);
    CHECK(standing(*store, kim).demand.skills.at("guards").answer == training::SequentialAnswer::go_on);
    tests(*store, kim, "+", "test", 10);
    Standing row = standing(*store, kim);
    CHECK(row.cells.at("guards").state == StandingState::valid);
    CHECK(row.cells.at("guards").verdict.evidence.size() == 5);
    CHECK_FALSE(row.demand.met);
    CHECK(row.demand.missing == std::vector<std::string>{"Seen at the machine: Shows both guards"});
    CHECK(
        says(error_of([&] { issue_certificate(*store, m.manager, content(), small_demand(), kim.id, "t"); }),
             "Seen at the machine"));
    see_task(*store, m.manager, kim, false);
    CHECK_FALSE(standing(*store, kim).demand.met);
    see_task(*store, m.manager, kim);
    CHECK(standing(*store, kim).demand.met);
    CHECK(says(error_of([&] { see_task(*store, m.manager, m.ana); }), "for themselves"));
    CHECK(says(
        error_of([&] { issue_certificate(*store, m.manager, content(), small_demand(), m.ana.id, "t"); }),
        "for themselves"));
    CHECK(says(
        error_of([&] { issue_certificate(*store, store->nobody(), content(), small_demand(), kim.id, "t"); }),
        "takes a manager"));

    const Certificate c = issue_certificate(*store, m.manager, content(), small_demand(), kim.id, "t");
    const CertificateCheck check = check_certificate(c.file);
    CHECK(check.fault == "");
    CHECK(check.text.evidence.size() == 5);
    CHECK(check.text.seen.at(0).by == "Ana Manager");
    CHECK(check.text.until_utc.substr(0, 10) ==
          "2027-11-10");  // 365 days after the newest test of the oldest part
    CHECK(check.head.room == store->head().room);
    CHECK(standing(*store, kim).may_work);
    CHECK(verify_records(*store).faults.empty());
    // Revoked: may no longer work. Renewed: the former one says so.
    const Certificate next =
        issue_certificate(*store, m.manager, content(), small_demand(), kim.id, "t", c.uid);
    CHECK(store->certificates(kim.id).at(0).state == CertificateState::renewed);
    store->set_certificate_state(m.manager, next.uid, CertificateState::revoked, "Bypassed a guard");
    CHECK_FALSE(standing(*store, kim).may_work);
    CHECK(says(error_of([&] {
                 store->set_certificate_state(store->nobody(), next.uid, CertificateState::valid, "");
               }),
               "takes a manager"));
    CHECK(verify_records(*store).faults.empty());
  });
}

TEST_CASE("not yet: a missed must-pass item closes the series; only practice without hints opens the next") {
  const Room room("notyet", false);
  const auto store = room.open();
  const Person kim = store->add_person("Kim");
  tests(*store, kim, "++m");
  Standing row = standing(*store, kim);
  CHECK(row.demand.skills.at("guards").answer == training::SequentialAnswer::not_yet);
  CHECK(row.cells.at("guards").stuck);
  CHECK(says(row.demand.missing.at(0), "Practise, then test again"));
  tests(*store, kim, "+++++", "test", 5);  // testing on does not help
  CHECK(standing(*store, kim).demand.skills.at("guards").practise_first);
  tests(*store, kim, "-", "practice", 11);
  CHECK(standing(*store, kim).demand.skills.at("guards").practise_first);
  tests(*store, kim, "+", "guided", 12);  // led by the hand
  CHECK(standing(*store, kim).demand.skills.at("guards").practise_first);
  tests(*store, kim, "+", "practice", 12);
  CHECK_FALSE(standing(*store, kim).demand.skills.at("guards").practise_first);
  tests(*store, kim, "+++++", "test", 13);
  row = standing(*store, kim);
  CHECK(row.demand.skills.at("guards").answer == training::SequentialAnswer::competent);
  CHECK(row.demand.skills.at("guards").all_tests == 13);
  CHECK_FALSE(row.cells.at("guards").stuck);
}

TEST_CASE("time: due within thirty days, lapsed after, refreshed by a further passed test") {
  const Room room("due", false);
  const auto store = room.open();
  const Person kim = store->add_person("Kim");
  tests(*store, kim, "+++++");  // the last one on 5 November; guards are repeated each 180 days
  const std::int64_t shown = utc_seconds("2026-11-05T08:00:00Z");
  CHECK(standing(*store, kim).cells.at("guards").until_s == shown + 180 * 86400);
  *room.now = shown + 151 * 86400;
  CHECK(standing(*store, kim).cells.at("guards").state == StandingState::due);
  *room.now = shown + 181 * 86400;
  CHECK(standing(*store, kim).cells.at("guards").state == StandingState::lapsed);
  run_attempt(*store, kim, "guards-stop-it", "test", true, utc_text(*room.now - 3600));
  CHECK(standing(*store, kim).cells.at("guards").state == StandingState::valid);
  *room.now += 366 * 86400LL;
  CHECK(says(standing(*store, kim).demand.missing.at(0), "shown too long ago"));
}

TEST_CASE(
    "demands: kept when good, refused with the place when not, and in force instead of the shipped one") {
  const Room room("demands", false);
  const auto store = room.open();
  training::Demand d = content().demands.at("start-alone");
  CHECK(d.skills.size() >= 5);
  d.tests_each = 6;
  keep_demand(*store, store->nobody(), content(), d);
  CHECK(demands_in_force(*store, content()).at("start-alone").tests_each == 6);
  d.skills.push_back("juggling");
  CHECK(says(error_of([&] { keep_demand(*store, store->nobody(), content(), d); }),
             "demand start-alone:/skills/"));
  d = small_demand();
  d.plan.p_not = 0.9;
  CHECK(says(error_of([&] { keep_demand(*store, store->nobody(), content(), d); }), "/p_competent"));
  CHECK(library::demand_text(
            library::parse_demand(library::demand_text(small_demand()), "x", content()).demand) ==
        library::demand_text(small_demand()));
}

TEST_CASE("exports: CSV without formulas, statements that keep the rules, papers that are PDF") {
  const Room room("exports", false);
  const auto store = room.open();
  store->add_person("=HYPERLINK(\"http://x\")");
  const Person kim = store->add_person("Kim \"Q\", jr; DROP TABLE person");
  const Person minus = store->add_person("-2+3");
  tests(*store, kim, "+++++-m");
  run_attempt(*store, minus, "+cmd|' /C calc'!A0", "guided", true);
  for (const std::string& text :
       {reports::attempts_csv(*store, content()),
        reports::standings_csv(standings(*store, content(), small_demand()), content(), small_demand())}) {
    const CsvFile file = read_csv(text);
    CHECK(file.problem == "");
    bool found = false;
    for (const CsvRow& row : file.rows) {
      CHECK(row.cells.size() == file.rows[0].cells.size());
      for (const std::string& cell : row.cells) {
        CHECK_FALSE(looks_like_formula(cell));
        found = found || cell == kim.name;
      }
    }
    CHECK(found);
  }
  // Our own numbers are never negative, so no number needs the apostrophe.
  const Managed m = make_managed(*store);
  see_task(*store, m.manager, kim);
  const Person bo = store->add_person(m.manager, "Bo");
  tests(*store, bo, "+++++");
  see_task(*store, m.manager, bo);
  const Certificate c = issue_certificate(*store, m.manager, content(), small_demand(), bo.id, "t");
  store->set_certificate_state(m.manager, c.uid, CertificateState::revoked, "x");
  const nlohmann::json statements = reports::all_statements(*store, content(), reports::default_home);
  CHECK(statements.size() == 15);  // 13 attempts, the certificate, its voiding
  for (const auto& one : statements) {
    CHECK(reports::why_not_statement(one) == "");
    CHECK(one["actor"].dump().find("Bo") == std::string::npos);  // no names
  }
  CHECK(statements ==
        reports::all_statements(*store, content(), reports::default_home));  // the same identities again

  const CertificateCheck check = check_certificate(c.file);
  const std::string line = short_certificate(check.text, c.file, site_key(store->data_dir(), false).seed);
  const std::string pdf = reports::certificate_pdf(check.text, line, check.key_print);
  CHECK(pdf.rfind("%PDF-", 0) == 0);
  CHECK(pdf.size() > 5000);
  const auto modules = reports::qr_modules(line);
  REQUIRE(modules.size() >= 21);
  // The three corner patterns of ISO/IEC 18004: dark corner, light ring.
  CHECK(modules[0][0]);
  CHECK_FALSE(modules[1][1]);
  CHECK(modules[3][3]);
  CHECK(modules[0][modules.size() - 1]);
  CHECK(modules[modules.size() - 1][0]);
  CHECK(reports::standings_pdf(standings(*store, content(), small_demand()), content(), small_demand(),
                               "Tidewater Row", store->now_s())
            .rfind("%PDF-", 0) == 0);
}
