#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"
#include "app/desk/work/certify/model.h"
#include "app/library/paths.h"
#include "app/reports/papers.h"

namespace stirbench::desk {

namespace {

// The board for the shift: who may work alone today, large enough to be read from the door.
class Board final : public Screen {
 public:
  Board(Desk& desk, std::string demand) : desk_(desk) { model_.demand_id = std::move(demand); }
  const char* name() const override { return "board"; }

  TopBar top_bar(Ui&) override {
    const training::Demand* demand = model_.demand();
    return {tr("Who may work today"), demand == nullptr ? "" : tr(demand->title) + " · " + day_words(model_.now_s), tr("Back"), true};
  }

  void entered(Ui&) override { model_.refresh(desk_); }

  void draw_tools(Ui& ui) override {
    if (!model_.everybody || model_.demand() == nullptr) return;
    if (button(ui, "board.pdf", tr("Write as PDF"), {.kind = ButtonKind::primary})) write(ui);
  }

  void draw(Ui& ui) override {
    if (!model_.everybody || model_.demand() == nullptr) {
      notice(ui, "board.none", State::info, model_.problem.empty() ? tr("A manager, instructor or auditor opens the board.") : model_.problem);
      return;
    }
    Rect area = ui.area;
    const Rect right = area.take_right(area.w * 0.42F, ui.px(Measure::gutter));
    draw_may(ui, area);
    draw_others(ui, right);
  }

 private:
  void draw_may(Ui& ui, const Rect& rect) {
    PanelScope panel(ui, "board.may", rect, {.caption = tr("May work alone")});
    int shown = 0;
    for (const records::Standing& row : model_.rows) {
      if (!row.may_work) continue;
      ++shown;
      const bool soon = row.certified_until_s <= model_.now_s + 86400LL * records::due_days;
      const std::string id = "board.may." + std::to_string(row.person.id);
      text(ui, row.person.name, {.type = Type::title, .id = id.c_str()});
      state_mark(ui, soon ? State::due : State::good, tr("until {day}", {{"day", day_words(row.certified_until_s)}}), "");
      gap(ui, 10.0F);
    }
    if (shown == 0) text(ui, tr("Nobody today."), {.type = Type::step, .colour = Token::ink2, .id = "board.nobody"});
  }

  void draw_others(Ui& ui, const Rect& rect) {
    PanelScope panel(ui, "board.others", rect, {.caption = tr("Only together with one of them")});
    for (const records::Standing& row : model_.rows) {
      if (row.may_work) continue;
      RowStyle style;
      style.title = row.person.name;
      style.detail = row.certificate ? tr("ended {day}", {{"day", day_words(row.certified_until_s)}}) : tr("no certificate");
      style.icon = row.certificate ? Icon::cross : Icon::ring;
      style.icon_colour = row.certificate ? Token::bad : Token::ink2;
      list_row(ui, "board.other." + std::to_string(row.person.id), style);
    }
  }

  void write(Ui& ui) {
    try {
      const std::string folder = desk_.data_dir + "/exports";
      const std::string file = folder + "/board-" + model_.demand_id + "-" + records::utc_text(model_.now_s).substr(0, 10) + ".pdf";
      std::string failed = library::make_writable(folder);
      if (failed.empty())
        failed = library::write_atomically(file, reports::shift_board_pdf({{model_.demand(), model_.rows}}, desk_.store->site(), model_.now_s));
      if (!failed.empty()) throw records::StoreError(failed);
      desk_.store->note(model_.who, "exported", "board");
      ui.app.toast(State::good, tr("Written: {file}", {{"file", file}}), 10.0);
    } catch (const std::exception& error) {
      ui.app.toast(State::bad, error.what(), 10.0);
    }
  }

  Desk& desk_;
  CertifyModel model_;
};

}  // namespace

std::unique_ptr<Screen> make_board(Desk& desk, const std::string& demand_id) { return std::make_unique<Board>(desk, demand_id); }

}  // namespace stirbench::desk
