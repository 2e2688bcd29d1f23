#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The example job: it shows what its page says, and goes through the whole command alike in every language.

Called with the path of soffit.
"""
import csv
import hashlib
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path
from xml.etree import ElementTree

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

SOFFIT = sys.argv[1]
EXAMPLE = ROOT / 'examples' / 'community-hall.json'
PAGE = ROOT / 'examples' / 'README.md'
LOCALES = ('C.UTF-8', 'de_DE.UTF-8', 'tr_TR.UTF-8')
JOB = json.loads(EXAMPLE.read_text(encoding='utf-8'))
WET = ('waste', 'soil', 'rainwater', 'condensate', 'cold', 'hot')


def soffit(*arguments, codes=(0,), **variables):
    done = subprocess.run([SOFFIT, *map(str, arguments)], capture_output=True, check=False, env={**os.environ, **variables})
    assert done.returncode in codes, (arguments, done.returncode, done.stderr.decode())
    return done.stdout


def snags():
    return json.loads(soffit('check', '--format', 'json', EXAMPLE, codes=(0, 1)))


def page_snags():
    """What the page says is left in on purpose: (severity, rule, mark), a row each."""
    rows = re.findall(r'^\| (stop|fix|note) \| `([\w-]+)` \| ([^|]+?) \|', PAGE.read_text(encoding='utf-8'), re.MULTILINE)
    return [(severity, rule, mark) for severity, rule, marks in rows for mark in marks.split(', ')]


def test_building():
    assert len(JOB['bays']) == 3
    assert len({bay.get('direction_deg', 0) % 180 for bay in JOB['bays']}) == 2, 'two directions of voids'
    assert len(JOB['rooms']) == 8
    assert {room.get('finish', 'closed') for room in JOB['rooms']} == {'closed', 'exposed'}
    assert len([wall for wall in JOB['walls'] if wall.get('separating')]) == 2
    assert len(JOB['beams']) >= 1
    assert [column for column in JOB['columns'] if column.get('kind') == 'shaft'], 'a shaft'
    assert {measure.get('kind', 'rib') for measure in JOB['measures']} >= {'rib', 'level', 'plate'}


def test_services():
    assert 38 <= len(JOB['lights']) <= 42
    services = Counter(run.get('service', 'power') for run in JOB['runs'])
    assert sum(services.values()) >= 25, services
    assert len(services) >= 6, services
    assert sum(services[service] for service in WET) >= 5, services
    assert [run for run in JOB['runs'] if any(vertex.get('level') == 'below' for vertex in run['vertices'])], 'a crossing below a rib'


def test_marks_are_unique():
    marks = Counter(record['id'] for table, records in JOB.items() if isinstance(records, list) for record in records)
    assert not [mark for mark, count in marks.items() if count > 1]


def test_a_handful_of_snags_of_each_severity():
    counts = Counter(snag['severity'] for snag in snags())
    for severity in ('stop', 'fix', 'note'):
        assert 3 <= counts[severity] <= 16, counts


def test_snags_are_those_of_the_page():
    found = Counter((snag['severity'], snag['rule'], snag['of']) for snag in snags())
    told = Counter(page_snags())
    assert found == told, {'not on the page': found - told, 'not found': told - found}


def outputs(locale, folder):
    """Everything that the command makes of the example in a locale: what it is called and its bytes."""
    job = folder / 'hall.soffit'
    soffit('make', EXAMPLE, job, LC_ALL=locale)
    made = {'json': soffit('json', job, LC_ALL=locale)}
    for verb in ('check', 'info', 'deck', 'price', 'choice', 'prices'):
        made[verb] = soffit(verb, job, codes=(0, 1), LC_ALL=locale)
    for verb, form in (('check', 'json'), ('price', 'csv'), ('price', 'json'), ('choice', 'csv'), ('choice', 'json')):
        made[f'{verb} {form}'] = soffit(verb, '--format', form, job, codes=(0, 1), LC_ALL=locale)
    soffit('export', '--all', '--date', '2026-04-07', '--to', folder / 'papers', job, LC_ALL=locale)
    made.update((path.name, path.read_bytes()) for path in sorted((folder / 'papers').iterdir()))
    return made


class Made:
    """What each locale makes, once."""
    kept = {}

    @classmethod
    def of(cls, locale):
        if locale not in cls.kept:
            with tempfile.TemporaryDirectory(prefix='soffit-example-') as folder:
                cls.kept[locale] = outputs(locale, Path(folder))
        return cls.kept[locale]


def test_locales_are_there():
    known = subprocess.run(['locale', '-a'], capture_output=True, text=True, check=True).stdout.lower().replace('utf-8', 'utf8').split()
    lacking = [name for name in LOCALES if name.lower().replace('utf-8', 'utf8') not in known]
    if lacking:
        raise tap.Skip(f'not installed: {lacking}')


def test_same_bytes_in_every_locale():
    wanted = Made.of(LOCALES[0])
    for locale in LOCALES[1:]:
        made = Made.of(locale)
        assert made.keys() == wanted.keys(), locale
        differing = [name for name in wanted if hashlib.sha256(made[name]).digest() != hashlib.sha256(wanted[name]).digest()]
        assert not differing, (locale, differing)


def test_text_form_comes_back():
    written = json.loads(Made.of(LOCALES[0])['json'])
    for table, records in JOB.items():
        if isinstance(records, list):
            assert [record['id'] for record in written[table]] == [record['id'] for record in records], table


def test_sheets_are_drawn_by_another_program():
    lint, draw = shutil.which('xmllint'), shutil.which('rsvg-convert')
    if lint is None or draw is None:
        raise tap.Skip('xmllint or rsvg-convert is not installed')
    sheets = {name: data for name, data in Made.of(LOCALES[0]).items() if name.endswith('.svg')}
    assert len(sheets) >= 12, sorted(sheets)
    for name, data in sheets.items():
        subprocess.run([lint, '--noout', '--nonet', '-'], input=data, check=True)
        assert ElementTree.fromstring(data).tag == '{http://www.w3.org/2000/svg}svg', name
        png = subprocess.run([draw, '--width', '400', '--format', 'png'], input=data, capture_output=True, check=True).stdout
        assert png[:8] == b'\x89PNG\r\n\x1a\n' and len(png) > 1500, (name, len(png))


def test_schedules_are_read_by_another_program():
    tables = {name: data for name, data in Made.of(LOCALES[0]).items() if name.endswith('.csv')}
    assert len(tables) >= 10, sorted(tables)
    rows = {}
    for name, data in tables.items():
        text = data.decode('utf-8-sig')
        assert text.endswith('\r\n'), name
        rows[name] = list(csv.reader(text.splitlines(keepends=True), strict=True))
        assert len({len(row) for row in rows[name]}) == 1, name
    assert len(rows['schedule-downlights.csv']) == 1 + len(JOB['lights'])
    assert len(rows['schedule-drop-ins.csv']) == 1 + len(JOB['drop_ins'])
    assert len(rows['schedule-rooms.csv']) == 1 + len(JOB['rooms'])
    assert len(rows['schedule-snags.csv']) == 1 + len(snags())


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
