#include "sim_core/journal/journal.h"

#include <charconv>

#include "sim_core/bytes/hash64.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/hands/part_states.h"
#include "sim_core/journal/journal_text.h"

// The strict reader. Writer: session.cpp; running again: replay.cpp.
namespace stirbench::journal {

using machine::Scenario;

namespace {

constexpr std::size_t chain_digits = 16;
constexpr std::string_view chain_mark = " #";
constexpr int first_format_with_water_degC = 6;

std::string formats_read() {
  return std::to_string(oldest_journal_format) + " to " + std::to_string(journal_format);
}

bool is_read(std::uint64_t format) {
  return format >= static_cast<std::uint64_t>(oldest_journal_format) &&
         format <= static_cast<std::uint64_t>(journal_format);
}

std::string format_fault(std::uint64_t format) {
  return "expected journal format " + formats_read() + ", found format " + std::to_string(format);
}

// Reads one journal line by line; every check that fails leaves its message in fault().
class Reader {
 public:
  Reader(std::string_view text, Journal& journal) : rest_(text), journal_(journal) {}

  JournalProblem read() {
    journal_ = {};
    if (rest_.empty()) return {"the journal is empty", 0};
    while (!rest_.empty() && fault_.empty()) read_line();
    if (fault_.empty() && !journal_.ended) {
      fault_ = record_ == 0 ? "cut off before the first record is complete"
                            : "cut off after record " + std::to_string(record_ - 1) + " at tick " +
                                  std::to_string(tick_);
      return {fault_, record_};
    }
    return {fault_.empty() ? "" : place() + fault_, record_};
  }

 private:
  // Records are counted from 0, lines from 1, as editors do.
  std::string place() const {
    return "record " + std::to_string(record_) + ", line " + std::to_string(record_ + 1) + ": ";
  }

  void read_line() {
    if (journal_.ended) {
      fault_ = "expected nothing after the end record, found " + std::to_string(rest_.size()) + " more bytes";
      return;
    }
    const std::size_t newline = rest_.find('\n');
    if (newline == std::string_view::npos) {
      // A record that was being written when the program died. What is before it is good.
      rest_ = {};
      return;
    }
    const std::string_view line = rest_.substr(0, newline);
    rest_.remove_prefix(newline + 1);
    const std::string_view body = checked_body(line);
    if (!fault_.empty()) return;
    read_body(body);
    if (!fault_.empty()) return;
    ++record_;
  }

  // The line without its chain, after the chain was found right.
  std::string_view checked_body(std::string_view line) {
    const std::size_t tail = chain_mark.size() + chain_digits;
    if (line.size() < tail || line.substr(line.size() - tail, chain_mark.size()) != chain_mark) {
      fault_ = "expected a record that closes with \" #\" and 16 digits, found none";
      return {};
    }
    const std::string_view body = line.substr(0, line.size() - tail);
    const std::uint64_t chain = bytes::fnv1a(body, chain_);
    std::string expected;
    bytes::append_hex64(expected, chain);
    const std::string_view found = line.substr(line.size() - chain_digits);
    if (found != expected && !other_format(body)) {
      fault_ =
          "this record or its checksum was changed: expected checksum " + expected + ", found other digits";
    }
    chain_ = chain;
    return body;
  }

  // A header of another format is named as such, whatever its checksum means there.
  bool other_format(std::string_view body) {
    if (record_ != 0) return false;
    BodyReader reader(body);
    std::uint64_t record = 0, tick = 0;
    std::string kind;
    reader.begin(record, tick, kind);
    const std::uint64_t format = reader.integer("format");
    if (!reader.good() || kind != "header" || is_read(format)) return false;
    fault_ = format_fault(format);
    return true;
  }

  void read_body(std::string_view body) {
    BodyReader reader(body);
    std::uint64_t record = 0, tick = 0;
    std::string kind;
    reader.begin(record, tick, kind);
    if (reader.good() && record != record_) {
      reader.refuse("record number " + std::to_string(record_), std::to_string(record));
    }
    if (reader.good() && tick < tick_) {
      reader.refuse("a tick not before " + std::to_string(tick_), std::to_string(tick));
    }
    if (reader.good()) read_kind(reader, kind, tick);
    if (!reader.good()) {
      fault_ = reader.fault();
      return;
    }
    tick_ = tick;
  }

