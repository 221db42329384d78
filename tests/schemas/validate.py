"""Real output of every command against its JSON Schema, and documents that each schema must refuse. Run by tests/schemas.sh.

    validate.py TOP PROGRAM FOLDER-OF-SCHEMAS

A schema here says something of each property alone, so that a wrong value of one property is all that a bad document needs."""
import glob
import json
import os
import subprocess
import sys

from jsonschema import Draft202012Validator

top, program, folder = sys.argv[1:]
samples, golden, own = f"{top}/samples/logs", f"{top}/tests/golden", f"{top}/tests/schemas"
passed = failed = 0


def check(good, text):
    global passed, failed
    passed += bool(good)
    failed += not good
    if not good:
        print("FAIL:", text)


def lines(arguments):
    """The documents that a command prints; refused lines and empty logs are no fault here, a crash is."""
    run = subprocess.run([program, *arguments], capture_output=True, cwd=top, stdin=subprocess.DEVNULL, check=False)
    check(run.returncode in (0, 1, 2, 3), f"{arguments}: status {run.returncode}")
    return [json.loads(line) for line in run.stdout.decode("utf-8").splitlines()]


def of_logs(logs):
    """Each table of a log: the schema's name and the command."""
    for name, *words in (
        ["check", "check"], ["loads", "loads"], ["trend", "trend"], ["trend-slopes", "trend", "--slopes"],
        ["trend-velocity", "trend", "--velocity"], ["trend-speed-loss", "trend", "--speed-loss"], ["waves", "waves"],
        ["waves-slopes", "waves", "--slopes"], ["waves-verdicts", "waves", "--verdicts"], ["audit", "audit"], ["plan", "plan"],
    ):
        yield name, [*words, "--today", "2026-11-02", "--format", "json", logs]


def of_setups():
    gym = ["--gym", f"{top}/samples/gym.ini", "--today", "2026-11-02"]
    maren = [*gym, "--lifter", "Maren Holtvik", "--lift", "squat"]
    short = ["--gym", f"{own}/short.ini", "--today", "2026-11-02", "--lift", "squat"]
    for load in ("60 kg + 2 chains/side", "60 kg", "60 kg + band b24 @ pegs", "60 kg + chains", "140 kg + reverse band b48", "20 kg + 15 kg chain/side"):
        for who in (maren, gym, [*gym, "--heights", "0.8 m 1.4 m", "--max", "150 kg"]):
            yield "setup", ["setup", *who, load, "--format", "json"]
        yield "setup-curve", ["setup", *maren, load, "--curve", "json"]
    both = ["--gym", f"{golden}/fit-both-ways/gym.ini", "--today", "2026-11-02", "--lift", "squat"]
    yield "setup", ["setup", *both, "100 kg + band b26", "--format", "json"]
    yield "setup", ["setup", *maren, "60 kg + 2 chains/side", "--speed", "0.6 m/s", "--format", "json"]
    yield "setup-curve", ["setup", *maren, "60 kg + 2 chains/side", "--speed", "0.9 m/s peak", "--curve", "json"]
    yield "setup-curve", ["setup", *short, "60 kg + 2 chains/side", "--curve", "json"]
    yield "setup-share", ["setup", *short, "--share", "20%", "--format", "json"]
    yield "setup-share", ["setup", *maren, "--share", "20%", "--format", "json"]
    yield "setup-share", ["setup", *maren, "--share", "30%", "--gear", "bands", "--most", "40", "--format", "json"]
    yield "setup-share", ["setup", *gym, "--heights", "0.8 m 1.4 m", "--max", "150 kg", "--share", "25%", "--most", "40", "--format", "json"]


def of_bands():
    for each in [*sorted(glob.glob(f"{golden}/fit-*/*.csv")), f"{own}/apart.csv"]:
        yield "fit", ["fit", each, "--format", "json"]
        yield "fit-compare", ["fit", each, "--compare", "--format", "json"]
    aged = [f"{golden}/fit-aged/both.csv", f"{golden}/fit-aged/new.csv", "--gym", f"{golden}/fit-aged/gym.ini"]
    yield "fit-compare", ["fit", *aged, "--compare", "--format", "json"]


def of_plans():
    for folder in ("plan-done", "plot-planned"):
        for each in sorted(glob.glob(f"{golden}/{folder}/*.csv")):
            for log in sorted(glob.glob(f"{golden}/{folder}/log.*")):
                yield "waves-plan", ["waves", "--plan", each, log, "--today", "2026-11-02", "--format", "json"]


