"""One run as a trace, from the program's command line and from the second opinion, with the same
columns."""

import csv
import json
import subprocess
import tempfile
from pathlib import Path

import numpy as np

from machine import ContentError, machine, mix, read_json
from model import EVAPORATOR, PROBE, SOLID_FAT, VAPOUR, VAT, VAT_WALL, WELL, WELL_WALL, Model

MACHINE = "hm-45"


def actions_of(run):
    """The run as lines of an actions file (stirbench help actions)."""
    lines = [{"at_s": 0.0, "do": "open_lid"}]
    for k, (ingredient, kg, degC) in enumerate(run.pours):
        at_s = round(1.0 + 0.2 * k, 1)
        lines.append({"at_s": at_s, "do": "pour", "ingredient": ingredient, "kg": kg, "degC": degC})
    for at_s, what, degC in run.events:
        if what in ("heat", "chill"):
            lines.append({"at_s": at_s - 4.0, "do": "press", "key": "stop"})
            lines.append({"at_s": at_s - 2.0, "do": "set_target", "degC": degC})
            lines.append({"at_s": at_s, "do": "press", "key": what})
        else:
            lines.append({"at_s": at_s, "do": what})
    return "".join(json.dumps(line) + "\n" for line in lines)


def by_program(program, content, run, hidden_fault=None):
    """The program's trace as arrays by column. A hidden fault is one that the second opinion is not told
    of."""
    with tempfile.TemporaryDirectory() as folder:
        actions, trace = Path(folder) / "actions.jsonl", Path(folder) / "trace.csv"
        actions.write_text(actions_of(run), encoding="utf-8")
        command = [str(program), "simulate", "--machine", MACHINE, "--content", str(content)]
        command += ["--actions", str(actions), "--trace", str(trace), "--every", str(run.every)]
        command += ["--ambient", str(run.ambient), "--humidity", str(run.humidity), "--until", str(run.until)]
        for fault in run.faults:
            command += ["--fault", f"{fault}=1"]
        if hidden_fault:
            command += ["--fault", hidden_fault]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        if done.returncode != 0:
            said = "; ".join((done.stderr.strip() or done.stdout.strip()).splitlines()[:3])
            raise ContentError(f"{run.name}: {' '.join(command)} ended with {done.returncode}: {said}")
        with open(trace, newline="", encoding="utf-8") as file:
            rows = list(csv.DictReader(file))
    columns = {}
    for column in rows[0]:
        try:
            columns[column] = np.array([float(row[column]) for row in rows])
        except ValueError:
            pass  # words, such as the mode
    return columns


def _fault_values(content, faults):
    """What the faults' files change, at full severity: target or target:part -> value."""
    values = {}
    for fault in faults:
        for change in read_json(Path(content) / "faults" / f"{fault}.json")["changes"]:
            values[change["target"] + (":" + change["at"] if "at" in change else "")] = change["full"]
    return values


def by_second_opinion(content, run):
    """The same run by the model: (arrays by the same columns, share of the energy that it cannot
    explain)."""
    what, kg, degC = mix(content, run.pours)
    wrong = _fault_values(content, run.faults)
    dead = sum(1 for key, factor in wrong.items() if key.startswith("resistance_factor:E") and factor > 1e6)
    model = Model(machine(content, MACHINE), what, kg, degC, run.ambient, run.humidity, dead,
                  wrong.get("agitator_grip_norm", 1.0), wrong.get("pump_norm", 1.0))
    rows, t = [], 1.0
    for at_s, event, target in run.events + [(run.until, "end", 0.0)]:
        model.run_to(t, at_s, rows)
        t = at_s
        if event == "close_lid":
            model.lid_open = False
        elif event in ("heat", "chill"):
            model.press(event, target)
    return _trace_of(model, rows), model.unexplained_J() / model.moved_J()


def _trace_of(model, rows):
    t, y = np.array([row[0] for row in rows]), np.array([row[1] for row in rows]).T
    on = np.array([row[2] for row in rows])  # off, heat or chill
    stirred = np.array([row[4] for row in rows])
    left = model.kg - y[VAPOUR]
    well_kg = np.array([model.well_kg(row[1]) for row in rows])
    trace = {"time_s": t, "vat_degC": y[VAT], "well_degC": y[WELL], "vat_wall_degC": y[VAT_WALL],
             "well_wall_degC": y[WELL_WALL], "probe_degC": y[PROBE], "mass_kg": left,
             "solid_fat_norm": y[SOLID_FAT],
             "product_degC": (y[VAT] * (left - well_kg) + y[WELL] * well_kg) / left,
             "heaters_W": np.array([row[3] for row in rows])}
    chiller = np.array([model.chiller.at(metal) for metal in y[EVAPORATOR]]).T
    for column, row in zip(("chiller_W", "compressor_W", "evaporating_degC", "condensing_degC"), chiller):
        trace[column] = np.where(on == "chill", row, 0.0 if column.endswith("_W") else model.room)
    # The program's column holds the condenser's fan as well.
    trace["compressor_W"] += np.where(on == "chill", model.machine.chiller.fan_W, 0.0)
    for column, name, zone in (("torque_Nm", "torque_Nm", VAT), ("drive_W", "electric_W", VAT),
                               ("circulation_L_per_min", "circulation_L_per_min", WELL)):
        trace[column] = np.interp(y[zone], model.shaft_degC, model.shaft_rows[name]) * stirred
    return trace
