#include "app/desk/work/run/paced_run.h"

#include "app/desk/work/run/pointing.h"

namespace stirbench::desk::work {

namespace {

// Wall time that a frame may spend on the simulation: half of a frame at 60 a second.
constexpr double budget_s = 0.008;

}  // namespace

bool PacedRun::goes(const LiveRun& run) const {
  return !pacing_.paused() && !run.finished() && !run.state().injured && !run.frozen();
}

PacedRun::News PacedRun::run_frame(LiveRun& run) {
  News news;
  if (goes(run)) pacing_.run_frame([&] { return step(run, news); }, budget_s);
  return news;
}

// One tick; false stops the frame, and a rush with it.
bool PacedRun::step(LiveRun& run, News& news) {
  const std::size_t before = run.history().size();
  const Attention attention = run.step();
  const auto& history = run.history();
  log_.record(run.machine(), run.state(), {history.data() + before, history.size() - before});
  for (std::size_t i = before; i < history.size(); ++i) {
    if (is_pointing(history[i]))
      news.pointed = {history[i].name, attention.kind == Attention::Kind::step_done};
  }
  if (run.over()) {
    if (run.state().injured) pacing_.pause(true);
    news.attention = {Attention::Kind::lesson_over, ""};
    return false;
  }
  if (attention.kind != Attention::Kind::none) {
    news.attention = attention;
    return false;
  }
  if (pacing_.rushing() && !run.something_runs()) {
    news.attention = {Attention::Kind::idle, ""};
    return false;
  }
  return true;
}

std::vector<std::string> PacedRun::hand_over(LiveRun& run, const std::vector<hands::Action>& actions) {
  std::vector<std::string> refusals;
  for (const hands::Action& action : actions) {
    std::string refusal = run.act(action);
    if (!refusal.empty()) refusals.push_back(std::move(refusal));
    if (pacing_.paused()) pacing_.pause(false);
  }
  return refusals;
}

void PacedRun::begin_afresh() {
  log_.clear();
  pacing_.pause(false);
}

}  // namespace stirbench::desk::work
