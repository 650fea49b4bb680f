#include <map>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"
#include "app/library/reading/paths.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

class Attempts final : public Screen {
 public:
  explicit Attempts(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "attempts"; }
  TopBar top_bar(kit::Ui&) override { return {tr("My attempts"), desk_.person.name, "", true}; }

  void entered(kit::Ui&) override {
    attempts_.clear();
    if (desk_.store && desk_.person.id != 0) attempts_ = desk_.store->attempts(desk_.person.id);
  }

  void draw(kit::Ui& ui) override {
    kit::PanelScope panel(ui, "attempts.panel", ui.area,
                          {.caption = tr("Kept attempts, newest first. Choose one to look back at it.")});
    if (!desk_.store) {
      notice(ui, "attempts.problem", kit::Status::bad,
             tr("Attempts are not kept now.") + " " + desk_.store_problem);
      return;
    }
    if (desk_.person.id == 0) {
      text(ui, tr("Nobody is chosen."), {.colour = kit::Token::ink2});
      if (link(ui, "attempts.person", tr("Choose who you are"))) shell().push("people");
      return;
    }
    if (attempts_.empty()) {
      text(ui, tr("Nothing kept yet. Run a lesson first."), {.colour = kit::Token::ink2});
      return;
    }
    kit::TableScope table(ui, "attempts.table",
                          {{tr("Lesson"), 2.4F},
                           {tr("How"), 1.0F},
                           {tr("When (UTC)"), 1.6F},
                           {tr("Simulated"), 1.0F, kit::Align::right},
                           {tr("Result"), 1.6F}});
    table.header();
    for (const auto& attempt : attempts_) {
      const auto lesson = desk_.library.lessons.find(attempt.lesson);
      const std::string name =
          lesson == desk_.library.lessons.end() ? attempt.lesson : tr(lesson->second.title);
      kit::Cell result;
      if (!attempt.finished) {
        result = {tr("not finished"), kit::Icon::half_ring, kit::Token::due, tr("not finished")};
      } else if (attempt.passed) {
        result = {tr("passed") + percent(attempt), kit::Icon::check, kit::Token::ok, tr("passed")};
      } else {
        result = {tr("not passed") + percent(attempt), kit::Icon::cross, kit::Token::bad, tr("not passed")};
      }
      if (table.row("attempts.row." + std::to_string(attempt.id), {{name},
                                                                   {tr(attempt.mode)},
                                                                   {when(attempt.started_utc)},
                                                                   {kit::show_duration(attempt.simulated_s)},
                                                                   result})) {
        open(ui, attempt, name);
      }
    }
  }

 private:
  static std::string percent(const records::Attempt& attempt) {
    return ", " + kit::plain_number(100.0 * attempt.score_norm, 0) + " %";
  }
  static std::string when(std::string utc) {
    for (char& c : utc) {
      if (c == 'T' || c == 'Z') c = ' ';
    }
    return utc;
  }

  void open(kit::Ui& ui, const records::Attempt& attempt, const std::string& name) {
    try {
      desk_.debrief = work::DebriefRequest{desk_.store->journal_text(attempt), name, attempt.uid,
                                           attempt.person, attempt.started_utc};
      shell().push("debrief");
    } catch (const std::exception& error) {
      ui.host.toast(kit::Status::bad, error.what());
    }
  }

  work::Desk& desk_;
  std::vector<records::Attempt> attempts_;
};

}  // namespace

std::unique_ptr<Screen> make_attempts(work::Desk& desk) { return std::make_unique<Attempts>(desk); }

}  // namespace stirbench::desk::screens
