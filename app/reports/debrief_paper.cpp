#include "app/reports/debrief_paper.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <stdexcept>

#include "app/reports/paper.h"
#include "app/reports/told_events.h"
#include "sim_core/journal/journal.h"
#include "sim_core/training/score_words.h"
#include "sim_core/training/scorer.h"

namespace stirbench::reports {

namespace {

using styles::body;
using styles::small;
using styles::small_bold;
constexpr PaperStyle bold{10.0, true, 0.1};

// What the trend shows: a reading, its scale and how its line is drawn.
struct Curve {
  const char* signal;
  const char* words;
  double top;
  double dash_pt;  // 0: unbroken
  double width_pt;
};
constexpr std::array<Curve, 4> curves{{{"product_degC", "product, °C", 100.0, 0.0, 1.2},
                                       {"probe_degC", "probe, °C", 100.0, 4.0, 0.7},
                                       {"heaters_W", "heat, kW", 10000.0, 1.5, 0.9},
                                       {"chiller_W", "cooling, kW", 10000.0, 8.0, 0.6}}};
constexpr std::size_t most_points = 700;

struct Run {
  journal::Journal journal;
  std::vector<machine::Event> events;
  std::vector<double> times_s;
  std::array<std::vector<double>, curves.size()> values;
  std::optional<training::ScoreCard> card;
  double end_s = 0.0;
  std::string problem;
};

Run play(const machine::Machine& machine, const training::Lesson* lesson, const std::string& journal_text) {
  Run run;
  const journal::JournalProblem fault = journal::read_journal(journal_text, run.journal);
  const std::uint64_t last = run.journal.ended            ? run.journal.end_tick
                             : run.journal.hashes.empty() ? 0
                                                          : run.journal.hashes.back().tick;
  const std::uint64_t every = std::max<std::uint64_t>(10, last / most_points);
  std::array<const signals::Signal*, curves.size()> signals{};
  for (std::size_t i = 0; i < curves.size(); ++i) signals[i] = signals::find_signal(curves[i].signal);
  std::optional<training::Scorer> scorer;
  if (lesson != nullptr) scorer.emplace(*lesson);
  const journal::ReplayResult result = journal::replay(
      machine, run.journal, [&](const machine::State& state, const std::vector<machine::Event>& events) {
        run.events.insert(run.events.end(), events.begin(), events.end());
        if (scorer) scorer->see(training::Moment{machine, state, events});
        if (state.tick % every != 0) return;
        run.times_s.push_back(machine::time_s(state));
        for (std::size_t i = 0; i < curves.size(); ++i)
          run.values[i].push_back(signals[i]->value(machine, state));
      });
  if (!result.verified && result.tick == 0 && last > 0) throw std::invalid_argument(result.message);
  const std::vector<machine::Event> quiet;
  if (scorer) run.card = scorer->card(training::Moment{machine, result.state, quiet});
  run.end_s = machine::time_s(result.state);
  run.problem = !fault.message.empty() ? fault.message : result.verified ? "" : result.message;
  return run;
}

class DebriefPages {
 public:
  DebriefPages(const library::Library& library, const machine::Machine& machine,
               const training::Lesson* lesson, const Run& run)
      : library_(library), machine_(machine), lesson_(lesson), run_(run), paper_(false, "Looking back") {}

  std::string make(const DebriefHead& head) {
    y_ = left;
    title(head);
    criteria();
    trend();
    observations();
    events();
    cautions();
    return paper_.bytes();
  }

 private:
  static constexpr double left = Paper::margin_pt;
  double wide() const { return paper_.width() - 2.0 * left; }

  // Room for `height`, on the next page when there is none here.
  void room(double height) {
    if (y_ + height <= paper_.height() - left) return;
    paper_.next_page();
    y_ = left;
  }

  void add(const std::string& words, const PaperStyle& style, double indent = 0.0) {
    const double wrap = wide() - indent;
    room(paper_.text_height(words, style, wrap));
    y_ += paper_.text(left + indent, y_, words, style, wrap);
  }

  void heading(const std::string& words) {
    room(60.0);
    y_ += 12.0;
    add(words, bold);
    paper_.line(left, y_ + 1.0, paper_.width() - left, y_ + 1.0);
    y_ += 5.0;
  }

  void title(const DebriefHead& head) {
    add(lesson_ != nullptr ? lesson_->title : "Free run", {20.0, true, 0.0});
    std::string line = machine_.plant.title;
    for (const std::string& part : {head.person, head.site, head.when_utc, run_.journal.header.mode})
      if (!part.empty()) line += " · " + part;
    add(line + " · " + training::clock_text(run_.end_s) + " simulated", body);
    if (run_.journal.header.branch_tick > 0)
      add("Practice that goes on from " +
              training::clock_text(static_cast<double>(run_.journal.header.branch_tick) * machine::tick_s) +
              " of another run.",
          body);
    if (!run_.problem.empty()) add("This journal does not verify: " + run_.problem, bold);
    if (run_.card) add(training::verdict_sentence(*run_.card), {13.0, true, 0.0});
  }

