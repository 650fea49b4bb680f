#include "app/library/instruments.h"

#include "sim_core/diagnosis/part_reader.h"

namespace stirbench::library {

std::unique_ptr<diagnosis::InstrumentReader> instruments_of(const Library& library, const std::string& machine) {
  return std::make_unique<diagnosis::PartReader>(library.machine(machine));
}

}  // namespace stirbench::library
