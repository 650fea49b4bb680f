#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

class SettingsScreen final : public Screen {
 public:
  explicit SettingsScreen(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "settings"; }
  TopBar top_bar(kit::Ui&) override { return {tr("Settings"), "", "", true}; }

  void draw(kit::Ui& ui) override {
    const float width = std::min(ui.area.w, ui.em(760.0F));
    kit::PanelScope panel(ui, "settings.panel",
                          {ui.area.x + (ui.area.w - width) * 0.5F, ui.area.y, width, ui.area.h}, {});
    Settings s = shell().settings();
    units(ui, s);
    look(ui, s);
    rules(ui, s);
    language(ui, s);
    gap(ui, 12.0F);
    caption(ui, tr("Your folder"));
    text(ui, desk_.data_dir, {.type = kit::Type::caption, .colour = kit::Token::ink2});
    if (!(s == shell().settings())) shell().change_settings(s);
  }

 private:
  // One labelled row of choices; `value` is any enum with values 0, 1, 2 ...
  template <typename Enum>
  void row(kit::Ui& ui, const char* id, const std::string& label, const std::vector<std::string>& options,
           Enum& value) {
    gap(ui, 10.0F);
    caption(ui, label);
    int chosen = static_cast<int>(value);
    if (radio_row(ui, id, options, chosen)) value = static_cast<Enum>(chosen);
  }

  void units(kit::Ui& ui, Settings& s) {
    title(ui, tr("Units"));
    row(ui, "settings.temperature", tr("Temperature"), {"°C", "°F"}, s.units.temperature);
    row(ui, "settings.volume", tr("Volume"), {"L", "US gal"}, s.units.volume);
    row(ui, "settings.mass", tr("Mass"), {"kg", "lb"}, s.units.mass);
    row(ui, "settings.pressure", tr("Pressure"), {"bar", "psi"}, s.units.pressure);
    row(ui, "settings.power", tr("Power"), {"kW", "W"}, s.units.power);
  }

  void look(kit::Ui& ui, Settings& s) {
    gap(ui, 18.0F);
    title(ui, tr("Reading"));
    gap(ui, 10.0F);
    caption(ui, tr("Text size"));
    static const std::vector<int> sizes = {100, 125, 150, 175, 200};
    std::vector<std::string> labels;
    int chosen = 0;
    for (std::size_t i = 0; i < sizes.size(); ++i) {
      labels.push_back(std::to_string(sizes[i]) + " %");
      if (sizes[i] == s.text_percent) chosen = static_cast<int>(i);
    }
    if (radio_row(ui, "settings.text", labels, chosen))
      s.text_percent = sizes[static_cast<std::size_t>(chosen)];
    row(ui, "settings.theme", tr("Colours"), {tr("Light"), tr("Dark"), tr("High contrast")}, s.theme);
    gap(ui, 10.0F);
    checkbox(ui, "settings.motion", tr("Reduced motion"), s.reduced_motion,
             {.detail = tr("Arrows instead of moving flow; nothing slides or pulses.")});
  }

  // Whose heat-treatment and cooling rules the debrief shows. A place that is no longer in the content stays
  // chosen and is shown.
  void rules(kit::Ui& ui, Settings& s) {
    gap(ui, 18.0F);
    std::vector<std::string> places = product::jurisdictions(desk_.library.rules);
    if (!s.rules_of.empty() && std::find(places.begin(), places.end(), s.rules_of) == places.end())
      places.push_back(s.rules_of);
    places.insert(places.begin(), "");
    std::vector<std::string> labels;
    int chosen = 0;
    for (std::size_t i = 0; i < places.size(); ++i) {
      labels.push_back(places[i].empty() ? tr("All places") : tr(places[i]));
      if (places[i] == s.rules_of) chosen = static_cast<int>(i);
    }
    if (choice(ui, "settings.rules_of", tr("Rules of"), labels, chosen))
      s.rules_of = places[static_cast<std::size_t>(chosen)];
  }

  void language(kit::Ui& ui, Settings& s) {
    const std::vector<std::string> known = kit::languages(desk_.content_dir);
    if (known.size() < 2) return;
    gap(ui, 18.0F);
    int chosen = 0;
    for (std::size_t i = 0; i < known.size(); ++i) {
      if (known[i] == s.language) chosen = static_cast<int>(i);
    }
    if (choice(ui, "settings.language", tr("Language"), known, chosen))
      s.language = known[static_cast<std::size_t>(chosen)];
  }

  work::Desk& desk_;
};

}  // namespace

std::unique_ptr<Screen> make_settings(work::Desk& desk) { return std::make_unique<SettingsScreen>(desk); }

}  // namespace stirbench::desk::screens
