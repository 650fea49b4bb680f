#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/library/library.h"
#include "app/library/reading/shape.h"
#include "sim_core/faults/fault.h"
#include "sim_core/product/cooling_watch.h"
#include "sim_core/product/rules.h"

// The field tables of the content files. Each is built once; each gives reader and schema (shape.h).
namespace stirbench::library {

struct OwnMachine;

// A machine file holds the physical machine and its controller's constants.
struct MachineFile {
  std::string note;  // where the numbers come from; for people
  plant::MachineSpec plant;
  control::ControlSpec control;
};

// A circuit as its file holds it.
struct CircuitFile {
  std::string id;
  std::string note;
  std::vector<electrics::CircuitPart> parts;
  std::vector<electrics::Wire> wires;
};

// Files of content/rules.
struct HeatRuleFile {
  std::string note;
  std::vector<product::HeatRule> rows;
};
struct CoolingFile {
  std::string note;
  std::vector<product::CoolingRule> cooling;
  std::vector<product::StorageRule> storage;
  std::vector<product::AgeingRule> ageing;
};
struct OrganismFile {
  std::string note;
  std::vector<product::Inactivation> inactivation;
  std::vector<product::Growth> growth;
};

struct ConductFile {
  std::vector<Conduct> conduct;
  std::vector<CarefulHabit> careful;
};

struct SkillFile {
  std::vector<training::Skill> skills;
};

struct CautionFile {
  std::map<std::string, Caution> cautions;
};

struct AlarmFile {
  std::map<std::string, AlarmText> alarms;
};

struct SafetyFaultFile {
  std::vector<SafetyFaultRow> faults;
};

const Object<MachineFile>& machine_table();
const Object<OwnMachine>& own_machine_table();  // machine/own_machine.h
const Object<CircuitFile>& circuit_table();
const Object<DiagramFile>& diagram_table();
const Object<faults::Fault>& fault_table();
// The words of faults, fault guides and lessons for who may do something and what the machine has to be like
// for it.
Shape<faults::Who> who_shape();
Shape<faults::AccessState> access_state_shape();
const Object<product::Ingredient>& ingredient_table();
const Object<machine::Chemical>& chemical_table();
const Object<control::Recipe>& recipe_table();
const Object<training::Lesson>& lesson_table();
const Object<training::Ways>& ways_table();
const Object<ConductFile>& conduct_table();
Shape<std::string> verdict_text();  // with the placeholders of training/words.h
const Object<CautionFile>& caution_table();
const Object<SkillFile>& skill_table();
const Object<training::Demand>& demand_table();
const Object<AlarmFile>& alarm_table();
const Object<SafetyFaultFile>& safety_fault_table();
Shape<control::AlarmRules> alarm_rules();
const Object<HeatRuleFile>& heat_rule_table();
const Object<CoolingFile>& cooling_table();
const Object<OrganismFile>& organism_table();
const Object<MachineBody>& body_table();
const Object<plant::AssemblySpec>& assembly_table();
const Object<control::ControlSpec>& control_table();
// A machine's parts by their key, for the documentation and for the test that no member is forgotten: key ->
// number of fields.
std::map<std::string, std::size_t> machine_parts();

// Conditions of lessons (sim_core/training/condition.h).
Shape<training::Condition> condition_shape();
Json condition_definition();
// The same without events.
Shape<training::Condition> state_condition();
// A hand as an actions file's line gives it, without time; not whole: parameters may be left out.
Shape<hands::Action> hand_shape(bool whole_hand);
Shape<training::Amount> amount_shape();
Shape<training::Way> way_shape();
Shape<training::LessonStep> step_shape();
Shape<training::Loss> loss_shape();
inline constexpr double longest_lesson_s = 172800.0;
// A name in the action that this machine or its content does not know; empty when all are known.
std::string unknown_name_in(const machine::Machine& machine, const hands::Action& action);

// One line of an actions file.
Json action_line_schema();
inline constexpr double longest_action_s = 31.0 * 86400.0;  // at_s and after_s, at most

// The words of enumerations, in the order of the enumerators.
const std::vector<std::pair<std::string, control::PhaseKind>>& phase_words();
const std::vector<std::pair<std::string, product::Form>>& form_words();
const std::vector<std::pair<std::string, training::MonitorKind>>& monitor_words();
std::string phase_word(control::PhaseKind kind);

}  // namespace stirbench::library
