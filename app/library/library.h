#pragma once

#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "app/library/body.h"
#include "app/library/diagram_sheets.h"
#include "app/library/reading/problem.h"
#include "sim_core/electrics/diagram.h"
#include "sim_core/machine/machine.h"
#include "sim_core/training/demand.h"
#include "sim_core/training/lesson.h"
#include "sim_core/training/skills.h"

// content/ and the user's own recipes -> sim_core's structs. Strict: unknown, missing, mistyped and
// out-of-range entries are errors that name file, key path, expected and found. Loading returns a new
// library, so that a failed load leaves the previous one intact.
namespace stirbench::library {

// Hazard, consequence, what to do; and its safety sign (ISO 7010 number).
struct Caution {
  std::string sign;
  std::string text;
};

// An alarm's response text.
struct AlarmText {
  std::string cause;
  std::string consequence;
  std::string action;
};

// One row of the table that `stirbench explore --table` writes: a failed safety part, and what no longer
// holds.
struct SafetyFaultRow {
  std::string fault;
  std::string title;
  std::string wiring;
  bool defeat = false;            // done on purpose
  std::vector<std::string> fall;  // ids of invariants (sim_core/explore/invariants.h)
};

// What no lesson lets pass (content/conduct), as a criterion without points; and where it is the lesson's
// very subject, so that it is not asked there.
struct Conduct {
  struct Exception {
    std::string lesson;
    std::string why;
  };
  training::Criterion criterion;
  std::vector<Exception> except;
  std::vector<hands::Action> tried_by;  // hands that do it, two seconds apart, for prove_conduct.h
};

// What an over-careful person does in the middle of work; no lesson may be failed by it.
struct CarefulHabit {
  std::string id;
  std::string title;
  std::vector<hands::Action> hands;
  std::vector<Conduct::Exception> except;
};

struct Names;

// A lesson's files as written, its draws not put in.
struct VariedLesson {
  std::string json;
  std::string page;
};

struct Library {
  std::map<std::string, product::Ingredient> ingredients;
  std::map<std::string, machine::Chemical> chemicals;  // for the wash bucket
  std::map<std::string, control::Recipe> recipes;      // shipped and own
  std::map<std::string, std::string> recipe_files;     // id -> file; own ones are under the user's folder
  std::map<std::string, plant::MachineSpec> machines;
  std::map<std::string, control::ControlSpec> controls;  // by machine id
  std::map<std::string, MachineBody> bodies;  // by machine id; what it looks like, not part of any hash
  std::map<std::string, electrics::Diagram>
      circuits;  // by machine id; the machines' specs hold them ready to solve
  std::map<std::string, std::vector<DiagramSheet>>
      diagrams;  // by machine id: how its circuit is drawn, not part of any hash
  std::map<std::string, faults::Fault> faults;  // what can be wrong with a machine
  // By machine id: its fault guide with the evidence, as lessons judge the naming of a cause by it.
  std::map<std::string, std::shared_ptr<const training::GroundsGuide>> grounds;
  product::Rules rules;                                // shipped and the house's own
  training::Skills skills;                             // what lessons train and certificates ask for
  std::map<std::string, training::Lesson> lessons;     // with their usual values
  std::map<std::string, VariedLesson> varied_lessons;  // those that draw something
  std::shared_ptr<const Names> names;                  // what content may refer to
  std::shared_ptr<const training::Ways> ways;          // means that the advice of all lessons may use
  std::vector<Conduct> conduct;                        // what every lesson asks beside its own
  std::vector<CarefulHabit> careful;
  std::map<std::string, training::Demand> demands;  // what certificates ask for, as shipped
  std::map<std::string, Caution> cautions;
  std::vector<SafetyFaultRow> safety_faults;  // the table for people (content/guides/safety-faults.json)
  std::map<std::string, AlarmText> alarms;    // by the alarm's key, every one
  std::set<std::string> own_recipes;          // ids of the user's own
  std::map<std::string, std::string> own_machines;  // the site's own -> the shipped machine it is made of
  // 64-bit FNV-1a over relative path and bytes of the shipped files: of everything, and by machine id of what
  // that machine's model depends on (its file, the ingredients, the shipped recipes and rules). Own recipes
  // and rules are left out, so that saving one does not invalidate every earlier journal; a journal that used
  // an own recipe which has changed since fails at its first differing state hash.
  std::string content_hash;
  std::map<std::string, std::string> machine_hashes;

  // Const model of one machine with all recipes and ingredients; shipped recipes first, then own ones, each
  // sorted by id, so that a new recipe does not renumber the shipped ones. Throws std::out_of_range naming an
  // unknown id.
  machine::Machine machine(const std::string& id) const;
  // The lesson as a run of this seed meets it: what it draws (lessons/variations.h) put in, start.seed set.
  // Nothing when there is no such lesson.
  std::optional<training::Lesson> lesson(const std::string& id, std::uint64_t seed) const;
  // Its circuit, ready to be solved. Throws std::out_of_range naming the id when unknown.
  const electrics::Network& network(const std::string& id) const;
};

struct LoadResult {
  Library library;
  std::vector<Problem> problems;  // empty = good
};

// Loads everything under `content_dir` and, unless `own_dir` is empty, own recipes and rules under
// `own_dir`/recipes and `own_dir`/rules.
LoadResult load(const std::string& content_dir, const std::string& own_dir);

// What a certificate requires, as text: from content/assessments, or as changed by a manager and kept in the
// records. Strict, located.
struct DemandResult {
  training::Demand demand;
  std::vector<Problem> problems;
};
DemandResult parse_demand(const std::string& text, const std::string& file, const Library& library);
std::string demand_text(const training::Demand& demand);

// Skills that no lesson trains although they are not marked "not_yet_trained": gaps in the course. Part of
// `stirbench check`.
std::vector<Problem> untrained_skills(const Library& library);

// JSON Lines actions file (design section 5): strict, located by line. Checks ingredient/recipe names against
// `machine`.
struct ActionsResult {
  std::vector<hands::TimedAction> actions;
  std::vector<Problem> problems;
};
ActionsResult read_actions(const std::string& file, const machine::Machine& machine);
ActionsResult parse_actions(const std::string& text, const std::string& file,
                            const machine::Machine& machine);
// One line of an actions file, without its newline; reading it gives the same entry.
std::string write_action(const hands::TimedAction& entry);

}  // namespace stirbench::library
