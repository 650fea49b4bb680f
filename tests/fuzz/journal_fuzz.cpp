#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "sim_core/bytes/hash64.h"
#include "sim_core/journal/journal.h"
#include "sim_core/journal/journal_text.h"
#include "tests/support/replay/fuzz_target.h"

using namespace stirbench::bench;
using namespace stirbench::journal;

namespace {

// The chain would stop nearly every changed byte at the door. So that the records behind it are reached too,
// each line gets the chain that belongs to it.
std::string rechained(std::string_view text, bool has_chain) {
  std::string out;
  std::uint64_t chain = stirbench::bytes::fnv_basis;
  while (!text.empty()) {
    const std::string_view line = text.substr(0, text.find('\n'));
    text.remove_prefix(line.size() < text.size() ? line.size() + 1 : line.size());
    const std::string_view body = has_chain ? line.substr(0, line.rfind(" #")) : line;
    chain = stirbench::bytes::fnv1a(body, chain);
    out += body;
    out += " #";
    stirbench::bytes::append_hex64(out, chain);
    out += '\n';
  }
  return out;
}

// One record's own text, written again from what was read.
std::string written_again(const Journal& journal) {
  std::string out;
  std::string body;
  std::uint64_t record = 0;
  const auto line = [&] { out += body + "}\n"; };
  stirbench::machine::Machine machine;
  machine.content_hash = journal.content_hash;
  begin_body(body, record++, 0, "header");
  put_header(body, machine, journal.header);
  line();
  for (const auto& load : journal.header.start.loaded) {
    begin_body(body, record++, 0, "load");
    put_load(body, load);
    line();
  }
  std::size_t hash = 0;
  const auto hash_line = [&](std::uint64_t tick, std::string_view kind, std::uint64_t value) {
    begin_body(body, record++, tick, kind);
    body += ",\"hash\":\"";
    stirbench::bytes::append_hex64(body, value);
    body += '"';
    line();
  };
  for (const JournalAct& act : journal.acts) {
    for (; hash < journal.hashes.size() && journal.hashes[hash].tick <= act.tick; ++hash)
      hash_line(journal.hashes[hash].tick, "hash", journal.hashes[hash].hash);
    begin_body(body, record++, act.tick, "act");
    put_act(body, act.action);
    line();
  }
  for (; hash < journal.hashes.size(); ++hash)
    hash_line(journal.hashes[hash].tick, "hash", journal.hashes[hash].hash);
  hash_line(journal.end_tick, "end", journal.end_hash);
  return rechained(out, false);
}

void must(bool good) {
  if (!good) std::abort();
}

}  // namespace

// A journal that is accepted must come out of the writer in a form that is accepted again and says the same.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  Journal journal;
  (void)read_journal(text, journal);
  const std::string fixed = rechained(text, true);
  if (!read_journal(fixed, journal).message.empty()) return 0;
  Journal again;
  const std::string once = written_again(journal);
  must(read_journal(once, again).message.empty());
  must(written_again(again) == once);
  must(again.acts.size() == journal.acts.size() && again.end_hash == journal.end_hash);
  return 0;
}
