#include "app/reports/export.h"
#include "app/reports/paper.h"
#include "app/reports/papers.h"

namespace stirbench::reports {

namespace {

constexpr double left = Paper::margin_pt;

// One certificate's people, going on to further pages when they are many.
class Board {
 public:
  Board(Paper& paper, const BoardPart& part, const std::string& site, std::int64_t now_s)
      : paper_(paper), part_(part), site_(site), now_s_(now_s) {}

  void draw() {
    head();
    std::int64_t may = 0;
    heading("May work alone today");
    for (const records::Standing& row : part_.rows) {
      if (!row.may_work) continue;
      ++may;
      const bool soon = row.certified_until_s <= now_s_ + 86400LL * records::due_days;
      line(row.person.name, "until " + day_text(row.certified_until_s),
           soon ? PaperMark::half : PaperMark::full, {17.0, true, 0.0});
    }
    if (may == 0) add("Nobody.", {13.0, false, 0.1});
    if (may == static_cast<std::int64_t>(part_.rows.size())) return foot();
    heading("Only together with one of them");
    for (const records::Standing& row : part_.rows) {
      if (row.may_work) continue;
      const std::string why = row.certificate ? "ended " + day_text(row.certified_until_s) : "no certificate";
      line(row.person.name, why, row.certificate ? PaperMark::cross : PaperMark::ring, {11.0, false, 0.1});
    }
    foot();
  }

 private:
  void head() {
    y_ = left;
    add(part_.demand->title + (site_.empty() ? "" : " · " + site_), {20.0, true, 0.0});
    add("Printed for " + day_text(now_s_) + ". Filled: valid. Half: ends within " +
            std::to_string(records::due_days) + " days. Cross: ended. Ring: none.",
        {9.0, false, 0.35});
  }

  void room(double height) {
    if (y_ + height <= paper_.height() - left) return;
    paper_.next_page();
    head();
  }

  void add(const std::string& words, const PaperStyle& style) {
    y_ += paper_.text(left, y_, words, style, paper_.width() - 2.0 * left) + 3.0;
  }

  void heading(const char* words) {
    room(70.0);
    y_ += 14.0;
    add(words, {12.0, true, 0.1});
    paper_.line(left, y_, paper_.width() - left, y_, 1.0, 0.2);
    y_ += 6.0;
  }

  void line(const std::string& name, const std::string& what, PaperMark mark, const PaperStyle& style) {
    const double high = 1.6 * style.size_pt;
    room(high);
    paper_.mark(left + 8.0, y_ + 0.5 * high, 0.75 * style.size_pt, mark);
    paper_.text(left + 24.0, y_ + 0.1 * high, name, style);
    paper_.text(paper_.width() - left - 150.0, y_ + 0.1 * high, what, {11.0, false, 0.2});
    y_ += high;
  }

  void foot() {
    y_ += 14.0;
    room(30.0);
    add("A certificate is no licence and replaces neither supervision nor local rules. Whether one was "
        "revoked since this was printed, the records say.",
        {9.0, false, 0.35});
  }

  Paper& paper_;
  const BoardPart& part_;
  const std::string& site_;
  std::int64_t now_s_;
  double y_ = 0.0;
};

}  // namespace

std::string shift_board_pdf(const std::vector<BoardPart>& parts, const std::string& site,
                            std::int64_t now_s) {
  Paper paper(false, "Who may work today");
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) paper.next_page();
    Board(paper, parts[i], site, now_s).draw();
  }
  return paper.bytes();
}

}  // namespace stirbench::reports
