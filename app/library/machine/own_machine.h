#pragma once

#include <string>

#include "app/library/library.h"

// Machines of the site's own: OWN_DIR/machines/ID.json says of which shipped machine one is made and what was
// found to be otherwise. All else (circuit, body, drawings, controller) is the shipped machine's.
namespace stirbench::library {

// A number below 0: as in the machine that it is made of.
struct OwnMachine {
  std::string id;
  std::string title;
  std::string of;    // id of the shipped machine
  std::string note;  // from which log, when, how sure
  double element_W_each = -1.0;
  double vat_loss_W_per_K = -1.0;
  double well_loss_W_per_K = -1.0;
  double compressor_swept_m3_per_h = -1.0;
  double condenser_W_per_K = -1.0;
  double probe_tau_s = -1.0;
};

// The machine itself; `shipped` is the one that it is made of.
plant::MachineSpec made_of(const OwnMachine& own, const plant::MachineSpec& shipped);
// What of `fitted` differs from `shipped`, as such a file.
OwnMachine difference(const plant::MachineSpec& fitted, const plant::MachineSpec& shipped);

// JSON text; byte-stable.
std::string own_machine_text(const OwnMachine& own);
// Writes the file so that it is either whole or not there, after the strict reader has taken it. Empty, or
// why not: an id that is no slug, is a shipped machine's or is not the file's name.
std::string save_own_machine(const Library& library, const OwnMachine& own, const std::string& file);
// Empty, or why save_own_machine would refuse this id and file, as far as that can be said before there is a
// machine; writes nothing.
std::string why_not_kept(const Library& library, const std::string& id, const std::string& file);

}  // namespace stirbench::library
