#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Validates a JSON file against a schema, and shows that the schema refuses the file once it is spoiled.

usage: schema_test.py SCHEMA FILE LIST-OR-OBJECT-KEY
"""
import copy
import json
import sys

import jsonschema


def no_doubles(pairs):
    keys = [key for key, _ in pairs]
    assert len(keys) == len(set(keys)), f"a key is given twice: {keys}"
    return dict(pairs)


def main():
    schema_name, file_name, key = sys.argv[1:4]
    with open(schema_name, encoding="utf-8") as stream:
        schema = json.load(stream)
    with open(file_name, encoding="utf-8") as stream:
        content = json.load(stream, object_pairs_hook=no_doubles)
    validator = jsonschema.Draft202012Validator(schema)
    validator.check_schema(schema)
    faults = sorted(validator.iter_errors(content), key=lambda fault: list(map(str, fault.absolute_path)))
    for fault in faults:
        print("/".join(map(str, fault.absolute_path)), fault.message[:200])

    spoiled = copy.deepcopy(content)
    entries = spoiled[key]
    first = entries[0] if isinstance(entries, list) else next(iter(entries.values()))
    first["no such key"] = 1
    if validator.is_valid(spoiled):
        print("an unknown key is not refused")
        return 1
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
