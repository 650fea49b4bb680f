#include "app/desk/work/own/own_fit.h"

#include <doctest/doctest.h>

#include <atomic>
#include <filesystem>
#include <thread>

#include "app/library/reading/paths.h"
#include "tests/support/batch_logs.h"
#include "tests/support/files.h"

using namespace stirbench;
using desk::work::OwnFit;
using test_support::TempFolder;

namespace {

const library::Library& content() {
  static const library::Library all = library::load(library::content_dir(), "").library;
  return all;
}

desk::work::LogQuestion question_of(const std::string& file) {
  desk::work::LogQuestion out{file, "hm-45", {}};
  out.words.mass_kg = 40.0;
  out.words.ambient_degC = 22.0;
  return out;
}

void wait_for(OwnFit& fit) {
  while (fit.busy() && !fit.poll()) std::this_thread::yield();
}

}  // namespace

TEST_CASE("own machine: a log is compared, found in plain words, and kept as a machine of the site") {
  const TempFolder folder("own-fit");
  test_support::write_file(folder.file("batch.csv"), batch_logs::csv_of(content().machine("hm-45"), 0.93));
  std::atomic<int> wakes{0};
  OwnFit fit([&wakes] { ++wakes; });
  REQUIRE(fit.start(content(), question_of(folder.file("batch.csv"))));
  wait_for(fit);
  CHECK(wakes > 10);
  REQUIRE(fit.problems().empty());
  REQUIRE(fit.answer() != nullptr);
  const desk::work::LogAnswer& answer = *fit.answer();
  CHECK(answer.fits());
  const std::vector<desk::work::FoundRow> rows = rows_of(answer);
  REQUIRE(rows.size() > 4);
  CHECK(rows[0].title.find("Power of the elements") == 0);
  CHECK(rows[0].told == "yes");
  CHECK(rows.back().found.empty());
  CHECK(rows.back().told == "no");
  CHECK(rows.back().why.find("it would take") == 0);
  CHECK(answer.explanations.ranked.empty());

  CHECK(keep_own_machine(content(), folder.file("data"), "Line 2, left", answer).empty());
  const library::LoadResult again = library::load(library::content_dir(), folder.file("data"));
  REQUIRE(again.problems.empty());
  REQUIRE(again.library.machines.count("line-2-left") == 1);
  const double each_W = again.library.machines.at("line-2-left").elements.rated_W_each;
  CHECK(each_W == doctest::Approx(0.93 * content().machines.at("hm-45").elements.rated_W_each).epsilon(0.01));
  CHECK_FALSE(keep_own_machine(content(), "/dev/null/x", "Line 2", answer).empty());
}

TEST_CASE("own machine: a file that is no log begins nothing and says the line") {
  const TempFolder folder("own-fit-bad");
  test_support::write_file(folder.file("batch.csv"), "time [s],product\n0,8\n10,9\n");
  OwnFit fit;
  CHECK_FALSE(fit.start(content(), question_of(folder.file("batch.csv"))));
  REQUIRE_FALSE(fit.problems().empty());
  CHECK(fit.problems().front().find("batch.csv") != std::string::npos);
  CHECK_FALSE(fit.busy());
  CHECK_FALSE(fit.start(content(), question_of(folder.file("none.csv"))));
  CHECK_FALSE(fit.problems().empty());
}

TEST_CASE("own machine: cancelled work leaves no answer") {
  const TempFolder folder("own-fit-cancel");
  test_support::write_file(folder.file("batch.csv"), batch_logs::csv_of(content().machine("hm-45"), 1.0));
  OwnFit fit;
  REQUIRE(fit.start(content(), question_of(folder.file("batch.csv"))));
  CHECK(fit.busy());
  fit.cancel();
  CHECK_FALSE(fit.busy());
  CHECK_FALSE(fit.poll());
  CHECK(fit.answer() == nullptr);
}

TEST_CASE("an id made of a title") {
  CHECK(desk::work::id_of_title("Line 2, left") == "line-2-left");
  CHECK(desk::work::id_of_title("  Überkessel!") == "berkessel");
  CHECK(desk::work::id_of_title("...") == "");
}
