#include "app/library/tables.h"

// Cleaning chemicals: content/chemicals/ID.json.
namespace stirbench::library {

namespace {

using machine::Chemical;
using machine::ChemicalKind;

Shape<plant::SanitiserLine> line_shape() {
  using S = plant::SanitiserLine;
  Object<S> t;
  t.need("from_mg_per_L", &S::from_mg_per_L, number(1.0, 1000.0, "mg/L"),
         "From this much available chlorine on.")
      .need("least_degC", &S::least_degC, number(0.0, 100.0, "degC"), "The solution is at least so warm.")
      .need("contact_s", &S::contact_s, number(1.0, 3600.0, "s"), "And stays on the surface for so long.");
  return t.shape();
}

// A stronger solution may be colder.
void judge_lines(Reader& reader, const Chemical& one) {
  if (!one.lines.empty() && one.kind != ChemicalKind::chlorine)
    reader.problem("no lines for other than chlorine", "some", "/lines");
  for (std::size_t i = 1; i < one.lines.size(); ++i) {
    const bool falls = one.lines[i].from_mg_per_L > one.lines[i - 1].from_mg_per_L &&
                       one.lines[i].least_degC < one.lines[i - 1].least_degC;
    if (!falls)
      reader.problem("stronger and colder than the line before", "not so", "/lines/" + std::to_string(i));
  }
}

void judge(Reader& reader, const Chemical& one) {
  judge_lines(reader, one);
  if (one.use_high_norm < one.use_low_norm)
    reader.problem("at least use_low_norm (" + number_text(one.use_low_norm) + ")",
                   number_text(one.use_high_norm), "/use_high_norm");
  if (one.use_high_norm > one.active_norm)
    reader.problem("at most the concentrate's own (" + number_text(one.active_norm) + ")",
                   number_text(one.use_high_norm), "/use_high_norm");
  if (one.corrosive_norm < one.irritant_norm)
    reader.problem("at least irritant_norm (" + number_text(one.irritant_norm) + ")",
                   number_text(one.corrosive_norm), "/corrosive_norm");
  const bool reacts = one.kind != ChemicalKind::alkaline;
  if (reacts != (one.reactive_mol_per_kg > 0.0))
    reader.problem(reacts ? "more than 0 for acid and chlorine" : "0 for an alkaline one",
                   number_text(one.reactive_mol_per_kg), "/reactive_mol_per_kg");
}

Object<Chemical> make_table() {
  using S = Chemical;
  const std::vector<std::pair<std::string, ChemicalKind>> kinds = {{"alkaline", ChemicalKind::alkaline},
                                                                   {"acid", ChemicalKind::acid},
                                                                   {"chlorine", ChemicalKind::chlorine}};
  Object<S> t;
  t.format(1)
      .need("id", &S::id, word(), "The file's name without .json.")
      .need("title", &S::title, text(1, 60), "Name shown to people.")
      .need("source", &S::source, text(3, 600),
            "Where the numbers come from: document and table, or that they are from memory.")
      .need("kind", &S::kind, choice<ChemicalKind>(kinds), "What it is; acid and chlorine must never meet.")
      .need("active_norm", &S::active_norm, number(0.0001, 1.0, ""),
            "Mass share of the active substance in the concentrate.")
      .need("use_low_norm", &S::use_low_norm, number(0.0, 1.0, ""),
            "Least active substance in the solution that the label asks for.")
      .need("use_high_norm", &S::use_high_norm, number(0.0, 1.0, ""), "Most of it.")
      .need("irritant_norm", &S::irritant_norm, number(0.0001, 1.0, ""),
            "From here on it irritates skin and eyes.")
      .need("corrosive_norm", &S::corrosive_norm, number(0.0001, 1.0, ""), "From here on it burns them.")
      .need("reactive_mol_per_kg", &S::reactive_mol_per_kg, number(0.0, 60.0, "mol/kg"),
            "Acid: protons that react; chlorine: available chlorine as Cl2; in a kg of active substance.")
      .may("lines", &S::lines, list(line_shape(), 1, 8),
           "Chlorine: the table by which it counts as sanitised, weakest and warmest first.")
      .check(judge);
  return t;
}

}  // namespace

const Object<machine::Chemical>& chemical_table() {
  static const Object<machine::Chemical> table = make_table();
  return table;
}

}  // namespace stirbench::library
