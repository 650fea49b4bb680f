#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim_core/hands/action.h"
#include "sim_core/training/condition.h"

// What leads to what: the means from which the advice (advice.h) makes a plan in any state. Needs, reaches
// and what undoes a goal are conditions on states alone: no event, which is over before one could act on it.
namespace stirbench::training {

// How much a pouring hand is told to pour; its `kg` is what there shall be in the end.
enum class Amount : unsigned char {
  given,          // its kg as it stands
  rest_of_vat,    // kg less what vat and well hold
  rest_of_poured  // kg less what was poured of that ingredient since the start
};

// A hand, or a wait when there is none, and what has to hold before it.
struct Means {
  std::optional<hands::Action> hand;
  Amount amount = Amount::given;
  bool in_vain = false;          // a key that is meant to be refused: what keys need elsewhere does not count
  std::vector<Condition> needs;  // in the order in which they are put right
};

// A means that is known beside the lesson's goals: what it brings about, and its words.
struct Way {
  std::string id;
  Condition reaches;
  std::string now;
  std::string why;
  std::string hint;
  std::string point_at;
  Means means;
};

// What a hand needs wherever it is advised. Parameters that are not given stand for any value.
struct HandNeeds {
  hands::Action hand;
  std::vector<Condition> needs;
};

struct Ways {
  std::vector<Way> ways;
  std::vector<HandNeeds> hands;
};

// Whether what a way reaches brings a need about: the same reading and the same direction, with a bound at
// least as strict; for the rest the same condition.
bool serves(const Condition& reaches, const Condition& need);
// Whether an action is one of those that a HandNeeds speaks of.
bool is_one_of(const hands::Action& action, const hands::Action& pattern);

}  // namespace stirbench::training
