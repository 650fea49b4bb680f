#include <algorithm>
#include <filesystem>
#include <stdexcept>

#include "app/library/guide/guide_tables.h"
#include "app/library/loading.h"
#include "app/library/reading/content_hash.h"
#include "app/library/reading/paths.h"

// content/fault_guides and content/evidence into the library, and a guide with its evidence into the
// reasoner's model.
namespace stirbench::library {

namespace {

template <class T>
void each_once(Loading& loading, const std::string& file, const std::string& key,
               const std::vector<T>& list) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (list[i].id == list[j].id)
        loading.problem(file, "/" + key + "/" + std::to_string(i) + "/id", "an id that is not used yet",
                        in_quotes(list[i].id));
    }
  }
}

void read_protocols(Loading& loading, const SourceText& source, FaultGuide& guide) {
  const machine::Machine machine = loading.library.machine(guide.id);
  for (std::size_t i = 0; i < guide.protocol_texts.size(); ++i) {
    const GuideProtocol& one = guide.protocol_texts[i];
    std::string lines;
    for (const std::string& line : one.actions) lines += line + "\n";
    ActionsResult result = parse_actions(lines, source.shown, machine);
    for (Problem& problem : result.problems) {
      problem.path = "/protocols/" + std::to_string(i) + "/actions (" + problem.path + ")";
      loading.problems.push_back(std::move(problem));
    }
    for (const hands::TimedAction& action : result.actions) {
      if (!action.at_phase.empty())
        loading.problem(source.shown, "/protocols/" + std::to_string(i) + "/actions", "at_s only",
                        "at_phase");
    }
    diagnosis::Protocol protocol{one.id, one.title, {}, std::move(result.actions), one.until_s};
    protocol.start.loaded = one.loaded;
    guide.protocols.push_back(std::move(protocol));
  }
}

void judge_reading(Loading& loading, const std::string& file, const std::string& path,
                   const FaultGuide& guide, const diagnosis::ReadingSpec& reading,
                   const machine::Machine& machine) {
  try {
    diagnosis::check_reading(machine, reading, guide.protocols);
  } catch (const std::invalid_argument& wrong) {
    loading.problem(file, path, "a reading that can be taken", wrong.what());
  }
}

void judge_guide(Loading& loading, const std::string& file, const FaultGuide& guide) {
  each_once(loading, file, "symptoms", guide.symptoms);
  each_once(loading, file, "checks", guide.checks);
  each_once(loading, file, "protocols", guide.protocols);
  const machine::Machine machine = loading.library.machine(guide.id);
  for (std::size_t i = 0; i < guide.symptoms.size(); ++i)
    judge_reading(loading, file, "/symptoms/" + std::to_string(i) + "/reading", guide,
                  guide.symptoms[i].reading, machine);
  for (std::size_t i = 0; i < guide.checks.size(); ++i) {
    const std::string here = "/checks/" + std::to_string(i);
    judge_reading(loading, file, here + "/reading", guide, guide.checks[i].reading, machine);
    each_once(loading, file, "checks/" + std::to_string(i) + "/outcomes", guide.checks[i].outcomes);
    const bool live = guide.checks[i].needs == faults::AccessState::open_live;
    if (live && guide.checks[i].who != faults::Who::electrician)
      loading.problem(file, here + "/who", "electrician, because live parts are open",
                      in_quotes(faults::who_word(guide.checks[i].who)));
  }
}

std::string bytes_of(const Loading& loading, const std::string& shown) {
  try {
    return read_file((std::filesystem::path(loading.content_dir) / shown).string());
  } catch (const std::exception&) {
    return "";
  }
}

// Everything that the simulated answers come from.
std::string basis_of(const Loading& loading, const SourceText& source, const FaultGuide& guide) {
  std::map<std::string, std::string> files = {{source.shown, source.bytes}};
  for (const std::string& shown : {"machines/" + guide.id + ".json", "circuits/" + guide.id + ".json"})
    files[shown] = bytes_of(loading, shown);
  for (const std::string& id : guide.cause_ids)
    files["faults/" + id + ".json"] = bytes_of(loading, "faults/" + id + ".json");
  for (const GuideProtocol& protocol : guide.protocol_texts) {
    for (const auto& load : protocol.loaded)
      files["ingredients/" + load.ingredient + ".json"] =
          bytes_of(loading, "ingredients/" + load.ingredient + ".json");
  }
  return hash_files(files);
}

}  // namespace

