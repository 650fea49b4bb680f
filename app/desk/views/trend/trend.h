#pragma once

#include <optional>
#include <span>
#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/views/trend/trend_log.h"

// The trend chart: temperatures above, powers below, phase bands behind, marks for what happened, a cursor to
// scrub with.
namespace stirbench::desk::views {

struct TrendInput {
  const TrendLog& log;
  double from_s = 0.0;
  double to_s = -1.0;      // < from_s: to the end of the log, at least ten minutes wide
  double cursor_s = -1.0;  // < 0: no cursor but under the mouse; else a line with the values there
  bool scrub = false;      // dragging and arrow keys move the cursor (debrief)
  bool powers = true;
  bool display_only = false;  // the probe's line alone: what the panel shows
  std::string id = "trend";   // "ID.chart" is the hot-spot
  // In order of time, behind the product's line; the words "ID.spread" say what it is where they
  // have room. Empty: none.
  std::span<const TrendSpread> spread = {};
};

struct TrendRequests {
  std::optional<double> cursor_s;  // where the person put the cursor in this frame
};

// Draws inside `rect`, without a panel around it.
TrendRequests draw_trend(kit::Ui& ui, const TrendInput& input, const kit::Rect& rect);

}  // namespace stirbench::desk::views
