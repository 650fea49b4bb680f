#pragma once

#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "sim_core/bench/step.h"

// A session: one machine, one state, stepped; its journal text; its events. Used by the desk, the command line and the tests alike.
namespace stirbench::bench {

struct SessionHeader {
  std::string machine;     // id
  std::string lesson;      // id or empty
  std::string lesson_hash; // content hash of the lesson, empty without
  std::string mode;        // guided | practice | test | free
  std::string program;     // version
  StartSetup start;
};

class Session {
 public:
  // `write` receives each finished journal record (with its newline) as soon as it exists; may be empty.
  using Write = std::function<void(std::string_view record)>;
  Session(const Machine& machine, SessionHeader header, Write write = {});

  // Hands: done at the beginning of the next tick.
  void act(const Action& action);
  // Advances one tick; returns the events of this tick (valid until the next call).
  const std::vector<Event>& step();
  // Writes the end record (tick, state hash). Further steps are programmer errors.
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
  void put_record(const std::string& body);
};

}  // namespace stirbench::bench
