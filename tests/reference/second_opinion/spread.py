"""How far the uncertainty of the second opinion's sources moves each compared quantity.

Started by hand when a band or an equation changes; it takes a minute:

    /usr/bin/python3 -B tests/reference/second_opinion/spread.py

A line a quantity: its value, the root of the squares of all moves, the band, how many times the move the
band is, and what moves it most. A band has to be at least 1 (0.9 for a rounded one) and has a further
reason beside it, or a part that is not moved here, when it is more than 3.
"""

import argparse
import contextlib
import math
from pathlib import Path
from unittest import mock

import drives
import transfer
from properties import Mix
from runs import all_runs
from traces import by_second_opinion

ROOT = Path(__file__).resolve().parents[3]


def scaled(function, factor):
    return lambda *given: factor * function(*given)


def scaled_for_mixes(method, factor):
    """Of a mix's property, but not of water's."""
    return lambda mix, *given: (1.0 if mix.is_water else factor) * method(mix, *given)


def moves():
    """What is moved, by how much, and where that stands."""
    patch = mock.patch.object
    return [
        ("stirred films -30 %", patch(transfer, "stirred_film", scaled(transfer.stirred_film, 0.7))),
        ("still films -30 %", patch(transfer, "still_film", scaled(transfer.still_film, 0.7))),
        ("viscosity of mixes x 2", patch(Mix, "viscosity", scaled_for_mixes(Mix.viscosity, 2.0))),
        ("heat capacity of mixes +2 %", patch(Mix, "cp", scaled_for_mixes(Mix.cp, 1.02))),
        ("evaporation +18 %", patch(transfer, "shah_kg_per_m2s", scaled(transfer.shah_kg_per_m2s, 1.18))),
        ("air over the lid +25 %", patch(transfer, "lid_outside_W", scaled(transfer.lid_outside_W, 1.25))),
        ("flow through the passage +40 %", patch(transfer, "passage_L_per_s",
                                                 scaled(transfer.passage_L_per_s, 1.4))),
        ("pump's flow -10 %", patch(drives, "pump_L_per_s", lambda *given, law=drives.pump_L_per_s: (
            0.9 * law(*given)[0], law(*given)[1]))),
        ("subcooling +3.5 K", patch(drives, "SUBCOOLING_K", drives.SUBCOOLING_K + 3.5)),
    ]


def readings(content, move):
    """(run, label) -> value of every quantity, with one part moved."""
    values = {}
    with move:
        for run in all_runs(content):
            trace, _ = by_second_opinion(content, run)
            values.update({(run.name, q.label): q.read(trace) for q in run.quantities})
    return values


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    parser.add_argument("--content", type=Path, default=ROOT / "content", help="content folder")
    content = parser.parse_args().content
    base = readings(content, contextlib.nullcontext())
    moved = {name: readings(content, move) for name, move in moves()}
    for run in all_runs(content):
        print(f"\n{run.name}")
        for quantity in run.quantities:
            key = (run.name, quantity.label)
            by = {name: values[key] - base[key] for name, values in moved.items()}
            spread, band = math.sqrt(sum(move ** 2 for move in by.values())), quantity.allowed(base[key])
            most = max(by, key=lambda name: abs(by[name]))
            times = f"{band / spread:6.1f}" if spread > 1e-3 * band else "   all"
            print(f"  {quantity.label:40s} {base[key]:9.4g} {quantity.unit:6s} {spread:9.3g} {band:9.3g} "
                  f"{times}  {most}")


if __name__ == "__main__":
    main()
