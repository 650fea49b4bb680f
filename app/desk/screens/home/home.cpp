#include <array>
#include <ctime>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

struct Door {
  const char* id;
  std::string title;
  std::string words;
  std::string not_yet;  // empty: the door opens
  const char* screen;
};

std::string greeting() {
  const std::time_t now = std::time(nullptr);
  std::tm local{};
  localtime_r(&now, &local);
  if (local.tm_hour < 12) return tr("Good morning");
  if (local.tm_hour < 18) return tr("Good afternoon");
  return tr("Good evening");
}

// The vat: bowl, well, lid and shaft in a few strokes.
void draw_vat(kit::Ui& ui, ImDrawList* draw, const kit::Rect& box) {
  const float s = box.h / 200.0F;
  const ImVec2 c = box.centre();
  const ImU32 outline = ui.colour(kit::Token::metal_dark);
  const ImU32 product = kit::product_colour(70.0).u32();
  const float w = 70.0F * s;
  const float top = c.y - 72.0F * s;
  const float floor = c.y + 46.0F * s;
  draw->PathClear();
  draw->PathLineTo({c.x - w, top + 26.0F * s});
  draw->PathLineTo({c.x - w, floor - 40.0F * s});
  draw->PathBezierCubicCurveTo({c.x - w, floor - 8.0F * s}, {c.x - 52.0F * s, floor},
                               {c.x - 30.0F * s, floor + 3.0F * s});
  draw->PathLineTo({c.x - 30.0F * s, floor + 30.0F * s});
  draw->PathLineTo({c.x + 30.0F * s, floor + 30.0F * s});
  draw->PathLineTo({c.x + 30.0F * s, floor + 4.0F * s});
  draw->PathBezierCubicCurveTo({c.x + 52.0F * s, floor}, {c.x + w, floor - 8.0F * s},
                               {c.x + w, floor - 40.0F * s});
  draw->PathLineTo({c.x + w, top + 26.0F * s});
  const ImVector<ImVec2> path = draw->_Path;
  // The bowl is convex down to the shoulder; the well is a box below it.
  const float level = top + 44.0F * s;
  draw->PathClear();
  draw->PathLineTo({c.x - w, level});
  draw->PathLineTo({c.x - w, floor - 40.0F * s});
  draw->PathBezierCubicCurveTo({c.x - w, floor - 8.0F * s}, {c.x - 52.0F * s, floor},
                               {c.x - 30.0F * s, floor + 3.0F * s});
  draw->PathLineTo({c.x + 30.0F * s, floor + 3.0F * s});
  draw->PathBezierCubicCurveTo({c.x + 52.0F * s, floor}, {c.x + w, floor - 8.0F * s},
                               {c.x + w, floor - 40.0F * s});
  draw->PathLineTo({c.x + w, level});
  draw->PathFillConvex(product);
  draw->AddRectFilled({c.x - 30.0F * s, floor}, {c.x + 30.0F * s, floor + 29.0F * s}, product);
  draw->PathClear();
  draw->AddPolyline(path.Data, path.Size, outline, 0, 4.0F * s);
  draw->AddRectFilled({c.x - 4.0F * s, top + 44.0F * s}, {c.x + 4.0F * s, floor + 24.0F * s},
                      ui.colour(kit::Token::metal));
  draw->AddRectFilled({c.x - 46.0F * s, top + 64.0F * s}, {c.x + 46.0F * s, top + 72.0F * s},
                      ui.colour(kit::Token::metal), 4.0F * s);
  draw->AddBezierCubic({c.x - w - 6.0F * s, top + 18.0F * s}, {c.x - 40.0F * s, top - 2.0F * s},
                       {c.x + 40.0F * s, top - 2.0F * s}, {c.x + w + 6.0F * s, top + 18.0F * s}, outline,
                       5.0F * s);
  draw->AddLine({c.x - 12.0F * s, top - 2.0F * s}, {c.x + 12.0F * s, top - 2.0F * s}, outline, 7.0F * s);
}

// A question that branches towards a cause.
void draw_branches(kit::Ui& ui, ImDrawList* draw, const kit::Rect& box) {
  const float s = box.h / 200.0F;
  const ImVec2 c = box.centre();
  const ImU32 act = ui.colour(kit::Token::act);
  const float thick = 4.0F * s;
  const float top = c.y - 56.0F * s;
  draw->AddCircleFilled({c.x, top}, 14.0F * s, act, 24);
  draw->AddLine({c.x, top}, {c.x, top + 44.0F * s}, act, thick);
  draw->AddLine({c.x - 80.0F * s, top + 44.0F * s}, {c.x + 80.0F * s, top + 44.0F * s}, act, thick);
  for (const float side : {-80.0F, 80.0F}) {
    const float x = c.x + side * s;
    draw->AddLine({x, top + 43.0F * s}, {x, top + 62.0F * s}, act, thick);
    const ImVec2 a{x - 25.0F * s, top + 62.0F * s};
    const ImVec2 b{x + 25.0F * s, top + 90.0F * s};
    if (side > 0.0F) draw->AddRectFilled(a, b, ui.colour(kit::Token::act2), 5.0F * s);
    draw->AddRect(a, b, act, 5.0F * s, 0, thick);
  }
  draw->AddLine({c.x + 80.0F * s, top + 90.0F * s}, {c.x + 80.0F * s, top + 112.0F * s}, act, thick);
  draw->AddCircle({c.x + 80.0F * s, top + 124.0F * s}, 11.0F * s, act, 24, thick);
}

