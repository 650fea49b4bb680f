#include "app/library/tables.h"
#include "sim_core/hands/hand.h"

// The schema of an actions file's line, from the hands' rows.
namespace stirbench::library {

namespace {

Json parameter_schema(const hands::Parameter& parameter) {
  Json out = Json::object();
  switch (parameter.type) {
    case hands::Type::number:
      out["type"] = "number";
      out["minimum"] = parameter.low;
      out["maximum"] = parameter.high;
      if (parameter.otherwise) out["default"] = *parameter.otherwise;
      break;
    case hands::Type::text:
      out["type"] = "string";
      if (parameter.words != nullptr) {
        for (const std::string_view word : parameter.words()) out["enum"].push_back(std::string(word));
      }
      break;
    case hands::Type::flag: out["type"] = "boolean"; break;
  }
  std::string meaning(parameter.meaning);
  if (!parameter.unit.empty() && parameter.unit != "-") meaning += " [" + std::string(parameter.unit) + "]";
  out["description"] = meaning;
  return out;
}

Json seconds(const char* meaning) {
  return {{"type", "number"}, {"minimum", 0.0}, {"maximum", longest_action_s}, {"description", meaning}};
}

Json hand_schema(const hands::Hand& hand) {
  Json out{{"description", std::string(hand.meaning)}, {"additionalProperties", false}};
  Json& properties = out["properties"];
  properties["at_s"] = seconds("Simulated seconds from the start.");
  properties["at_phase"] = {{"type", "string"},
                            {"description", "Waits until this phase of the recipe begins."}};
  properties["after_s"] = seconds("Seconds after that phase began.");
  properties["do"] = {{"const", std::string(hand.name)}};
  out["required"] = Json::array({"do"});
  for (const hands::Parameter* parameter : hand.takes()) {
    properties[std::string(parameter->name)] = parameter_schema(*parameter);
    if (parameter->required) out["required"].push_back(std::string(parameter->name));
  }
  return out;
}

}  // namespace

// A name that is known, and then what the row of that name asks for.
Json action_line_schema() {
  Json out{{"type", "object"}, {"required", Json::array({"do"})}};
  Json& names = out["properties"]["do"]["enum"];
  for (const hands::Hand* hand : hands::all()) {
    names.push_back(std::string(hand->name));
    Json of_this_name;
    of_this_name["properties"]["do"]["const"] = std::string(hand->name);
    out["allOf"].push_back({{"if", of_this_name}, {"then", hand_schema(*hand)}});
  }
  return out;
}

}  // namespace stirbench::library
