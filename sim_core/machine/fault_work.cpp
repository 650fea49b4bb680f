#include "sim_core/machine/fault_work.h"

// The words of trades, tools, functions of the multimeter and precautions.
namespace stirbench::machine {

namespace {

namespace w = electrics;
using std::string_view;

constexpr std::array<string_view, static_cast<std::size_t>(Instrument::count)> tool_names{
    "none", "multimeter", "clamp_meter", "insulation_tester", "gauge_set", "contact_thermometer"};
constexpr std::array<string_view, static_cast<std::size_t>(w::MeterFunction::count)> function_names{
    "V~", "V=", "Ohm", "continuity"};
struct LapseWords {
  string_view key;
  string_view words;
};
constexpr std::array<LapseWords, lapse_count> lapse_table{{
    {"no_lock",
     "Hands were in the open panel with no own padlock on the isolator: anybody could have switched it on."},
    {"not_proved",
     "Work in the panel began without having proved it dead: meter on a known source, terminals, known "
     "source again."},
    {"live_unlicensed",
     "Live parts were measured without the licence for it. Isolate, or call a licensed electrician."},
    {"live_unprotected", "Live parts were measured with eyes or face uncovered: one slip is an arc."},
    {"ohms_live",
     "Resistance or insulation was measured on a live circuit. Isolate and prove it dead first."},
    {"electronics",
     "The test voltage reached the controller or a sensor and destroyed it. Take its wires off first."},
}};

}  // namespace

string_view instrument_word(Instrument tool) { return tool_names[static_cast<std::size_t>(tool)]; }
string_view lapse_word(Lapse lapse) { return lapse_table[static_cast<std::size_t>(lapse)].key; }
string_view lapse_words(Lapse lapse) { return lapse_table[static_cast<std::size_t>(lapse)].words; }
std::span<const string_view> instrument_words() { return tool_names; }
std::span<const string_view> meter_functions() { return function_names; }

}  // namespace stirbench::machine
