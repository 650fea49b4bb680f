#include "sim_core/bench/session.h"

#include <stdexcept>
#include <utility>

#include "sim_core/bench/journal_text.h"
#include "sim_core/bytes/hash64.h"

namespace stirbench::bench {

Session::Session(const Machine& machine, SessionHeader header, Write write)
    : machine_(&machine),
      header_(std::move(header)),
      write_(std::move(write)),
      state_(initial_state(machine, header_.start)),
      chain_(bytes::fnv_basis) {
  pending_.actions.reserve(8);
  events_.reserve(32);
  line_.reserve(512);
  body_.reserve(512);
  if (!write_) return;
  begin_body(body_, record_, state_.tick, "header");
  put_header(body_, machine, header_);
  put_record();
  for (const StartSetup::Load& load : header_.start.loaded) {
    begin_body(body_, record_, state_.tick, "load");
    put_load(body_, load);
    put_record();
  }
  for (const StartSetup::Fault& fault : header_.start.faults) {
    begin_body(body_, record_, state_.tick, "fault");
    put_fault(body_, fault);
    put_record();
  }
}

void Session::put_record() {
  body_ += '}';
  chain_ = bytes::fnv1a(body_, chain_);
  line_ = body_;
  line_ += " #";
  bytes::append_hex64(line_, chain_);
  line_ += '\n';
  ++record_;
  write_(line_);
}

void Session::act(const Action& action) {
  if (ended_) throw std::logic_error("Session::act after end");
  pending_.actions.push_back(action);
  if (!write_) return;
  begin_body(body_, record_, state_.tick, "act");
  put_act(body_, action);
  put_record();
}

const std::vector<Event>& Session::step() {
  if (ended_) throw std::logic_error("Session::step after end");
  events_.clear();
  bench::step(*machine_, state_, pending_, events_);
  pending_.actions.clear();
  if (!events_.empty()) history_.insert(history_.end(), events_.begin(), events_.end());
  if (write_ && state_.tick % ticks_per_second == 0) {
    begin_body(body_, record_, state_.tick, "hash");
    body_ += ",\"hash\":\"";
    bytes::append_hex64(body_, state_hash(state_));
    body_ += '"';
    put_record();
  }
  return events_;
}

void Session::end() {
  if (ended_) return;
  ended_ = true;
  if (!write_) return;
  begin_body(body_, record_, state_.tick, "end");
  body_ += ",\"hash\":\"";
  bytes::append_hex64(body_, state_hash(state_));
  body_ += '"';
  put_record();
}

}  // namespace stirbench::bench
