#include <doctest/doctest.h>

#include <filesystem>

#include "tests/app/cli/run.h"

using namespace stirbench;
using namespace stirbench::cli_test;
using test_support::TempFolder;

TEST_CASE("replay --pdf writes the debrief; a journal that does not verify writes nothing") {
  const TempFolder folder("replay-pdf");
  const std::string journal = folder.file("run.journal"), pdf = folder.file("run.pdf");
  run({"lesson", "run", "guards-stop-it", "--journal", journal});
  const auto good = run({"replay", journal, "--pdf", pdf});
  CHECK(good.exit_code == 0);
  CHECK(test_support::read_file(pdf).starts_with("%PDF-"));
  std::string text = test_support::read_file(journal);
  text[text.size() / 2] = text[text.size() / 2] == '1' ? '2' : '1';
  test_support::write_file(journal, text);
  std::filesystem::remove(pdf);
  CHECK(run({"replay", journal, "--pdf", pdf}).exit_code == 3);
  CHECK_FALSE(std::filesystem::exists(pdf));
  CHECK(run({"lesson", "run", "guards-stop-it", "--json"}).out.find("\"credit_norm\"") != std::string::npos);
}

TEST_CASE("the board and the push need the role; a place that is none is bad input and nothing is written") {
  const TempFolder folder("board-push");
  const std::string data = folder.file("data");
  CHECK(run({"people", "add", "Kim"}, data).exit_code == 0);
  const auto none = run({"records", "export", "board", "--out", folder.file("b.pdf")}, data);
  CHECK(none.exit_code == 2);
  CHECK(contains(none.err, "Nobody holds a certificate yet"));
  CHECK_FALSE(std::filesystem::exists(folder.file("b.pdf")));
  CHECK(run({"records", "export", "board", "--demand", "start-alone", "--out", folder.file("b.pdf")}, data)
            .exit_code == 0);
  CHECK(test_support::read_file(folder.file("b.pdf")).starts_with("%PDF-"));
  for (const char* place : {"http://store.example/xapi", "ftp://x", "https://me:pin@x/"}) {
    const auto bad = run({"records", "push", place}, data);
    CHECK(bad.exit_code == 2);
    CHECK(contains(bad.err, "URL: "));
    CHECK_FALSE(contains(bad.err, "pin@x/\""));
  }
  // Nothing to send is nothing left.
  const auto empty = run({"records", "push", "http://127.0.0.1:1/xapi", "--json"}, data);
  CHECK(empty.exit_code == 0);
  CHECK(json_of(empty)["left"] == 0);
  // With a manager the role is asked for.
  test_support::write_file(folder.file("pin"), "739182\n");
  CHECK(run({"people", "add", "Ana"}, data).exit_code == 0);
  CHECK(run({"people", "pin", "Ana", "--new-pin-file", folder.file("pin")}, data).exit_code == 0);
  CHECK(run({"people", "role", "Ana", "manager"}, data).exit_code == 0);
  CHECK(run({"records", "push", "http://127.0.0.1:1/xapi"}, data).exit_code == 2);
  CHECK(run({"records", "export", "board", "--demand", "start-alone", "--out", folder.file("c.pdf")}, data)
            .exit_code == 2);
  CHECK_FALSE(std::filesystem::exists(folder.file("c.pdf")));
  CHECK(run({"records", "push", "http://127.0.0.1:1/xapi", "--as", "Ana", "--pin-file", folder.file("pin")},
            data)
            .exit_code == 0);
}
