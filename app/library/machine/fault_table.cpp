#include "app/library/tables.h"

// Faults: content/faults/ID.json.
namespace stirbench::library {

namespace {

using faults::AccessState;
using faults::Change;
using faults::Fault;
using faults::FaultKind;
using faults::FaultTarget;
using faults::Who;

Shape<FaultTarget> target() {
  std::vector<std::pair<std::string, FaultTarget>> words;
  for (const auto& entry : faults::target_table()) words.emplace_back(std::string(entry.word), entry.target);
  return choice<FaultTarget>(std::move(words));
}

Shape<std::string> one_word(const std::vector<std::string>& words) {
  std::vector<std::pair<std::string, std::string>> pairs;
  pairs.reserve(words.size());
  for (const std::string& word : words) pairs.emplace_back(word, word);
  return choice<std::string>(std::move(pairs));
}

Shape<Change> change() {
  using S = Change;
  Object<S> t;
  t.need("target", &S::target, target(), "What is changed; the catalogue is in sim_core/faults/targets.cpp.")
      .may(
          "at", &S::at, text(1, 20),
          "Where, for a target of the circuit: wire number, contact, winding, terminal, two terminals, part.")
      .need("mild", &S::mild, number(-1000.0, 1.0e12, ""), "Value at severity 0.")
      .need("full", &S::full, number(-1000.0, 1.0e12, ""), "Value at severity 1.");
  return t.shape();
}

Object<Fault> make_fault_table() {
  using S = Fault;
  Object<S> t;
  t.format(1)
      .need("id", &S::id, word(), "The file's name without .json.")
      .need("title", &S::title, text(3, 90), "Name shown to people.")
      .need("system", &S::system,
            one_word({"heating", "sensing", "guards", "drive", "pump", "chiller", "control", "supply",
                      "hygiene", "use"}),
            "Part of the machine.")
      .need("kind", &S::kind, choice<FaultKind>({{"fault", FaultKind::fault}, {"misuse", FaultKind::misuse}}),
            "misuse: nothing is broken, it was used wrong.")
      .need("changes", &S::changes, list(change(), 1, 8), "What it changes.")
      .need("severity_low", &S::severity_low, number(0.01, 1.0, ""), "Mildest case that occurs.")
      .need("severity_high", &S::severity_high, number(0.01, 1.0, ""), "Severest case.")
      .may("period_s", &S::period_s, number(1.0, 86400.0, "s"),
           "Intermittent: comes and goes with this period.")
      .may("on_norm", &S::on_norm, number(0.01, 0.99, ""),
           "Share of the period in which it is there, at the period's end.")
      .need("shows", &S::shows, text(10, 400), "How it shows itself.")
      .need("per_year", &S::per_year, number(0.0001, 400.0, "1/year"), "How often on one machine.")
      .need("rate_source", &S::rate_source, text(5, 200),
            "Where per_year comes from: common practice, or invented.")
      .need("repair", &S::repair, text(10, 600), "What to do.")
      .need("verify", &S::verify, text(10, 400), "How to prove that it is right again.")
      .may("parts", &S::parts, text(2, 200), "What it takes.")
      .need("repair_min", &S::repair_min, number(0.1, 600.0, "min"),
            "Hands-on, without isolating and covers.")
      .may("parts_min", &S::parts_min, number(0.0, 6000.0, "min"),
           "Price of the parts, as minutes of work of the same price.")
      .need("repair_needs", &S::repair_needs, access_state_shape(), "What has to be true of the machine.")
      .need("who", &S::who, who_shape(),
            "Who may repair it; electrician and refrigeration are licensed work.")
      .may("cautions", &S::cautions,
           list(one_of("a key of text/cautions.json", [](const Names& n) { return n.cautions; }), 0, 8, true),
           "Caution texts to be read first.");
  t.check([](Reader& reader, const S& one) {
    if (one.severity_high < one.severity_low)
      reader.problem("at least severity_low (" + number_text(one.severity_low) + ")",
                     number_text(one.severity_high), "/severity_high");
    if ((one.period_s > 0.0) != (one.on_norm < 1.0))
      reader.problem("period_s and on_norm, both or neither", one.period_s > 0.0 ? "period_s" : "on_norm");
    for (const Change& c : one.changes) {
      const bool circuit = !faults::target_entry(c.target).at.empty();
      const bool chiller =
          c.target >= FaultTarget::charge_norm && c.target <= FaultTarget::evaporator_fouling_norm;
      if (circuit && one.kind == FaultKind::fault && one.who != Who::electrician &&
          one.who != Who::technician)
        reader.problem("electrician or technician for a repair in the circuit",
                       in_quotes(faults::who_word(one.who)), "/who");
      if (chiller && c.target != FaultTarget::condenser_fouling_norm && c.target != FaultTarget::fan_norm &&
          one.who != Who::refrigeration)
        reader.problem("refrigeration: the circuit of the refrigerant is licensed work",
                       in_quotes(faults::who_word(one.who)), "/who");
    }
  });
  return t;
}

}  // namespace

Shape<Who> who_shape() {
  std::vector<std::pair<std::string, Who>> words;
  for (std::size_t i = 0; i < faults::who_count; ++i)
    words.emplace_back(faults::who_words()[i], static_cast<Who>(i));
  return choice<Who>(std::move(words));
}

Shape<AccessState> access_state_shape() {
  std::vector<std::pair<std::string, AccessState>> words;
  for (std::size_t i = 0; i < faults::access_state_count; ++i) {
    const auto condition = static_cast<AccessState>(i);
    words.emplace_back(faults::access_state_word(condition), condition);
  }
  return choice<AccessState>(std::move(words));
}

const Object<faults::Fault>& fault_table() {
  static const Object<faults::Fault> table = make_fault_table();
  return table;
}

}  // namespace stirbench::library
