#include "app/desk/screens/fault/fault_tree.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using diagnosis::Model;

constexpr float least_box_w = 236.0F;  // em units
constexpr float head_h = 136.0F;
constexpr float box_h = 86.0F;
constexpr float gap_w = 34.0F;
constexpr float gap_h = 12.0F;
constexpr float inside = 8.0F;

std::string percent(double p) { return kit::plain_number(100.0 * p, p < 0.1 ? 1 : 0) + " %"; }

std::string words_of(const Model& model, const diagnosis::TreeNode& node) {
  if (node.question != Model::npos) return tr(model.check(node.question).title);
  if (node.unusual) return tr("Does not fit: go by the guide's next check");
  if (node.repairs.empty() || !node.repairs.front().before_call) return tr("Call service");
  return tr("Repair: {cause} ({p})", {{"cause", tr(model.causes[node.repairs.front().cause].title)},
                                      {"p", percent(node.repairs.front().p)}});
}

}  // namespace

void FaultTree::follow(const work::FaultSearch& search) {
  std::vector<std::size_t> symptoms;
  std::vector<diagnosis::Finding> seen;
  for (const auto& finding : search.findings()) {
    if (!search.model().is_symptom(finding.question)) continue;
    symptoms.push_back(finding.question);
    seen.push_back(finding);
  }
  std::vector<double> rates;
  for (const auto& cause : search.model().causes) rates.push_back(cause.per_year);
  if (!tree_ || symptoms != symptoms_ || rates != rates_ || search.who() != who_) {
    symptoms_ = symptoms;
    rates_ = rates;
    who_ = search.who();
    tree_ = diagnosis::compile_tree(search.model(), seen, {who_, diagnosis::AccessState::standing, {}});
    layout_ = lay_out(*tree_);
    here_ = Model::npos;
  }
  const std::size_t now = diagnosis::locate_in_tree(*tree_, search.findings()).node;
  if (now == here_) return;
  here_ = now;
  go_there_ = true;
  on_way_.assign(tree_->nodes.size(), false);
  for (const std::size_t node : way_to(layout_, here_)) on_way_[node] = true;
  first_column_ = std::max(0, static_cast<int>(layout_.places[here_].column) - 1);
}

void FaultTree::draw_head(kit::Ui& ui, const work::FaultSearch& search) {
  std::string seen;
  for (const std::size_t s : symptoms_)
    seen += (seen.empty() ? "" : ", ") + tr(search.model().symptoms[s].title);
  text(ui, seen, {.type = kit::Type::title, .id = "fault.tree.title"});
  text(ui,
       tr("{n} min on average to a working machine, parts counted by their price; no tree is under {least} "
          "min. Thick line: the way so far.",
          {{"n", kit::plain_number(tree_->expected_min, 0)},
           {"least", kit::plain_number(tree_->at_least_min, 0)}}),
       {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "fault.tree.minutes"});
  gap(ui, 8.0F);
  const std::string edge = tr("This is the tree's end.");
  if (button(ui, "fault.tree.back", tr("Earlier checks"), {.enabled = first_column_ > 0, .reason = edge}))
    --first_column_;
  same_line(ui);
  if (button(ui, "fault.tree.on", tr("Later checks"),
             {.enabled = first_column_ + 1 < layout_.columns, .reason = edge}))
    ++first_column_;
}

void FaultTree::draw_box(kit::Ui& ui, const work::FaultSearch& search, std::size_t node,
                         const kit::Rect& box) {
  ImDrawList* draw = kit::current_draw();
  const float corner = ui.px(kit::Measure::corner_control);
  const bool here = node == here_;
  draw->AddRectFilled(box.min(), box.max(), ui.colour(here ? kit::Token::sunk : kit::Token::panel), corner);
  draw->AddRect(box.min(), box.max(), ui.colour(on_way_[node] ? kit::Token::act : kit::Token::line), corner,
                0, ui.px(on_way_[node] ? 3.0F : 1.0F));
  const Model& model = search.model();
  const TreePlace& place = layout_.places[node];
  const float wrap = box.w - 2.0F * ui.em(inside);
  draw->PushClipRect(box.min(), box.max(), true);
  at(ui, box.x + ui.em(inside), box.y + ui.em(5.0F));
  if (place.parent != Model::npos)
    text(ui,
         tree_->nodes[node].unusual
             ? tr("Any other answer")
             : tr(model.outcome_title(tree_->nodes[place.parent].question, place.outcome)),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = wrap});
  at(ui, box.x + ui.em(inside), ImGui::GetCursorScreenPos().y);
  const std::string id = here ? "fault.tree.here" : "fault.tree.node." + std::to_string(node);
  text(ui, words_of(model, tree_->nodes[node]),
       {.type = here ? kit::Type::body_bold : kit::Type::body, .wrap = wrap, .id = id.c_str()});
  draw->PopClipRect();
}

