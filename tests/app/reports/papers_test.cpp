#include "app/reports/papers.h"

#include <doctest/doctest.h>

#include "app/records/certificate.h"
#include "app/reports/debrief_paper.h"
#include "sim_core/hands/handles.h"
#include "sim_core/training/lesson_run.h"
#include "tests/app/records/rooms.h"
#include "tests/app/reports/shipped_content.h"
#include "tests/support/skip.h"

// What stands on the papers, read back by other people's programs: pdftotext and pdftoppm (Debian's
// poppler-utils), zbarimg (zbar-tools).
using namespace stirbench;
using namespace stirbench::records;
using namespace stirbench::records_test;
using reports_test::content;

namespace {

std::string words_of(const Room& room, const std::string& pdftotext, const std::string& pdf) {
  test_support::write_file(room.file("page.pdf"), pdf);
  const auto result = test_support::run_program({pdftotext, "-layout", room.file("page.pdf"), "-"});
  CHECK(result.exit_code == 0);
  return result.out;
}

}  // namespace

TEST_CASE(
    "the QR symbol of a printed certificate, read by an independent reader, gives the signed line, which "
    "verifies") {
  const std::string zbarimg = test_support::program_or_skip("zbarimg", "zbar-tools");
  const std::string pdftoppm = test_support::program_or_skip("pdftoppm", "poppler-utils");
  if (zbarimg.empty() || pdftoppm.empty()) return;
  const Room room("qr", false);
  const KeyPair key = make_key_pair();
  const CertificateText text = example_certificate();
  const std::string line = short_certificate(text, write_certificate(text, key.seed), key.seed);
  test_support::write_file(room.file("certificate.pdf"),
                           reports::certificate_pdf(text, line, key_fingerprint(key.public_key)));
  // As a printer and a telephone's camera would see it.
  REQUIRE(test_support::run_program({pdftoppm, "-r", "200", "-gray", "-singlefile",
                                     room.file("certificate.pdf"), room.file("page")})
              .exit_code == 0);
  const auto read = test_support::run_program(
      {zbarimg, "--quiet", "--raw", "-Sdisable", "-Sqrcode.enable", room.file("page.pgm")});
  CHECK(read.exit_code == 0);
  CHECK(read.out == line + "\n");
  const CertificateCheck check = check_short_certificate(read.out.substr(0, line.size()));
  CHECK(check.fault == "");
  CHECK(check.text.serial == text.serial);
  CHECK(check.public_key == key.public_key);
}

TEST_CASE("a printed certificate says in how many lessons and how far apart its passes lie") {
  const std::string pdftotext = test_support::program_or_skip("pdftotext", "poppler-utils");
  if (pdftotext.empty()) return;
  const Room room("breadth", false);
  const KeyPair key = make_key_pair();
  const CertificateText text = check_certificate(write_certificate(example_certificate(), key.seed)).text;
  CHECK(text.lessons_each == 3);
  CHECK(text.days_apart == 2);
  test_support::write_file(room.file("c.pdf"),
                           reports::certificate_pdf(text, "", key_fingerprint(key.public_key)));
  std::string words = test_support::run_program({pdftotext, room.file("c.pdf"), "-"}).out;
  for (char& c : words)
    if (c == '\n') c = ' ';
  CHECK(words.find("in 3 different lessons (or all there are) and with 2 days between passes") !=
        std::string::npos);
}

TEST_CASE(
    "the shift board: who may work alone, who only with another person, and what the paper does not "
    "replace") {
  const std::string pdftotext = test_support::program_or_skip("pdftotext", "poppler-utils");
  if (pdftotext.empty()) return;
  const Room room("board", false);
  training::Demand demand;
  demand.id = "start-alone";
  demand.title = "Safe to start alone";
  const std::int64_t now = *room.now;
  std::vector<Standing> rows(120);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    rows[i].person.id = static_cast<std::int64_t>(i + 1);
    rows[i].person.name = "Person " + std::to_string(i + 1);
    if (i % 3 == 2) continue;
    rows[i].certificate = Certificate{};
    rows[i].certified_until_s = now + 86400LL * (i % 3 == 0 ? 200 : -5);
    rows[i].may_work = i % 3 == 0;
  }
  const std::string words =
      words_of(room, pdftotext, reports::shift_board_pdf({{&demand, rows}}, "Tidewater Row", now));
  CHECK(words.find("Safe to start alone · Tidewater Row") != std::string::npos);
  const std::size_t alone = words.find("May work alone today"),
                    together = words.find("Only together with one of them");
  REQUIRE(alone != std::string::npos);
  REQUIRE(together != std::string::npos);
  for (std::size_t i = 0; i < rows.size(); ++i) {
    // A name is followed by a blank, so that Person 1 is not found in Person 10.
    const std::size_t at = words.find(rows[i].person.name + " ");
    REQUIRE(at != std::string::npos);
    CHECK((at > together) == !rows[i].may_work);
  }
  CHECK(words.find("no certificate") != std::string::npos);
  CHECK(words.find("no licence") != std::string::npos);
}

TEST_CASE(
    "the debrief on paper: verdict, each criterion with its reason, trend, events with their times, "
    "cautions") {
  const std::string pdftotext = test_support::program_or_skip("pdftotext", "poppler-utils");
  if (pdftotext.empty()) return;
  const Room room("debrief", false);
  const training::Lesson& lesson = content().lessons.at("guards-stop-it");
  const machine::Machine machine = content().machine(lesson.machine);
  std::string journal;
  training::LessonRun run(machine, lesson, "practice", "test", 7,
                          [&](std::string_view record) { journal += record; });
  const hands::Action note = hands::mark_observation("waits until it stands still", true);
  run.act(note);
  const std::string actions =
      (test_support::source_root() / "content/lessons/guards-stop-it/wrong-reach-in.jsonl").string();
  training::play_to_end(run, library::read_actions(actions, machine).actions);
  const training::ScoreCard card = run.card();
  const std::string words =
      words_of(room, pdftotext,
               reports::debrief_pdf(content(), machine, &lesson, journal,
                                    {"Kim Osei", "Tidewater Row", "2026-11-25T08:00:00Z"}));
  const auto has = [&words](const std::string& part) { return words.find(part) != std::string::npos; };
  CHECK(has(lesson.title));
  CHECK(has("Kim Osei"));
  CHECK(has(card.passed ? "Passed: " : "Not passed: "));
  CHECK(has("the pass mark is"));
  for (const auto& c : card.criteria)
    if (!training::goes_without_saying(c)) CHECK_MESSAGE(has(c.title.substr(0, 30)), c.title);
  CHECK(has("Well done: waits until it stands still"));
  CHECK(has("Trend"));
  CHECK(has("Open lid"));
  CHECK(has("Keep in mind at the real machine"));
  CHECK_FALSE(has("does not verify"));
  // A damaged journal is printed as far as it goes, and says so.
  std::string damaged = journal;
  damaged[damaged.size() - 30] = damaged[damaged.size() - 30] == '0' ? '1' : '0';
  CHECK(words_of(room, pdftotext, reports::debrief_pdf(content(), machine, &lesson, damaged, {}))
            .find("This journal does not verify") != std::string::npos);
}
