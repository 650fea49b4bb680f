#include <doctest/doctest.h>

#include <filesystem>

#include "app/library/library.h"
#include "app/records/store.h"
#include "tests/app/cli/run.h"

namespace {

using namespace stirbench;
using cli_test::contains;
using cli_test::json_of;
using test_support::TempFolder;

test_support::ProgramResult run(const std::string& data, std::vector<std::string> arguments,
                                const std::string& pin = "739182") {
  arguments.insert(arguments.begin(), STIRBENCH_PROGRAM);
  return test_support::run_program(arguments, {{"STIRBENCH_DATA", data},
                                               {"STIRBENCH_PIN", pin},
                                               {"STIRBENCH_NEW_PIN", test_support::unset_variable},
                                               {"DISPLAY", test_support::unset_variable},
                                               {"WAYLAND_DISPLAY", test_support::unset_variable}});
}

// Played by the lesson's own right actions and kept under Kim's name as a test.
void keep_runs(const std::string& data, const TempFolder& folder, int count,
               const std::string& other_version = "") {
  const library::Library library =
      library::load((test_support::source_root() / "content").string(), "").library;
  records::Store store(data);
  const records::Person kim = *store.person_named("Kim");
  const std::string journal = folder.file("run" + other_version + ".journal");
  const auto played = json_of(
      run(folder.file("elsewhere"), {"lesson", "run", "guards-stop-it", "--journal", journal, "--json"}));
  for (int i = 0; i < count; ++i) {
    records::Attempt a;
    a.person = kim.id;
    a.lesson = "guards-stop-it";
    a.lesson_hash = other_version.empty() ? library.lessons.at("guards-stop-it").hash : other_version;
    a.mode = "test";
    a.machine = "hm-45";
    a.started_utc = records::utc_text(store.now_s() - 3600);
    a = store.begin_attempt(a);
    std::filesystem::copy_file(journal, store.journal_path(a));
    a.passed = played["passed"];
    a.score_norm = played["score_norm"];
    a.simulated_s = played["simulated_s"];
    a.card_json = played["criteria"].dump();
    a.state_hash = played["state_hash"];
    store.finish_attempt(a);
  }
}

}  // namespace

