#include "sim_core/training/condition_words.h"

#include "sim_core/machine/number_words.h"

namespace stirbench::training {

namespace {

std::string joined_parts(const Condition& c, const char* between) {
  std::string out;
  for (const Condition& part : c.parts) out += (out.empty() ? "" : between) + words_of(part);
  return c.parts.size() > 1 ? "(" + out + ")" : out;
}

std::string comparison(const Condition& c, const char* words) {
  return std::string(c.signal->name) + words + machine::plain_number(c.number);
}

const char* comparison_words(Op op) {
  switch (op) {
    case Op::at_least: return " at least ";
    case Op::above: return " above ";
    case Op::below: return " below ";
    default: return " at most ";
  }
}

}  // namespace

std::string words_of(const Condition& c) {
  switch (c.op) {
    case Op::at_least:
    case Op::at_most:
    case Op::above:
    case Op::below: return comparison(c, comparison_words(c.op));
    case Op::grounds: return c.text + comparison_words(c.compare) + machine::plain_number(c.number);
    case Op::is_flag: return std::string(c.signal->name) + (c.flag ? " is yes" : " is no");
    case Op::is_text: return std::string(c.signal->name) + " is " + (c.text.empty() ? "none" : c.text);
    case Op::event:
      return std::string(machine::event_name(c.event)) + (c.text.empty() ? "" : " " + c.text) +
             (c.of.empty() ? "" : " of " + c.of);
    case Op::row_met: return "heat treatment " + c.text + " is met";
    case Op::cooling_is: return "cooling " + c.text + " is " + c.of;
    case Op::all: return joined_parts(c, " and ");
    case Op::any: return joined_parts(c, " or ");
    case Op::negate: return c.parts.empty() ? "never" : "not " + words_of(c.parts.front());
  }
  return {};
}

}  // namespace stirbench::training
