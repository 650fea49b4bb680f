#include "app/desk/work/own/own_fit.h"

#include <algorithm>
#include <cctype>
#include <chrono>
#include <cmath>
#include <filesystem>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/text/units.h"
#include "app/fitting/log_file.h"
#include "app/library/machine/own_machine.h"
#include "sim_core/identification/words.h"

namespace stirbench::desk::work {

using namespace identification;
using kit::plain_number;
using kit::tr;

namespace {

// Runs of the machine that a fit usually takes (tests/bench/fit.cpp); the bar stops short of the end beyond.
constexpr double usual_runs = 40.0;

}  // namespace

LogAnswer OwnFit::work_out(const library::Library& library, LogAnswer answer, Shared& shared,
                           const std::function<void()>& wake) {
  const double fit_part = answer.question.fitted ? (answer.question.causes ? 0.2 : 0.7) : 0.0;
  const auto report = [&](double share) {
    shared.share = share;
    if (wake) wake();
    return !shared.cancelled.load();
  };
  if (answer.question.fitted) {
    double runs = 0.0;
    answer.request.watch = [&] { return report(fit_part * std::min(0.98, ++runs / usual_runs)); };
    answer.fit = fit(answer.request);
    answer.request.watch = {};
    if (answer.fit.done) answer.cannot_tell = identifiability_words(answer.request, answer.fit);
  }
  const bool ask = answer.question.causes || (answer.fit.done && !answer.fit.objections.empty());
  if (ask && !shared.cancelled)
    answer.explanations = fitting::explanations_of(
        library, answer.request, [&](double share) { return report(fit_part + (1.0 - fit_part) * share); });
  return answer;
}

bool OwnFit::start(const library::Library& library, const LogQuestion& question) {
  cancel();
  answer_.reset();
  problems_.clear();
  fitting::LogResult read = fitting::read_log(question.file);
  for (const library::Problem& one : read.problems) problems_.push_back(one.text());
  if (!problems_.empty()) return false;
  LogAnswer begun;
  begun.question = question;
  begun.notices = read.notices;
  fitting::Request made =
      fitting::request_of(library.machine(question.machine), std::move(read.log), question.words);
  if (!made.problem.empty()) {
    problems_.push_back(made.problem);
    return false;
  }
  begun.request = std::move(made.fit);
  shared_ = std::make_shared<Shared>();
  std::promise<LogAnswer> promise;
  running_ = promise.get_future();
  // The answer is stored before `wake` is called, so that the woken thread finds it.
  worker_ = std::jthread([library, begun = std::move(begun), shared = shared_, wake = wake_,
                          promise = std::move(promise)]() mutable {
    promise.set_value(work_out(library, std::move(begun), *shared, wake));
    if (wake) wake();
  });
  return true;
}

void OwnFit::cancel() {
  shared_->cancelled = true;
  if (worker_.joinable()) worker_.join();
  running_ = {};
}

bool OwnFit::poll() {
  if (!running_.valid() || running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready)
    return false;
  answer_ = running_.get();
  if (answer_->question.fitted && !answer_->fit.done) {
    problems_ = {answer_->question.file + ": " + tr("nothing could be found from it") + ": " +
                 answer_->fit.trouble};
    answer_.reset();
  }
  return true;
}

std::vector<FoundRow> rows_of(const LogAnswer& answer) {
  std::vector<FoundRow> out;
  for (const Found& found : answer.fit.found) {
    const QuantityEntry& one = entry(found.quantity);
    const auto number = [&](double value) { return plain_number(value, one.decimals); };
    FoundRow row{tr(std::string(one.title)) + " [" + std::string(one.unit) + "]",
                 one.compared ? number(found.before) : "",
                 number(found.value),
                 number(found.low) + " – " + number(found.high),
                 tr("yes"),
                 ""};
    if (found.high - found.low > std::abs(found.value) && one.compared) {
      row.told = tr("hardly");
      row.why =
          tr("only that it lies in this range; better by {what}", {{"what", tr(std::string(one.helps))}});
    }
    for (const Tied& tie : answer.fit.tied) {
      if (tie.one != found.quantity && tie.other != found.quantity) continue;
      const Quantity other = tie.one == found.quantity ? tie.other : tie.one;
      row.told = tr("hardly");
      row.why = tr("hardly told apart from: {other}", {{"other", tr(std::string(entry(other).title))}});
    }
    if (found.at_bound || !found.plausible) {
      row.told = tr("doubtful");
      row.why = tr("no sound machine has this: the log is of another one, or something is wrong with it");
      row.good = false;
    }
    out.push_back(std::move(row));
  }
  for (const NotFound& missing : answer.fit.not_found) {
    const QuantityEntry& one = entry(missing.quantity);
    out.push_back({tr(std::string(one.title)), "", "", "", tr("no"),
                   tr("it would take: {what}", {{"what", tr(std::string(one.helps))}})});
  }
  return out;
}

std::string own_machine_file(const std::string& data_dir, const std::string& id) {
  return (std::filesystem::path(data_dir) / "machines" / (id + ".json")).string();
}

std::string id_of_title(const std::string& title) {
  std::string out;
  for (const char c : title) {
    const auto byte = static_cast<unsigned char>(c);
    if (byte < 128 && std::isalnum(byte) != 0) {
      out += static_cast<char>(std::tolower(byte));
    } else if (!out.empty() && out.back() != '-') {
      out += '-';
    }
  }
  while (!out.empty() && out.back() == '-') out.pop_back();
  return out.substr(0, 40);
}

std::string keep_own_machine(const library::Library& library, const std::string& data_dir,
                             const std::string& title, const LogAnswer& answer) {
  library::OwnMachine own =
      fitting::own_machine_of(library, answer.question.machine, answer.fit, answer.question.file);
  own.id = id_of_title(title);
  own.title = title;
  return library::save_own_machine(library, own, own_machine_file(data_dir, own.id));
}

}  // namespace stirbench::desk::work
