#pragma once

#include "sim_core/hands/hand.h"

// The hands that other code names, and the list of each kind of work. A hand that is only found by its name
// (a file, a journal, the desk's own list) needs no line here.
namespace stirbench::hands {

using HandList = std::span<const Hand* const>;

// Lid and shaft cover.
HandList guard_hands();
extern const HandOf<> open_lid, close_lid, open_shaft_cover, close_shaft_cover;

// Into the open vat, and its outside.
HandList vat_hands();
extern const HandOf<Text, Number, OptionalNumber> pour;  // ingredient, kg, degC
extern const HandOf<Flag> rinse;                         // on
extern const HandOf<> reach_in, touch_wall, take_sample;
extern const HandOf<Text> touch_part;  // part

// Keys and display.
HandList panel_hands();
extern const HandOf<Text, OptionalNumber> press;  // key, held_s
extern const HandOf<Number> set_target;           // degC
extern const HandOf<Text> choose_recipe;          // recipe
extern const HandOf<> confirm;
extern const HandOf<Text> acknowledge;     // alarm, or all
extern const HandOf<Text, Number> shelve;  // alarm, for_s
extern const HandOf<Text> unshelve;        // alarm

// Draw valve and pail.
HandList draw_hands();
extern const HandOf<Number> turn_draw_valve;  // opening_norm
extern const HandOf<> empty_pail;

// Transfer hose.
HandList hose_hands();
extern const HandOf<Text> fit_hose;  // to
extern const HandOf<> remove_hose;
extern const HandOf<Text> push_hose_on;             // to
extern const HandOf<Flag> clamp_hose, hose_gasket;  // on
extern const HandOf<Text> route_hose;               // route
extern const HandOf<> drain_hose;

// Isolators, emergency stop, protecting devices.
HandList supply_hands();
extern const HandOf<Flag> isolate, isolate_neighbour;  // on
extern const HandOf<> press_emergency_stop, release_emergency_stop;
extern const HandOf<> reset_overload, reset_cutout, test_overload, test_cutout, test_pressure;

// Batch freezer.
HandList freezer_hands();
extern const HandOf<Flag> freezer_inlet, freezer_lid, freezer_drain;  // on
extern const HandOf<> freezer_start, freezer_stop, reset_freezer, empty_tub;
extern const HandOf<Number> freezer_draw;                   // opening_norm
extern const HandOf<Text> freezer_setting;                  // setting
extern const HandOf<Number, OptionalNumber> freezer_water;  // kg, degC

// Locks, tags and stored energies.
HandList lockout_hands();
extern const HandOf<> read_energies;
extern const HandOf<Text> tell_people;                                 // about
extern const HandOf<Text> fit_lock, remove_lock, fit_tag, remove_tag;  // person
extern const HandOf<> take_key;
extern const HandOf<Text> release_energy;  // which

// Panel, meter and hands inside the machine.
HandList inside_hands();
extern const HandOf<Text> measure;  // at
extern const HandOf<> take_panel_off, put_panel_on;
extern const HandOf<Text> begin_work;  // where
extern const HandOf<> end_work, inspect, take_valve_out, put_valve_back, open_refrigerant;

// What people wear, and the floor.
HandList protection_hands();
extern const HandOf<Text> put_on, take_off;  // item
extern const HandOf<> walk_round, wipe_floor, put_up_sign;

// Bucket, chemicals, brush and swab.
HandList washing_hands();
extern const HandOf<Number> add_water;                     // kg
extern const HandOf<Text, Number> add_chemical, dose_vat;  // chemical, kg
extern const HandOf<> scrub, empty_bucket, brush;
extern const HandOf<Text> swab;  // spot

// Draw valve and agitator, part by part.
HandList part_hands();
HandList pump_hands();
extern const HandOf<Text> take_part_off, put_part_on;  // part
extern const HandOf<Text> pick_up;                     // thing
extern const HandOf<> lay_down, grease, look_over;
extern const HandOf<Text, Flag> unscrew;  // part, clockwise
extern const HandOf<Text> feel_gap;       // bushing

// Instruments and wires.
HandList instrument_hands();
extern const HandOf<Text> take_tool, set_meter;    // tool; function
extern const HandOf<Text> red_probe, black_probe;  // terminal
extern const HandOf<> probes_off;
extern const HandOf<Text> clamp_round, press_thermometer;  // wire; point
extern const HandOf<> connect_gauges, take_gauges_off, look_at_reading, new_fuse;
extern const HandOf<Text> take_wire_off, put_wire_on;  // wire

// Checks by eye, ear and hand.
HandList checking_hands();
extern const HandOf<Text> make_check;  // check

// Breakers, causes, repairs, the proof.
HandList mending_hands();
extern const HandOf<Text> reset_breaker;                       // breaker
extern const HandOf<Text> name_cause, take_back_name, repair;  // cause
extern const HandOf<> prove;

// A fault handed to a colleague.
HandList handing_hands();
extern const HandOf<Text, Flag> report_finding;  // finding, in
extern const HandOf<Text> hand_off;              // cause, or not_known

// What somebody was asked to find on the machine.
HandList pointing_hands();
extern const HandOf<Text> point_out;  // body_part

// What an instructor does to a run.
HandList instructor_hands();
extern const HandOf<Number> set_room, set_supply_voltage;   // degC; share_norm
extern const HandOf<Text, Number> set_delivery, set_fault;  // ingredient, degC; fault, severity
extern const HandOf<> freeze_run, hand_back;
extern const HandOf<Text, Flag> mark_observation;  // note, good

}  // namespace stirbench::hands
