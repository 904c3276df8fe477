"""Holds specs against the editor schema with a validator from outside.

judge_schema.py SCHEMA.json good SPEC... : each must be valid; judge_schema.py SCHEMA.json bad SPEC... : none may be."""

import json
import sys
import tomllib

import jsonschema


def main(schema_file, wanted, specs):
    with open(schema_file, encoding="utf-8") as file:
        schema = json.load(file)
    jsonschema.Draft7Validator.check_schema(schema)
    validator = jsonschema.Draft7Validator(schema)
    wrong = 0
    for name in specs:
        with open(name, "rb") as file:
            errors = sorted(validator.iter_errors(tomllib.load(file)), key=str)
        if (wanted == "good") == bool(errors):
            wrong += 1
            print(f"{name}: {errors[0].message if errors else 'valid, but it should not be'}")
    return 1 if wrong or not specs else 0


sys.exit(main(sys.argv[1], sys.argv[2], sys.argv[3:]))
