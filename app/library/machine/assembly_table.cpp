#include "app/library/tables.h"

// The rules of taking apart: the key "assembly" of a machine file.
namespace stirbench::library {

namespace {

using namespace plant;

Shape<PartId> part_shape() {
  std::vector<std::pair<std::string, PartId>> words;
  for (std::size_t i = 0; i < part_count; ++i)
    words.emplace_back(std::string(part_key(static_cast<PartId>(i))), static_cast<PartId>(i));
  return choice<PartId>(words);
}

Shape<PartSet> set_shape() {
  const Shape<std::vector<PartId>> names = list(part_shape(), 0, part_count, true);
  Shape<PartSet> shape;
  shape.schema = names.schema;
  shape.expected = names.expected;
  shape.read = [read = names.read](Reader& reader, const Json& json, PartSet& out) {
    std::vector<PartId> found;
    read(reader, json, found);
    for (const PartId part : found) out.add(part);
  };
  return shape;
}

// A rule with the place that it is for.
struct PlacedRule {
  PartId part = PartId::count;
  PartRule rule;
};

Shape<PlacedRule> rule_shape() {
  Object<PlacedRule> t;
  const auto field = [&t](const char* key, auto member, const auto& shape, bool required, const char* doc) {
    t.field({key, doc, shape.expected, required, shape.schema,
             [member, read = shape.read](Reader& reader, const Json& json, PlacedRule& out) {
               read(reader, json, out.rule.*member);
             }});
  };
  t.need("part", &PlacedRule::part, part_shape(), "The place.");
  field("tool", &PartRule::tool,
        choice<Tool>(
            {{"hand", Tool::hand}, {"spanner", Tool::spanner}, {"pick", Tool::pick}, {"press", Tool::press}}),
        true, "What takes it off and puts it on.");
  field("grip", &PartRule::grip,
        choice<Grip>({{"pull", Grip::pull},
                      {"lift", Grip::lift},
                      {"click", Grip::click},
                      {"right_thread", Grip::right_thread},
                      {"left_thread", Grip::left_thread},
                      {"press_fit", Grip::press_fit}}),
        true, "How the hand moves.");
  field("behind", &PartRule::behind, set_shape(), false, "These stand in its way, off and on.");
  field("on", &PartRule::on, set_shape(), false, "These carry it: it cannot go on without them.");
  field("in_vat", &PartRule::in_vat, flag(), false, "Reached through the open lid, with the shaft at rest.");
  return t.shape();
}

// Parts that block each other in a ring could never come off.
bool all_come_off(const AssemblySpec& spec) {
  PartSet left;
  for (std::size_t i = 0; i < part_count; ++i)
    if (spec.rules[i].known) left.add(static_cast<PartId>(i));
  for (std::size_t round = 0; round < part_count && left.bits != 0; ++round)
    for (std::size_t i = 0; i < part_count; ++i)
      if (left.has(static_cast<PartId>(i)) && (spec.rules[i].behind.bits & left.bits) == 0)
        left.bits &= ~(1U << i);
  return left.bits == 0;
}

void judge(Reader& reader, const AssemblySpec& spec) {
  for (std::size_t i = 0; i < part_count; ++i)
    if (!spec.rules[i].known)
      reader.problem("a rule for each part",
                     "none for " + in_quotes(std::string(part_key(static_cast<PartId>(i)))), "/parts");
  if (!all_come_off(spec))
    reader.problem("rules by which every part can come off", "parts that block each other", "/parts");
}

Object<AssemblySpec> make_assembly_table() {
  using S = AssemblySpec;
  Object<S> t;
  const Shape<std::vector<PlacedRule>> rules = list(rule_shape(), 1, part_count);
  t.field({"parts", "What comes off and goes on, and in which order.", rules.expected, true, rules.schema,
           [read = rules.read](Reader& reader, const Json& json, S& out) {
             std::vector<PlacedRule> found;
             read(reader, json, found);
             for (std::size_t i = 0; i < found.size(); ++i) {
               if (found[i].part == PartId::count) continue;
               PartRule& rule = out.rules[static_cast<std::size_t>(found[i].part)];
               if (rule.known)
                 reader.problem("each part once", in_quotes(std::string(part_key(found[i].part))) + " again",
                                "/" + std::to_string(i) + "/part");
               rule = found[i].rule;
               rule.known = true;
             }
           }})
      .need("plunger_gap_m", &S::plunger_gap_m, number(1e-5, 0.005, "m"),
            "Radial gap between plunger and bore.")
      .need("seal_length_m", &S::seal_length_m, number(0.0005, 0.1, "m"),
            "Length of that gap that an O-ring closes.")
      .need("drift_opening_norm", &S::drift_opening_norm, number(0.0, 1.0, ""),
            "Where the plunger comes to rest without its spring.")
      .need("shaft_leak_kg_per_h", &S::shaft_leak_kg_per_h, number(0.0, 10.0, "kg/h"),
            "Product that runs into a sleeve without cap.")
      .need("stuck_kg", &S::stuck_kg, number(0.001, 10.0, "kg"),
            "Product in the shaft at which the shaft end is as badly off as it gets.")
      .check(judge);
  return t;
}

}  // namespace

const Object<plant::AssemblySpec>& assembly_table() {
  static const Object<plant::AssemblySpec> table = make_assembly_table();
  return table;
}

}  // namespace stirbench::library
