"""Second opinion: twelve runs of the program against a model that shares no code with it.

    /usr/bin/python3 -B tests/reference/second_opinion/compare.py --program build/release/stirbench

Prints a table, a line a quantity, and closes with "N passed, N failed". Exit 0 when nothing failed, 1 when
something did, 2 when program or content cannot be used. Needs python3-numpy and python3-scipy. See
README.md beside it.
"""

import argparse
import math
import sys
from pathlib import Path

from machine import ContentError
from published import published
from runs import HIDDEN, all_runs
from traces import by_program, by_second_opinion

ROOT = Path(__file__).resolve().parents[3]
# Of the energy that passed. What the model does not book: mass that density moves between the zones.
CLOSES = 0.003


def line(label, there, here, unit, apart, band, good, reason):
    print(f"  {label:40s} {there:>9s} {here:>9s} {unit:6s} {apart:>7s}  {band:13s} "
          f"{'ok' if good else 'FAILED'}  ({reason})")
    return good


def compare_quantity(quantity, theirs, ours):
    """Prints a quantity's line; whether it lies within its band. A run that does not come so far does
    not."""
    there, here = quantity.read(theirs), quantity.read(ours)
    good = is_within(quantity, theirs, ours)
    if quantity.absolute:
        apart = f"{there - here:+.2f}"
    else:
        apart = f"{there / here:.3f}" if here and not math.isnan(there) else "-"
    return line(quantity.label, f"{there:.4g}", f"{here:.4g}", quantity.unit, apart, quantity.band_text(),
                good, quantity.reason)


def is_within(quantity, theirs, ours):
    there, here = quantity.read(theirs), quantity.read(ours)
    return bool(abs(there - here) <= quantity.allowed(here))  # false when either is not a number


def compare_run(run, told):
    """A run's lines. The first looks at the second opinion alone; the last ones hide a fault from it, which
    must push some quantity out of its band that is within it on a machine in order."""
    print(f"\n{run.name}")
    theirs = by_program(told.program, told.content, run)
    ours, unexplained = by_second_opinion(told.content, run)
    results = [line("second opinion: energy unexplained", "", f"{100.0 * unexplained:.3f}", "%", "",
                    f"+-{100.0 * CLOSES:g} %", abs(unexplained) <= CLOSES, "its own bookkeeping")]
    results += [compare_quantity(quantity, theirs, ours) for quantity in run.quantities]
    within = [quantity for quantity in run.quantities if is_within(quantity, theirs, ours)]
    for fault in HIDDEN.get(run.name, []):
        faulty = by_program(told.program, told.content, run, fault)
        out = sum(1 for quantity in within if not is_within(quantity, faulty, ours))
        results.append(line(f"notices {fault}", f"{out}", "", "out", "", ">= 1", out >= 1, "hidden from it"))
    return results


def compare_published(content):
    """The second opinion's parts against published values (published.py)."""
    print("\nparts of the second opinion and published values (in the program's column)")
    return [line(label, f"{there:.4g}", f"{here:.4g}", unit, f"{there / here:.3f}", f"+-{100.0 * band:.3g} %",
                 abs(there - here) <= band * there, source)
            for label, here, there, band, unit, source in published(content)]


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n", maxsplit=1)[0])
    built = ROOT / "build/release/stirbench"
    parser.add_argument("--program", type=Path, default=built, help="the program")
    parser.add_argument("--content", type=Path, default=ROOT / "content", help="content folder")
    parser.add_argument("--run", default="", help="only runs whose name holds this")
    told = parser.parse_args()
    results = []
    print(f"  {'quantity':40s} {'program':>9s} {'second':>9s} {'unit':6s} {'ratio':>7s}  band")
    try:
        if not told.run:
            results += compare_published(told.content)
        for run in all_runs(told.content):
            if told.run in run.name:
                results += compare_run(run, told)
    except (ContentError, OSError) as problem:
        print(f"second opinion: {problem}", file=sys.stderr)
        return 2
    if not results:
        print(f"second opinion: no run is called \"{told.run}\"", file=sys.stderr)
        return 2
    failed = results.count(False)
    print(f"{len(results) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
