"""Judges documents by a JSON Schema with the reference library of the draft.

usage: judge_schema.py FILE, with FILE = {"schema": ..., "documents": [...]}.
Prints one line a document: `accept`, or `refuse` and why.
"""

import json
import sys

import jsonschema

with open(sys.argv[1], encoding="utf-8") as file:
    task = json.load(file)
jsonschema.Draft7Validator.check_schema(task["schema"])
validator = jsonschema.Draft7Validator(task["schema"])
for document in task["documents"]:
    error = next(validator.iter_errors(document), None)
    print("accept" if error is None else "refuse " + error.message[:200].replace("\n", " "))
