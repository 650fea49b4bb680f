#include <algorithm>

#include "sim_core/plant/hose.h"
#include "sim_core/plant/upkeep/cleaning.h"
#include "sim_core/plant/upkeep/service.h"
#include "sim_core/signals/signals.h"
#include "sim_core/signals/signals_internal.h"

// Readings of the transfer hose, of washing and of wear service.
namespace stirbench::signals {

namespace {

using product::Component;

double share(double kg, S s) {
  const double all_kg = s.plant.product.total_kg();
  return all_kg > 0.0 ? kg / all_kg : 0.0;
}

template <Component component>
double mg_per_kg(M, S s) {
  return 1.0e6 * share(s.plant.product.mass_kg[component], s);
}

double line_hours(M m, S s, std::string_view key) {
  for (const plant::ServiceLine& line : plant::service_forecast(m.plant, s.plant))
    if (line.key == key) return line.hours_left;
  return 0.0;
}

template <plant::PartId part>
double hours_left(M m, S s) {
  return line_hours(m, s, plant::part_key(part));
}

std::string_view route_words(M, S s) {
  constexpr std::string_view words[] = {"straight", "kinked", "high"};
  return words[static_cast<std::size_t>(s.plant.line.route)];
}

void add_hose(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      flag("hose_clamped", "the hose is on and its clamp is shut",
           [](M, S s) {
             return s.plant.fittings.hose != plant::HoseEnd::none && s.plant.line.clamped ? 1.0 : 0.0;
           }),
      flag("hose_gasket_in", "the hose's joint has its gasket",
           [](M, S s) { return s.plant.line.gasket ? 1.0 : 0.0; }),
      flag("hose_jumped", "the hose flew off the valve",
           [](M, S s) { return s.plant.line.jumped ? 1.0 : 0.0; }),
      flag("hose_to_freezer", "the hose leads to the freezer",
           [](M, S s) { return s.plant.fittings.hose == plant::HoseEnd::freezer ? 1.0 : 0.0; }),
      {"hose_route", SignalKind::text, "how the hose lies: straight, kinked, high", nullptr, route_words,
       false},
      number("hose_held_kg", "product that the hose holds",
             [](M, S s) { return s.plant.line.held.total_kg(); }),
      number("hose_leak_L_per_min", "drips out of the hose's joint",
             [](M, S s) { return s.plant.line.leak_L_per_min; }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_washing(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number("film_kg", "what clings to the walls", [](M, S s) { return s.plant.soil.film.total_kg(); }),
      number("film_set_norm", "share of it that has dried or baked on",
             [](M, S s) { return s.plant.soil.set_norm; }),
      number("vat_soil_ug", "dry soil on 100 cm2 of the vat's walls",
             [](M m, S s) { return plant::vat_soil_ug(m.plant, s.plant); }),
      number("valve_soil_ug", "dry soil on 100 cm2 of the draw valve's worst part",
             [](M, S s) { return plant::valve_soil_ug(s.plant); }),
      number("swab_vat_ug", "last swab of the vat; below 0: none",
             [](M, S s) { return s.plant.soil.swab_vat; }),
      number("swab_valve_ug", "last swab of the draw valve; below 0: none",
             [](M, S s) { return s.plant.soil.swab_valve; }),
      number("germs_log10", "germs on 100 cm2 of the vat's walls, log10",
             [](M, S s) { return s.plant.soil.germs_log10; }),
      number("chlorine_ppm", "available chlorine in the vat that works, mg in a litre",
             [](M, S s) { return plant::chlorine_mg_per_L(s.plant); }),
      number("sanitiser_contact_s", "time without a break in which the sanitiser met a line of its table",
             [](M, S s) { return s.plant.soil.contact_s; }),
      number("vat_alkaline_norm", "alkali in the vat",
             [](M, S s) { return share(s.plant.product.alkaline_kg, s); }),
      number("cleaner_ppm", "active substance of cleaning chemicals in the vat, mg in a kg",
             [](M, S s) {
               return 1.0e6 * share(s.plant.product.alkaline_kg + s.plant.product.acid_kg +
                                        s.plant.product.chlorine_kg,
                                    s);
             }),
      number("solids_norm", "food in what is in the vat, without its water",
             [](M, S s) { return plant::solids_norm(s.plant.product); }),
      number("milk_protein_ppm", "milk protein in the vat, mg in a kg", mg_per_kg<Component::milk_protein>),
      number("egg_protein_ppm", "egg protein in the vat, mg in a kg", mg_per_kg<Component::egg_protein>),
      number("other_protein_ppm", "other protein in the vat, mg in a kg",
             mg_per_kg<Component::other_protein>),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_service(std::vector<Signal>& list) {
  using P = plant::PartId;
  const std::vector<Signal> more = {
      number("feeler_mm", "last reading of the feeler gauge as radial play; below 0: none",
             [](M, S s) { return s.plant.assembly.feeler_mm; }),
      number("turned_s", "the shaft has turned so long since the start",
             [](M, S s) { return s.plant.assembly.turned_s; }),
      number("agitator_bushing_hours_left", "hours of use until the agitator's bushing is at its limit",
             hours_left<P::agitator_bushing>),
      number("shaft_end_bushing_hours_left", "hours of use until the shaft end's bushing is at its limit",
             hours_left<P::shaft_end_bushing>),
      number("oring_front_hours_left", "hours of use until the front O-ring is worn out",
             hours_left<P::oring_front>),
      number("oring_rear_hours_left", "hours of use until the rear O-ring is worn out",
             hours_left<P::oring_rear>),
      number("pump_vanes_hours_left", "hours of use until the pump's vanes have lost a fifth of their flow",
             [](M m, S s) { return line_hours(m, s, "pump_vanes"); }),
      number("shaft_seal_hours_left", "hours of use until the shaft's seal drips",
             [](M m, S s) { return line_hours(m, s, "shaft_seal"); }),
      number("run_in_norm", "how far the newer of the bushings has run in",
             [](M, S s) {
               double least = 1.0;
               for (const P part : {P::agitator_bushing, P::shaft_end_bushing}) {
                 const int item = plant::item_at(s.plant.assembly, part);
                 if (item >= 0)
                   least = std::min(least, s.plant.assembly.items[static_cast<std::size_t>(item)].run_in);
               }
               return least;
             }),
      flag("bushing_oval", "a bushing in the machine was pressed in cold",
           [](M, S s) {
             const int item = plant::item_at(s.plant.assembly, P::agitator_bushing);
             return item >= 0 && s.plant.assembly.items[static_cast<std::size_t>(item)].oval ? 1.0 : 0.0;
           }),
      flag("thread_strained", "a thread was turned the wrong way with force",
           [](M, S s) {
             for (const plant::PartItem& item : s.plant.assembly.items)
               if (item.strained) return 1.0;
             return 0.0;
           }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace

void add_service_signals(std::vector<Signal>& list) {
  add_hose(list);
  add_washing(list);
  add_service(list);
}

}  // namespace stirbench::signals
