#include "app/reports/papers.h"

#include <algorithm>
#include <cmath>

#include "app/reports/export.h"
#include "app/reports/paper.h"

namespace stirbench::reports {

namespace {

using styles::body;
using styles::small;
using styles::small_bold;
constexpr PaperStyle quiet{9.0, false, 0.35};

std::string day(const std::string& utc) { return utc.substr(0, 10); }

std::string rate(double norm) {
  std::string text = std::to_string(std::lround(1000.0 * norm));
  while (text.size() < 2) text.insert(0, "0");
  return text.substr(0, text.size() - 1) + (text.back() == '0' ? "" : "." + text.substr(text.size() - 1)) +
         " %";
}

class CertificatePage {
 public:
  CertificatePage(const records::CertificateText& text)
      : t_(text), paper_(false, "Certificate " + text.serial) {}

  std::string make(const std::string& short_line, const std::string& key_print) {
    const double wide = paper_.width() - 2.0 * left;
    y_ = left;
    add(t_.site.empty() ? "Stirbench" : t_.site, {12.0, true, 0.3}, wide);
    y_ += 14.0;
    add(t_.holder, {26.0, true, 0.0}, wide);
    y_ += 4.0;
    add(t_.demand_title, {16.0, false, 0.0}, wide);
    y_ += 8.0;
    add("from " + day(t_.issued_utc) + " until " + day(t_.until_utc) + ", issued by " + t_.issuer, body,
        wide);
    y_ += 10.0;
    rule();
    std::string skills;
    for (const std::string& one : t_.skills) skills += (skills.empty() ? "" : " · ") + one;
    heading("Skills");
    add(skills, body, wide);
    heading("How it was found");
    add("Sequential test on runs without hints, at least " + std::to_string(t_.tests_each) +
            " passed for each skill" + breadth() + (t_.must_pass_all ? ", no must-pass item missed" : "") +
            ". Chance to certify somebody who passes with " + rate(t_.plan.p_not) + ": at most about " +
            rate(t_.plan.alpha) + "; to turn away somebody who passes with " + rate(t_.plan.p_competent) +
            ": at most about " + rate(t_.plan.beta) + " (Wald's approximations).",
        body, wide);
    seen(wide);
    evidence(wide);
    heading("What it is not");
    add(records::certificate_limits, body, wide);
    foot(short_line, key_print);
    return paper_.bytes();
  }

 private:
  static constexpr double left = Paper::margin_pt;

  // ", in 3 different lessons (or all there are) and with 2 days between passes"
  std::string breadth() const {
    std::string out;
    if (t_.lessons_each > 1)
      out = ", in " + std::to_string(t_.lessons_each) + " different lessons (or all there are)";
    if (t_.days_apart > 0)
      out += std::string(out.empty() ? "," : " and") + " with " + std::to_string(t_.days_apart) +
             (t_.days_apart == 1 ? " day" : " days") + " between passes";
    return out;
  }

  void add(const std::string& words, const PaperStyle& style, double wrap) {
    y_ += paper_.text(left, y_, words, style, wrap);
  }
  void rule() {
    paper_.line(left, y_, paper_.width() - left, y_);
    y_ += 4.0;
  }
  void heading(const char* words) {
    y_ += 9.0;
    add(words, small_bold, 0.0);
    y_ += 1.0;
  }

  void seen(double wide) {
    if (t_.seen.empty()) return;
    heading("Seen at the real machine");
    for (const auto& one : t_.seen)
      add("· " + one.task + ". " + one.machine + ", seen by " + one.by + " on " + day(one.at_utc) + ".", body,
          wide);
  }

  void evidence(double wide) {
    heading("Tests (hash of each journal)");
    // What does not fit stands in the file; the page says so.
    constexpr std::size_t most = 14;
    for (std::size_t i = 0; i < std::min(most, t_.evidence.size()); ++i) {
      const auto& one = t_.evidence[i];
      add(day(one.at_utc) + "  " + one.lesson + "  " + (one.passed ? "passed " : "not passed ") +
              whole_percent(one.score_norm) + "  " + one.journal_sha256.substr(0, 16) + "…",
          small, wide);
    }
    if (t_.evidence.size() > most)
      add("and " + std::to_string(t_.evidence.size() - most) + " more in the certificate's file", small,
          wide);
  }

