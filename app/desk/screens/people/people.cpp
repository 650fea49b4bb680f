#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// Who sits here: attempts are kept under this name. Who has a PIN shows it; nobody sees another's attempts.
class People final : public Screen {
 public:
  explicit People(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "people"; }
  TopBar top_bar(kit::Ui&) override {
    return {tr("Who are you?"), tr("attempts are kept under this name"), "", true};
  }

  void entered(kit::Ui&) override { refresh(); }

  void draw(kit::Ui& ui) override {
    const float width = std::min(ui.area.w, ui.em(560.0F));
    kit::PanelScope panel(ui, "people.panel",
                          {ui.area.x + (ui.area.w - width) * 0.5F, ui.area.y, width, ui.area.h},
                          {.caption = tr("People on this computer")});
    if (!desk_.store) {
      notice(ui, "people.problem", kit::Status::bad,
             tr("Attempts are not kept now.") + " " + desk_.store_problem);
      return;
    }
    for (const auto& person : people_) {
      kit::RowStyle row;
      row.title = person.name;
      row.icon = person.has_pin ? kit::Icon::lock : kit::Icon::person;
      row.selected = person.id == desk_.person.id;
      row.right = row.selected                            ? tr("here now")
                  : person.role == records::Role::learner ? ""
                                                          : tr(records::role_name(person.role));
      if (list_row(ui, "people." + std::to_string(person.id), row)) ask(person);
    }
    if (people_.empty()) text(ui, tr("Nobody yet. Add your name below."), {.colour = kit::Token::ink2});
    gap(ui, 14.0F);
    draw_add(ui);
    gap(ui, 14.0F);
    if (desk_.person.id != 0) {
      if (button(ui, "people.pin", desk_.person.has_pin ? tr("Change my PIN") : tr("Set a PIN"))) open_pin();
      same_line(ui);
      if (button(ui, "people.nobody", tr("Nobody: keep nothing"))) choose(records::Person{}, {});
    }
    draw_sign_in(ui);
    draw_new_pin(ui);
  }

 private:
  void refresh() {
    if (!desk_.store) return;
    people_ = desk_.store->people();
    managed_ = desk_.store->managed();
    for (const auto& person : people_) {
      if (person.id == desk_.person.id) desk_.person = person;
    }
    why_not_add_ = records::why_not(who_is_here(desk_), records::Right::add_people);
  }

  void draw_add(kit::Ui& ui) {
    if (!why_not_add_.empty()) {
      text(ui, tr("New here? A manager or instructor adds your name."), {.colour = kit::Token::ink2});
      return;
    }
    text_field(ui, "people.name", managed_ ? tr("Name") : tr("Your name"), name_,
               {.hint = tr("first and last name"), .error = problem_});
    gap(ui, 6.0F);
    const bool empty = name_.find_first_not_of(' ') == std::string::npos;
    const bool add =
        button(ui, "people.add", managed_ ? tr("Add") : tr("Add and choose"),
               {.kind = kit::ButtonKind::primary, .enabled = !empty, .reason = tr("Type a name first.")});
    if (!empty && (add || kit::entered(ui, "people.name"))) add_person(ui);
  }

  // Without a PIN: here at once. In records with a manager nobody is let in without one.
  void ask(const records::Person& person) {
    if (person.has_pin) {
      asked_ = person;
      pin_.clear();
      pin_problem_.clear();
    } else if (managed_) {
      desk_.access = {};
      choose(person, {person.id, person.uid, person.role, false}, false);
      open_pin();
    } else {
      choose(person, {});
    }
  }

  void choose(const records::Person& person, const records::Access& access, bool leave = true) {
    desk_.person = person;
    desk_.access = access;
    Settings settings = shell().settings();
    settings.last_person = person.id == 0 ? "" : std::to_string(person.id);
    shell().change_settings(settings);
    if (leave) shell().back();
  }

  void add_person(kit::Ui& ui) {
    try {
      const records::Person added = desk_.store->add_person(who_is_here(desk_), name_);
      problem_.clear();
      name_.clear();
      if (!managed_) return choose(added, {});
      refresh();
      ui.host.toast(kit::Status::good, tr("{name} is added. The first PIN is set when that name is chosen.",
                                          {{"name", added.name}}));
    } catch (const records::StoreError& error) {
      problem_ = error.text;
    }
  }

  void draw_sign_in(kit::Ui& ui) {
    if (!asked_) return;
    kit::DialogScope dialog(ui, "people.ask", asked_->name);
    text_field(ui, "people.ask.pin", tr("PIN or passphrase"), pin_,
               {.error = pin_problem_, .password = true});
    gap(ui, 6.0F);
    const bool go =
        button(ui, "people.ask.go", tr("Continue"),
               {.kind = kit::ButtonKind::primary, .enabled = !pin_.empty(), .reason = tr("Type your PIN.")});
    text(ui, tr("Forgotten? Another manager can give you a new one."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
    if (!pin_.empty() && (go || kit::entered(ui, "people.ask.pin"))) {
      try {
        const records::Access access = desk_.store->sign_in(asked_->id, pin_);
        const records::Person person = *asked_;
        asked_.reset();
        pin_.clear();
        return choose(person, access);
      } catch (const records::StoreError& error) {
        pin_problem_ = error.text;
        pin_.clear();
      }
    }
    if (dialog.dismissed()) asked_.reset();
  }

  void open_pin() {
    new_pin_ = true;
    pin_.clear();
    next_.clear();
    pin_problem_.clear();
  }

  void draw_new_pin(kit::Ui& ui) {
    if (!new_pin_) return;
    kit::DialogScope dialog(ui, "people.new", desk_.person.has_pin ? tr("Change my PIN") : tr("Set a PIN"));
    text(ui, tr("It keeps your attempts to yourself on a shared computer."), {.colour = kit::Token::ink2});
    if (desk_.person.has_pin)
      text_field(ui, "people.new.present", tr("Present PIN"), pin_, {.password = true});
    text_field(ui, "people.new.next", tr("New PIN or passphrase"), next_,
               {.error = pin_problem_, .password = true});
    gap(ui, 6.0F);
    const bool go = button(
        ui, "people.new.go", tr("Keep it"),
        {.kind = kit::ButtonKind::primary, .enabled = !next_.empty(), .reason = tr("Type the new PIN.")});
    if (!next_.empty() && (go || kit::entered(ui, "people.new.next"))) {
      try {
        desk_.store->set_own_pin(desk_.person.id, pin_, next_);
        desk_.access = desk_.store->sign_in(desk_.person.id, next_);
        new_pin_ = false;
        next_.clear();
        refresh();
        ui.host.toast(kit::Status::good, tr("Your PIN is set."));
      } catch (const records::StoreError& error) {
        pin_problem_ = error.text;
      }
    }
    if (!dialog.dismissed()) return;
    new_pin_ = false;
    // Without a PIN nobody is here in records with a manager.
    if (managed_ && !desk_.person.has_pin) choose(records::Person{}, {}, false);
  }

  work::Desk& desk_;
  std::vector<records::Person> people_;
  bool managed_ = false;
  std::string why_not_add_;
  std::string name_;
  std::string problem_;
  std::optional<records::Person> asked_;
  bool new_pin_ = false;
  std::string pin_;
  std::string next_;
  std::string pin_problem_;
};

}  // namespace

std::unique_ptr<Screen> make_people(work::Desk& desk) { return std::make_unique<People>(desk); }

}  // namespace stirbench::desk::screens
