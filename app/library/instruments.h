#pragma once

#include <memory>
#include <string>

#include "app/library/library.h"
#include "sim_core/diagnosis/broken_machine.h"

// Instruments that a guide's readings may name beside the bench's signals, on this machine's circuit.
namespace stirbench::library {

// nullptr when the machine has none.
std::unique_ptr<diagnosis::InstrumentReader> instruments_of(const Library& library, const std::string& machine);

}  // namespace stirbench::library