  void criteria() {
    if (!run_.card) return;
    heading("What was asked");
    for (const training::CriterionResult& c : run_.card->criteria) {
      if (training::goes_without_saying(c)) continue;
      room(30.0);
      paper_.mark(left + 6.0, y_ + 7.0, 9.0,
                  c.met                 ? PaperMark::full
                  : !c.occasion         ? PaperMark::ring
                  : c.credit_norm > 0.0 ? PaperMark::half
                                        : PaperMark::cross);
      const std::string points = training::fixed_text(c.points, c.points == std::floor(c.points) ? 0 : 1) +
                                 " of " + training::fixed_text(c.of, 0);
      paper_.text(paper_.width() - left - 50.0, y_, points, small);
      add((c.met        ? ""
           : c.occasion ? "Missed: "
                        : "No occasion: ") +
              c.title + (c.must_pass ? " (must pass)" : ""),
          body, 18.0);
      const std::string margin = training::margin_sentence(c);
      add(c.why + (margin.empty() ? "" : " " + margin), small, 18.0);
      y_ += 3.0;
    }
  }

  void trend() {
    if (run_.times_s.size() < 2) return;
    constexpr double high = 150.0;
    heading("Trend");
    room(high + 40.0);
    const double x0 = left + 24.0, width = wide() - 48.0, bottom = y_ + high;
    for (int degC = 0; degC <= 100; degC += 25) {
      const double y = bottom - high * degC / 100.0;
      paper_.line(x0, y, x0 + width, y, 0.4, 0.8);
      paper_.text(left, y - 6.0, std::to_string(degC), small);
      paper_.text(x0 + width + 4.0, y - 6.0, std::to_string(degC / 10), small);
    }
    for (std::size_t i = 0; i < curves.size(); ++i) {
      std::vector<std::pair<double, double>> points;
      for (std::size_t k = 0; k < run_.times_s.size(); ++k)
        points.emplace_back(x0 + width * run_.times_s[k] / run_.end_s,
                            bottom - high * std::clamp(run_.values[i][k] / curves[i].top, 0.0, 1.05));
      paper_.polyline(points, curves[i].width_pt, curves[i].dash_pt);
    }
    y_ = bottom + 3.0;
    for (int part = 0; part <= 4; ++part)
      paper_.text(x0 + width * 0.25 * part - 10.0, y_, training::clock_text(run_.end_s * 0.25 * part), small);
    y_ += 14.0;
    double x = x0;
    for (const Curve& curve : curves) {
      paper_.polyline({{x, y_ + 5.0}, {x + 26.0, y_ + 5.0}}, curve.width_pt, curve.dash_pt);
      paper_.text(x + 30.0, y_, curve.words, small);
      x += 112.0;
    }
    y_ += 12.0;
  }

  void line_at(const machine::Event& event, const std::string& words) {
    room(14.0);
    paper_.text(left, y_, training::clock_text(static_cast<double>(event.tick) * machine::tick_s), small);
    add(words, small, 44.0);
  }

  void observations() {
    bool any = false;
    for (const machine::Event& event : run_.events) {
      if (event.kind != machine::EventKind::instructor) continue;
      if (!any) heading("By the instructor");
      any = true;
      line_at(event, event_text(machine_, event));
    }
  }

  void events() {
    heading("What happened");
    for (const machine::Event* told : told_events(run_.events)) {
      const machine::Event& event = *told;
      const std::string words =
          event.kind == machine::EventKind::instructor ? "" : event_text(machine_, event);
      if (!words.empty()) line_at(event, words);
    }
  }

  void cautions() {
    if (lesson_ == nullptr || lesson_->cautions.empty()) return;
    heading("Keep in mind at the real machine");
    for (const std::string& key : lesson_->cautions) {
      const auto words = library_.cautions.find(key);
      if (words != library_.cautions.end()) add("· " + words->second.text, body);
    }
    add("A simulated run does not replace supervised work at the real machine. Local rules come first; "
        "electrical and refrigerant work is for "
        "licensed people.",
        small_bold);
  }

  const library::Library& library_;
  const machine::Machine& machine_;
  const training::Lesson* lesson_;
  const Run& run_;
  Paper paper_;
  double y_ = 0.0;
};

}  // namespace

std::string debrief_pdf(const library::Library& library, const machine::Machine& machine,
                        const training::Lesson* lesson, const std::string& journal_text,
                        const DebriefHead& head) {
  const Run run = play(machine, lesson, journal_text);
  return DebriefPages(library, machine, lesson, run).make(head);
}

}  // namespace stirbench::reports
