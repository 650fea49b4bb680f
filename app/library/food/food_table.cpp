#include <cmath>

#include "app/library/tables.h"

// Ingredient and recipe files.
namespace stirbench::library {

namespace {

using product::Component;

// Composition by component; what is left out is 0.
Shape<product::PerComponent> fraction() {
  Object<product::PerComponent> table;
  for (std::size_t i = 0; i < product::component_count; ++i) {
    const auto component = static_cast<Component>(i);
    const Shape<double> share = number(0.0, 1.0, "");
    table.field(
        {std::string(product::component_key(component)), "Mass share of this component.", share.expected,
         false, share.schema,
         [component, read = share.read](Reader& reader, const Json& json, product::PerComponent& out) {
           read(reader, json, out[component]);
         }});
  }
  table.check([](Reader& reader, const product::PerComponent& shares) {
    constexpr double tolerance = 1e-6;
    if (std::fabs(shares.sum() - 1.0) > tolerance)
      reader.problem("shares that sum to 1 (within 0.000001)",
                     "a sum of " + number_text(std::round(shares.sum() * 1e9) / 1e9));
  });
  return table.shape();
}

void judge_ingredient(Reader& reader, const product::Ingredient& one) {
  const double solids = 1.0 - one.fraction[Component::water];
  if (one.yolk_solids_norm > solids + 1e-9)
    reader.problem("at most the solids (" + number_text(solids) + ")", number_text(one.yolk_solids_norm),
                   "/yolk_solids_norm");
  if (one.hydration_degC > 0.0 && !(one.fraction[Component::stabiliser] > 0.0))
    reader.problem("0 for an ingredient without stabiliser", number_text(one.hydration_degC),
                   "/hydration_degC");
  if (one.gum != product::GumKind::blend && !(one.fraction[Component::stabiliser] > 0.0))
    reader.problem("no kind of gum for an ingredient without stabiliser",
                   std::string(product::gum_word(one.gum)), "/gum");
}

Shape<product::GumKind> gum_kind() {
  std::vector<std::pair<std::string, product::GumKind>> words;
  for (std::size_t i = 0; i < product::gum_kind_count; ++i) {
    const auto kind = static_cast<product::GumKind>(i);
    words.emplace_back(product::gum_word(kind), kind);
  }
  return choice<product::GumKind>(words);
}

// Allergens that must be declared, by the words used on screens. US: the nine of FALCPA and the FASTER Act
// 2021 (from memory); EU: the fourteen of Reg. (EU) 1169/2011 Annex II (from memory).
Shape<std::string> allergen() {
  std::vector<std::pair<std::string, std::string>> words;
  for (const char* one : {"milk", "egg", "soy", "wheat", "gluten", "peanut", "tree nuts", "sesame", "fish",
                          "crustaceans", "molluscs", "celery", "mustard", "lupin", "sulphites"})
    words.emplace_back(one, one);
  return choice<std::string>(words);
}

// The signs that are drawn: warning, mandatory, prohibition.
Shape<std::string> sign() {
  std::vector<std::pair<std::string, std::string>> numbers;
  for (const char* one : {"W001", "W010", "W011", "W012", "W017", "W018", "W021", "W023", "W024", "M002",
                          "M004", "M008", "M009", "M010", "M011", "M013", "M021", "M028", "P010", "P015"})
    numbers.emplace_back(one, one);
  return choice<std::string>(numbers);
}

Object<product::Ingredient> make_ingredient_table() {
  using S = product::Ingredient;
  Object<S> t;
  t.format(1)
      .need("id", &S::id, word(), "The file's name without .json.")
      .need("title", &S::title, text(1, 60), "Name shown to people.")
      .need("source", &S::source, text(3, 400),
            "Where the composition comes from: document and table, or that it is from memory.")
      .need("fraction", &S::fraction, fraction(),
            "kg of each component in a kg of the ingredient; sums to 1.")
      .need("form", &S::form, choice<product::Form>(form_words()), "How it enters the vat.")
      .need("supply_degC", &S::supply_degC, number(-2.0, 60.0, "degC"),
            "Usual temperature when it is brought to the machine.")
      .may("hydration_degC", &S::hydration_degC, number(0.0, 95.0, "degC"),
           "Stabiliser hydrates fully only above this; 0: soluble in the cold.")
      .may("gum", &S::gum, gum_kind(), "Kind of its stabiliser; left out: a blend.")
      .may("yolk_solids_norm", &S::yolk_solids_norm, number(0.0, 1.0, ""), "kg of egg-yolk solids in a kg.")
      .need("allergens", &S::allergens, list(allergen(), 0, 15, true), "Allergens that must be declared.")
      .check(judge_ingredient);
  return t;
}

Shape<control::Addition> addition() {
  using S = control::Addition;
  Object<S> t;
  t.need("ingredient", &S::ingredient,
         one_of("a known ingredient", [](const Names& names) { return names.ingredients; }),
         "Id of the ingredient.")
      .need("kg", &S::kg, number(0.001, 1000.0, "kg"), "Amount for the recipe's own batch size.");
  return t.shape();
}

Shape<control::Phase> phase() {
  using S = control::Phase;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique in its recipe.")
      .need("kind", &S::kind, choice<control::PhaseKind>(phase_words()), "What the machine does.")
      .need("title", &S::title, text(1, 60), "Name shown to people.")
      .need("target_degC", &S::target_degC, number(0.0, 95.0, "degC"), "Temperature that is reached or kept.")
      .may("duration_s", &S::duration_s, number(0.0, 172800.0, "s"), "hold and age: how long.")
      .may("additions", &S::additions, list(addition(), 0, 40), "add: what goes in.")
      .may("instruction", &S::instruction, text(0, 200), "add: what the display asks for.");
  return t.shape();
}

Object<control::Recipe> make_recipe_table() {
  using S = control::Recipe;
  Object<S> t;
  t.format(1)
      .need("id", &S::id, slug(), "The file's name without .json.")
      .need("title", &S::title, text(1, 60), "Name shown to people.")
      .need("note", &S::note, text(0, 200), "What it is, in one line.")
      .need("start", &S::start, list(addition(), 1, 40), "In the vat before Run.")
      .need("phases", &S::phases, list(phase(), 1, 40),
            "What the machine does, in order; the last one is keep.")
      .need("claims", &S::claims, list(text(1, 60), 0, 60, true),
            "Ids of the published heat-treatment rows that the phases meet.")
      .may("overshoot_K", &S::overshoot_K, number(0.1, 5.0, "K"),
           "How far the controller aims above a hold's target.");
  return t;
}

}  // namespace

const std::vector<std::pair<std::string, control::PhaseKind>>& phase_words() {
  using K = control::PhaseKind;
  static const std::vector<std::pair<std::string, K>> words = {{"heat", K::heat}, {"add", K::add},
                                                               {"hold", K::hold}, {"chill", K::chill},
                                                               {"age", K::age},   {"keep", K::keep}};
  return words;
}

std::string phase_word(control::PhaseKind kind) {
  for (const auto& [name, value] : phase_words()) {
    if (value == kind) return name;
  }
  return "?";
}

const std::vector<std::pair<std::string, product::Form>>& form_words() {
  using F = product::Form;
  static const std::vector<std::pair<std::string, F>> words = {
      {"liquid", F::liquid}, {"crystals", F::crystals}, {"powder", F::powder}, {"gum", F::gum}};
  return words;
}

const Object<product::Ingredient>& ingredient_table() {
  static const Object<product::Ingredient> table = make_ingredient_table();
  return table;
}

const Object<control::Recipe>& recipe_table() {
  static const Object<control::Recipe> table = make_recipe_table();
  return table;
}

const Object<CautionFile>& caution_table() {
  static const Object<CautionFile> table = [] {
    Object<CautionFile> t;
    Object<Caution> caution;
    caution.need("sign", &Caution::sign, sign(), "ISO 7010 number of the safety sign that goes with it.")
        .need("text", &Caution::text, text(10, 600), "Hazard, consequence, what to do.");
    const Shape<Caution> words = caution.shape();
    const Json keyed{{"type", "object"},
                     {"patternProperties", Json{{"^[a-z0-9_]{2,40}$", words.schema}}},
                     {"additionalProperties", false}};
    t.format(1).field(
        {"cautions", "Key -> sign and words.", "an object", true, keyed,
         [words](Reader& reader, const Json& json, CautionFile& out) {
           if (!json.is_object()) return reader.problem("an object", found_text(json));
           for (const auto& [key, value] : json.items()) {
             reader.below(pointer_step(key), [&reader, &words, &out, &name = key, &one = value] {
               if (!is_word(name))
                 return reader.problem("a key of 2 to 40 characters a-z, 0-9, _", in_quotes(name));
               words.read(reader, one, out.cautions[name]);
             });
           }
         }});
    return t;
  }();
  return table;
}

}  // namespace stirbench::library
