"""Checks job files against the schema with an independent validator.

    python3 check_schema.py SCHEMA accepts|refuses FILE...

Exit 0 when every file is accepted (or refused), 1 when one is not, 77 without the jsonschema package.
"""
import json
import sys

try:
    import jsonschema
except ImportError:
    sys.exit(77)

schema_path, expectation, *files = sys.argv[1:]
with open(schema_path, encoding="utf-8") as file:
    schema = json.load(file)
jsonschema.Draft202012Validator.check_schema(schema)
validator = jsonschema.Draft202012Validator(schema)

wrong = 0
for path in files:
    with open(path, encoding="utf-8") as file:
        errors = list(validator.iter_errors(json.load(file)))
    if bool(errors) == (expectation == "accepts"):
        wrong += 1
        print(f"{path}: not as expected ({expectation})", file=sys.stderr)
        for error in errors[:3]:
            print(f"  /{'/'.join(map(str, error.absolute_path))}: {error.message[:200]}", file=sys.stderr)
sys.exit(1 if wrong else 0)
