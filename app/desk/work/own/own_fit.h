#pragma once

#include <atomic>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "app/fitting/log_finding.h"
#include "app/fitting/request.h"

// A log of a batch compared with a machine on a thread of its own: the fit, and the causes that would explain
// the log. No drawing.
namespace stirbench::desk::work {

struct LogQuestion {
  std::string file;
  std::string machine;
  fitting::BatchWords words;
  bool fitted = true;   // estimate the machine
  bool causes = false;  // rank causes even when the log fits
};

struct LogAnswer {
  LogQuestion question;
  identification::FitRequest request;
  identification::Fit fit;
  std::vector<std::string> notices;           // what was put right in the file
  std::vector<std::string> cannot_tell;       // one sentence each
  identification::Explanations explanations;  // empty when they were not asked for
  bool fits() const { return fit.done && fit.objections.empty(); }
};

// A line of the table of what was found.
struct FoundRow {
  std::string title;
  std::string before;  // empty: not compared
  std::string found;
  std::string interval;
  std::string told;  // whether this batch tells it: a word or two
  std::string why;   // a sentence about it; empty when there is nothing to add
  bool good = true;
};
std::vector<FoundRow> rows_of(const LogAnswer& answer);

// All members belong to the calling thread; only the work itself and `wake` run on the other one.
class OwnFit {
 public:
  // `wake` is called on the other thread when there is something new to draw. It may be empty.
  explicit OwnFit(std::function<void()> wake = {}) : wake_(std::move(wake)) {}
  ~OwnFit() { cancel(); }
  OwnFit(const OwnFit&) = delete;
  OwnFit& operator=(const OwnFit&) = delete;

  // Reads the file and begins. False when nothing was begun: problems() says why, with the place and the way
  // out. What ran before is cancelled.
  bool start(const library::Library& library, const LogQuestion& question);
  void cancel();
  // True when an answer arrived in this call.
  bool poll();
  bool busy() const { return running_.valid(); }
  double progress() const { return busy() ? shared_->share.load() : 0.0; }
  const std::vector<std::string>& problems() const { return problems_; }
  const LogAnswer* answer() const { return answer_ ? &*answer_ : nullptr; }

 private:
  struct Shared {
    std::atomic<bool> cancelled{false};
    std::atomic<double> share{0.0};
  };
  static LogAnswer work_out(const library::Library& library, LogAnswer answer, Shared& shared,
                            const std::function<void()>& wake);

  std::function<void()> wake_;
  std::shared_ptr<Shared> shared_ = std::make_shared<Shared>();
  std::future<LogAnswer> running_;
  std::optional<LogAnswer> answer_;
  std::vector<std::string> problems_;
  std::jthread worker_;
};

// The file of a machine of this site by its id; empty, or why it cannot be kept there.
std::string own_machine_file(const std::string& data_dir, const std::string& id);
// An id made of a title: "Line 2, left" -> "line-2-left".
std::string id_of_title(const std::string& title);
// Writes the fitted machine. Empty, or why not.
std::string keep_own_machine(const library::Library& library, const std::string& data_dir,
                             const std::string& title, const LogAnswer& answer);

}  // namespace stirbench::desk::work
