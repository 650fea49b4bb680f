#pragma once

// What changes about the chiller, as a part of the machine's state.
namespace stirbench::refrigeration {

// State of health of the chiller: what faults change. The initialisers are a healthy one.
struct ChillerHealth {
  double charge_norm = 1.0;              // refrigerant over the spec's charge
  double condenser_fouling_norm = 0.0;   // 0 clean .. 1 clogged
  double fan_norm = 1.0;                 // air flow of the fan over the rated one
  double valve_stuck_norm = -1.0;        // opening at which the valve is stuck; below 0: it is free
  double compressor_leak_norm = 0.0;     // share of the gas that leaks back past valves or rings
  double restriction_norm = 0.0;         // share of the liquid line that is closed
  double evaporator_fouling_norm = 0.0;  // share of the evaporator's film that is lost (oil, poor contact)
};

// What a gauge set, clamp meter and thermometers on the circuit show. Pressures absolute.
struct ChillerGauges {
  double evaporating_degC = 22.0;  // saturation at the suction pressure
  double condensing_degC = 22.0;   // saturation at the discharge pressure
  double suction_bar = 8.8;
  double discharge_bar = 8.8;
  double superheat_K = 0.0;    // at the evaporator's outlet, where the valve's bulb sits
  double suction_degC = 22.0;  // gas into the compressor
  double subcooling_K = 0.0;
  double discharge_degC = 22.0;
  double valve_norm = 0.0;  // opening of the expansion valve
  double flash_norm = 0.0;  // share of vapour before the valve: the sight glass bubbles
  double flow_kg_per_s = 0.0;
  double evaporator_W_per_K = 0.0;  // load to evaporating temperature, as it is wetted now
  double cooling_W = 0.0;
  double compressor_W = 0.0;
  double compressor_A = 0.0;
  double air_on_degC = 22.0;  // air onto and off the condenser
  double air_off_degC = 22.0;
};

struct ChillerState {
  ChillerHealth health;
  ChillerGauges gauges;
  double dry_norm = 0.5;  // share of the evaporator without liquid; below 0: the suction gas is wet
};

}  // namespace stirbench::refrigeration
