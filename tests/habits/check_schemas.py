"""Judges the shipped content by its published schemas with a general-purpose validator that knows nothing of our reader.

check_schemas.py CONTENT_DIR   Prints one line for each error, then how many files were judged. Exit 0 when all is well.
"""
import copy
import json
import pathlib
import sys

from jsonschema import Draft7Validator

FILES = {
    "ingredient": "ingredients/*.json",
    "machine": "machines/*.json",
    "body": "bodies/*.json",
    "circuit": "circuits/*.json",
    "diagram": "diagrams/*.json",
    "fault": "faults/*.json",
    "chemical": "chemicals/*.json",
    "recipe": "recipes/*.json",
    "lesson": "lessons/*/lesson.json",
    "skills": "skills/*.json",
    "assessment": "assessments/*.json",
    "cautions": "text/cautions.json",
    "safety_faults": "guides/safety-faults.json",
    "alarms": "text/alarms.json",
    "heat_treatment": "rules/heat_treatment*.json",
    "cooling": "rules/cooling*.json",
    "organisms": "rules/organisms*.json",
    "guide": "fault_guides/*.json",
    "evidence": "evidence/*.json",
}


def with_usual(document):
    """A lesson as its shipped runs meet it: the usual value of each draw put in for {"drawn": NAME}."""
    usual = {one["name"]: one["usual"] for one in document.get("varies", [])}

    def put_in(value):
        if isinstance(value, list):
            return [put_in(one) for one in value]
        if not isinstance(value, dict):
            return value
        if not isinstance(value.get("drawn"), str):
            return {key: one if key == "varies" else put_in(one) for key, one in value.items()}
        drawn = usual[value["drawn"]]
        if "of" in value:
            drawn = drawn[value["of"]]
        if "times" in value or "plus" in value:
            drawn = round(drawn * value.get("times", 1) + value.get("plus", 0), 6)
        return drawn

    return put_in(document)


def wrong_actions(content):
    """Every line of every lesson's actions files; and a line with a key that its hand does not take must fail."""
    errors = []
    schema = json.loads((content / "schema" / "action.schema.json").read_text(encoding="utf-8"))
    Draft7Validator.check_schema(schema)
    validator = Draft7Validator(schema)
    for file in sorted(content.glob("lessons/*/*.jsonl")):
        for number, line in enumerate(file.read_text(encoding="utf-8").splitlines(), 1):
            if not line.strip():
                continue
            document = json.loads(line)
            errors += [f"{file.relative_to(content)}:{number}: {error.message}" for error in validator.iter_errors(document)]
            if validator.is_valid(dict(document, no_such_key=1)):
                errors.append(f"action.schema.json lets an unknown key pass in {file.name}:{number}")
    return errors


def main(content):
    errors = []
    judged = 0
    for kind, pattern in FILES.items():
        schema = json.loads((content / "schema" / f"{kind}.schema.json").read_text(encoding="utf-8"))
        Draft7Validator.check_schema(schema)
        validator = Draft7Validator(schema)
        for file in sorted(content.glob(pattern)):
            document = json.loads(file.read_text(encoding="utf-8"))
            if kind == "lesson":
                document = with_usual(document)
            judged += 1
            for error in validator.iter_errors(document):
                place = "/".join(str(part) for part in error.absolute_path)
                errors.append(f"{file.relative_to(content)}:/{place}: {error.message}")
            # A schema that lets everything pass would prove nothing.
            if isinstance(document, dict) and "id" in document:
                stranger = copy.deepcopy(document)
                stranger["no_such_key"] = 1
                nameless = copy.deepcopy(document)
                del nameless["id"]
                if validator.is_valid(stranger):
                    errors.append(f"{kind}.schema.json lets an unknown key pass in {file.name}")
                if validator.is_valid(nameless):
                    errors.append(f"{kind}.schema.json does not ask for the id of {file.name}")
    errors += wrong_actions(content)
    print("\n".join(errors + [f"{judged} files judged"]))
    return 1 if errors else 0


sys.exit(main(pathlib.Path(sys.argv[1])))
