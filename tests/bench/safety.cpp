#include <chrono>
#include <cstdio>
#include <cstdlib>

#include "app/library/library.h"
#include "app/library/reading/paths.h"
#include "sim_core/explore/explore.h"
#include "tests/sim_core/bench/random_hands.h"

// Exploration of both machines, and a million random sequences of keys, guards and faults on the running
// bench against it. bench_safety [SEQUENCES]   prints figures; exit 1 when something was broken that
//                                              exploration says holds.
using namespace stirbench;

namespace {

double seconds_since(std::chrono::steady_clock::time_point began) {
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
}

bool run(const machine::Machine& machine, std::uint64_t sequences) {
  const auto began = std::chrono::steady_clock::now();
  const explore::ExplorationResult answer = explore::explore(machine, {});
  std::printf("%s: %llu states, %llu transitions, %s, %.1f s\n", machine.plant.id.c_str(),
              static_cast<unsigned long long>(answer.states),
              static_cast<unsigned long long>(answer.transitions),
              answer.broken == 0 ? "all invariants hold" : "INVARIANTS FALL", seconds_since(began));
  const auto allowed = bench_test::allowed_by_exploration(machine);
  const auto again = std::chrono::steady_clock::now();
  const bench_test::RandomHands hands = bench_test::random_hands(machine, 1, sequences, allowed);
  std::printf("%s: %llu random sequences, %llu actions, %llu ticks, something ran in %llu, %.1f s: %s\n",
              machine.plant.id.c_str(), static_cast<unsigned long long>(hands.sequences),
              static_cast<unsigned long long>(hands.actions), static_cast<unsigned long long>(hands.ticks),
              static_cast<unsigned long long>(hands.runs), seconds_since(again),
              hands.first_wrong.empty() ? "nothing broken that should hold" : hands.first_wrong.c_str());
  return answer.broken == 0 && hands.first_wrong.empty();
}

}  // namespace

int main(int argc, char** argv) {
  const std::uint64_t sequences = argc > 1 ? std::strtoull(argv[1], nullptr, 10) : 500'000;
  const library::LoadResult loaded = library::load(library::content_dir(), "");
  bool good = loaded.problems.empty();
  for (const auto& [id, spec] : loaded.library.machines)
    good = run(loaded.library.machine(id), sequences) && good;
  return good ? 0 : 1;
}
