#include "app/library/tables.h"

// Machine files: one table a part. The ranges keep nonsense out (a typing error of a factor of ten in most),
// they do not say what a good machine is.
namespace stirbench::library {

namespace {

using namespace plant;
using refrigeration::ChillerSpec;

template <class T>
struct Part {
  using Field = double T::*;
  Object<T> table;
  Part& number(const char* key, Field member, double low, double high, const char* unit, const char* doc) {
    table.need(key, member, library::number(low, high, unit), doc);
    return *this;
  }
};

Object<VatSpec> vat() {
  Part<VatSpec> p;
  using S = VatSpec;
  p.number("working_L", &S::working_L, 1.0, 1000.0, "L", "Most that may be in vat and well together.")
      .number("brim_L", &S::brim_L, 1.0, 1500.0, "L", "Spills above this.")
      .number("minimum_L", &S::minimum_L, 0.5, 1000.0, "L", "Least for circulation and agitation.")
      .number("diameter_m", &S::diameter_m, 0.05, 3.0, "m", "Inner diameter of the cylinder.")
      .number("wall_area_m2", &S::wall_area_m2, 0.01, 20.0, "m2", "Wetted side wall at working volume.")
      .number("wall_mass_kg", &S::wall_mass_kg, 0.1, 500.0, "kg", "Mass of the vat's wall.")
      .number("wall_cp_J_per_kgK", &S::wall_cp_J_per_kgK, 100.0, 2000.0, "J/(kg K)",
              "Heat capacity of the wall's metal.")
      .number("loss_W_per_K", &S::loss_W_per_K, 0.0, 100.0, "W/K", "Through the insulation to the room.")
      .number("lid_area_m2", &S::lid_area_m2, 0.001, 10.0, "m2", "Area of the lid.")
      .number("lid_mass_kg", &S::lid_mass_kg, 0.05, 100.0, "kg", "Mass of the lid.")
      .number("lid_cp_J_per_kgK", &S::lid_cp_J_per_kgK, 100.0, 4000.0, "J/(kg K)",
              "Heat capacity of the lid.")
      .number("lid_vapour_leak_norm", &S::lid_vapour_leak_norm, 0.0, 1.0, "",
              "Share of the open surface's evaporation that passes a closed lid.");
  p.table.check([](Reader& reader, const VatSpec& v) {
    if (v.minimum_L >= v.working_L)
      reader.problem("less than working_L (" + number_text(v.working_L) + ")", number_text(v.minimum_L),
                     "/minimum_L");
    if (v.brim_L <= v.working_L)
      reader.problem("more than working_L (" + number_text(v.working_L) + ")", number_text(v.brim_L),
                     "/brim_L");
  });
  return p.table;
}

Object<WellSpec> well() {
  Part<WellSpec> p;
  using S = WellSpec;
  p.number("volume_L", &S::volume_L, 0.1, 500.0, "L", "Volume of the well below the vat.")
      .number("diameter_m", &S::diameter_m, 0.02, 3.0, "m", "Inner diameter of the well.")
      .number("heated_area_m2", &S::heated_area_m2, 0.001, 10.0, "m2", "Wall that the elements heat.")
      .number("wall_mass_kg", &S::wall_mass_kg, 0.05, 500.0, "kg", "Mass of the well's wall.")
      .number("wall_cp_J_per_kgK", &S::wall_cp_J_per_kgK, 100.0, 2000.0, "J/(kg K)",
              "Heat capacity of the wall's metal.")
      .number("loss_W_per_K", &S::loss_W_per_K, 0.0, 100.0, "W/K", "Through the insulation to the room.")
      .number("evaporator_share_norm", &S::evaporator_share_norm, 0.0, 1.0, "",
              "Share of the evaporator's area on the well.")
      .number("passage_m", &S::passage_m, 0.005, 1.0, "m",
              "Diameter of the opening to the vat that is free when the pump stands.");
  return p.table;
}

Object<ElementSpec> elements() {
  Part<ElementSpec> p;
  using S = ElementSpec;
  p.table.need("count", &S::count, whole(1, 24), "Number of elements.");
  p.number("rated_W_each", &S::rated_W_each, 50.0, 20000.0, "W", "Power of one element at rated_V.")
      .number("rated_V", &S::rated_V, 50.0, 1000.0, "V", "Voltage of the rating.")
      .number("mass_kg", &S::mass_kg, 0.01, 100.0, "kg", "All elements together.")
      .number("cp_J_per_kgK", &S::cp_J_per_kgK, 100.0, 2000.0, "J/(kg K)", "Heat capacity of the elements.")
      .number("contact_W_per_K", &S::contact_W_per_K, 1.0, 10000.0, "W/K", "All elements to the well's wall.")
      .number("cutout_degC", &S::cutout_degC, 60.0, 400.0, "degC",
              "Over-temperature cut-out on the well's wall, manual reset.");
  return p.table;
}

Object<ChillerSpec> chiller() {
  Part<ChillerSpec> p;
  using S = ChillerSpec;
  p.table.need("refrigerant", &S::refrigerant, choice<std::string>({{"R-290", "R-290"}}),
               "Refrigerant whose properties the model holds.");
  p.number("swept_m3_per_h", &S::swept_m3_per_h, 0.1, 200.0, "m3/h", "Displacement of the compressor.")
      .number("clearance_norm", &S::clearance_norm, 0.0, 0.2, "", "Clearance volume over swept volume.")
      .number("isentropic_norm", &S::isentropic_norm, 0.2, 1.0, "",
              "Overall isentropic efficiency with the motor.")
      .number("evaporator_W_per_K", &S::evaporator_W_per_K, 1.0, 20000.0, "W/K",
              "Refrigerant to evaporator wall.")
      .number("evaporator_mass_kg", &S::evaporator_mass_kg, 0.1, 200.0, "kg", "Mass of the evaporator.")
      .number("evaporator_cp_J_per_kgK", &S::evaporator_cp_J_per_kgK, 100.0, 2000.0, "J/(kg K)",
              "Heat capacity of the evaporator.")
      .number("wall_W_per_K", &S::wall_W_per_K, 1.0, 20000.0, "W/K",
              "Evaporator to the walls of vat and well.")
      .number("condenser_W_per_K", &S::condenser_W_per_K, 1.0, 20000.0, "W/K",
              "Refrigerant to the room's air.")
      .number("isentropic_falloff_norm", &S::isentropic_falloff_norm, 0.0, 1.0, "",
              "Efficiency lost per square of the logarithm of (pressure ratio / 3).")
      .number("evaporator_m3", &S::evaporator_m3, 1e-4, 1.0, "m3", "Room for refrigerant in the evaporator.")
      .number("condenser_m3", &S::condenser_m3, 1e-4, 1.0, "m3", "Room for refrigerant in the condenser.")
      .number("charge_kg", &S::charge_kg, 0.01, 100.0, "kg", "Refrigerant in the circuit.")
      .number("condenser_air_m3_per_s", &S::condenser_air_m3_per_s, 0.001, 50.0, "m3/s", "Air of the fan.")
      .number("valve_area_m2", &S::valve_area_m2, 1e-9, 1e-3, "m2",
              "Expansion valve fully open, times its discharge coefficient.")
      .number("valve_static_superheat_K", &S::valve_static_superheat_K, 0.0, 20.0, "K",
              "Superheat at which the expansion valve begins to open.")
      .number("valve_gradient_K", &S::valve_gradient_K, 0.1, 20.0, "K", "Superheat from there to fully open.")
      .number("suction_limit_degC", &S::suction_limit_degC, -40.0, 80.0, "degC",
              "Liquid is let into the suction line when its gas is hotter.")
      .number("equalise_s", &S::equalise_s, 5.0, 3600.0, "s", "Time constant of the pressures at rest.")
      .number("compressor_idle_A", &S::compressor_idle_A, 0.0, 200.0, "A",
              "Magnetising current of the compressor.")
      .number("high_pressure_cutout_bar", &S::high_pressure_cutout_bar, 5.0, 60.0, "bar absolute",
              "Stops the compressor above.")
      .number("low_pressure_cutout_bar", &S::low_pressure_cutout_bar, 0.2, 10.0, "bar absolute",
              "Stops the compressor below.")
      .number("fan_W", &S::fan_W, 0.0, 2000.0, "W", "Condenser fan.")
      .number("minimum_off_s", &S::minimum_off_s, 0.0, 1800.0, "s",
              "Rest before the compressor may start again.")
      .number("maximum_evaporating_degC", &S::maximum_evaporating_degC, -30.0, 20.0, "degC",
              "The expansion valve throttles above (maximum operating pressure).");
  p.table.check([](Reader& reader, const ChillerSpec& c) {
    if (c.low_pressure_cutout_bar >= c.high_pressure_cutout_bar)
      reader.problem("less than high_pressure_cutout_bar (" + number_text(c.high_pressure_cutout_bar) + ")",
                     number_text(c.low_pressure_cutout_bar), "/low_pressure_cutout_bar");
  });
  return p.table;
}

Object<DriveSpec> drive() {
  Part<DriveSpec> p;
  using S = DriveSpec;
  p.number("rated_W", &S::rated_W, 10.0, 50000.0, "W", "Rated shaft power of the motor.")
      .number("rated_rpm", &S::rated_rpm, 100.0, 3600.0, "1/min", "Motor speed at rated load.")
      .number("synchronous_rpm", &S::synchronous_rpm, 100.0, 3600.0, "1/min", "Motor speed without slip.")
      .number("breakdown_ratio", &S::breakdown_ratio, 1.0, 6.0, "", "Breakdown torque over rated torque.")
      .number("rated_A", &S::rated_A, 0.1, 200.0, "A", "Line current at rated load.")
      .number("idle_A", &S::idle_A, 0.01, 200.0, "A", "Line current without load.")
      .number("efficiency_norm", &S::efficiency_norm, 0.2, 1.0, "", "Motor efficiency at rated load.")
      .number("gear_ratio", &S::gear_ratio, 1.0, 200.0, "", "Motor speed over agitator speed.")
      .number("gear_efficiency_norm", &S::gear_efficiency_norm, 0.2, 1.0, "", "Efficiency of the gear.")
      .number("inertia_kgm2", &S::inertia_kgm2, 0.0001, 100.0, "kg m2",
              "All of it, seen at the agitator shaft.")
      .number("brake_torque_Nm", &S::brake_torque_Nm, 0.0, 1000.0, "N m",
              "Friction that stops the shaft when the power is off.")
      .number("overload_A", &S::overload_A, 0.1, 200.0, "A", "Setting of the overload relay.")
      .number("overload_tau_s", &S::overload_tau_s, 1.0, 3600.0, "s",
              "Time constant of the relay's thermal image.");
  p.table.check([](Reader& reader, const DriveSpec& d) {
    if (d.rated_rpm >= d.synchronous_rpm)
      reader.problem("less than synchronous_rpm (" + number_text(d.synchronous_rpm) + ")",
                     number_text(d.rated_rpm), "/rated_rpm");
    if (d.idle_A >= d.rated_A)
      reader.problem("less than rated_A (" + number_text(d.rated_A) + ")", number_text(d.idle_A), "/idle_A");
  });
  return p.table;
}

Object<AgitatorSpec> agitator() {
  Part<AgitatorSpec> p;
  using S = AgitatorSpec;
  p.number("diameter_m", &S::diameter_m, 0.02, 3.0, "m", "Diameter of the agitator.")
      .number("laminar_power_Kp", &S::laminar_power_Kp, 1.0, 1000.0, "",
              "Power number is Kp / Re + turbulent_power_Np.")
      .number("turbulent_power_Np", &S::turbulent_power_Np, 0.01, 20.0, "", "Power number in turbulent flow.")
      .number("shear_ks", &S::shear_ks, 1.0, 100.0, "", "Mean shear rate over speed (Metzner and Otto).")
      .number("nusselt_wall_a", &S::nusselt_wall_a, 0.01, 5.0, "",
              "Nu = a Re^(2/3) Pr^(1/3) at the vat's wall.")
      .number("nusselt_well_a", &S::nusselt_well_a, 0.01, 5.0, "", "The same of the foot in the well.")
      .number("foot_m", &S::foot_m, 0.02, 3.0, "m", "Diameter of the paddle that stirs the well.")
      .number("covered_L", &S::covered_L, 0.1, 1000.0, "L", "The agitator is covered from this fill on.");
  return p.table;
}

Object<PumpSpec> pump() {
  Part<PumpSpec> p;
  using S = PumpSpec;
  p.number("displacement_L_per_rev", &S::displacement_L_per_rev, 0.001, 10.0, "L",
           "Moved in one revolution of the agitator shaft.")
      .number("slip_L_per_min_per_bar", &S::slip_L_per_min_per_bar, 0.0, 1000.0, "L/(min bar)",
              "Leakage back at 1 mPa s.")
      .number("circulation_loss_bar_at_rated", &S::circulation_loss_bar_at_rated, 0.001, 5.0, "bar",
              "Loop resistance with water at rated flow.")
      .number("prime_L", &S::prime_L, 0.1, 1000.0, "L", "Draws air below this fill.")
      .number("shut_off_bar", &S::shut_off_bar, 0.05, 20.0, "bar", "Pressure at no flow.")
      .number("vane_friction_Nm", &S::vane_friction_Nm, 0.0, 1000.0, "N m",
              "Friction of the vanes without product, at the agitator shaft.")
      .number("vane_J_per_K", &S::vane_J_per_K, 1.0, 1e5, "J/K", "Heat capacity of the vanes.")
      .number("vane_K_per_W", &S::vane_K_per_W, 0.01, 100.0, "K/W",
              "Thermal resistance from dry vanes to the well's wall.")
      .number("vane_life_h", &S::vane_life_h, 1.0, 1e6, "h",
              "Turning in product until the vanes are worn out.");
  return p.table;
}

Object<BushingSpec> bushing() {
  Part<BushingSpec> p;
  using S = BushingSpec;
  p.table.need("material", &S::material, choice<std::string>({{"nylon", "nylon"}, {"bronze", "bronze"}}),
               "What it is made of.");
  p.number("diameter_m", &S::diameter_m, 0.002, 0.5, "m", "Bore.")
      .number("length_m", &S::length_m, 0.002, 0.5, "m", "Length of the bearing face.")
      .number("load_N", &S::load_N, 0.1, 10000.0, "N", "Radial load while turning.")
      .number("wear_dry_mm3_per_Nm", &S::wear_dry_mm3_per_Nm, 1e-9, 1.0, "mm3/(N m)",
              "Archard's wear rate without product.")
      .number("wear_wet_mm3_per_Nm", &S::wear_wet_mm3_per_Nm, 1e-9, 1.0, "mm3/(N m)",
              "Archard's wear rate in product.")
      .number("friction_dry", &S::friction_dry, 0.0, 2.0, "", "Coefficient of friction without product.")
      .number("friction_wet", &S::friction_wet, 0.0, 2.0, "", "Coefficient of friction in product.")
      .number("limit_mm", &S::limit_mm, 0.01, 20.0, "mm", "Radial play at which it must be replaced.")
      .number("softening_degC", &S::softening_degC, 20.0, 1000.0, "degC",
              "Greatest temperature in running; friction and wear rise from here.")
      .number("clearance_mm", &S::clearance_mm, 0.001, 2.0, "mm", "Radial, as new and cold.")
      .number("wall_mm", &S::wall_mm, 0.2, 50.0, "mm", "Of the bushing; no more can wear away.")
      .number("K_per_W", &S::K_per_W, 0.01, 100.0, "K/W",
              "Thermal resistance from the dry face to the well's wall.")
      .number("J_per_K", &S::J_per_K, 0.1, 1e5, "J/K", "Heat capacity of the bushing.");
  return p.table;
}

Object<DrawSpec> draw() {
  Part<DrawSpec> p;
  using S = DrawSpec;
  p.number("valve_bore_m", &S::valve_bore_m, 0.001, 0.2, "m", "Bore of the draw valve.")
      .number("valve_laminar_K1", &S::valve_laminar_K1, 0.0, 5000.0, "",
              "Hooper's K1 of the valve's body and spout, on the bore.")
      .number("outlet_height_m", &S::outlet_height_m, -1.0, 2.0, "m",
              "How far the valve lies below the vat's bottom.")
      .number("hose_bore_m", &S::hose_bore_m, 0.001, 0.2, "m", "Bore of the transfer hose.")
      .number("hose_length_m", &S::hose_length_m, 0.05, 50.0, "m", "Length of the transfer hose.");
  return p.table;
}

Object<FreezerSpec> freezer() {
  Part<FreezerSpec> p;
  using S = FreezerSpec;
  p.number("free_L", &S::free_L, 0.5, 200.0, "L", "What the cylinder holds with the dasher in it.")
      .number("minimum_charge_L", &S::minimum_charge_L, 0.1, 200.0, "L", "Least charge of liquid mix.")
      .number("maximum_charge_L", &S::maximum_charge_L, 0.1, 200.0, "L",
              "Most liquid mix; the rest of the cylinder is for air.")
      .number("wall_area_m2", &S::wall_area_m2, 0.01, 10.0, "m2", "Chilled and scraped wall.");
  p.table.need("blades", &S::blades, whole(1, 12),
               "Scraper blades that pass one point of the wall in a turn.");
  p.number("dasher_rpm", &S::dasher_rpm, 10.0, 1000.0, "1/min", "Speed of the dasher.")
      .number("friction_Nm", &S::friction_Nm, 0.0, 500.0, "N m", "Friction of the blades on the whole wall.")
      .number("drag_Nm_per_Pa_s", &S::drag_Nm_per_Pa_s, 0.01, 1000.0, "N m/(Pa s)",
              "Torque of the buried dasher per viscosity.")
      .number("shear_per_s", &S::shear_per_s, 1.0, 1000.0, "1/s",
              "Shear rate at which that viscosity counts.")
      .number("rated_Nm", &S::rated_Nm, 1.0, 2000.0, "N m", "Rated torque at the dasher's shaft.")
      .number("overload_tau_s", &S::overload_tau_s, 1.0, 3600.0, "s",
              "Thermal time constant of its overload protection.")
      .number("refrigerant_W_per_K", &S::refrigerant_W_per_K, 10.0, 20000.0, "W/K",
              "Boiling refrigerant to the wall's inside.")
      .number("capacity_W", &S::capacity_W, 100.0, 50000.0, "W",
              "Capacity of its unit at rated_evaporating_degC.")
      .number("rated_evaporating_degC", &S::rated_evaporating_degC, -45.0, 0.0, "degC",
              "Evaporating temperature of capacity_W.")
      .number("maximum_evaporating_degC", &S::maximum_evaporating_degC, -40.0, 10.0, "degC",
              "The expansion valve throttles above.")
      .number("lowest_evaporating_degC", &S::lowest_evaporating_degC, -45.0, 0.0, "degC",
              "The low-pressure switch stops below.")
      .number("room_W_per_K", &S::room_W_per_K, 0.0, 50.0, "W/K", "Insulation to the room.")
      .number("inlet_height_m", &S::inlet_height_m, -1.0, 3.0, "m", "Inlet above the mixer's draw valve.")
      .number("draw_L_per_min", &S::draw_L_per_min, 0.1, 200.0, "L/min",
              "Drawn with the gate open and the dasher turning.")
      .number("ready_degC", &S::ready_degC, -20.0, -2.0, "degC", "Temperature at which it is usually drawn.")
      .number("ready_Nm", &S::ready_Nm, 1.0, 2000.0, "N m", "Torque that says the same.")
      .number("best_overrun_norm", &S::best_overrun_norm, 0.05, 2.0, "",
              "Overrun of an aged mix in a proper charge.");
  p.table.check([](Reader& reader, const S& f) {
    if (!(f.minimum_charge_L < f.maximum_charge_L && f.maximum_charge_L < f.free_L))
      reader.problem("minimum_charge_L < maximum_charge_L < free_L", number_text(f.maximum_charge_L),
                     "/maximum_charge_L");
    if (!(f.lowest_evaporating_degC < f.rated_evaporating_degC &&
          f.rated_evaporating_degC < f.maximum_evaporating_degC))
      reader.problem("lowest < rated < maximum evaporating temperature",
                     number_text(f.rated_evaporating_degC), "/rated_evaporating_degC");
  });
  return p.table;
}

Object<RinseSpec> rinse() {
  Part<RinseSpec> p;
  using S = RinseSpec;
  p.number("flow_kg_per_s", &S::flow_kg_per_s, 0.001, 5.0, "kg/s", "Water from the rinse gun.")
      .number("water_degC", &S::water_degC, 0.0, 90.0, "degC", "Its temperature.");
  return p.table;
}

Object<ProbeSpec> probe() {
  Part<ProbeSpec> p;
  using S = ProbeSpec;
  p.number("tau_s", &S::tau_s, 0.1, 600.0, "s",
           "Lag of the probe: of its pocket's wall and of the element in it, together.")
      .number("pocket_share_norm", &S::pocket_share_norm, 0.02, 0.98, "", "Share of the wall in that.")
      .number("immersed_m", &S::immersed_m, 0.005, 1.0, "m", "Length of the pocket in the product.")
      .number("pocket_outer_m", &S::pocket_outer_m, 0.002, 0.1, "m", "Its diameter.")
      .number("pocket_wall_m", &S::pocket_wall_m, 0.0001, 0.02, "m", "Thickness of its wall.")
      .number("vat_share_norm", &S::vat_share_norm, 0.0, 1.0, "",
              "What its pocket sees: share of the vat, the rest is the well.")
      .number("covered_L", &S::covered_L, 0.1, 1000.0, "L", "Hangs in air below this fill.");
  p.table.check([](Reader& reader, const S& s) {
    if (2.0 * s.pocket_wall_m >= s.pocket_outer_m)
      reader.problem("less than half of pocket_outer_m (" + number_text(s.pocket_outer_m) + ")",
                     number_text(s.pocket_wall_m), "/pocket_wall_m");
  });
  return p.table;
}

Object<SealSpec> seal() {
  Part<SealSpec> p;
  using S = SealSpec;
  p.number("diameter_m", &S::diameter_m, 0.002, 0.5, "m", "Of the shaft in the seal.")
      .number("lip_m", &S::lip_m, 0.0001, 0.1, "m", "Length of the gap that its lip closes.")
      .number("worn_gap_m", &S::worn_gap_m, 1e-6, 0.005, "m", "Radial gap of one that is worn out.")
      .number("life_h", &S::life_h, 1.0, 1e6, "h", "Turning in product until it is worn out.")
      .number("dry_life_h", &S::dry_life_h, 0.01, 1e6, "h", "Turning dry until it is worn out.")
      .number("tray_kg", &S::tray_kg, 0.0, 50.0, "kg", "What the drip tray below it holds.");
  return p.table;
}

// A part of the physical machine sits one level deeper than MachineFile's own members.
template <class V>
void part(Object<MachineFile>& table, const char* key, V MachineSpec::*member, const Shape<V>& shape,
          const char* doc) {
  table.field({key, doc, shape.expected, true, shape.schema,
               [member, read = shape.read](Reader& reader, const Json& json, MachineFile& out) {
                 read(reader, json, out.plant.*member);
               }});
}

Object<MachineFile> make_machine_table() {
  Object<MachineFile> t;
  t.format(1);
  part(t, "id", &MachineSpec::id, slug(), "The file's name without .json.");
  part(t, "title", &MachineSpec::title, text(1, 80), "Name shown to people.");
  t.may("note", &MachineFile::note, text(0, 2000), "Where the numbers come from.");
  part(t, "supply_V", &MachineSpec::supply_V, number(50.0, 1000.0, "V"), "Supply, line to line.");
  part(t, "supply_Hz", &MachineSpec::supply_Hz, number(40.0, 70.0, "Hz"),
       "Frequency that the ratings of drive and compressor are for.");
  part(t, "vat", &MachineSpec::vat, vat().shape(), "The upper bowl.");
  part(t, "well", &MachineSpec::well, well().shape(), "The small lower pot.");
  part(t, "elements", &MachineSpec::elements, elements().shape(),
       "Resistance heating elements under the well.");
  part(t, "chiller", &MachineSpec::chiller, chiller().shape(),
       "Vapour-compression chiller around vat and well.");
  part(t, "drive", &MachineSpec::drive, drive().shape(), "Motor and gear.");
  part(t, "agitator", &MachineSpec::agitator, agitator().shape(), "The agitator.");
  part(t, "pump", &MachineSpec::pump, pump().shape(), "Circulation pump in the well.");
  part(t, "agitator_bushing", &MachineSpec::agitator_bushing, bushing().shape(), "In the agitator's foot.");
  part(t, "shaft_end_bushing", &MachineSpec::shaft_end_bushing, bushing().shape(), "At the shaft's end.");
  part(t, "draw", &MachineSpec::draw, draw().shape(), "Draw valve and transfer hose.");
  part(t, "assembly", &MachineSpec::assembly, assembly_table().shape(),
       "How draw valve and agitator come apart, and what is the worse for it.");
  part(t, "freezer", &MachineSpec::freezer, freezer().shape(),
       "Batch freezer that the transfer hose can fill.");
  part(t, "rinse", &MachineSpec::rinse, rinse().shape(), "Rinse gun.");
  part(t, "probe", &MachineSpec::probe, probe().shape(), "Temperature probe of the controller.");
  part(t, "seal", &MachineSpec::seal, seal().shape(), "Seal of the shaft below the well, and its drip tray.");
  t.need("control", &MachineFile::control, control_table().shape(), "Constants of the controller.");
  return t;
}

}  // namespace

const Object<MachineFile>& machine_table() {
  static const Object<MachineFile> table = make_machine_table();
  return table;
}

std::map<std::string, std::size_t> machine_parts() {
  return {{"vat", vat().fields().size()},           {"well", well().fields().size()},
          {"elements", elements().fields().size()}, {"chiller", chiller().fields().size()},
          {"drive", drive().fields().size()},       {"agitator", agitator().fields().size()},
          {"pump", pump().fields().size()},         {"bushing", bushing().fields().size()},
          {"draw", draw().fields().size()},         {"freezer", freezer().fields().size()},
          {"rinse", rinse().fields().size()},       {"probe", probe().fields().size()},
          {"seal", seal().fields().size()},         {"control", control_table().fields().size()}};
}

}  // namespace stirbench::library
