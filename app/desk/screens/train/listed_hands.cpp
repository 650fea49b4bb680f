#include "app/desk/screens/train/listed_hands.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

const char* prefix_of(hands::Group group) {
  switch (group) {
    case hands::Group::machine: return "hand.";
    case hands::Group::safety: return "hand.lockout.";
    case hands::Group::cleaning: return "hand.clean.";
    case hands::Group::parts: return "hand.parts.";
    case hands::Group::faults: return "hand.fault.";
    case hands::Group::instructor: break;
  }
  return "instructor.";
}

// "valve_nut" as people read it.
std::string plain(std::string word) {
  std::replace(word.begin(), word.end(), '_', ' ');
  return word;
}

void draw_choices(HandGrid& grid, const hands::Hand& hand, const hands::Parameter& parameter,
                  const std::string& id, const std::string& title) {
  const auto offer = [&](const std::string& choice, const std::string& label, hands::Action::Value value) {
    hands::Action action(hand);
    action.set(parameter, std::move(value));
    grid.act(id + "." + choice, tr("{hand}: {choice}", {{"hand", title}, {"choice", label}}), action);
  };
  if (parameter.type == hands::Type::flag) {
    offer("on", tr("on"), true);
    offer("off", tr("off"), false);
  }
  for (const std::string& word : names_of(grid.run.machine(), parameter)) offer(word, tr(plain(word)), word);
}

}  // namespace

void draw_listed(HandGrid& grid, hands::Group group) {
  for (const hands::Hand* hand : hands::all()) {
    if (!hand->listed || hand->group != group) continue;
    const std::string id = prefix_of(group) + std::string(hand->name);
    const std::string title = tr(std::string(hand->title));
    if (hand->takes().empty())
      grid.act(id, title, hands::Action(*hand));
    else
      draw_choices(grid, *hand, *hand->takes().front(), id, title);
  }
}

}  // namespace stirbench::desk::screens
