#include <cmath>

#include "app/library/tables.h"

// The rule files: heat-treatment rows, cooling, organisms.
namespace stirbench::library {

namespace {

using product::Surety;

Shape<Surety> surety() {
  return choice<Surety>(
      {{"text_seen", Surety::text_seen}, {"digest", Surety::digest}, {"memory", Surety::memory}});
}

// What closes every rule: where it comes from and how sure that is.
template <typename S>
Object<S>& sourced(Object<S>& t) {
  return t.need("source", &S::source, text(3, 300), "Law, standard or paper, with its place.")
      .need("sure", &S::sure, surety(),
            "What stands behind it: the text itself, a digest of it, or memory only.")
      .may("note", &S::note, text(0, 300), "What else one should know.");
}

Shape<product::HeatRule> row() {
  using S = product::HeatRule;
  using K = product::ProductKind;
  Object<S> t;
  t.need("id", &S::id, word(), "Unique among all rows.")
      .need("title", &S::title, text(3, 120), "Name shown to people.")
      .need("jurisdiction", &S::jurisdiction, text(2, 60), "Where it is the law, or whose advice it is.")
      .need("product", &S::kind,
            choice<K>({{"milk", K::milk},
                       {"rich_milk", K::rich_milk},
                       {"mix", K::mix},
                       {"egg_mix", K::egg_mix},
                       {"liquid_egg", K::liquid_egg}}),
            "What it is for; rich_milk: 10 % fat or more, or sweetened.")
      .may("temperature_degC", &S::temperature_degC, number(40.0, 160.0, "degC"),
           "As published, or left out beside temperature_degF.")
      .may("temperature_degF", &S::temperature_degF, number(104.0, 320.0, "degF"),
           "As published in degF; converted exactly.")
      .need("hold_s", &S::hold_s, number(0.0, 86400.0, "s"),
            "Unbroken hold; 0: reaching the temperature is enough.")
      .may("air_space_K", &S::air_space_K, number(0.1, 20.0, "K"),
           "Air above the product at least so much over the temperature.")
      .may("spread_K", &S::spread_K, number(0.1, 10.0, "K"),
           "Warmest and coldest product at most so far apart.")
      .may("stirred", &S::stirred, flag(), "The agitator has to turn through the whole hold.");
  sourced(t).check([](Reader& reader, const S& one) {
    const bool celsius = one.temperature_degC != 0.0;
    const bool fahrenheit = one.temperature_degF != 0.0;
    if (celsius == fahrenheit)
      reader.problem("temperature_degC or temperature_degF, one of them", celsius ? "both" : "neither");
  });
  return t.shape();
}

Shape<product::CoolingStage> stage() {
  using S = product::CoolingStage;
  Object<S> t;
  t.need("to_degC", &S::to_degC, number(-2.0, 60.0, "degC"), "The warmest product is at or below this ...")
      .need("within_s", &S::within_s, number(1.0, 604800.0, "s"),
            "... within this time from the clock's start.");
  return t.shape();
}

Shape<product::CoolingRule> cooling_rule() {
  using S = product::CoolingRule;
  using C = product::CoolingStart;
  Object<S> t;
  t.need("id", &S::id, word(), "Unique among all cooling rules.")
      .need("title", &S::title, text(3, 120), "Name shown to people.")
      .need("jurisdiction", &S::jurisdiction, text(2, 60), "Where it is the law, or whose advice it is.")
      .need("start", &S::start,
            choice<C>(
                {{"falls_below", C::falls_below}, {"heat_ends", C::heat_ends}, {"made_cold", C::made_cold}}),
            "When the clock starts: falling below from_degC; leaving the highest temperature, that being "
            "from_degC or more; the last "
            "addition, if never heated to from_degC.")
      .need("from_degC", &S::from_degC, number(10.0, 100.0, "degC"), "See start.")
      .need("stages", &S::stages, list(stage(), 1, product::most_stages), "Ever colder, ever later.");
  sourced(t).check([](Reader& reader, const S& one) {
    double above = one.from_degC;
    double after = 0.0;
    for (std::size_t i = 0; i < one.stages.size(); ++i) {
      const std::string here = "/stages/" + std::to_string(i);
      if (!(one.stages[i].to_degC < above))
        reader.problem("less than " + number_text(above) + " degC", number_text(one.stages[i].to_degC),
                       here + "/to_degC");
      if (!(one.stages[i].within_s > after))
        reader.problem("more than " + number_text(after) + " s", number_text(one.stages[i].within_s),
                       here + "/within_s");
      above = one.stages[i].to_degC;
      after = one.stages[i].within_s;
    }
  });
  return t.shape();
}

Shape<product::StorageRule> storage_rule() {
  using S = product::StorageRule;
  Object<S> t;
  t.need("id", &S::id, word(), "Unique among all storage rules.")
      .need("title", &S::title, text(3, 120), "Name shown to people.")
      .need("jurisdiction", &S::jurisdiction, text(2, 60), "Where it is the law, or whose advice it is.")
      .need("at_most_degC", &S::at_most_degC, number(-30.0, 20.0, "degC"), "Kept at or below this.")
      .may("days", &S::days, number(0.5, 365.0, "d"), "Date mark: used or thrown away within.");
  return sourced(t).shape();
}

Shape<product::AgeingRule> ageing_rule() {
  using S = product::AgeingRule;
  Object<S> t;
  t.need("id", &S::id, word(), "Unique among all ageing rules.")
      .need("title", &S::title, text(3, 120), "Name shown to people.")
      .need("at_most_degC", &S::at_most_degC, number(-2.0, 12.0, "degC"), "Time at or below this counts.")
      .need("at_least_s", &S::at_least_s, number(60.0, 604800.0, "s"), "Time that makes it aged.");
  return sourced(t).shape();
}

Shape<product::Inactivation> inactivation() {
  using S = product::Inactivation;
  Object<S> t;
  t.need("id", &S::id, word(), "Unique among all entries of inactivation.")
      .need("title", &S::title, text(3, 80), "The organism.")
      .need("medium", &S::medium, text(2, 60), "What it was heated in.")
      .need("D_s", &S::D_s, number(1e-4, 1e5, "s"), "Time for one decade at at_degC.")
      .need("at_degC", &S::at_degC, number(40.0, 150.0, "degC"), "Temperature of D_s.")
      .need("z_K", &S::z_K, number(2.0, 30.0, "K"), "Temperature for a tenfold D.");
  return sourced(t).shape();
}

void judge_growth(Reader& reader, const product::Growth& one) {
  if (!(one.highest_degC > one.lowest_degC))
    reader.problem("more than lowest_degC", number_text(one.highest_degC), "/highest_degC");
  if (one.law == product::GrowthLaw::square_root) {
    if (!(one.root_per_h_K > 0.0))
      reader.problem("a number above 0 for square_root", number_text(one.root_per_h_K), "/root_per_h_K");
    return;
  }
  if (!(one.best_log10_per_h > 0.0))
    reader.problem("a number above 0 for cardinal", number_text(one.best_log10_per_h), "/best_log10_per_h");
  // The law of Rosso et al. has no pole between the limits only when the best is nearer to the highest.
  if (!(one.best_degC > 0.5 * (one.lowest_degC + one.highest_degC) && one.best_degC < one.highest_degC))
    reader.problem("between the middle of lowest and highest and the highest", number_text(one.best_degC),
                   "/best_degC");
}

Shape<product::Growth> growth() {
  using S = product::Growth;
  using L = product::GrowthLaw;
  Object<S> t;
  t.need("id", &S::id, word(), "Unique among all entries of growth.")
      .need("title", &S::title, text(3, 80), "The organism.")
      .need("medium", &S::medium, text(2, 60), "What it grew in.")
      .need("law", &S::law, choice<L>({{"square_root", L::square_root}, {"cardinal", L::cardinal}}),
            "square_root: root_per_h_K, bend_per_K; cardinal: best_degC, best_log10_per_h.")
      .may("root_per_h_K", &S::root_per_h_K, number(0.0, 1.0, "(log10/h)^0.5/K"),
           "Slope of the square root of the rate.")
      .may("bend_per_K", &S::bend_per_K, number(0.0, 5.0, "1/K"),
           "How sharply growth ends at highest_degC; 0: cut off there.")
      .may("best_log10_per_h", &S::best_log10_per_h, number(0.0, 10.0, "log10/h"), "Rate at best_degC.")
      .need("lowest_degC", &S::lowest_degC, number(-10.0, 60.0, "degC"), "No growth at or below.")
      .may("best_degC", &S::best_degC, number(0.0, 90.0, "degC"), "Of the highest rate.")
      .need("highest_degC", &S::highest_degC, number(0.0, 100.0, "degC"), "No growth at or above.")
      .need("h0", &S::h0, number(0.0, 50.0, ""), "Work of the lag phase (Baranyi and Roberts); 0: no lag.")
      .may("start_log10", &S::start_log10, number(-3.0, 9.0, "log10/g"),
           "Count at the start, for the upper limit.")
      .may("most_log10", &S::most_log10, number(1.0, 12.0, "log10/g"), "Count at which growth ends.");
  sourced(t).check(judge_growth);
  return t.shape();
}

constexpr const char* note_doc = "For people.";

}  // namespace

const Object<HeatRuleFile>& heat_rule_table() {
  static const Object<HeatRuleFile> table = [] {
    Object<HeatRuleFile> t;
    t.format(1)
        .may("note", &HeatRuleFile::note, text(0, 400), note_doc)
        .need("rows", &HeatRuleFile::rows, list(row(), 1, 400), "The rows, in any order.");
    return t;
  }();
  return table;
}

const Object<CoolingFile>& cooling_table() {
  static const Object<CoolingFile> table = [] {
    Object<CoolingFile> t;
    t.format(1)
        .may("note", &CoolingFile::note, text(0, 400), note_doc)
        .need("cooling", &CoolingFile::cooling, list(cooling_rule(), 0, 100), "How fast it is cooled.")
        .need("storage", &CoolingFile::storage, list(storage_rule(), 0, 100), "How cold it is kept.")
        .need("ageing", &CoolingFile::ageing, list(ageing_rule(), 0, 20),
              "How long it ages; the first one says whether a batch is aged.");
    return t;
  }();
  return table;
}

const Object<OrganismFile>& organism_table() {
  static const Object<OrganismFile> table = [] {
    Object<OrganismFile> t;
    t.format(1)
        .may("note", &OrganismFile::note, text(0, 400), note_doc)
        .need("inactivation", &OrganismFile::inactivation, list(inactivation(), 0, 100), "Heat resistance.")
        .need("growth", &OrganismFile::growth, list(growth(), 0, 100), "Growth in cooling and keeping.");
    return t;
  }();
  return table;
}

}  // namespace stirbench::library
