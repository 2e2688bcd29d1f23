#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The example in feet and inches: people read no millimetres in snags and on sheets, files keep them.

Called with the path of soffit.
"""
import csv
import json
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path
from xml.etree import ElementTree

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

SOFFIT = sys.argv[1]
EXAMPLE = ROOT / 'examples' / 'community-hall.json'
SVG = '{http://www.w3.org/2000/svg}'
MILLIMETRES = re.compile(r'(?<![A-Za-z])mm(?![A-Za-z²])')

# What may say mm all the same, each with its reason.
ALLOWED = [
    re.compile(r'_mm\b'),  # the key of a rule: it is a name, its value beside it is in feet and inches
    re.compile(r'\d+(\.\d+)? mm[²2]'),  # conductors are sold by their section in mm²
    re.compile(r'1/4 in \(6 mm\)|about 10 mm'),  # the words of a source, which the rule set quotes
]


def soffit(*arguments, codes=(0,)):
    done = subprocess.run([SOFFIT, *map(str, arguments)], capture_output=True, check=False, env={**os.environ, 'LC_ALL': 'C.UTF-8'})
    assert done.returncode in codes, (arguments, done.returncode, done.stderr.decode())
    return done.stdout


class Job:
    """The example with other units, its snags, and its papers in a folder of their own."""
    kept = {}

    def __init__(self, units):
        self.folder = tempfile.TemporaryDirectory(prefix='soffit-units-')
        self.path = Path(self.folder.name) / 'job.json'
        text = json.loads(EXAMPLE.read_text(encoding='utf-8'))
        text['job']['units'] = units
        self.path.write_text(json.dumps(text), encoding='utf-8')
        self.snags = json.loads(soffit('check', '--format', 'json', self.path, codes=(0, 1)))
        listed = soffit('export', '--all', '--date', '2026-04-07', '--to', self.folder.name + '/papers', self.path)
        self.papers = {Path(line).name: Path(line) for line in listed.decode().splitlines()}

    @classmethod
    def of(cls, units):
        if units not in cls.kept:
            cls.kept[units] = cls(units)
        return cls.kept[units]


def sentences(job):
    snags = job.snags['snags'] if isinstance(job.snags, dict) else job.snags
    return [snag[key] for snag in snags for key in ('what', 'where', 'todo', 'source')]


def said_in(root):
    return [''.join(node.itertext()).strip() for node in root.iter() if node.tag in (SVG + 'text', SVG + 'title', SVG + 'desc')]


def quoted(path):
    """What the figures of a list rest on: it quotes sources by the word."""
    root = ElementTree.parse(path).getroot()
    return [line for group in root.iter(SVG + 'g') if group.get('id', '').startswith('rests-on') for line in said_in(group)]


def texts(path):
    lines = said_in(ElementTree.parse(path).getroot())
    for line in quoted(path):
        lines.remove(line)
    return lines


def millimetres(lines):
    found = []
    for line in lines:
        rest = line
        for allowed in ALLOWED:
            rest = allowed.sub('', rest)
        if MILLIMETRES.search(rest):
            found.append(line)
    return found


def test_snags_in_feet_say_no_mm():
    job = Job.of('ft-in')
    said = sentences(job)
    assert len(said) > 40, len(said)
    assert not millimetres(said), millimetres(said)
    assert any(re.search(r'\d+"', line) for line in said)


def test_snags_of_the_example_say_mm():
    said = sentences(Job.of('mm'))
    assert millimetres(said)
    assert not [line for line in said if re.search(r'\d"', line)]


def test_sheets_in_feet_say_no_mm():
    sheets = [path for name, path in Job.of('ft-in').papers.items() if name.endswith('.svg')]
    assert len(sheets) > 15, len(sheets)
    # what is ordered is named by the price list's own words
    found = {path.name: millimetres(texts(path)) for path in sheets if 'order-list' not in path.name}
    found = {name: lines[:5] for name, lines in found.items() if lines}
    assert not found, json.dumps(found, ensure_ascii=False, indent=1)
    rests = ' '.join(line for path in sheets for line in quoted(path))
    assert re.search(r'_mm = \S*\d"', rests) and not re.search(r'_m{1,2} = [-.\d]+ m{1,2}\b', rests), rests


def test_sheets_write_feet():
    """Each sheet to scale has feet, and its bar marks in feet."""
    feet, mm = Job.of('ft-in').papers, Job.of('mm').papers
    for papers, bar in ((feet, r'[\d.]+ ft'), (mm, r'[\d.]+ m')):
        lines = {name: texts(path) for name, path in papers.items() if name.endswith('.svg')}
        plans = [name for name, said in lines.items() if any(line.startswith('Scale 1:') for line in said)]
        assert len(plans) > 8, plans
        for name in plans:
            assert any(re.fullmatch(bar, line) for line in lines[name]), name
            assert papers is mm or any(re.search(r'\d\'[ -]\d+( \d+/\d+)?"', line) for line in lines[name]), name


def test_schedules_keep_millimetres():
    """Same files, same headings, same cells: only what snags and rows of packers say in words follows the job's units."""
    feet, mm = Job.of('ft-in').papers, Job.of('mm').papers
    names = [name for name in mm if name.endswith('.csv')]
    assert len(names) > 15, names
    assert sorted(name for name in feet if name.endswith('.csv')) == sorted(names)
    words = 0
    for name in names:
        first, second = (list(csv.reader(papers[name].open(encoding='utf-8-sig', newline=''))) for papers in (mm, feet))
        assert first[0] == second[0] and len(first) == len(second), name
        for row, other in zip(first, second):
            for heading, cell, there in zip(first[0], row, other):
                if cell != there and heading.startswith('Packers at'):
                    continue
                if cell != there:
                    assert 'snag' in name, (name, heading, cell, there)
                    assert not re.fullmatch(r'-?[\d.]+', cell), (name, heading, cell, there)
                    words += 1
    assert words > 10


def test_text_form_keeps_millimetres():
    feet, mm = (json.loads(soffit('json', Job.of(units).path)) for units in ('ft-in', 'mm'))
    assert feet['job'].pop('units') == 'ft-in'
    mm['job'].pop('units', None)
    assert feet == mm


def test_job_file_keeps_units():
    job = Job.of('ft-in')
    made = Path(job.folder.name) / 'made.soffit'
    soffit('make', job.path, made)
    assert json.loads(soffit('json', made))['job']['units'] == 'ft-in'


if __name__ == '__main__':
    sys.exit(tap.run('__main__'))