void FaultTree::draw(kit::Ui& ui, const work::FaultSearch& search, const kit::Rect& rect) {
  follow(search);
  // The head stays where it is while the tree is scrolled.
  const float head = std::min(ui.em(head_h), 0.4F * rect.h);
  {
    kit::PanelScope panel(ui, "fault.tree.head", {rect.x, rect.y, rect.w, head});
    draw_head(ui, search);
  }
  const float under = head + ui.em(8.0F);
  kit::PanelScope panel(ui, "fault.tree", {rect.x, rect.y + under, rect.w, rect.h - under});
  const ImVec2 origin = ImGui::GetCursorScreenPos();
  // As many whole columns as there is room for.
  const float room = width_left(ui) + ui.em(gap_w);
  const float columns = std::max(1.0F, std::floor(room / ui.em(least_box_w + gap_w)));
  const float pitch_x = room / columns;
  const float box_w = pitch_x - ui.em(gap_w);
  const float pitch_y = ui.em(box_h + gap_h);
  const auto box_of = [&](std::size_t node) {
    const TreePlace& place = layout_.places[node];
    return kit::Rect{origin.x + (place.column - static_cast<float>(first_column_)) * pitch_x,
                     origin.y + place.row * pitch_y, box_w, ui.em(box_h)};
  };
  const auto in_view = [&](const kit::Rect& box) {
    return box.x >= origin.x - 1.0F && box.x + 0.5F * box.w < origin.x + room;
  };
  ImDrawList* draw = kit::current_draw();
  // Lines first, so that boxes stand on them.
  for (std::size_t i = 1; i < layout_.places.size(); ++i) {
    const kit::Rect to = box_of(i);
    if (!in_view(to)) continue;
    const kit::Rect from = box_of(layout_.places[i].parent);
    const float x0 = std::max(from.right(), origin.x - ui.em(gap_w));
    const float middle = to.x - 0.5F * ui.em(gap_w);
    const float y0 = from.y + 0.5F * from.h;
    const float y1 = to.y + 0.5F * to.h;
    const ImU32 colour = ui.colour(on_way_[i] ? kit::Token::act : kit::Token::line);
    const float wide = ui.px(on_way_[i] ? 3.0F : 1.0F);
    if (from.x >= origin.x - 1.0F) {
      draw->AddLine({x0, y0}, {middle, y0}, colour, wide);
      draw->AddLine({middle, y0}, {middle, y1}, colour, wide);
    }
    draw->AddLine({middle, y1}, {to.x, y1}, colour, wide);
  }
  for (std::size_t i = 0; i < layout_.places.size(); ++i) {
    const kit::Rect box = box_of(i);
    const bool seen_now = ImGui::IsRectVisible(box.min(), box.max());
    if (in_view(box) && (seen_now || i == here_)) draw_box(ui, search, i, box);
  }
  // The region is as high as the tree; where one is comes to its middle.
  at(ui, origin.x, origin.y + static_cast<float>(layout_.rows) * pitch_y);
  gap(ui, 4.0F);
  if (!go_there_ || here_ >= layout_.places.size()) return;
  const kit::Rect here = box_of(here_);
  ImGui::SetScrollFromPosY(here.y + 0.5F * here.h - ImGui::GetWindowPos().y, 0.5F);
  go_there_ = false;
}

}  // namespace stirbench::desk::screens
