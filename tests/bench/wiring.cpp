#include <chrono>
#include <cstdio>
#include <vector>

#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "sim_core/electrics/solve.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/plant.h"

// Both machines' circuits solved for every combination of their switches, with and without supply, from every
// way in which contactors and controller may have been left, each answer compared with
// electrics::switching_chain. Prints the counts; exit 1 when one differs.
using namespace stirbench;
namespace w = stirbench::electrics;

namespace {

// Parts with a memory: contactors and controller.
std::vector<unsigned> relays_of(const w::Network& network) {
  std::vector<unsigned> relays;
  for (unsigned i = 0; i < network.parts.size(); ++i) {
    const w::CircuitPartKind kind = network.parts[i].kind;
    if (kind == w::CircuitPartKind::contactor || kind == w::CircuitPartKind::controller) relays.push_back(i);
  }
  return relays;
}

struct Counts {
  unsigned long long solved = 0, different = 0;
};

Counts compare(const plant::MachineSpec& spec) {
  const std::vector<unsigned> relays = relays_of(spec.circuit);
  w::CircuitInputs now = plant::circuit_inputs(spec, plant::initial_state(spec, {}), {});
  Counts counts;
  for (const double supply_norm : {1.0, 0.0}) {
    now.supply_norm = supply_norm;
    for (std::uint32_t bits = 0; bits < w::switch_combinations; ++bits) {
      now.switches.bits = bits;
      const w::Switched chain = w::switching_chain(now.switches, supply_norm > 0.0);
      for (std::uint32_t start = 0; start < std::uint32_t{1} << relays.size(); ++start) {
        w::Switchgear gear;
        for (std::size_t i = 0; i < relays.size(); ++i)
          gear.pulled_in |= std::uint64_t{start >> i & 1U} << relays[i];
        const w::CircuitOutputs supplied = w::settle_relays(spec.circuit, now, gear);
        ++counts.solved;
        counts.different += supplied.settled && gear.tripped == 0 && w::switched(supplied) == chain ? 0U : 1U;
      }
    }
  }
  return counts;
}

}  // namespace

int main() {
  const library::LoadResult loaded = library::load(library::content_dir(), "");
  bool same = loaded.problems.empty();
  for (const auto& [id, spec] : loaded.library.machines) {
    const auto began = std::chrono::steady_clock::now();
    const Counts counts = compare(spec);
    const double s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    std::printf(
        "%s: %llu combinations of switches, supply and relays' starts solved, %llu differ from the chain, "
        "%.0f s\n",
        id.c_str(), counts.solved, counts.different, s);
    same = same && counts.different == 0;
  }
  return same ? 0 : 1;
}
