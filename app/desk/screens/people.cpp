#include "app/desk/screens/screens.h"
#include "app/desk/text/text.h"
#include "app/desk/ui/widgets.h"

namespace stirbench::desk {

namespace {

// Who sits here: attempts are kept under this name.
class People final : public Screen {
 public:
  explicit People(Desk& desk) : desk_(desk) {}
  const char* name() const override { return "people"; }
  TopBar top_bar(Ui&) override { return {tr("Who are you?"), tr("attempts are kept under this name"), "", true}; }

  void entered(Ui&) override { refresh(); }

  void draw(Ui& ui) override {
    const float width = std::min(ui.area.w, ui.em(560.0F));
    PanelScope panel(ui, "people.panel", {ui.area.x + (ui.area.w - width) * 0.5F, ui.area.y, width, ui.area.h},
                     {.caption = tr("People on this computer")});
    if (!desk_.store) {
      notice(ui, "people.problem", State::bad, tr("Attempts are not kept now.") + " " + desk_.store_problem);
      return;
    }
    for (const auto& person : people_) {
      RowStyle row;
      row.title = person.name;
      row.icon = Icon::person;
      row.selected = person.id == desk_.person.id;
      row.right = row.selected ? tr("here now") : "";
      if (list_row(ui, "people." + std::to_string(person.id), row)) choose(ui, person);
    }
    if (people_.empty()) text(ui, tr("Nobody yet. Add your name below."), {.colour = Token::ink2});
    gap(ui, 14.0F);
    text_field(ui, "people.name", tr("Your name"), name_, {.hint = tr("first and last name"), .error = problem_});
    gap(ui, 6.0F);
    const bool empty = name_.find_first_not_of(' ') == std::string::npos;
    const bool add = button(ui, "people.add", tr("Add and choose"),
                            {.kind = ButtonKind::primary, .enabled = !empty, .reason = tr("Type a name first.")});
    if (!empty && (add || desk::entered(ui, "people.name"))) add_person(ui);
    gap(ui, 14.0F);
    if (desk_.person.id != 0 && button(ui, "people.nobody", tr("Nobody: keep nothing"))) choose(ui, records::Person{});
  }

 private:
  void refresh() {
    if (desk_.store) people_ = desk_.store->people();
  }

  void choose(Ui& ui, const records::Person& person) {
    desk_.person = person;
    Settings settings = ui.app.settings();
    settings.last_person = person.id == 0 ? "" : std::to_string(person.id);
    ui.app.change_settings(settings);
    ui.app.back();
  }

  void add_person(Ui& ui) {
    try {
      choose(ui, desk_.store->add_person(name_));
    } catch (const records::StoreError& error) {
      problem_ = error.text;
    }
  }

  Desk& desk_;
  std::vector<records::Person> people_;
  std::string name_;
  std::string problem_;
};

}  // namespace

std::unique_ptr<Screen> make_people(Desk& desk) { return std::make_unique<People>(desk); }

}  // namespace stirbench::desk
