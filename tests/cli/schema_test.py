#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""data/job.schema.json is what the program generates, and an independent validator agrees with the program's own reader.

Called with the paths of soffit and sample-job.
"""
import copy
import json
import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

try:
    import jsonschema
except ImportError:
    jsonschema = None

SOFFIT, SAMPLE = sys.argv[1:3]
SCHEMA = ROOT / 'data' / 'job.schema.json'

GOOD = {
    'format': 'soffit-job', 'version': 1,
    'job': {'name': 'Clinic', 'pour_date': '2026-03-02'},
    'profiles': [{'id': 'deep', 'depth_mm': 300}],
    'bays': [{'id': 'A', 'profile': 'deep', 'outline': [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]}],
    'rooms': [{'outline': [[0, 0], [4000, 0], [4000, 3000]], 'finish': 'exposed', 'boards_turned': True}],
    'fittings': [{'id': 'box', 'at': [100, 0]}],
    'runs': [{'vertices': [{'at': [0, 0], 'z': 60}, {'at': [100, 0], 'level': 'fall'}], 'end': 'box'}],
    'prices': [{'id': 'board', 'material': '120.50'}],
}

# What is done to GOOD, so that neither the schema nor the reader takes it.
FAULTS = {
    'unknown table': lambda job: job.update(romms=[]),
    'unknown key': lambda job: job['rooms'][0].update(outlien=[]),
    'no format': lambda job: job.pop('format'),
    'other format': lambda job: job.update(format='other'),
    'newer version': lambda job: job.update(version=2),
    'table is no list': lambda job: job.update(rooms={}),
    'record is no object': lambda job: job['rooms'].append(7),
    'outline missing': lambda job: job['rooms'][0].pop('outline'),
    'profile missing': lambda job: job['bays'][0].pop('profile'),
    'outline of two': lambda job: job['rooms'][0].update(outline=[[0, 0], [1000, 0]]),
    'point of three': lambda job: job['rooms'][0].update(outline=[[0, 0, 0], [1000, 0], [0, 1000]]),
    'point of texts': lambda job: job['fittings'][0].update(at=['0', '0']),
    'vertex without place': lambda job: job['runs'][0]['vertices'].append({'z': 3}),
    'vertex with unknown key': lambda job: job['runs'][0]['vertices'][0].update(x=3),
    'number as text': lambda job: job['profiles'][0].update(depth_mm='300'),
    'number out of range': lambda job: job['profiles'][0].update(depth_mm=-1),
    'place out of range': lambda job: job['fittings'][0].update(at=[2e7, 0]),
    'fraction': lambda job: job['bays'][0].update(first_void=1.5),
    'unknown word': lambda job: job['rooms'][0].update(finish='velvet'),
    'true as number': lambda job: job['rooms'][0].update(boards_turned=1),
    'null': lambda job: job['job'].update(name=None),
    'date': lambda job: job['job'].update(pour_date='2 March'),
    'money as number': lambda job: job['prices'][0].update(material=120.5),
    'money too fine': lambda job: job['prices'][0].update(material='1.23456'),
    'reference as number': lambda job: job['runs'][0].update(end=1),
    'empty id': lambda job: job['rooms'][0].update(id=''),
}


def soffit(*arguments, given=None, **variables):
    done = subprocess.run([SOFFIT, *arguments], input=given, capture_output=True, check=False, env={**os.environ, **variables})
    return done.returncode, done.stdout, done.stderr.decode()


def validator():
    if jsonschema is None:
        raise tap.Skip('python3-jsonschema is not installed')
    schema = json.loads(SCHEMA.read_text(encoding='utf-8'))
    kind = jsonschema.validators.validator_for(schema)
    kind.check_schema(schema)
    return kind(schema)


def sample(seed, each):
    return subprocess.run([SAMPLE, str(seed), str(each)], capture_output=True, check=True).stdout


def test_schema_in_data_is_the_generated_one():
    code, out, said = soffit('schema')
    assert (code, said) == (0, ''), said
    assert out == SCHEMA.read_bytes(), 'write it again: soffit schema --to data/job.schema.json'


def test_schema_takes_good_jobs():
    check = validator()
    documents = {'small': GOOD, 'smallest': {'format': 'soffit-job', 'version': 1}}
    documents.update({f'sample {seed}': json.loads(sample(seed, 3)) for seed in (1, 2, 3)})
    for path in sorted((ROOT / 'examples').glob('*.json')):
        documents[path.name] = json.loads(path.read_text(encoding='utf-8'))
    for name, document in documents.items():
        errors = [f'{name}: {error.json_path}: {error.message}' for error in check.iter_errors(document)]
        assert not errors, errors
        code, _, said = soffit('validate', '-', given=json.dumps(document).encode())
        assert code == 0, (name, said)


def test_schema_and_reader_refuse_bad_jobs():
    check = validator()
    for name, spoil in FAULTS.items():
        document = copy.deepcopy(GOOD)
        spoil(document)
        assert not check.is_valid(document), f'{name}: the schema takes it'
        code, _, said = soffit('validate', '-', given=json.dumps(document).encode())
        assert code == 3, f'{name}: the reader takes it'
        assert said.startswith('soffit: '), said


def test_text_form_is_stable_in_every_locale():
    given = sample(9, 4)
    for name in ('C', 'de_DE.UTF-8', 'tr_TR.UTF-8'):
        code, out, said = soffit('json', '-', given=given, LC_ALL=name)
        assert (code, said) == (0, ''), said
        assert out == given, name


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