  void read_kind(BodyReader& reader, std::string_view kind, std::uint64_t tick) {
    // Header, then the loads and the faults that it announced.
    const std::string_view wanted = record_ == 0                  ? "header"
                                    : record_ <= loads_           ? "load"
                                    : record_ <= loads_ + faults_ ? "fault"
                                                                  : "act, hash or end";
    const bool early = record_ <= loads_ + faults_;
    if ((early && kind != wanted) || (!early && (kind == "header" || kind == "load" || kind == "fault"))) {
      reader.refuse("a record of kind " + std::string(wanted), kind);
      return;
    }
    if (kind == "header")
      read_header(reader, tick);
    else if (kind == "load")
      read_load(reader);
    else if (kind == "fault")
      read_fault(reader);
    else if (kind == "act")
      read_act(reader, tick);
    else if (kind == "hash")
      read_hash(reader, tick);
    else if (kind == "end")
      read_end(reader, tick);
    else
      reader.refuse("a record of kind act, hash or end", kind);
  }

  void read_header(BodyReader& reader, std::uint64_t tick) {
    if (tick != 0) reader.refuse("tick 0 in the header", std::to_string(tick));
    const std::uint64_t format = reader.integer("format");
    if (reader.good() && !is_read(format)) {
      fault_ = format_fault(format);
      reader.refuse("journal format " + formats_read(), std::to_string(format));
    }
    SessionHeader header;
    header.program = reader.text("program");
    const std::string content = reader.text("content");
    header.machine = reader.text("machine");
    header.lesson = reader.text("lesson");
    header.lesson_hash = reader.text("lesson_hash");
    header.mode = reader.text("mode");
    const std::uint64_t tick_ms = reader.integer("tick_ms");
    if (reader.good() && tick_ms != 1000 / machine::ticks_per_second)
      reader.refuse("tick_ms 100", std::to_string(tick_ms));
    header.start.seed = reader.integer("seed");
    header.start.environment.ambient_degC = reader.number("ambient_degC");
    header.start.environment.humidity_norm = reader.number("humidity_norm");
    header.start.environment.supply_norm = reader.number("supply_norm");
    if (format >= 2) header.start.environment.frequency_Hz = reader.number("frequency_Hz");
    Scenario& situation = header.start.situation;
    if (reader.next_is("second_person_s")) situation.second_person_s = reader.number("second_person_s");
    if (reader.next_is("colleague_work_s")) situation.colleague_work_s = reader.number("colleague_work_s");
    if (reader.next_is("isolator_pole_stuck"))
      situation.isolator_pole_stuck = reader.boolean("isolator_pole_stuck");
    if (reader.next_is("meter_broken")) situation.meter_broken = reader.boolean("meter_broken");
    if (reader.next_is("power_cut_at_s")) situation.power_cut_at_s = reader.number("power_cut_at_s");
    if (reader.next_is("power_cut_for_s")) situation.power_cut_for_s = reader.number("power_cut_for_s");
    if (reader.next_is("trade")) read_trade(reader, situation);
    if (reader.next_is("plan_min")) situation.plan_min = reader.number("plan_min");
    if (reader.next_is("parts") && !hands::read_parts(reader.text("parts"), header.start.parts))
      reader.refuse("parts as place:state, ...", "something else");
    const std::uint64_t faults = reader.next_is("faults") ? reader.integer("faults") : 0;
    if (reader.next_is("branch_of")) {
      header.branch_of = reader.text("branch_of");
      header.branch_tick = reader.integer("branch_tick");
    }
    header.start.recipe = reader.text("recipe");
    const std::uint64_t loads = reader.integer("loads");
    reader.close();
    if (!reader.good()) return;
    loads_ = loads;
    faults_ = faults;
    journal_.format = static_cast<int>(format);
    journal_.header = std::move(header);
    journal_.content_hash = content;
  }

