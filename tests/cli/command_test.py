#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The command: help, exit codes, whole jobs in and out. Called with the paths of soffit and sample-job."""
import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

SOFFIT, SAMPLE = sys.argv[1:3]
LOCALES = ('C', 'de_DE.UTF-8', 'tr_TR.UTF-8')


def soffit(*arguments, given=None, **variables):
    done = subprocess.run([SOFFIT, *map(str, arguments)], input=given, capture_output=True, check=False, env={**os.environ, **variables})
    return done.returncode, done.stdout, done.stderr.decode()


def expect(code, *arguments, part='', **more):
    got, out, said = soffit(*arguments, **more)
    assert got == code, (arguments, got, said)
    assert part in said, (arguments, said)
    assert bool(said) == (code != 0), (arguments, said)
    return out


def sample(seed, each):
    return subprocess.run([SAMPLE, str(seed), str(each)], capture_output=True, check=True).stdout


def verbs():
    lines = expect(0, '--help').decode().split('Verbs:\n')[1].split('\n\n')[0]
    return [line.split()[0] for line in lines.splitlines()]


def test_help_and_version():
    assert {'new', 'json', 'make', 'info', 'schema', 'validate'} <= set(verbs())
    for verb in verbs():
        assert f'soffit {verb}' in expect(0, verb, '--help').decode()
    assert expect(0, '--version').decode().startswith('soffit ')


def test_wrong_use():
    expect(2, part='a verb is missing')
    expect(2, 'jsn', part='did you mean "json"?')
    expect(2, 'json', part='something is missing: it takes JOB')
    expect(2, 'json', 'a', 'b', part='too many operands')
    expect(2, 'json', '--frobnicate', 'a', part='frobnicate')
    expect(2, 'json', '--to', part='soffit json --help')


def test_what_cannot_be_read_or_written():
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        expect(3, 'json', folder / 'gone.soffit', part='gone.soffit: cannot open the file')
        expect(3, 'json', folder / 'gone.json', part='gone.json')
        expect(3, 'info', folder, part='this is a folder')
        (folder / 'text.soffit').write_text('{}')
        expect(3, 'json', folder / 'text.soffit', part='this file is not a job')
        (folder / 'bad.json').write_text('{"format": "soffit-job", "version": 1,\n "rooms": [{"outline": [[0, 0], [9, 0]]}]}')
        expect(3, 'validate', folder / 'bad.json', part='bad.json: rooms[0].outline: needs at least 3 points')
        expect(0, 'new', folder / 'a.soffit')
        expect(3, 'new', folder / 'a.soffit', part='there is a file of this name already')
        expect(0, 'new', '--replace', folder / 'a.soffit')
        expect(3, 'json', folder / 'a.soffit', '--to', folder / 'no' / 'a.json', part='a.json')
        with open('/dev/full', 'wb') as full:
            done = subprocess.run([SOFFIT, 'schema'], stdout=full, stderr=subprocess.PIPE, check=False)
        assert done.returncode == 3 and b'standard output' in done.stderr, done


def test_jobs_go_through_files_in_every_locale():
    given = sample(31, 4)
    files = set()
    for locale in LOCALES:
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            (folder / 'in.json').write_bytes(given)
            expect(0, 'make', folder / 'in.json', folder / 'job.soffit', LC_ALL=locale)
            assert expect(0, 'json', folder / 'job.soffit', LC_ALL=locale) == given
            expect(0, 'json', folder / 'job.soffit', '--to', folder / 'out.json', LC_ALL=locale)
            assert (folder / 'out.json').read_bytes() == given
            expect(0, 'make', folder / 'job.soffit', folder / 'copy.json', LC_ALL=locale)
            assert (folder / 'copy.json').read_bytes() == given
            expect(0, 'validate', folder / 'job.soffit', folder / 'out.json', LC_ALL=locale)
            assert sorted(path.name for path in folder.iterdir()) == ['copy.json', 'in.json', 'job.soffit', 'out.json']
            files.add((folder / 'copy.json').read_bytes())
    assert len(files) == 1


def test_info_counts_records():
    with tempfile.TemporaryDirectory() as name:
        path = Path(name) / 'job.soffit'
        expect(0, 'new', '--name', 'Clinic', path)
        assert expect(0, 'info', path).decode().splitlines()[0] == 'Job: Clinic'
    out = expect(0, 'info', '-', given=sample(32, 3)).decode()
    assert '     3  downlight\n' in out and '     3  bay\n' in out, out


def test_reading_leaves_the_file_as_it_was():
    with tempfile.TemporaryDirectory() as name:
        path = Path(name) / 'job.soffit'
        expect(0, 'make', '-', path, given=sample(33, 2))
        before = path.read_bytes()
        path.chmod(0o444)
        for verb in ('json', 'info', 'validate'):
            expect(0, verb, path)
        assert path.read_bytes() == before


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
