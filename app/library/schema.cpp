#include "app/library/schema.h"

#include "app/library/guide/guide_tables.h"
#include "app/library/machine/own_machine.h"
#include "app/library/reading/paths.h"
#include "app/library/tables.h"

namespace stirbench::library {

namespace {

std::string document(const std::string& title, const Json& body) {
  Json out{{"$schema", "http://json-schema.org/draft-07/schema#"}, {"title", title}};
  for (const auto& item : body.items()) out[item.key()] = item.value();
  return pretty(out);
}

}  // namespace

std::map<std::string, std::string> schema_files() {
  Json lesson = lesson_table().schema();
  lesson["definitions"] = Json{{"condition", condition_definition()}};
  Json ways = ways_table().schema();
  ways["definitions"] = lesson["definitions"];
  Json conduct = conduct_table().schema();
  conduct["definitions"] = lesson["definitions"];
  return {{"machine.schema.json", document("A machine: content/machines/ID.json", machine_table().schema())},
          {"own_machine.schema.json",
           document("A machine of the site's own: OWN_DIR/machines/ID.json", own_machine_table().schema())},
          {"body.schema.json",
           document("What a machine looks like: content/bodies/ID.json", body_table().schema())},
          {"circuit.schema.json",
           document("A machine's circuit: content/circuits/ID.json", circuit_table().schema())},
          {"diagram.schema.json",
           document("How a circuit is drawn: content/diagrams/ID.json", diagram_table().schema())},
          {"fault.schema.json", document("A fault: content/faults/ID.json", fault_table().schema())},
          {"ingredient.schema.json",
           document("An ingredient: content/ingredients/ID.json", ingredient_table().schema())},
          {"chemical.schema.json",
           document("A cleaning chemical: content/chemicals/ID.json", chemical_table().schema())},
          {"recipe.schema.json", document("A recipe: content/recipes/ID.json", recipe_table().schema())},
          {"lesson.schema.json", document("A lesson: content/lessons/ID/lesson.json", lesson)},
          {"ways.schema.json", document("Means that all lessons' advice may use: content/ways/*.json", ways)},
          {"conduct.schema.json", document("What no lesson lets pass: content/conduct/*.json", conduct)},
          {"heat_treatment.schema.json",
           document("Heat-treatment rows: content/rules/heat_treatment*.json", heat_rule_table().schema())},
          {"cooling.schema.json",
           document("Cooling, storage, ageing: content/rules/cooling*.json", cooling_table().schema())},
          {"organisms.schema.json",
           document("Organisms: content/rules/organisms*.json", organism_table().schema())},
          {"skills.schema.json", document("Skills: content/skills/*.json", skill_table().schema())},
          {"assessment.schema.json",
           document("What a certificate asks for: content/assessments/ID.json", demand_table().schema())},
          {"safety_faults.schema.json",
           document("Safety parts that fail, written by explore --table: content/guides/safety-faults.json",
                    safety_fault_table().schema())},
          {"alarms.schema.json", document("Alarm texts: content/text/alarms.json", alarm_table().schema())},
          {"guide.schema.json",
           document("A fault guide: content/fault_guides/MACHINE.json", guide_table().schema())},
          {"evidence.schema.json",
           document("Simulated answers: content/evidence/MACHINE.json", evidence_table().schema())},
          {"action.schema.json", document("One line of an actions file (JSON Lines)", action_line_schema())},
          {"cautions.schema.json",
           document("Caution texts: content/text/cautions.json", caution_table().schema())}};
}

std::string write_schemas(const std::string& dir) {
  for (const auto& [name, text] : schema_files()) {
    std::string failed = write_atomically(dir + "/" + name, text);
    if (!failed.empty()) return failed;
  }
  return "";
}

}  // namespace stirbench::library
