#include "app/desk/work/certify/model.h"

#include <algorithm>
#include <array>

#include "app/desk/kit/text/text.h"

namespace stirbench::desk::work {

using kit::tr;
using kit::trc;

const training::Demand* CertifyModel::demand() const {
  const auto found = demands.find(demand_id);
  return found == demands.end() ? nullptr : &found->second;
}

const records::Standing* CertifyModel::row() const {
  for (const records::Standing& one : rows) {
    if (one.person.id == person) return &one;
  }
  return nullptr;
}

const records::SkillStanding* CertifyModel::cell() const {
  const records::Standing* found = row();
  if (found == nullptr) return nullptr;
  const auto cell = found->cells.find(skill);
  return cell == found->cells.end() ? nullptr : &cell->second;
}

bool CertifyModel::belongs(const records::Standing& row, int kind) const {
  if (kind == 1) return row.may_work;
  const auto any = [&row](auto&& what) {
    return std::any_of(row.cells.begin(), row.cells.end(), [&](const auto& one) { return what(one.second); });
  };
  if (kind == 2) {
    const bool ends_soon = row.certificate && row.certified_until_s <= now_s + 86400LL * records::due_days;
    return ends_soon || any([](const records::SkillStanding& c) {
             return c.state == records::StandingState::due || c.state == records::StandingState::lapsed;
           });
  }
  if (kind == 3) return any([](const records::SkillStanding& c) { return c.stuck; });
  return true;
}

void CertifyModel::refresh(Desk& desk) {
  rows.clear();
  evidence.clear();
  seen.clear();
  problem.clear();
  if (!desk.store) return;
  try {
    now_s = desk.store->now_s();
    demands = records::demands_in_force(*desk.store, desk.library, &problem);
    if (demands.count(demand_id) == 0)
      demand_id = demands.count("start-alone") != 0 ? "start-alone"
                  : demands.empty()                 ? ""
                                                    : demands.begin()->first;
    who = who_is_here(desk);
    names.clear();
    for (const records::Person& one : desk.store->people(true)) names[one.id] = one.name;
    everybody = records::why_not(who, records::Right::see_everybody).empty();
    if (demand() == nullptr || (!everybody && who.person == 0)) return;
    rows = records::standings(*desk.store, desk.library, *demand(),
                              everybody ? std::nullopt : std::optional(who.person));
    counts = {};
    for (const records::Standing& one : rows) {
      for (std::size_t kind = 0; kind < counts.size(); ++kind)
        counts[kind] += belongs(one, static_cast<int>(kind)) ? 1 : 0;
    }
    if (row() == nullptr) person = rows.empty() ? 0 : rows.front().person.id;
    if (cell() == nullptr) skill = demand()->skills.front();
    select(desk, person, skill);
  } catch (const records::StoreError& error) {
    problem = error.text;
  }
}

void CertifyModel::select(Desk& desk, std::int64_t new_person, const std::string& new_skill) {
  person = new_person;
  skill = new_skill;
  evidence.clear();
  seen.clear();
  if (!desk.store || cell() == nullptr) return;
  try {
    evidence = records::evidence_of(*desk.store, *cell());
    for (const records::Observation& one : desk.store->observations(person)) {
      if (one.demand == demand_id) seen.push_back(one);
    }
  } catch (const records::StoreError& error) {
    problem = error.text;
  }
}

std::string cell_words(records::StandingState state) {
  switch (state) {
    case records::StandingState::valid: return tr("valid");
    case records::StandingState::due:
      return tr("due within {n} days", {{"n", std::to_string(records::due_days)}});
    case records::StandingState::lapsed: return tr("lapsed");
    case records::StandingState::not_yet: return tr("not yet");
  }
  return tr("not yet");
}

std::string day_words(std::int64_t seconds) {
  if (seconds == 0) return {};
  static constexpr std::array<const char*, 12> months = {"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                         "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
  const std::string utc = records::utc_text(seconds);
  const auto month = static_cast<std::size_t>(std::stoi(utc.substr(5, 2))) - 1;
  return std::to_string(std::stoi(utc.substr(8, 2))) + " " + trc("month", months[month]) + " " +
         utc.substr(0, 4);
}

}  // namespace stirbench::desk::work