TEST_CASE(
    "command line: from tests to a certificate that verifies anywhere, is renewed, revoked, and notices a "
    "changed letter") {
  const TempFolder folder("certify");
  const std::string data = folder.file("data");
  {
    records::Store store(records::StoreOptions{data, "", {1, 8192}, {}});
    const records::Person ana = store.add_person("Ana");
    store.set_own_pin(ana.id, "", "739182");
    store.set_role(store.nobody(), ana.id, records::Role::manager);
    const records::Access manager = store.sign_in(ana.id, "739182");
    store.add_person(manager, "Kim");
    store.set_site(manager, "Tidewater Row");
  }
  test_support::write_file(folder.file("demand.json"),
                           R"({"format": 1, "id": "guards-only", "title": "Safe beside the guards",
    "skills": ["guards"], "tests_each": 2, "lessons_each": 1, "days_apart": 0, "p_not": 0.4, "p_competent": 0.85, "alpha": 0.025, "beta": 0.025, "most": 20,
    "must_pass_all": true, "seen_tasks": ["Shows both guards"], "valid_days": 365})");
  const std::vector<std::string> as = {"--as", "Ana"};
  const auto with = [&as](std::vector<std::string> words) {
    words.insert(words.end(), as.begin(), as.end());
    return words;
  };
  CHECK(run(data, {"certify", "set", folder.file("demand.json")}).exit_code == 2);
  CHECK(run(data, with({"certify", "set", folder.file("demand.json")})).exit_code == 0);
  CHECK(run(data, with({"certify", "check", "Kim", "--demand", "guards-only"})).exit_code == 1);
  keep_runs(data, folder, 5);
  CHECK(run(data, with({"certify", "issue", "Kim", "--demand", "guards-only"})).exit_code == 1);
  CHECK(run(data,
            with({"certify", "seen", "Kim", "--demand", "guards-only", "--task", "9", "--machine", "left"}))
            .exit_code == 2);
  CHECK(run(data,
            with({"certify", "seen", "Kim", "--demand", "guards-only", "--task", "1", "--machine", "left"}))
            .exit_code == 0);
  CHECK(run(data, with({"certify", "check", "Kim", "--demand", "guards-only"})).exit_code == 0);
  CHECK(run(data, {"certify", "issue", "Kim", "--demand", "guards-only"}).exit_code == 2);
  const std::string file = folder.file("kim.certificate");
  const auto issued = run(data, with({"certify", "issue", "Kim", "--demand", "guards-only", "--out", file,
                                      "--pdf", folder.file("kim.pdf"), "--json"}));
  REQUIRE(issued.exit_code == 0);
  const std::string serial = json_of(issued)["serial"];
  CHECK(test_support::read_file(folder.file("kim.pdf")).rfind("%PDF-", 0) == 0);

  // On another computer: no records, no network.
  const auto away = run(cli_test::impossible_folder, {"certify", "verify", file, "--json"});
  CHECK(away.exit_code == 0);
  CHECK(json_of(away)["holder"] == "Kim");
  CHECK(contains(json_of(away)["what_it_is_not"], "no licence"));
  const std::string print = json_of(run(data, {"certify", "key", "--json"}))["key_print"];
  CHECK(run(cli_test::impossible_folder, {"certify", "verify", file, "--key", print}).exit_code == 0);
  CHECK(run(cli_test::impossible_folder,
            {"certify", "verify", file, "--key", "0000 1111 2222 3333 4444 5555 6666 7777"})
            .exit_code == 1);
  std::string changed = test_support::read_file(file);
  changed[changed.find("\"Kim\"") + 1] = 'T';
  test_support::write_file(folder.file("changed"), changed);
  const auto noticed = run(cli_test::impossible_folder, {"certify", "verify", folder.file("changed")});
  CHECK(noticed.exit_code == 3);
  CHECK(contains(noticed.err, "line 1"));
  CHECK(run(data, {"certify", "verify", folder.file("nothing")}).exit_code == 2);

  CHECK(json_of(run(data, with({"certify", "table", "--demand", "guards-only",
                                "--json"})))["people"][1]["may_work"] == true);
  const auto rescored = run(data, with({"records", "rescore", "--json"}));
  CHECK(rescored.exit_code == 0);
  CHECK(json_of(rescored)["same"] == 5);
  CHECK(json_of(rescored)["different"] == 0);

  // A run of an older version of the lesson keeps its score; a score changed by hand does not come out of the
  // journal.
  keep_runs(data, folder, 1, "an older version");
  const auto mixed = json_of(run(data, with({"records", "rescore", "--json"})));
  CHECK(mixed["same"] == 5);
  CHECK(mixed["other_version"] == 1);

  const auto renewed = run(data, with({"certify", "renew", serial, "--json"}));
  REQUIRE(renewed.exit_code == 0);
  CHECK(run(data, {"certify", "verify", file}).exit_code == 1);  // these records know that a newer one counts
  CHECK(run(data, with({"certify", "revoke", json_of(renewed)["serial"], "--reason", "Bypassed a guard"}))
            .exit_code == 0);
  CHECK(run(data, {"certify", "revoke", serial, "--reason", "x"}).exit_code == 2);
  CHECK(json_of(run(data, with({"certify", "list", "--json"})))["certificates"][1]["state"] == "revoked");
  for (const char* what : {"attempts", "certificates", "table", "table-pdf", "xapi"}) {
    CAPTURE(what);
    const std::string out = folder.file(what);
    CHECK(run(data, {"records", "export", what, "--out", out, "--demand", "guards-only"}).exit_code == 2);
    CHECK_FALSE(std::filesystem::exists(out));
    CHECK(run(data, with({"records", "export", what, "--out", out, "--demand", "guards-only"})).exit_code ==
          0);
    CHECK(std::filesystem::file_size(out) > 50);
  }
  CHECK(run(data, {"records", "verify"}).exit_code == 0);
  CHECK(run(data, with({"records", "export", "nonsense", "--out", folder.file("n")})).exit_code == 2);
}
