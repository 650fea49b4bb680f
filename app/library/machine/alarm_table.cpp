#include "app/library/tables.h"

// What an alarm says, and what a machine's content may change about one.
namespace stirbench::library {

namespace {

using control::AlarmDuty;
using control::AlarmId;
using control::AlarmRule;

std::vector<std::string> alarm_names() {
  std::vector<std::string> names;
  for (std::size_t i = 0; i < control::alarm_count; ++i)
    names.emplace_back(control::alarm_key(static_cast<AlarmId>(i)));
  return names;
}

}  // namespace

const Object<AlarmFile>& alarm_table() {
  static const Object<AlarmFile> table = [] {
    Object<AlarmText> one;
    one.need("cause", &AlarmText::cause, text(20, 400), "What is wrong.")
        .need("consequence", &AlarmText::consequence, text(20, 400), "What it did and what it protects.")
        .need("action", &AlarmText::action, text(20, 400), "What to do.");
    const Shape<AlarmText> words = one.shape();
    Json properties = Json::object();
    for (const std::string& name : alarm_names()) properties[name] = words.schema;
    const Json schema{{"type", "object"},
                      {"properties", properties},
                      {"required", alarm_names()},
                      {"additionalProperties", false}};
    Object<AlarmFile> t;
    t.format(1).field(
        {"alarms", "Key of the alarm -> its three texts; all of them.", "an object", true, schema,
         [words](Reader& reader, const Json& json, AlarmFile& out) {
           if (!json.is_object()) return reader.problem("an object", found_text(json));
           for (const auto& [key, value] : json.items()) {
             reader.below(pointer_step(key), [&reader, &words, &out, &name = key, &text_of = value] {
               if (control::find_alarm(name) < 0)
                 return reader.problem(expect_name("a known alarm", name, alarm_names()), in_quotes(name));
               words.read(reader, text_of, out.alarms[name]);
             });
           }
           for (const std::string& name : alarm_names()) {
             if (!json.contains(name)) reader.problem("texts of every alarm", "none", pointer_step(name));
           }
         }});
    return t;
  }();
  return table;
}

Shape<control::AlarmRules> alarm_rules() {
  Object<AlarmRule> one;
  one.may("shelve_longest_s", &AlarmRule::shelve_longest_s, number(0.0, 28800.0, "s"),
          "How long it may be shelved; 0: not at all.")
      .may("duty", &AlarmRule::duty,
           choice<AlarmDuty>({{"in_service", AlarmDuty::in_service},
                              {"suppressed", AlarmDuty::suppressed},
                              {"out_of_service", AlarmDuty::out_of_service}}),
           "Whether it is told at all.");
  const Shape<AlarmRule> rule = one.shape();
  Json properties = Json::object();
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const auto id = static_cast<AlarmId>(i);
    if (!control::alarm_latches(id) && !control::alarm_is_prompt(id))
      properties[std::string(control::alarm_key(id))] = rule.schema;
  }
  return {[rule](Reader& reader, const Json& json, control::AlarmRules& out) {
            if (!json.is_object()) return reader.problem("an object", found_text(json));
            for (const auto& [key, value] : json.items()) {
              reader.below(pointer_step(key), [&reader, &rule, &out, &name = key, &given = value] {
                const int index = control::find_alarm(name);
                if (index < 0)
                  return reader.problem(expect_name("a known alarm", name, alarm_names()), in_quotes(name));
                const auto id = static_cast<AlarmId>(index);
                // What protects people or the machine cannot be shelved, and a prompt is not an alarm.
                if (control::alarm_latches(id) || control::alarm_is_prompt(id))
                  return reader.problem("an alarm that protects nobody", in_quotes(name));
                rule.read(reader, given, out[static_cast<std::size_t>(index)]);
              });
            }
          },
          Json{{"type", "object"}, {"properties", properties}, {"additionalProperties", false}}, "an object"};
}

}  // namespace stirbench::library
