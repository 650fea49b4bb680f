#include "app/desk/screens/band_switch.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

std::string progress_words(int done) {
  return tr("Band: {done} of {all}",
            {{"done", std::to_string(done)}, {"all", std::to_string(work::SpreadRuns::drawn_runs)}});
}

// As wide as its longest words, so that it stays where it is while they change.
float switch_width(const kit::Ui& ui) {
  const float widest = text_size(ui, progress_words(work::SpreadRuns::drawn_runs), kit::Type::body).x;
  return std::round(widest + 2.0F * ui.px(kit::Measure::gap));
}

}  // namespace

std::string BandSwitch::caption(const kit::Ui& ui, const std::string& words, float panel_width) {
  const float room =
      panel_width - 2.0F * ui.px(kit::Measure::panel_padding) - ui.px(kit::Measure::gap) - switch_width(ui);
  return text_size(ui, words, kit::Type::caption).x <= room ? words : "";
}

std::string BandSwitch::words() const { return runs_.busy() ? progress_words(runs_.done()) : tr("Band"); }

kit::Rect BandSwitch::draw(kit::Ui& ui, const kit::PanelScope& panel, const std::string& reason,
                           const Ask& ask) {
  runs_.poll();
  kit::Rect inner = panel.inner();
  const float width = switch_width(ui);
  const float height = ui.theme.control_height();
  const float middle =
      panel.rect().y + ui.px(kit::Measure::panel_padding) + ui.theme.line_px(kit::Type::caption) * 0.5F;
  const float top = std::round(middle - height * 0.5F);
  at(ui, inner.right() - width, top);
  const kit::ButtonStyle style{
      .enabled = on_ || reason.empty(),
      .reason = reason,
      .hint = tr("Shows what the model leaves open: the run so far on machines whose uncertain constants "
                 "are drawn"),
      .place = {.w = width}};
  const bool pressed = chip(ui, id_, words(), on_, style);
  inner.take_top(std::max(0.0F, top + height - inner.y));
  if (pressed) toggle(ui, ask);
  return inner;
}

void BandSwitch::toggle(kit::Ui& ui, const Ask& ask) {
  if (on_) {
    off();
    return;
  }
  const std::string refused = runs_.start(ask());
  on_ = refused.empty();
  if (!on_) ui.host.toast(kit::Status::due, refused);
}

void BandSwitch::off() {
  runs_.cancel();
  on_ = false;
}

}  // namespace stirbench::desk::screens
