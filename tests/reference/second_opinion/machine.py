"""The machine and the mixes as the content files tell them; what a key means stands in content/schema."""

import json
from pathlib import Path
from types import SimpleNamespace

from properties import Mix


# Heat that crystals take up when they dissolve, J per kg of the component: sucrose 16e3 (Mohos, appendix;
# from memory); dextrose monohydrate 105e3 a kg of crystals (25 cal/g, sweetener tables; from memory), 9 %
# of it water.
SOLUTION_J_PER_KG = {"sucrose": 16e3, "monosaccharide": 105e3 / 0.909}


class ContentError(Exception):
    """A content file that lacks what the model needs; the text names file and key."""


def read_json(path):
    try:
        return json.loads(Path(path).read_text(encoding="utf-8"))
    except (OSError, ValueError) as problem:
        raise ContentError(f"{path}: {problem}") from problem


class _Part(SimpleNamespace):
    """A part of the machine; a key that is not in the file is an error that names it."""

    def get(self, key, default):
        """A key that not every machine has."""
        return vars(self).get(key, default)

    def __getattr__(self, key):
        raise ContentError(f"{self.place} has no \"{key}\", which the second opinion needs")


def machine(content, name):
    """content/machines/NAME.json as attributes: machine.vat.working_L and so on."""
    path = Path(content) / "machines" / f"{name}.json"
    parts = {}
    for key, value in read_json(path).items():
        parts[key] = _Part(place=f"{path}: {key}", **value) if isinstance(value, dict) else value
    return _Part(place=str(path), **parts)


def mix(content, pours):
    """The mix of (ingredient, kg, degC): (Mix, kg, degC when poured together and dissolved)."""
    total = sum(kg for _, kg, _ in pours)
    fraction, heat, capacity = {}, 0.0, 0.0
    for ingredient, kg, degC in pours:
        path = Path(content) / "ingredients" / f"{ingredient}.json"
        told = read_json(path)
        shares = told["fraction"]
        cp = Mix(shares).cp(degC)
        heat += kg * cp * degC
        capacity += kg * cp
        if told["form"] == "crystals":
            heat -= kg * sum(shares.get(part, 0.0) * taken for part, taken in SOLUTION_J_PER_KG.items())
        for component, share in shares.items():
            fraction[component] = fraction.get(component, 0.0) + share * kg / total
    return Mix(fraction), total, heat / capacity


def recipe_pours(content, recipe, degC, kg=None):
    """Everything that a recipe adds, poured at one temperature; scaled to kg when that is given."""
    amounts = []
    told = read_json(Path(content) / "recipes" / f"{recipe}.json")
    for part in told["start"] + [a for p in told["phases"] for a in p.get("additions", [])]:
        amounts.append((part["ingredient"], part["kg"]))
    scale = 1.0 if kg is None else kg / sum(amount for _, amount in amounts)
    return [(ingredient, round(amount * scale, 3), degC) for ingredient, amount in amounts]
