#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "app/desk/work/desk.h"
#include "app/records/certifying.h"

// What the certify screen shows: everybody against one demand, and the cell that is looked at.
namespace stirbench::desk::work {

struct CertifyModel {
  std::map<std::string, training::Demand> demands;
  std::string demand_id;
  std::string problem;                        // demands that could not be read, or trouble with the records
  std::vector<records::Standing> rows;        // only those that may be seen
  bool everybody = false;                     // who is here may see everybody
  records::Access who;                        // who is here
  std::map<std::int64_t, std::string> names;  // of everybody
  std::int64_t now_s = 0;
  int show = 0;                 // 0 everybody, 1 may work today, 2 due or lapsed, 3 stuck
  std::string find;             // part of a name
  std::array<int, 4> counts{};  // of each of `show`
  std::int64_t person = 0;      // selected cell
  std::string skill;
  std::vector<records::Attempt> evidence;  // of the cell, newest first
  std::vector<records::Observation> seen;  // of the person, this demand

  const training::Demand* demand() const;
  const records::Standing* row() const;  // selected
  const records::SkillStanding* cell() const;

  // Whether a row belongs to what is shown.
  bool belongs(const records::Standing& row, int kind) const;

  // Reads it all anew; keeps the selection when it is still there.
  void refresh(Desk& desk);
  void select(Desk& desk, std::int64_t person, const std::string& skill);
};

// Certify screen's words for a state; never colour alone.
std::string cell_words(records::StandingState state);
std::string day_words(std::int64_t seconds);  // "14 Mar 2026"

}  // namespace stirbench::desk::work
