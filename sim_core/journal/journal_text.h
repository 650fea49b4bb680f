#pragma once

#include <string>
#include <string_view>

#include "sim_core/journal/journal.h"

// The journal's grammar, shared by writer (session.cpp) and reader (journal.cpp).
namespace stirbench::journal {

using machine::StartSetup;

// `{"r":N,"tick":T,"kind":"K"` and then `,"key":value` pairs; close with '}'. Each appends to `out`.
void begin_body(std::string& out, std::uint64_t record, std::uint64_t tick, std::string_view kind);
void put_text(std::string& out, std::string_view key, std::string_view value);
void put_integer(std::string& out, std::string_view key, std::uint64_t value);
void put_number(std::string& out, std::string_view key, double value);
void put_boolean(std::string& out, std::string_view key, bool value);

void put_header(std::string& out, const Machine& machine, const SessionHeader& header);
void put_load(std::string& out, const StartSetup::Load& load);
void put_fault(std::string& out, const StartSetup::Fault& fault);
void put_act(std::string& out, const hands::Action& action);

// Reads what the functions above wrote, in the same order. The first thing that is not as expected sets
// `fault` ("expected ..., found ..."); all later reads then return nothing.
class BodyReader {
 public:
  explicit BodyReader(std::string_view body) : rest_(body) {}
  void begin(std::uint64_t& record, std::uint64_t& tick, std::string& kind);
  std::string text(std::string_view key);
  std::uint64_t integer(std::string_view key);
  double number(std::string_view
                    key);  // not checked for range: the machine refuses what it cannot do, also in a replay
  bool boolean(std::string_view key);
  std::uint64_t hex64(std::string_view key);
  bool next_is(std::string_view key) const;  // whether the next pair has this key
  std::string_view next_key() const;         // key of the next pair, empty when there is none
  void close();                              // '}' and nothing after it
  void refuse(std::string_view expected, std::string_view found);

  const std::string& fault() const { return fault_; }
  bool good() const { return fault_.empty(); }

 private:
  bool take(std::string_view expected);
  bool take_key(std::string_view key);
  bool take_escape(std::string& value);
  std::string_view take_token();  // up to ',' or '}'

  std::string_view rest_;
  std::string fault_;
};

}  // namespace stirbench::journal
