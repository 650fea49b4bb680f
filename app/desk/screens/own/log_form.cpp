#include "app/desk/screens/own/log_form.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

LogForm::LogForm(const work::Desk& desk, std::string id) : id_(std::move(id)), machine_(desk.machine_id) {
  for (const auto& [product, one] : desk.library.ingredients) {
    if (product == "whole_milk") product_ = static_cast<int>(products_.size());
    products_.push_back(product);
  }
}

void LogForm::draw(kit::Ui& ui, const work::Desk& desk, bool machines) {
  text_field(ui, id_ + ".path", tr("The log's file"), path,
             {.hint = tr("drop it here, or its path"), .place = {.w = -1.0F}});
  gap(ui, 8.0F);
  if (machines) {
    std::vector<std::string> ids, titles;
    int chosen = 0;
    for (const auto& [one, spec] : desk.library.machines) {
      if (one == machine_) chosen = static_cast<int>(ids.size());
      ids.push_back(one);
      titles.push_back(spec.title);
    }
    if (choice(ui, id_ + ".machine", tr("Machine"), titles, chosen))
      machine_ = ids[static_cast<std::size_t>(chosen)];
    gap(ui, 8.0F);
  }
  std::vector<std::string> titles;
  for (const std::string& one : products_) titles.push_back(tr(desk.library.ingredients.at(one).title));
  choice(ui, id_ + ".product", tr("In the vat"), titles, product_);
  gap(ui, 8.0F);
  quantity_field(ui, id_ + ".mass", tr("How much"), kit::Quantity::mass, mass_kg_,
                 {.min_si = 0.5, .max_si = 1000.0, .step_shown = 1.0, .decimals = 1, .place = {.w = -1.0F}});
  radio_row(ui, id_ + ".weighed", {tr("weighed"), tr("only estimated")}, weighed_);
  gap(ui, 8.0F);
  checkbox(ui, id_ + ".room", tr("I know how warm the room was"), room_known_);
  if (room_known_)
    quantity_field(
        ui, id_ + ".room_degC", tr("Room"), kit::Quantity::temperature, room_degC_,
        {.min_si = -20.0, .max_si = 60.0, .step_shown = 1.0, .decimals = 1, .place = {.w = -1.0F}});
}

work::LogQuestion LogForm::question() const {
  work::LogQuestion out;
  out.file = path;
  out.machine = machine_;
  out.words.ingredient = products_.empty() ? "" : products_[static_cast<std::size_t>(product_)];
  (weighed_ == 0 ? out.words.mass_kg : out.words.fill_kg) = mass_kg_;
  if (room_known_) out.words.ambient_degC = room_degC_;
  return out;
}

void draw_log_problems(kit::Ui& ui, const std::string& id, const std::vector<std::string>& problems) {
  constexpr std::size_t most = 6;
  for (std::size_t i = 0; i < std::min(most, problems.size()); ++i) {
    notice(ui, id + "." + std::to_string(i), kit::Status::bad, problems[i]);
    gap(ui, 4.0F);
  }
  if (problems.size() > most)
    text(ui, tr("and {n} more", {{"n", std::to_string(problems.size() - most)}}),
         {.colour = kit::Token::ink2});
}

}  // namespace stirbench::desk::screens
