#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "sim_core/bench/run.h"

// A session: a run with its journal and the events so far. Used by the desk, the command line and the tests
// alike.
namespace stirbench::journal {

using machine::Event;
using machine::Machine;
using machine::State;

struct SessionHeader {
  std::string machine;      // id
  std::string lesson;       // id or empty
  std::string lesson_hash;  // content hash of the lesson, empty without
  std::string mode;         // guided | practice | test | free | actions_file | follower
  std::string program;      // version
  machine::StartSetup start;
  // For a practice run that continues another one: that run's attempt (its uid) and the tick. The other run's
  // inputs up to that tick are in this journal too, so that it replays by itself.
  std::string branch_of;
  std::uint64_t branch_tick = 0;
};

// Writes a journal's records (journal.h) as they come about.
class JournalWriter {
 public:
  // Receives each finished record (with its newline) as soon as it exists; may be empty: nothing is written,
  // nothing hashed.
  using Write = std::function<void(std::string_view record)>;
  explicit JournalWriter(Write write);

  void begin(const Machine& machine, const SessionHeader& header);  // header, loads, faults
  void act(const State& state, const hands::Action& action);
  void see(const State& state);  // after each tick: the hash of each second
  void end(const State& state);

 private:
  void put_hash(const State& state, std::string_view kind);
  void put_record();  // body_ -> line_ -> write_

  Write write_;
  std::uint64_t chain_;  // hash chain over the records
  std::uint64_t record_ = 0;
  std::string line_;  // reused, so that the record of each second allocates nothing
  std::string body_;
};

class Session {
 public:
  using Write = JournalWriter::Write;
  // `write` as of JournalWriter. The machine must outlive the session. Throws std::invalid_argument on a
  // start that the machine cannot have (initial_state).
  Session(const Machine& machine, SessionHeader header, Write write = {});

  // Queues an action for the beginning of the next tick, in the order of the calls. It is kept in the journal
  // even if the machine refuses it. Throws std::logic_error after end(), and for an action that no hand does.
  void act(const hands::Action& action);
  // Advances one tick; returns the events of this tick (valid until the next call). No allocation in a tick
  // in which nothing happens. Throws std::logic_error after end().
  const std::vector<Event>& step();
  // Writes the end record (tick, state hash). A second call does nothing; further steps and acts are
  // programmer errors.
  void end();

  const Machine& machine() const { return run_.machine(); }
  const SessionHeader& header() const { return header_; }
  const State& state() const { return run_.state(); }
  const std::vector<Event>& history() const { return history_; }  // all events so far

 private:
  SessionHeader header_;
  bench::Run run_;
  JournalWriter journal_;
  std::vector<Event> history_;
  bool ended_ = false;
};

}  // namespace stirbench::journal
