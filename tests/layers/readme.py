#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What README.md promises, tried: readme.py SOFFIT"""
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

README = (ROOT / 'README.md').read_text(encoding='utf-8')


def job_text():
    """The job that the README shows."""
    blocks = re.findall(r'^```json\n(.*?)^```$', README, re.MULTILINE | re.DOTALL)
    assert len(blocks) == 1, blocks
    return blocks[0]


def soffit(*arguments):
    return subprocess.run([sys.argv[1], *arguments], capture_output=True, text=True, check=False)


def test_shown_job_is_good():
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / 'store.json'
        path.write_text(job_text(), encoding='utf-8')
        done = soffit('validate', str(path))
        assert done.returncode == 0, done.stderr
        done = soffit('json', str(path))
    assert done.returncode == 0, done.stderr
    written, shown = json.loads(done.stdout), json.loads(job_text())
    for table, records in shown.items():
        if isinstance(records, list):
            assert [record['id'] for record in written[table]] == [record['id'] for record in records], table


def test_shown_job_follows_the_schema():
    try:
        import jsonschema
    except ImportError as reason:
        raise tap.Skip('python3-jsonschema is not installed') from reason
    schema = json.loads((ROOT / 'data' / 'job.schema.json').read_text(encoding='utf-8'))
    jsonschema.validators.validator_for(schema)(schema).validate(json.loads(job_text()))


def test_shown_verbs_exist():
    known = soffit('--help').stdout
    for verb in set(re.findall(r'^    soffit ([a-z-]+)', README, re.MULTILINE)):
        assert re.search(rf'^  {verb} ', known, re.MULTILINE), verb


def test_each_verb_is_shown():
    known = re.findall(r'^  ([a-z-]+)  ', soffit('--help').stdout, re.MULTILINE)
    assert len(known) > 10, known
    shown = set(re.findall(r'^    soffit ([a-z-]+)', README, re.MULTILINE))
    assert set(known) <= shown, set(known) - shown


def test_files_that_are_named_exist():
    for name in re.findall(r'`((?:data|examples|tests|po|src|ui)/[\w./-]*)`', README):
        assert (ROOT / name).exists(), name
    for picture in re.findall(r'!\[[^]]*\]\(([^)]+)\)', README):
        assert (ROOT / picture).exists(), picture


def test_commands_can_be_run():
    for name in ('examples/open', 'tests/run', '.ci/setup', '.ci/run'):
        path = ROOT / name
        assert path.stat().st_mode & 0o111, name
        subprocess.run(['bash', '-n', path], check=True)


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
