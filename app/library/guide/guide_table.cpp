#include <algorithm>

#include "app/library/guide/guide_tables.h"
#include "app/library/tables.h"

// Field tables of content/fault_guides and content/evidence.
namespace stirbench::library {

namespace {

using namespace diagnosis;

constexpr double most_min = 10000.0;
constexpr double most_reading = 1.0e300;

Shape<CheckKind> kind_shape() {
  std::vector<std::pair<std::string, CheckKind>> words;
  for (std::size_t i = 0; i < check_kind_count; ++i)
    words.emplace_back(check_kind_word(static_cast<CheckKind>(i)), static_cast<CheckKind>(i));
  return choice<CheckKind>(words);
}

Shape<std::string> caution_shape() {
  return one_of("a key of text/cautions.json", [](const Names& names) { return names.cautions; });
}

Shape<AccessCosts> conditions_shape() {
  using S = AccessCosts;
  Object<S> t;
  const auto minutes = number(0.0, 120.0, "min");
  t.need("start_min", &S::start_min, minutes, "Standing to running.")
      .need("stop_min", &S::stop_min, minutes, "Running to standing.")
      .need("isolate_min", &S::isolate_min, minutes, "Switch off, lock, tag, prove dead.")
      .need("restore_min", &S::restore_min, minutes, "Look round, lock off, switch on.")
      .need("covers_off_min", &S::covers_off_min, minutes, "Covers off, isolated.")
      .need("covers_on_min", &S::covers_on_min, minutes, "Covers back on.")
      .need("make_live_min", &S::make_live_min, minutes,
            "Supply back with covers off: barrier, second person.");
  return t.shape();
}

Shape<machine::StartSetup::Load> load_shape() {
  using S = machine::StartSetup::Load;
  Object<S> t;
  t.need("ingredient", &S::ingredient,
         one_of("an ingredient", [](const Names& names) { return names.ingredients; }), "What is in the vat.")
      .need("kg", &S::kg, number(0.1, 500.0, "kg"), "How much.")
      .need("degC", &S::degC, number(-2.0, 95.0, "degC"), "How warm.");
  return t.shape();
}

// Kept as text: actions files have their own strict reader.
Shape<std::string> action_shape() {
  Shape<std::string> shape;
  shape.schema = Json{{"type", "object"}, {"required", Json::array({"at_s", "do"})}};
  shape.expected = "an entry of an actions file";
  shape.read = [](Reader& reader, const Json& json, std::string& out) {
    if (!json.is_object()) return reader.problem("an entry of an actions file", found_text(json));
    out = json.dump();
  };
  return shape;
}

Shape<GuideProtocol> protocol_shape() {
  using S = GuideProtocol;
  Object<S> t;
  t.need("id", &S::id, slug(), "Name of the run.")
      .need("title", &S::title, text(3, 120), "What is done in it.")
      .need("loaded", &S::loaded, list(load_shape(), 0, 20), "In the vat at the start.")
      .need("actions", &S::actions, list(action_shape(), 0, 50), "What hands do; at_s only.")
      .need("until_s", &S::until_s, number(1.0, 14400.0, "s"), "Length of the run.");
  return t.shape();
}

Shape<ReadingSpec> reading_shape() {
  using S = ReadingSpec;
  Object<S> t;
  t.need("protocol", &S::protocol, slug(), "The run in which it is taken.")
      .may("at_s", &S::at_s, number(0.0, 14400.0, "s"), "Moment in it; its end when left out.")
      .need("signal", &S::signal, text(1, 200),
            "Signal, instrument or part, or several joined; may begin with max:, min:, mean:, rise: or when: "
            "(sim_core/diagnosis/reading.h).")
      .may("error_abs", &S::error_abs, number(0.0, 1.0e6, ""),
           "Standard deviation of instrument or eye, in the signal's unit.")
      .may("error_norm", &S::error_norm, number(0.0, 1.0, ""), "The same as a share of the reading.");
  return t.shape();
}

template <class S>
void judge_range(Reader& reader, const S& one) {
  if (!(one.high > one.low)) reader.problem("more than low", number_text(one.high), "/high");
}

Shape<Outcome> outcome_shape() {
  using S = Outcome;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique in its check.")
      .need("title", &S::title, text(1, 120), "The answer as one taps it.")
      .may("low", &S::low, number(-most_reading, most_reading, ""), "Readings from here ...")
      .may("high", &S::high, number(-most_reading, most_reading, ""),
           "... to below here give it; of several the first.")
      .check(judge_range<S>);
  return t.shape();
}

Shape<Symptom> symptom_shape() {
  using S = Symptom;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique.")
      .need("title", &S::title, text(3, 80), "What people say.")
      .may("display", &S::display, text(0, 80), "What the display shows.")
      .need("words", &S::words, list(text(2, 60), 0, 30), "Other ways to say it.")
      .need("meaning", &S::meaning, text(3, 300), "What counts as it.")
      .need("reading", &S::reading, reading_shape(), "How the simulated machine shows it.")
      .may("low", &S::low, number(-most_reading, most_reading, ""), "Readings from here ...")
      .may("high", &S::high, number(-most_reading, most_reading, ""), "... to below here are it.")
      .check(judge_range<S>);
  return t.shape();
}

Shape<Check> check_shape() {
  using S = Check;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique.")
      .need("title", &S::title, text(3, 100), "Name shown to people.")
      .need("kind", &S::kind, kind_shape(), "By what it is done.")
      .need("minutes", &S::minutes, number(0.1, 240.0, "min"), "Hands-on, without isolating and covers.")
      .need("needs", &S::needs, access_state_shape(), "Condition of the machine for it.")
      .need("who", &S::who, who_shape(), "Who may do it; local codes decide.")
      .need("cautions", &S::cautions, list(caution_shape(), 0, 6, true), "Cautions shown before it.")
      .need("how", &S::how, text(3, 800, true), "What to do.")
      .need("expected", &S::expected, text(1, 200), "What a good machine shows.")
      .may("picture", &S::picture, text(0, 80), "Part of the machine view, or terminals.")
      .need("reading", &S::reading, reading_shape(), "How the simulated machine answers.")
      .need("outcomes", &S::outcomes, list(outcome_shape(), 2, 6), "The first is what a good machine shows.");
  return t.shape();
}

// "57.3 40.12.8": questions parted by spaces, outcomes by points. One text instead of thousands of values,
// because each start of `causes` reads it.
bool read_counts(const std::string& text, std::vector<std::vector<double>>& counts) {
  counts.assign(1, {});
  double number = 0.0;
  bool digit = false;
  for (std::size_t i = 0; i <= text.size(); ++i) {
    const char c = i < text.size() ? text[i] : ' ';
    if (c >= '0' && c <= '9') {
      number = 10.0 * number + (c - '0');
      digit = true;
      continue;
    }
    if ((c != '.' && c != ' ') || !digit) return false;
    counts.back().push_back(number);
    if (c == ' ' && i < text.size()) counts.emplace_back();
    number = 0.0;
    digit = false;
  }
  return true;
}

Object<LikelihoodRow> make_row_table() {
  using S = LikelihoodRow;
  Object<S> t;
  t.need("cause", &S::cause, word(), "Which fault was simulated.")
      .need("label", &S::label, text(0, 40), "How bad.")
      .need("share", &S::share, number(0.0, 1.0, ""), "Of its cause.")
      .need("first", &S::first, text(0, 400), "Answers of its first machine.")
      .field({"counts",
              "Machines by outcome, \"57.3\" or \"40.12.8\", for each question in the order of questions, "
              "parted by spaces.",
              "counts as text", true, Json{{"type", "string"}}, [](Reader& reader, const Json& json, S& out) {
                if (!json.is_string() || !read_counts(json.get_ref<const std::string&>(), out.counts))
                  reader.problem("counts as text", found_text(json));
              }});
  return t;
}

}  // namespace

const Object<FaultGuide>& guide_table() {
  static const Object<FaultGuide> table = [] {
    using S = FaultGuide;
    Object<S> t;
    t.format(1)
        .need("id", &S::id, slug(), "The machine's id, and the file's name without .json.")
        .may("note", &S::note, text(0, 800), "Where the figures come from; for people.")
        .need("service_min", &S::service_min, number(1.0, most_min, "min"),
              "Calling somebody in who surely repairs it.")
        .need("prove_min", &S::prove_min, number(0.0, 240.0, "min"), "Trying the machine after a repair.")
        .need("pair_years", &S::pair_years, number(0.0, 1.0, "year"),
              "How long a second fault stays unnoticed.")
        .need("misuse_years", &S::misuse_years, number(0.0, 1.0, "year"),
              "How long wrong use stays unnoticed.")
        .need("unknown_norm", &S::unknown_norm, number(0.0, 0.5, ""),
              "Share of broken machines whose cause is not here.")
        .need("conditions", &S::conditions, conditions_shape(), "Minutes between conditions of the machine.")
        .need("protocols", &S::protocol_texts, list(protocol_shape(), 1, 20),
              "Runs in which readings are taken.")
        .need("symptoms", &S::symptoms, list(symptom_shape(), 1, 60), "What people notice.")
        .need("causes", &S::cause_ids,
              list(one_of("a fault", [](const Names& names) { return names.faults; }), 1, 150, true),
              "What may be wrong: ids of content/faults, where each is described and what it changes.")
        .need("checks", &S::checks, list(check_shape(), 1, 150), "What can be looked at, tried or measured.");
    return t;
  }();
  return table;
}

const Object<LikelihoodRow>& evidence_row_table() {
  static const Object<LikelihoodRow> table = make_row_table();
  return table;
}

const Object<LikelihoodTable>& evidence_table() {
  static const Object<LikelihoodTable> table = [] {
    using S = LikelihoodTable;
    Object<S> t;
    t.format(1)
        .need("id", &S::machine, slug(), "The machine's id, and the file's name without .json.")
        .need("basis", &S::basis, text(16, 16), "Hash of the content that was simulated.")
        .need("machines_each", &S::machines_each, whole(1, 100000), "Machines simulated for each row.")
        .need("seed", &S::seed, number(0.0, 9.0e15, ""), "Of the sample.")
        .need("questions", &S::questions, list(slug(), 0, 300), "Symptoms and checks that were answered.")
        .need("rows", &S::rows, list(evidence_row_table().shape(), 0, 600),
              "One for each cause and severity.");
    return t;
  }();
  return table;
}

}  // namespace stirbench::library