FaultGuides load_guides(const std::string& content_dir, const Library& library) {
  FaultGuides out;
  Loading loading;
  loading.content_dir = content_dir;
  loading.library = library;
  for (const auto& [id, one] : library.ingredients) loading.names.ingredients.push_back(id);
  for (const auto& [key, one] : library.cautions) loading.names.cautions.push_back(key);
  for (const auto& [id, one] : library.faults) loading.names.faults.push_back(id);
  for (const SourceText& source : json_files(loading, content_dir + "/fault_guides", "fault_guides")) {
    const std::size_t before = loading.problems.size();
    FaultGuide guide;
    if (!read_text(loading, guide_table(), source, guide)) continue;
    if (guide.id != source.stem || library.machines.count(guide.id) == 0) {
      loading.problem(source.shown, "/id", "the file's name and a machine's id", in_quotes(guide.id));
      continue;
    }
    read_protocols(loading, source, guide);
    for (const std::string& id : guide.cause_ids) guide.causes.push_back(library.faults.at(id));
    judge_guide(loading, source.shown, guide);
    guide.basis = basis_of(loading, source, guide);
    if (loading.problems.size() == before) out.guides[guide.id] = std::move(guide);
  }
  for (const SourceText& source : json_files(loading, content_dir + "/evidence", "evidence")) {
    LikelihoodTable evidence;
    if (!read_text(loading, evidence_table(), source, evidence)) continue;
    if (evidence.machine != source.stem)
      loading.problem(source.shown, "/id", "the file's name", in_quotes(evidence.machine));
    out.evidence[evidence.machine] = std::move(evidence);
  }
  out.problems = std::move(loading.problems);
  return out;
}

GuideModel guide_model(const FaultGuide& guide, const LikelihoodTable* evidence) {
  GuideModel out;
  diagnosis::Model& model = out.model;
  model.machine = guide.id;
  model.causes = guide.causes;
  model.symptoms = guide.symptoms;
  model.checks = guide.checks;
  model.state_costs = guide.conditions;
  model.service_min = guide.service_min;
  model.prove_min = guide.prove_min;
  model.pair_years = guide.pair_years;
  model.misuse_years = guide.misuse_years;
  model.unknown_norm = guide.unknown_norm;
  out.simulated = evidence != nullptr && !evidence->rows.empty();
  out.stale = out.simulated && evidence->basis != guide.basis;
  // Where each question stands in the evidence; the end when it is new.
  std::vector<std::size_t> place;
  for (std::size_t q = 0; out.simulated && q < model.question_count(); ++q) {
    const std::string& id = model.is_symptom(q) ? model.symptoms[q].id : model.check(q).id;
    place.push_back(static_cast<std::size_t>(
        std::find(evidence->questions.begin(), evidence->questions.end(), id) - evidence->questions.begin()));
  }
  for (std::size_t c = 0; c < model.causes.size(); ++c) {
    double shares = 0.0;
    const std::size_t first = model.profiles.size();
    for (std::size_t r = 0; out.simulated && r < evidence->rows.size(); ++r) {
      const LikelihoodRow& row = evidence->rows[r];
      if (row.cause != model.causes[c].id) continue;
      diagnosis::Profile profile{c, row.label, row.share, {}};
      for (std::size_t q = 0; q < model.question_count(); ++q) {
        profile.counts.emplace_back(model.outcome_count(q), 0.0);
        if (place[q] >= row.counts.size()) continue;
        const auto& counts = row.counts[place[q]];
        if (counts.size() == profile.counts.back().size()) profile.counts.back() = counts;
      }
      shares += row.share;
      out.machines += evidence->machines_each;
      model.profiles.push_back(std::move(profile));
    }
    for (std::size_t k = first; k < model.profiles.size(); ++k)
      model.profiles[k].share /= shares > 0.0 ? shares : 1.0;
    if (model.profiles.size() > first) continue;
    diagnosis::Profile empty{c, "", 1.0, {}};
    for (std::size_t q = 0; q < model.question_count(); ++q)
      empty.counts.emplace_back(model.outcome_count(q), 0.0);
    model.profiles.push_back(std::move(empty));
  }
  if (evidence != nullptr) model.evidence_hash = evidence->basis;
  diagnosis::fit_outcome_prior(model);
  return out;
}

std::vector<ProfilePlan> profile_plan(const faults::Fault& fault) {
  const double low = fault.severity_low;
  const double third = (fault.severity_high - low) / 3.0;
  const bool varies = third > 0.0 && std::any_of(fault.changes.begin(), fault.changes.end(),
                                                 [](const faults::Change& c) { return c.mild != c.full; });
  if (!varies) return {{"as it is", fault.severity_high, fault.severity_high}};
  return {{"mild", low, low + third},
          {"middling", low + third, low + 2.0 * third},
          {"severe", low + 2.0 * third, fault.severity_high}};
}

Json row_json(const LikelihoodRow& row) {
  std::string counts;
  for (const auto& outcomes : row.counts) {
    counts += counts.empty() ? "" : " ";
    for (std::size_t o = 0; o < outcomes.size(); ++o)
      counts += (o == 0 ? "" : ".") + std::to_string(static_cast<long long>(outcomes[o]));
  }
  return {{"cause", row.cause},
          {"label", row.label},
          {"share", row.share},
          {"first", row.first},
          {"counts", counts}};
}

std::string likelihood_text(const LikelihoodTable& evidence) {
  Json rows = Json::array();
  for (const LikelihoodRow& row : evidence.rows) rows.push_back(row_json(row));
  return row_by_row({{"format", 1},
                     {"id", evidence.machine},
                     {"basis", evidence.basis},
                     {"machines_each", evidence.machines_each},
                     {"seed", static_cast<long long>(evidence.seed)},
                     {"questions", evidence.questions},
                     {"rows", rows}});
}

}  // namespace stirbench::library
