#pragma once

#include <functional>
#include <span>
#include <string>

#include "app/desk/kit/widgets/panel.h"
#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/spread_runs.h"

namespace stirbench::desk::screens {

// The switch "Band" in the head of a trend's panel: on, it shows between what the product's temperature may
// lie as far as the model knows. Off at first.
class BandSwitch {
 public:
  // `wake` as of SpreadRuns; `id` is the switch's.
  BandSwitch(std::string id, std::function<void()> wake) : id_(std::move(id)), runs_(std::move(wake)) {}

  using Ask = std::function<work::SpreadQuestion()>;
  // The caption of a panel of this width beside the switch: empty where both have no room on one line, so
  // that the chart keeps its own.
  static std::string caption(const kit::Ui& ui, const std::string& words, float panel_width);
  // At the right in the head of a panel with that caption. Returns what is left of the panel's inside. `ask`
  // is called when it is switched on; `reason`: why it cannot be, empty when it can.
  kit::Rect draw(kit::Ui& ui, const kit::PanelScope& panel, const std::string& reason, const Ask& ask);
  void off();
  std::span<const views::TrendSpread> band() const { return runs_.band(); }

 private:
  std::string words() const;
  void toggle(kit::Ui& ui, const Ask& ask);

  std::string id_;
  work::SpreadRuns runs_;
  bool on_ = false;
};

}  // namespace stirbench::desk::screens
