#include "sim_core/journal/session.h"

#include <stdexcept>
#include <utility>

#include "sim_core/bytes/hash64.h"
#include "sim_core/journal/journal_text.h"

namespace stirbench::journal {

JournalWriter::JournalWriter(Write write) : write_(std::move(write)), chain_(bytes::fnv_basis) {
  line_.reserve(512);
  body_.reserve(512);
}

void JournalWriter::begin(const Machine& machine, const SessionHeader& header) {
  if (!write_) return;
  begin_body(body_, record_, 0, "header");
  put_header(body_, machine, header);
  put_record();
  for (const StartSetup::Load& load : header.start.loaded) {
    begin_body(body_, record_, 0, "load");
    put_load(body_, load);
    put_record();
  }
  for (const StartSetup::Fault& fault : header.start.faults) {
    begin_body(body_, record_, 0, "fault");
    put_fault(body_, fault);
    put_record();
  }
}

void JournalWriter::act(const State& state, const hands::Action& action) {
  if (!write_) return;
  begin_body(body_, record_, state.tick, "act");
  put_act(body_, action);
  put_record();
}

void JournalWriter::see(const State& state) {
  if (write_ && state.tick % machine::ticks_per_second == 0) put_hash(state, "hash");
}

void JournalWriter::end(const State& state) {
  if (write_) put_hash(state, "end");
}

void JournalWriter::put_hash(const State& state, std::string_view kind) {
  begin_body(body_, record_, state.tick, kind);
  body_ += ",\"hash\":\"";
  bytes::append_hex64(body_, machine::state_hash(state));
  body_ += '"';
  put_record();
}

void JournalWriter::put_record() {
  body_ += '}';
  chain_ = bytes::fnv1a(body_, chain_);
  line_ = body_;
  line_ += " #";
  bytes::append_hex64(line_, chain_);
  line_ += '\n';
  ++record_;
  write_(line_);
}

Session::Session(const Machine& machine, SessionHeader header, Write write)
    : header_(std::move(header)),
      run_(machine, bench::initial_state(machine, header_.start)),
      journal_(std::move(write)) {
  journal_.begin(machine, header_);
}

void Session::act(const hands::Action& action) {
  if (ended_) throw std::logic_error("Session::act after end");
  if (action.hand() == nullptr) throw std::logic_error("Session::act without a hand");
  run_.act(action);
  journal_.act(run_.state(), action);
}

const std::vector<Event>& Session::step() {
  if (ended_) throw std::logic_error("Session::step after end");
  const std::vector<Event>& events = run_.step();
  if (!events.empty()) history_.insert(history_.end(), events.begin(), events.end());
  journal_.see(run_.state());
  return events;
}

void Session::end() {
  if (ended_) return;
  ended_ = true;
  journal_.end(run_.state());
}

}  // namespace stirbench::journal