// People against skills.
void draw_table(kit::Ui& ui, ImDrawList* draw, const kit::Rect& box) {
  const float s = box.h / 200.0F;
  const ImVec2 c = box.centre();
  static constexpr std::array<bool, 9> done = {true, true, true, true, false, true, false, true, false};
  for (std::size_t i = 0; i < done.size(); ++i) {
    const std::size_t column = i % 3;
    const std::size_t line = i / 3;
    const ImVec2 at{c.x + (static_cast<float>(column) - 1.0F) * 58.0F * s,
                    c.y + (static_cast<float>(line) - 1.0F) * 46.0F * s};
    if (done[i]) {
      draw->AddCircleFilled(at, 13.0F * s, ui.colour(kit::Token::ok), 28);
      kit::icon(draw, kit::Icon::check, {at.x - 7.0F * s, at.y - 7.0F * s, 14.0F * s, 14.0F * s},
                ui.colour(kit::Token::panel));
    } else {
      draw->AddCircle(at, 12.0F * s, ui.colour(kit::Token::edge), 28, 3.0F * s);
    }
  }
}

class Home final : public Screen {
 public:
  explicit Home(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "home"; }

  TopBar top_bar(kit::Ui&) override {
    const auto machine = desk_.library.machines.find(desk_.machine_id);
    const std::string title = machine == desk_.library.machines.end() ? "" : machine->second.title;
    return {tr("Stirbench"), title + " · Tidewater Row", "", false};
  }

  void draw_tools(kit::Ui& ui) override {
    const std::string who = desk_.person.id == 0 ? tr("Who are you?") : desk_.person.name;
    if (button(ui, "home.person", who, {.icon = kit::Icon::person})) shell().push("people");
    same_line(ui);
    if (button(ui, "home.settings", tr("Settings"))) shell().push("settings");
    same_line(ui);
    if (button(ui, "home.help", tr("Help"))) shell().push("help");
  }

  void draw(kit::Ui& ui) override {
    kit::Rect rest = ui.area.inset(ui.px(40.0F), ui.px(12.0F));
    const std::string aside =
        tr("Training aid. The machine's own manual, local codes and licensed practice come first. A pass "
           "here does "
           "not replace supervised work at the machine.");
    const float foot_h = text_size(ui, aside, kit::Type::caption, rest.w).y;
    const kit::Rect foot = rest.take_bottom(foot_h, ui.px(12.0F));
    text_at(ui, ui.draw, foot.min(), aside,
            {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = foot.w});
    // Room at the left for focus rings: the scroll area clips.
    kit::ScrollScope scroll(ui, "home.scroll", {rest.x - ui.px(8.0F), rest.y, rest.w + ui.px(16.0F), rest.h});
    at(ui, rest.x, rest.y + ui.px(8.0F) - ImGui::GetScrollY());
    const std::string hello =
        desk_.person.id == 0 ? greeting() + "." : greeting() + ", " + first_name() + ".";
    text(ui, hello, {.type = kit::Type::display, .id = "home.greeting"});
    next_line(ui);
    troubles(ui);
    gap(ui, 16.0F);
    doors(ui, rest);
    more(ui);
  }

 private:
  std::string first_name() const { return desk_.person.name.substr(0, desk_.person.name.find(' ')); }

  void next_line(kit::Ui& ui) {
    const training::Lesson* next = next_lesson();
    if (next == nullptr) return;
    at(ui, ui.area.x + ui.px(40.0F), ImGui::GetCursorScreenPos().y);
    text(ui, tr("Next for you:"), {.colour = kit::Token::ink2, .wrap = -1.0F});
    same_line(ui);
    if (link(ui, "home.next", tr(next->title))) shell().push("lesson", {{"lesson", next->id}});
    same_line(ui);
    text(ui, why_next() + tr("about {n} minutes", {{"n", kit::plain_number(next->minutes, 0)}}),
         {.colour = kit::Token::ink2, .wrap = -1.0F});
  }

  std::string why_next() const {
    switch (proposal_.reason) {
      case training::ProposalReason::due_again: return tr("due again") + ", ";
      case training::ProposalReason::failed_last: return tr("not passed yet") + ", ";
      default: return "";
    }
  }