def commands():
    yield from of_logs(samples)
    for log in (f"{top}/samples/plain/export.csv", f"{own}/odd.csv", *sorted(glob.glob(f"{golden}/*/*log*.[ct][sx][vt]")), *sorted(glob.glob(f"{golden}/empty-logs/*.csv"))):
        yield from of_logs(log)
    edda = ["plan", f"{own}/odd.csv", "--lifter", "Edda Moorcroft", "--format", "json"]
    yield "plan", [*edda, "--lift", "deadlift", "--max", "100 kg"]
    yield "plan", [*edda, "--lift", "squat", "--max", "2000 kg", "--percent", "150", "--steps", "20", "--weeks", "12"]
    yield from of_setups()
    yield from of_bands()
    yield from of_plans()


def wrong_values(schema):
    """Values that the property must not have."""
    kinds = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    yield from ({}, [], True)
    if "null" not in kinds:
        yield None
    yield from ([1.5, "1"] if "integer" in kinds else ["1"] if "number" in kinds else [1, ""])
    for bound in ("minimum", "exclusiveMinimum"):
        if bound in schema:
            yield schema[bound] - 1
    if "maximum" in schema:
        yield schema["maximum"] + 1
    if "enum" in schema:
        yield 2 if "integer" in kinds else "else"
    if "pattern" in schema:
        yield from ("2026-13-01", "2026-W60", "tested", "no-such-word")


def refuses(name, schema, document):
    """The schema must refuse the document with one thing wrong in it."""
    validator = Draft202012Validator(schema)
    check(validator.is_valid(document), f"{name}: a real document")
    check(not validator.is_valid({**document, "more": 1}), f"{name}: takes a property that it does not name")
    check(not validator.is_valid([document]), f"{name}: takes an array")
    for key, of_key in schema["properties"].items():
        check(not validator.is_valid({k: v for k, v in document.items() if k != key}), f"{name}: does without {key}")
        for wrong in wrong_values(of_key):
            check(not validator.is_valid({**document, key: wrong}), f"{name}: takes {key} = {wrong!r}")


def read(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file)


def main():
    names = [os.path.basename(path)[: -len(".schema.json")] for path in sorted(glob.glob(f"{folder}/*.schema.json"))]
    schemas = {name: read(f"{folder}/{name}.schema.json") for name in names if not name.endswith("-lb")}
    for name, schema in schemas.items():
        Draft202012Validator.check_schema(schema)
    validators = {name: Draft202012Validator(schema) for name, schema in schemas.items()}
    seen = {name: {} for name in schemas}  # property: whether null and whether anything else was seen
    first, giving = {}, {name: [] for name in schemas}  # giving: the commands that gave a document
    for name, arguments in commands():
        documents = lines(arguments)
        giving[name] += [arguments] * bool(documents)
        for document in documents:
            first.setdefault(name, document)
            fresh = [k for k, v in document.items() if v not in seen[name].setdefault(k, set())]
            if not fresh:  # nothing in it that was not looked at before, in a document with the same properties
                continue
            for key in fresh:
                seen[name][key].add(document[key])
            error = next(validators[name].iter_errors(document), None)
            check(not error, f"{' '.join(arguments)}: {error and list(error.path)}: {error and error.message}")
    for name, schema in schemas.items():
        check(name in first, f"{name}: no document to look at")
        if name in first:
            refuses(name, schema, first[name])
        for key, of_key in schema["properties"].items():
            values = seen[name].get(key, set())
            check(values - {None}, f"{name}: {key} was always null: nothing shows that its type is right")
            check(None in values or "null" not in of_key["type"], f"{name}: {key} was never null, and may be")
    for path in sorted(glob.glob(f"{folder}/*-lb.schema.json")):
        name = os.path.basename(path)[: -len("-lb.schema.json")]
        schema = read(path)
        Draft202012Validator.check_schema(schema)
        check("kg" not in json.dumps(schema), f"{path}: kg in it")
        documents = [document for arguments in giving[name][:3] for document in lines([*arguments, "--unit", "lb"])[:50]]
        check(documents, f"{path}: no document to look at")
        for document in documents:
            check(Draft202012Validator(schema).is_valid(document), f"{path}: {document}")
        check(first[name] == documents[0] or not Draft202012Validator(schema).is_valid(first[name]), f"{path}: takes kilograms")
    print(f"{passed} documents and faults in them judged rightly, {failed} wrongly")
    return failed > 0 or passed == 0


sys.exit(main())
