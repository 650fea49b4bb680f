#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "sim_core/bench/step.h"

// A session: a machine and its state, stepped tick by tick, with the events and the journal text. Used by the
// desk, the command line and the tests alike.
namespace stirbench::bench {

struct SessionHeader {
  std::string machine;     // id
  std::string lesson;      // id or empty
  std::string lesson_hash; // content hash of the lesson, empty without
  std::string mode;        // guided | practice | test | free | actions_file
  std::string program;     // version
  StartSetup start;
  // For a practice run that continues another one: that run's attempt (its uid) and the tick. The other run's
  // inputs up to that tick are in this journal too, so that it replays by itself.
  std::string branch_of;
  std::uint64_t branch_tick = 0;
};

class Session {
 public:
  // `write` receives each journal record (with its newline) as soon as it is complete. It may be empty; the
  // state is then not hashed each second.
  using Write = std::function<void(std::string_view record)>;
  // The machine must outlive the session. Throws std::invalid_argument for an impossible start
  // (initial_state).
  Session(const Machine& machine, SessionHeader header, Write write = {});

  // Queues an action for the beginning of the next tick, in the order of the calls. It is kept in the journal
  // even if the machine refuses it. Throws std::logic_error after end().
  void act(const Action& action);
  // Advances one tick; returns the events of this tick (valid until the next call). No allocation in a tick
  // in which nothing happens. Throws std::logic_error after end().
  const std::vector<Event>& step();
  // Writes the end record (tick, state hash). A second call does nothing; further steps and acts are
  // programmer errors.
  void end();

  const Machine& machine() const { return *machine_; }
  const SessionHeader& header() const { return header_; }
  const State& state() const { return state_; }
  const std::vector<Event>& history() const { return history_; }  // all events so far

 private:
  const Machine* machine_;
  SessionHeader header_;
  Write write_;
  State state_;
  Inputs pending_;
  std::vector<Event> events_;
  std::vector<Event> history_;
  std::uint64_t chain_ = 0;   // hash chain over journal records
  std::uint64_t record_ = 0;
  bool ended_ = false;
  std::string line_;          // reused, so that the record of each second allocates nothing
  std::string body_;

  void put_record();          // body_ -> line_ -> write_
};

}  // namespace stirbench::bench