  void read_trade(BodyReader& reader, Scenario& situation) {
    if (const auto trade = faults::who_named(reader.text("trade")))
      situation.trade = *trade;
    else if (reader.good())
      reader.refuse("a known trade", "another word");
  }

  void read_load(BodyReader& reader) {
    StartSetup::Load load;
    load.ingredient = reader.text("ingredient");
    load.kg = reader.number("kg");
    load.degC = reader.number("degC");
    reader.close();
    if (reader.good()) journal_.header.start.loaded.push_back(std::move(load));
  }

  void read_fault(BodyReader& reader) {
    StartSetup::Fault fault;
    fault.id = reader.text("id");
    fault.severity = reader.number("severity");
    reader.close();
    if (reader.good()) journal_.header.start.faults.push_back(std::move(fault));
  }

  void read_act(BodyReader& reader, std::uint64_t tick) {
    if (tick >= next_hash_tick()) {
      reader.refuse("the hash of tick " + std::to_string(next_hash_tick()),
                    "an act of tick " + std::to_string(tick));
      return;
    }
    const std::string name = reader.text("do");
    const hands::Hand* hand = reader.good() ? hands::find(name) : nullptr;
    if (hand == nullptr) {
      reader.refuse("a known action", name);
      return;
    }
    hands::Action action(*hand);
    for (const hands::Parameter* parameter : hand->takes()) {
      if (parameter->required || reader.next_is(parameter->name)) read_parameter(reader, *parameter, action);
    }
    if (reader.good() && !reader.next_key().empty()) {
      fault_ = "expected only keys that " + name +
               " takes, found one more: " + hands::unknown_parameter(*hand, reader.next_key());
      return;
    }
    reader.close();
    if (reader.good()) journal_.acts.push_back({tick, std::move(action)});
  }

  void read_parameter(BodyReader& reader, const hands::Parameter& parameter, hands::Action& action) {
    switch (parameter.type) {
      case hands::Type::number: {
        const double value = reader.number(parameter.name);
        // Up to format 5 the water's kilograms were written twice, and it was poured at 15 degC whatever
        // stood there.
        if (journal_.format >= first_format_with_water_degC || !action.is(hands::freezer_water) ||
            parameter.required)
          action.set(parameter, value);
        return;
      }
      case hands::Type::text: return action.set(parameter, reader.text(parameter.name));
      case hands::Type::flag: return action.set(parameter, reader.boolean(parameter.name));
    }
  }

  // Each second has its hash, so a replay's length is bounded by the text's.
  std::uint64_t next_hash_tick() const { return (journal_.hashes.size() + 1) * machine::ticks_per_second; }

  void read_hash(BodyReader& reader, std::uint64_t tick) {
    if (tick != next_hash_tick()) {
      reader.refuse("the hash of tick " + std::to_string(next_hash_tick()),
                    "that of tick " + std::to_string(tick));
    }
    const std::uint64_t hash = reader.hex64("hash");
    reader.close();
    if (reader.good()) journal_.hashes.push_back({tick, hash});
  }

  void read_end(BodyReader& reader, std::uint64_t tick) {
    if (tick >= next_hash_tick()) {
      reader.refuse("the hash of tick " + std::to_string(next_hash_tick()),
                    "the end at tick " + std::to_string(tick));
    }
    const std::uint64_t hash = reader.hex64("hash");
    reader.close();
    if (!reader.good()) return;
    journal_.ended = true;
    journal_.end_tick = tick;
    journal_.end_hash = hash;
  }

  std::string_view rest_;
  Journal& journal_;
  std::string fault_;
  std::uint64_t chain_ = bytes::fnv_basis;
  std::uint64_t record_ = 0;  // number of the record being read
  std::uint64_t tick_ = 0;    // of the last good record
  std::uint64_t loads_ = 0;
  std::uint64_t faults_ = 0;
};

}  // namespace

JournalProblem read_journal(std::string_view text, Journal& journal) { return Reader(text, journal).read(); }

}  // namespace stirbench::journal