  void foot(const std::string& short_line, const std::string& key_print) {
    constexpr double side = 150.0;
    const double top = paper_.height() - left - side;
    const double x = left + side + 12.0;
    const double wrap = paper_.width() - left - x;
    paper_.line(left, top - 8.0, paper_.width() - left, top - 8.0);
    if (!paper_.qr(left, top, side, short_line))
      paper_.text(left, top, "(too long for a QR symbol)", small, side);
    y_ = top;
    const auto row = [&](const std::string& words, const PaperStyle& style) {
      y_ += paper_.text(x, y_, words, style, wrap) + 3.0;
    };
    row("Serial " + t_.serial, small);
    row("Key of the site, to compare with the one on its wall:", small);
    row(key_print, small_bold);
    row("Head of the records' chain: " + t_.head.room + ":" + std::to_string(t_.head.count) + ":" +
            t_.head.hash,
        small);
    row("To verify: save the file or the text of the QR symbol, then  stirbench certify verify FILE  on any "
        "computer. Whether it was "
        "revoked since, the site's own records say.",
        small);
  }

  const records::CertificateText& t_;
  Paper paper_;
  double y_ = 0.0;
};

PaperMark mark_of(records::StandingState state) {
  switch (state) {
    case records::StandingState::valid: return PaperMark::full;
    case records::StandingState::due: return PaperMark::half;
    case records::StandingState::lapsed: return PaperMark::cross;
    case records::StandingState::not_yet: return PaperMark::ring;
  }
  return PaperMark::ring;
}

}  // namespace

std::string certificate_pdf(const records::CertificateText& text, const std::string& short_line,
                            const std::string& key_print) {
  return CertificatePage(text).make(short_line, key_print);
}

std::string standings_pdf(const std::vector<records::Standing>& rows, const library::Library& library,
                          const training::Demand& demand, const std::string& site, std::int64_t now_s) {
  Paper paper(true, demand.title);
  constexpr double left = Paper::margin_pt;
  constexpr double row_pt = 17.0;
  constexpr double names_pt = 190.0;
  constexpr double work_pt = 110.0;
  const double column = (paper.width() - 2.0 * left - names_pt - work_pt) /
                        static_cast<double>(std::max<std::size_t>(1, demand.skills.size()));
  double head_pt = 40.0;  // room for the longest heading, written upwards
  for (const std::string& id : demand.skills) {
    const auto skill = library.skills.find(id);
    head_pt = std::max(
        head_pt, 14.0 + paper.text_width(skill == library.skills.end() ? id : skill->second.title, body));
  }
  double y = 0.0;
  const auto head = [&] {
    y = left;
    y += paper.text(left, y, demand.title + (site.empty() ? "" : " · " + site), {14.0, true, 0.0}) + 2.0;
    y += paper.text(left, y,
                    day_text(now_s) + ".  Filled: valid.  Half: due within " +
                        std::to_string(records::due_days) + " days.  Ring: not yet.  Cross: lapsed.",
                    quiet);
    y += head_pt;
    for (std::size_t i = 0; i < demand.skills.size(); ++i) {
      const auto skill = library.skills.find(demand.skills[i]);
      paper.text_upwards(left + names_pt + (static_cast<double>(i) + 0.5) * column - 5.0, y - 4.0,
                         skill == library.skills.end() ? demand.skills[i] : skill->second.title, body);
    }
    paper.text(paper.width() - left - work_pt, y - 16.0, "May work alone", small_bold);
    paper.line(left, y, paper.width() - left, y, 1.0, 0.2);
  };
  head();
  for (const records::Standing& row : rows) {
    if (y + row_pt > paper.height() - left) {
      paper.next_page();
      head();
    }
    paper.text(left, y + 3.0, row.person.name, body);
    for (std::size_t i = 0; i < demand.skills.size(); ++i)
      paper.mark(left + names_pt + (static_cast<double>(i) + 0.5) * column, y + 0.5 * row_pt, 9.0,
                 mark_of(row.cells.at(demand.skills[i]).state));
    paper.text(paper.width() - left - work_pt, y + 3.0,
               row.may_work ? "until " + day_text(row.certified_until_s) : "no", body);
    y += row_pt;
    paper.line(left, y, paper.width() - left, y);
  }
  return paper.bytes();
}

}  // namespace stirbench::reports
