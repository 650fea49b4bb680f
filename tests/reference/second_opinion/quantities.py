"""What is compared: numbers read the same way from either trace, each with its band and the band's reason.

A trace is a dict of arrays by the program's column names (stirbench simulate --trace). Bands come from what
the published equations are uncertain by, and were chosen before the first comparison.
"""

from dataclasses import dataclass
from typing import Callable

import numpy as np


@dataclass(frozen=True)
class Quantity:
    label: str
    unit: str
    read: Callable  # trace -> float; nan when the trace does not come so far
    band: float     # share of the second opinion's value, or in the unit itself when `absolute`
    reason: str
    absolute: bool = False
    start: float = 0.0      # added to the band, in the unit: what only the start is uncertain by

    def allowed(self, here):
        return (self.band if self.absolute else self.band * abs(here)) + self.start

    def band_text(self):
        text = f"{self.band:g} {self.unit}" if self.absolute else f"{100.0 * self.band:.3g} %"
        return "+-" + text + (f" +{self.start:g} {self.unit}" if self.start else "")


def _at(trace, column, t):
    return float(np.interp(t, trace["time_s"], trace[column]))


def _name_and_unit(column):
    """product_degC -> product, degC; circulation_L_per_min -> circulation, L/min."""
    name, unit = column.replace("_per_", "/").rsplit("_", 1)
    return name.replace("_", " "), unit


def reach(column, degC, since, band, reason, start=0.0):
    """Seconds from `since` until a temperature is first met, up or down."""
    def read(trace):
        later = trace["time_s"] >= since
        t, y = trace["time_s"][later], trace[column][later] - degC
        sign = np.sign(y[0])
        beyond = np.nonzero(y * sign <= 0.0)[0]
        if sign == 0.0 or len(beyond) == 0:
            return float("nan")
        k = beyond[0]
        return float(t[k - 1] + (t[k] - t[k - 1]) * y[k - 1] / (y[k - 1] - y[k]) - since)
    name, _ = _name_and_unit(column)
    return Quantity(f"{name} at {degC:g} degC after", "s", read, band, reason, start=start)


def difference(warm, cold, t, band, reason):
    return Quantity(f"{warm[:-5].replace('_', ' ')} over {cold[:-5]} at {t:g} s", "K",
                    lambda trace: _at(trace, warm, t) - _at(trace, cold, t), band, reason)


def fall(column, start, end, band, reason):
    return Quantity(f"{column.split('_')[0]} fell {start:g} .. {end:g} s", "K" if "degC" in column else "kg",
                    lambda trace: _at(trace, column, start) - _at(trace, column, end), band, reason)


def value(column, t, band, reason, absolute=False):
    name, unit = _name_and_unit(column)
    return Quantity(f"{name} at {t:g} s", unit,
                    lambda trace: _at(trace, column, t), band, reason, absolute)


def mean(column, start, end, band, reason, absolute=False):
    def read(trace):
        return float(np.mean(np.interp(np.arange(start, end, 1.0), trace["time_s"], trace[column])))
    name, unit = _name_and_unit(column)
    return Quantity(f"{name} mean {start:g} .. {end:g} s", unit, read, band, reason, absolute)


def value_when(column, other, degC, since, band, reason, absolute=False):
    """A column when another one first meets a temperature."""
    name, unit = _name_and_unit(column)
    when = reach(other, degC, since, 0.0, "").read
    return Quantity(f"{name} at {degC:g} degC", unit,
                    lambda trace: _at(trace, column, since + when(trace)), band, reason, absolute)


def holding(column, start, end, band, reason):
    """Mean power over whole cycles of the thermostat: from the first switching-on within start .. end to
    the last one. A switching-on comes after a rest of a minute; shorter ones belong to the taper."""
    def read(trace):
        t, y = trace["time_s"], trace[column] > 0.0
        edges = np.nonzero(y[1:] & ~y[:-1])[0] + 1
        was_on = np.maximum.accumulate(np.where(y, t, -np.inf))
        on = edges[(t[edges] - was_on[edges - 1] > 60.0) & (t[edges] >= start) & (t[edges] <= end)]
        if len(on) < 2:
            return float("nan")
        first, last = on[0], on[-1]
        return float(np.sum(trace[column][first:last] * np.diff(t[first:last + 1])) / (t[last] - t[first]))
    name, _ = _name_and_unit(column)
    return Quantity(f"{name} mean over whole cycles", "W", read, band, reason)
