#pragma once

#include <cstdint>
#include <span>

// How deep hot liquid and hot surfaces burn, from published time-temperature tables. For teaching; not
// medical advice.
//
// Wet skin: time to a partial-thickness and a full-thickness burn at a skin surface temperature (Moritz &
// Henriques 1947 series, secondary table, 45 .. 60 degC), extended to 68 degC by another secondary table
// (serious burn: 63 degC < 3 s, 66 degC about 1.5 s, 68 degC about 1 s; used for both depths). Between rows
// the logarithm of the time is linear in temperature (choice). Below 44 degC skin heals as fast as it is
// damaged (Henriques & Moritz); above 68 degC contact counts as an instant injury.
//
// Touched surfaces: burn thresholds (ISO 13732-1 and ECMA-287 as rated in the project's reference table):
// bare metal 65 degC 1 s, 55 degC 10 s (ECMA-287), 51 degC 1 min, 48 degC 10 min, 43 degC 8 h (ISO 13732-1,
// from memory); other than metal 85 degC 1 s, 65 degC 10 s. For longer contact all materials share the same
// rows. A threshold says that a burn begins, not how deep it goes.
namespace stirbench::product {

enum class BurnSeverity : std::uint8_t { none, partial, full };
enum class Surface : std::uint8_t { bare_metal, other };

struct BurnRow {
  double degC = 0.0;
  double partial_s = 0.0;
  double full_s = 0.0;
};
struct TouchRow {
  double degC = 0.0;
  double threshold_s = 0.0;
};

std::span<const BurnRow> burn_rows();  // ascending in temperature
std::span<const TouchRow> touch_rows(Surface surface);

// Time until wet skin is burned to that depth [s]; infinity below the first row or for `none`, 0 above the
// last.
double burn_time_s(double degC, BurnSeverity depth);

// Worst burn that a contact of this length leaves; none for NaN or no contact.
BurnSeverity burn_severity(double degC, double contact_s);

// Contact from which a touched surface burns [s]; infinity below the first row, 0 above the last.
double touch_time_s(Surface surface, double degC);
bool touch_burns(Surface surface, double degC, double contact_s);

// Damage integral of Henriques & Moritz 1947 for the basal layer at a constant temperature: 1 means a
// partial-thickness burn. A = 3.1e98 1/s, E/R = 75,000 K (150,000 cal/mol with R = 2 cal/(mol K), as
// printed); nothing below 44 degC. The independent method that tests compare the table with. Valid at 45 ..
// 51 degC only: above, conduction in the skin dominates.
double basal_damage(double degC, double contact_s);

}  // namespace stirbench::product
