#include "app/library/guide/likelihood_simulation.h"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <mutex>
#include <stdexcept>

#include "app/library/guide/guide_tables.h"
#include "app/library/reading/paths.h"
#include "app/library/share_out.h"
#include "sim_core/bytes/hash64.h"
#include "sim_core/diagnosis/overview.h"
#include "sim_core/machine/random.h"

namespace stirbench::library {

namespace {

struct Job {
  std::size_t cause = 0;
  ProfilePlan profile;
  double share = 1.0;
};

// What all rows share, read only.
struct Workshop {
  const FaultGuide& guide;
  diagnosis::Model model;
  diagnosis::FaultyMachines machines;

  // `machines` keeps a reference to `model`.
  Workshop(const Workshop&) = delete;
  Workshop(const FaultGuide& its_guide, const machine::Machine& machine)
      : guide(its_guide),
        model(guide_model(its_guide, nullptr).model),
        machines(machine, model, its_guide.protocols) {}
};

Workshop open_workshop(const Library& library, const FaultGuides& shelf, const std::string& machine) {
  const auto found = shelf.guides.find(machine);
  if (found == shelf.guides.end())
    throw std::invalid_argument("machine \"" + machine + "\" has no fault guide");
  return {found->second, library.machine(machine)};
}

std::vector<Job> jobs_of(const FaultGuide& guide) {
  std::vector<Job> out;
  for (std::size_t c = 0; c < guide.causes.size(); ++c) {
    const std::vector<ProfilePlan> plan = profile_plan(guide.causes[c]);
    for (const ProfilePlan& one : plan) out.push_back({c, one, 1.0 / static_cast<double>(plan.size())});
  }
  return out;
}

// The same for a row whatever else the guide holds.
std::uint64_t seed_of(const Workshop& shop, const Job& job, std::uint64_t seed, int machine) {
  machine::Random random{bytes::fnv1a(shop.guide.causes[job.cause].id + "/" + job.profile.label) ^ seed};
  random.word += static_cast<std::uint64_t>(machine) * std::uint64_t{0xd1342543de82ef95U};
  return random.next();
}

std::vector<std::size_t> answers_of(const Workshop& shop, const Job& job, std::uint64_t seed, int machine) {
  const diagnosis::RandomMachine draw = diagnosis::random_machine(
      job.cause, job.profile.low, job.profile.high, seed_of(shop, job, seed, machine));
  return shop.machines.answer_all(draw);
}

std::string digits(const std::vector<std::size_t>& answers) {
  std::string out;
  for (const std::size_t answer : answers) out += static_cast<char>('0' + answer);
  return out;
}

LikelihoodRow row_of(const Workshop& shop, const Job& job, const LikelihoodPlan& plan) {
  LikelihoodRow row;
  row.cause = shop.guide.causes[job.cause].id;
  row.label = job.profile.label;
  row.share = job.share;
  for (std::size_t q = 0; q < shop.model.question_count(); ++q) {
    row.counts.emplace_back(shop.model.outcome_count(q), 0.0);
  }
  for (int m = 0; m < plan.machines_each; ++m) {
    const std::vector<std::size_t> answers = answers_of(shop, job, plan.seed, m);
    if (m == 0) row.first = digits(answers);
    for (std::size_t q = 0; q < answers.size(); ++q) row.counts[q][answers[q]] += 1.0;
  }
  return row;
}

// What a run's finished rows are kept with: another content or plan makes other rows.
std::string kept_header(const LikelihoodTable& evidence) {
  return Json{{"basis", evidence.basis}, {"machines_each", evidence.machines_each}, {"seed", evidence.seed}}
      .dump();
}

// Rows of a stopped run that was made from the same content and plan; a torn last line is left out.
std::map<std::string, LikelihoodRow> kept_rows(const LikelihoodPlan& plan, const std::string& header) {
  std::map<std::string, LikelihoodRow> out;
  std::ifstream in(plan.kept_file);
  std::string line;
  if (!in || !std::getline(in, line) || line != header) return out;
  while (std::getline(in, line)) {
    std::vector<Problem> problems;
    const std::optional<Json> json = parse_json(line, plan.kept_file, problems);
    if (!json) continue;
    LikelihoodRow row;
    const Names names;
    Reader reader(plan.kept_file, problems, names);
    evidence_row_table().read(reader, *json, row);
    if (problems.empty()) out[row.cause + "/" + row.label] = std::move(row);
  }
  return out;
}

}  // namespace

LikelihoodTable simulate_likelihoods(const Library& library, const FaultGuides& shelf,
                                     const std::string& machine, const LikelihoodPlan& plan,
                                     const ReportProgress& tell) {
  const Workshop shop = open_workshop(library, shelf, machine);
  const std::vector<Job> jobs = jobs_of(shop.guide);
  LikelihoodTable out{machine,
                      shop.guide.basis,
                      plan.machines_each,
                      static_cast<double>(plan.seed),
                      {},
                      std::vector<LikelihoodRow>(jobs.size())};
  for (std::size_t q = 0; q < shop.model.question_count(); ++q)
    out.questions.push_back(shop.model.is_symptom(q) ? shop.model.symptoms[q].id : shop.model.check(q).id);
  const std::string header = kept_header(out);
  const std::map<std::string, LikelihoodRow> kept = kept_rows(plan, header);
  std::ofstream keep;
  if (!plan.kept_file.empty()) {
    keep.open(plan.kept_file, std::ios::trunc);
    keep << header << '\n';
  }
  LikelihoodProgress progress{0, jobs.size(), 0};
  std::mutex guard;
  const auto finish = [&](std::size_t i, LikelihoodRow row, bool taken_over) {
    const std::lock_guard<std::mutex> lock(guard);
    if (keep.is_open()) {
      keep << row_json(row).dump() << '\n' << std::flush;
      if (!keep) throw std::runtime_error(plan.kept_file + ": cannot be written");
    }
    out.rows[i] = std::move(row);
    ++progress.done;
    if (taken_over) ++progress.taken_over;
    if (tell) tell(progress);
  };
  std::vector<std::size_t> open;
  for (std::size_t i = 0; i < jobs.size(); ++i) {
    const auto found = kept.find(shop.guide.causes[jobs[i].cause].id + "/" + jobs[i].profile.label);
    if (found != kept.end())
      finish(i, found->second, true);
    else
      open.push_back(i);
  }
  share_out(open.size(), plan.threads,
            [&](std::size_t k) { finish(open[k], row_of(shop, jobs[open[k]], plan), false); });
  return out;
}

std::vector<std::string> verify_likelihoods(const Library& library, const FaultGuides& shelf,
                                            const std::string& machine, unsigned threads,
                                            const ReportProgress& tell) {
  const Workshop shop = open_workshop(library, shelf, machine);
  const auto found = shelf.evidence.find(machine);
  if (found == shelf.evidence.end())
    return {"there is no evidence for \"" + machine + "\" (stirbench evidence --machine " + machine + ")"};
  const LikelihoodTable& kept = found->second;
  std::vector<std::string> wrong;
  if (kept.basis != shop.guide.basis)
    wrong.push_back("made from other content: " + kept.basis + ", now " + shop.guide.basis);
  const diagnosis::Model model = guide_model(shop.guide, &kept).model;
  for (const std::size_t c : diagnosis::symptomless_causes(model))
    wrong.push_back(model.causes[c].id + " shows as no symptom");
  for (const std::size_t q : diagnosis::uninformative_checks(model))
    wrong.push_back(model.check(q).id + " answers alike for every cause");
  const std::vector<Job> jobs = jobs_of(shop.guide);
  std::mutex guard;
  LikelihoodProgress progress{0, jobs.size(), 0};
  share_out(jobs.size(), threads, [&](std::size_t i) {
    const std::string& cause = shop.guide.causes[jobs[i].cause].id;
    const auto row = std::find_if(kept.rows.begin(), kept.rows.end(), [&](const LikelihoodRow& one) {
      return one.cause == cause && one.label == jobs[i].profile.label;
    });
    std::string said;
    if (row == kept.rows.end())
      said = "no row for " + cause + " (" + jobs[i].profile.label + ")";
    else if (row->first != digits(answers_of(shop, jobs[i], static_cast<std::uint64_t>(kept.seed), 0)))
      said = cause + " (" + jobs[i].profile.label + ") answers otherwise now";
    const std::lock_guard<std::mutex> lock(guard);
    if (!said.empty()) wrong.push_back(said);
    ++progress.done;
    if (tell) tell(progress);
  });
  std::sort(wrong.begin(), wrong.end());
  return wrong;
}

}  // namespace stirbench::library
