#include <algorithm>
#include <utility>

#include "sim_core/training/grounds.h"

// What a person has found in the terms of the guide's model, and counts of how they named.
namespace stirbench::training {

using diagnosis::Model;

Model Grounds::model() const {
  constexpr double machines = 1.0e6;  // so many that nothing is added by smoothing
  Model out = guide_->model();
  double rates = 0.0;
  for (const diagnosis::Profile& one : out.profiles) rates += out.causes[one.cause].per_year * one.share;
  for (const ReadingOdds& reading : odds_) {
    diagnosis::Check check;
    check.id = "reading-" + std::to_string(&reading - odds_.data());
    check.title = reading.title;
    check.outcomes = {
        {"as-sound", "as on a sound machine"}, {"as-read", "as read"}, {"otherwise", "otherwise"}};
    out.checks.push_back(std::move(check));
    std::vector<double> usual(3, 0.0);
    for (std::size_t k = 0; k < out.profiles.size(); ++k) {
      diagnosis::Profile& profile = out.profiles[k];
      std::vector<double> counts;
      for (std::size_t o = 0; o < 3; ++o) {
        counts.push_back(machines * reading.p[k][o]);
        usual[o] += out.causes[profile.cause].per_year * profile.share * reading.p[k][o] / rates;
      }
      profile.counts.push_back(std::move(counts));
    }
    if (!out.usual.empty()) out.usual.push_back(std::move(usual));
  }
  return out;
}

std::vector<diagnosis::Finding> Grounds::as_findings() const {
  std::vector<diagnosis::Finding> out;
  for (const Found& one : findings_) out.push_back({one.question, one.outcome, one.sure, false});
  return out;
}

void Grounds::note_asked(std::size_t question) {
  if (std::find(asked_.begin(), asked_.end(), question) == asked_.end()) asked_.push_back(question);
}

bool Grounds::has_moved(std::string_view signal) const {
  return std::find(moved_.begin(), moved_.end(), signal) != moved_.end();
}

bool Grounds::has_acted_on(std::string_view cause) const {
  return std::find(acted_on_.begin(), acted_on_.end(), cause) != acted_on_.end();
}

// A suspicion that is handed over is a cause named.
void Grounds::follow_hand_off(const Moment& moment, const std::string& suspected) {
  report(moment, suspected);
  acted_on_.push_back(suspected);
  const bool named = std::any_of(namings_.begin(), namings_.end(),
                                 [&suspected](const Naming& one) { return one.cause == suspected; });
  if (!named && guide_->model().cause_index(suspected) != Model::npos) name(moment, suspected);
}

// What was told still holds, else nobody would go on looking.
void Grounds::begin_anew(std::uint64_t tick) {
  findings_ = told_;
  odds_.clear();
  taken_.clear();
  read_.clear();
  asked_.clear();
  left_out_.clear();
  ++version_;
  put_right_ = false;
  turn_to(spell_, tick);
}

std::size_t Grounds::own_findings() const {
  return static_cast<std::size_t>(
      std::count_if(findings_.begin(), findings_.end(), [](const Found& one) { return one.tick > 0; }));
}

bool Grounds::has_looked(std::size_t cause) const {
  const std::size_t look = guide_->look_for(cause);
  return look == diagnosis::Model::npos ||
         std::any_of(findings_.begin(), findings_.end(),
                     [look](const Found& one) { return one.question == look; });
}

const std::vector<std::string>& Grounds::count_words() {
  static const std::vector<std::string> words = {"names_earned",   "names_premature",     "names_guessed",
                                                 "names_unproved", "names_taken_back",    "checks_repeated",
                                                 "checks_idle",    "checks_out_of_order", "findings",
                                                 "reports",        "reports_poor"};
  return words;
}

double Grounds::count(std::string_view word) const {
  const auto named = [this](Standing standing) {
    return static_cast<double>(std::count_if(namings_.begin(), namings_.end(), [standing](const Naming& one) {
      return one.standing == standing;
    }));
  };
  if (word == "names_earned") return named(Standing::earned);
  if (word == "names_premature") return named(Standing::premature);
  if (word == "names_guessed") return named(Standing::guessed);
  if (word == "names_unproved") return named(Standing::premature) + named(Standing::guessed);
  const auto marked = [this](bool out_of_order) {
    return static_cast<double>(
        std::count_if(marks_.begin(), marks_.end(),
                      [out_of_order](const ProcessMark& one) { return one.out_of_order == out_of_order; }));
  };
  if (word == "names_taken_back") {
    return static_cast<double>(
        std::count_if(namings_.begin(), namings_.end(), [](const Naming& one) { return one.taken_back; }));
  }
  if (word == "checks_repeated") return static_cast<double>(repeated_);
  if (word == "checks_idle") return marked(false);
  if (word == "checks_out_of_order") return marked(true);
  if (word == "reports") return static_cast<double>(reports_.size());
  if (word == "reports_poor") {
    return static_cast<double>(
        std::count_if(reports_.begin(), reports_.end(), [](const Report& one) { return !one.good; }));
  }
  if (word == "findings") return static_cast<double>(own_findings());
  return 0.0;
}

std::string Grounds::told(std::string_view word) const {
  std::vector<std::string> list;
  for (const Naming& one : namings_) {
    const std::size_t cause = guide_->model().cause_index(one.cause);
    if (word != "names_unproved" || one.standing == Standing::earned || cause == Model::npos) continue;
    list.push_back(guide_->model().causes[cause].title + ": " + std::string(standing_word(one.standing)) +
                   (one.taken_back ? ", and taken back." : "."));
  }
  for (const ProcessMark& one : marks_) {
    if (word == (one.out_of_order ? "checks_out_of_order" : "checks_idle"))
      list.push_back(one.check + ": " + one.why);
  }
  for (const Report& one : reports_) {
    if (word == "reports_poor" && !one.good) list.push_back(one.why);
  }
  constexpr std::size_t most = 3;
  std::string out;
  for (std::size_t i = 0; i < std::min(most, list.size()); ++i) out += (i == 0 ? "" : " ") + list[i];
  return list.size() > most ? out + " And so on." : out;
}

}  // namespace stirbench::training