  // What the course proposes from what this person has shown (training/skills.h, a heuristic); everybody may
  // choose freely.
  const training::Lesson* next_lesson() {
    if (!asked_) {
      asked_ = true;
      proposal_ = {};
      std::vector<training::LessonAttempt> runs;
      if (desk_.store && desk_.person.id != 0) {
        try {
          for (const records::AttemptBrief& one : desk_.store->briefs(desk_.person.id))
            if (one.whole) runs.push_back({one.lesson, one.started_s, one.passed, one.marks});
        } catch (const records::StoreError&) {
          runs.clear();  // said elsewhere; a proposal is not worth a message
        }
      }
      const library::Library& content = desk_.library;
      const auto states = training::skill_states(content.skills, content.lessons, runs);
      const std::int64_t now = desk_.store ? desk_.store->now_s() : 0;
      // Whoever has done nothing yet begins with a whole batch.
      if (runs.empty() && content.lessons.count("first-batch") != 0)
        proposal_ = {"first-batch", "", training::ProposalReason::next_in_course};
      else
        proposal_ = training::next_lesson(content.skills, content.lessons, states, runs, now);
    }
    const auto found = desk_.library.lessons.find(proposal_.lesson);
    return found == desk_.library.lessons.end() ? nullptr : &found->second;
  }

  void entered(kit::Ui&) override { asked_ = false; }

  void troubles(kit::Ui& ui) {
    if (!desk_.store_problem.empty()) {
      gap(ui, 8.0F);
      notice(ui, "home.store_problem", kit::Status::due,
             tr("Attempts are not kept now.") + " " + desk_.store_problem);
    }
    if (!desk_.content_problem.empty()) {
      gap(ui, 8.0F);
      notice(ui, "home.content_problem", kit::Status::due,
             tr("A recipe of your own could not be read; the shipped content is in use.") + " " +
                 desk_.content_problem);
    }
  }

  void doors(kit::Ui& ui, const kit::Rect& rest) {
    const std::array<Door, 3> list = {{
        {"home.train", tr("Train"),
         tr("Run batches, trip guards, fill pails. Nothing you break here costs anything."), "", "lessons"},
        {"home.fault", tr("Find a fault"),
         tr("From what you see to the part that failed, one check at a time, with the precautions first."),
         "", "fault"},
        {"home.certify", tr("Certify"),
         tr("Who is safe on what, until when, and the evidence. For managers."),
         desk_.store ? "" : tr("Nothing can be kept now, so nobody can be certified."), "certify"},
    }};
    const float top = ImGui::GetCursorScreenPos().y;
    kit::Rect row{rest.x, top, rest.w - ui.px(14.0F), std::max(ui.px(360.0F), ui.em(330.0F))};
    const std::vector<kit::Rect> cards = row.columns(3, ui.px(26.0F));
    for (std::size_t i = 0; i < list.size(); ++i) {
      const Door& door = list[i];
      kit::CardScope card(ui, door.id, cards[i], door.title, door.not_yet.empty(), door.not_yet);
      kit::Rect inner = card.inner().inset(ui.px(10.0F));
      const kit::Rect picture = inner.take_top(std::min(ui.px(172.0F), inner.h * 0.5F), ui.px(8.0F));
      ImDrawList* draw = kit::current_draw();
      if (i == 0) draw_vat(ui, draw, picture);
      if (i == 1) draw_branches(ui, draw, picture);
      if (i == 2) draw_table(ui, draw, picture);
      at(ui, inner.x, inner.y);
      text(ui, door.title, {.type = kit::Type::title, .wrap = inner.w});
      at(ui, inner.x, inner.y + ui.theme.line_px(kit::Type::title) + ui.px(6.0F));
      text(ui, door.words, {.colour = kit::Token::ink2, .wrap = inner.w});
      if (!door.not_yet.empty()) {
        at(ui, inner.x, inner.bottom() - ui.theme.line_px(kit::Type::caption) * 1.2F);
        status_mark(ui, kit::Status::not_yet, tr("Not in this version yet"));
      }
      if (card.pressed()) shell().push(door.screen);
    }
    at(ui, rest.x, row.bottom() + ui.px(20.0F));
  }

  void more(kit::Ui& ui) {
    at(ui, ui.area.x + ui.px(40.0F), ImGui::GetCursorScreenPos().y);
    if (button(ui, "home.recipes", tr("Recipe bench"))) shell().push("recipes");
    same_line(ui, ui.px(12.0F));
    if (button(ui, "home.parts", tr("The machine, part by part"))) shell().push("parts");
    same_line(ui, ui.px(12.0F));
    if (button(ui, "home.attempts", tr("My attempts"))) shell().push("attempts");
    same_line(ui, ui.px(12.0F));
    if (button(ui, "home.free", tr("Free run"))) start_free_run();
    same_line(ui, ui.px(12.0F));
    if (button(ui, "home.own", tr("Own machine"))) shell().push("own");
  }

  void start_free_run() {
    work::LiveRun::Setup setup;
    setup.machine = desk_.library.machine(desk_.machine_id);
    setup.mode = work::RunMode::free;
    setup.program = STIRBENCH_VERSION;
    desk_.run = std::make_unique<work::LiveRun>(std::move(setup));
    shell().push("train");
  }

  work::Desk& desk_;
  bool asked_ = false;
  training::Proposal proposal_;
};

}  // namespace

std::unique_ptr<Screen> make_home(work::Desk& desk) { return std::make_unique<Home>(desk); }

}  // namespace stirbench::desk::screens
