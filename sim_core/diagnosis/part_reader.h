#pragma once

#include "sim_core/diagnosis/broken_machine.h"

// What one finds by taking a part out and looking, or by comparing it with its plate: signals "part:NAME" that compare a broken
// machine's model with the good one's.
namespace stirbench::diagnosis {

class PartReader : public InstrumentReader {
 public:
  explicit PartReader(bench::Machine good) : good_(std::move(good)) {}
  bool knows(std::string_view signal) const override;
  double read(const bench::Machine& machine, const bench::State& state, std::string_view signal) const override;

 private:
  bench::Machine good_;
};

}  // namespace stirbench::diagnosis
