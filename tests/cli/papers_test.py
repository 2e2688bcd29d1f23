#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Sheets and schedules of whole jobs through the command, read back by programs that are not ours.

Called with the path of soffit.
"""
import csv
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from xml.etree import ElementTree

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

SOFFIT = sys.argv[1]
JOB = ROOT / 'tests' / 'sheets' / 'small-job.json'
SVG = '{http://www.w3.org/2000/svg}'
FORMULA = ('=', '+', '-', '@', '\t', '\r', '\n')


def soffit(*arguments, **variables):
    done = subprocess.run([SOFFIT, *map(str, arguments)], capture_output=True, check=False, env={**os.environ, **variables})
    return done.returncode, done.stdout, done.stderr.decode()


def good(*arguments, **variables):
    code, out, said = soffit(*arguments, **variables)
    assert (code, said) == (0, ''), (arguments, code, said)
    return out


def need(program):
    path = shutil.which(program)
    if path is None:
        raise tap.Skip(f'{program} is not installed')
    return path


class Papers:
    """All sheets and schedules of a job in a folder of their own, written once a language."""
    kept = {}

    @classmethod
    def of(cls, locale='C.UTF-8'):
        if locale not in cls.kept:
            folder = tempfile.TemporaryDirectory(prefix='soffit-papers-')
            out = good('export', '--all', '--to', folder.name, JOB, LC_ALL=locale)
            paths = [Path(line) for line in out.decode().splitlines()]
            cls.kept[locale] = (folder, paths)
        return cls.kept[locale][1]


def svgs():
    return [path for path in Papers.of() if path.suffix == '.svg']


def schedules():
    return [path for path in Papers.of() if path.suffix == '.csv']


def test_export_says_what_it_wrote():
    paths = Papers.of()
    assert len(svgs()) > 15 and len(schedules()) > 10
    assert sorted(paths) == sorted(paths[0].parent.iterdir())
    listed = {line.split()[0] for line in good('sheet', '--list').decode().splitlines()}
    started = {sheet for sheet in listed if any(path.name.startswith(f'sheet-{sheet}') for path in svgs())}
    assert started == listed, listed - started
    assert {path.stem.removeprefix('schedule-') for path in schedules()} == {line.split()[0] for line in good('schedule', '--list').decode().splitlines()}


def test_sheets_are_well_formed():
    xmllint = need('xmllint')
    subprocess.run([xmllint, '--noout', '--nonet', *svgs()], check=True, capture_output=True)


def test_another_program_draws_sheets():
    """Not blank: some hundred different rows of pixels."""
    convert = need('rsvg-convert')
    for path in svgs():
        done = subprocess.run([convert, '--format=png', '--width=800', path], check=True, capture_output=True)
        assert done.stdout.startswith(b'\x89PNG') and len(done.stdout) > 8000, path.name


def labels():
    return [path for path in svgs() if path.name.startswith('sheet-labels')]


def test_sheets_are_a3_in_millimetres():
    """But for labels, which are A4 upright."""
    for path in svgs():
        root = ElementTree.parse(path).getroot()
        wide, high = ('210', '297') if path in labels() else ('420', '297')
        assert (root.get('width'), root.get('height')) == (wide + 'mm', high + 'mm'), path.name
        assert root.get('viewBox').split() == ['0', '0', wide, high], path.name


def test_a_label_for_each_piece_and_bundle():
    """Pieces of board one by one, equal lengths of a room together; none outside the paper."""
    with open(next(path for path in schedules() if path.stem == 'schedule-cutting'), encoding='utf-8', newline='') as file:
        rows = list(csv.DictReader(file, strict=True))
    boards = sum(1 for row in rows if row['What'] == 'board')
    bundles = {(row['Room'], row['What'], row['Length (mm)']) for row in rows if row['What'] != 'board'}
    found = [node for path in labels() for node in ElementTree.parse(path).iter(f'{SVG}g') if node.get('class') == 'label']
    assert boards > 0 and len(found) == boards + len(bundles)


def numbers(text):
    return [float(found) for found in re.findall(r'-?\d+(?:\.\d+)?', text)]


def test_sheets_are_to_scale():
    """The outline of bay A, 9000 by 6000 mm, is 180 by 120 mm at 1:50 and half that at 1:100."""
    with tempfile.TemporaryDirectory() as folder:
        for scale in (50, 100):
            path = Path(folder) / f'{scale}.svg'
            good('sheet', '--sheet', 'soffit-plan', '--scale', f'1:{scale}', '--to', path, JOB)
            page = sorted(Path(folder).glob(f'{scale}*.svg'))[0]
            group = next(node for node in ElementTree.parse(page).iter(f'{SVG}g') if (node.get('id') or '').startswith('bay-bay_A'))
            found = False
            for node in group.iter(f'{SVG}path'):
                values = numbers(node.get('d'))
                wide, high = max(values[0::2]) - min(values[0::2]), max(values[1::2]) - min(values[1::2])
                found = found or (abs(wide - 9000 / scale) < 0.01 and abs(high - 6000 / scale) < 0.01)
            assert found, scale


def test_text_stays_text_and_is_large_enough():
    """Capitals are at least 2.5 mm: a font size of 2.5 × 1.4."""
    for path in svgs():
        tree = ElementTree.parse(path)
        texts = [node for node in tree.iter(f'{SVG}text')]
        assert len(texts) > 20 or path == labels()[-1], path.name
        words = ' '.join(''.join(node.itertext()) for node in texts)
        assert 'Small clinic' in words and ('Signature' in words or path in labels()), path.name
        style = ''.join(node.text or '' for node in tree.iter(f'{SVG}style'))
        sizes = numbers(' '.join(re.findall(r'font-size:\s*([\d.]+)', style + ' '.join(node.get('style') or '' for node in texts))))
        sizes += [float(node.get('font-size')) for node in texts if node.get('font-size')]
        assert sizes and min(sizes) >= 2.5 * 1.4 - 1e-3, (path.name, min(sizes, default=None))


def test_ids_are_unique():
    for path in svgs():
        ids = [node.get('id') for node in ElementTree.parse(path).iter() if node.get('id')]
        assert len(ids) == len(set(ids)), path.name


def test_schedules_read_back():
    for path in schedules():
        data = path.read_bytes()
        assert data.endswith(b'\r\n'), path.name
        rows = list(csv.reader(data.decode('utf-8').splitlines(keepends=True), strict=True))
        assert len(rows) > 1, path.name
        assert all(len(row) == len(rows[0]) for row in rows), path.name
        for row in rows:
            for cell in row:
                number = re.fullmatch(r'-?\d+(\.\d+)?', cell)
                assert number or not cell.startswith(FORMULA), (path.name, cell)


def test_formulas_in_the_job_are_guarded():
    def cells(name):
        return next(path for path in schedules() if path.stem == f'schedule-{name}').read_bytes().decode()
    assert "'=Sockets" in cells('circuits')
    assert "'@Socket" in cells('conduits')
    assert '"\'-1 bar only; ""no"" notches, see note"' in cells('sleeves')


def test_same_bytes_in_every_locale():
    first = {path.name: path.read_bytes() for path in Papers.of()}
    for locale in ('de_DE.UTF-8', 'tr_TR.UTF-8'):
        other = {path.name: path.read_bytes() for path in Papers.of(locale)}
        assert first.keys() == other.keys()
        for name, data in first.items():
            assert data == other[name], (locale, name)


def test_pdf_can_be_searched():
    pdftotext = need('pdftotext')
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / 'plan.pdf'
        good('sheet', '--sheet', 'plumber-plan', '--to', path, JOB)
        text = subprocess.run([pdftotext, path, '-'], check=True, capture_output=True).stdout.decode()
        for words in ('Small clinic', 'IL +2011', 'stack F1', 'Washroom'):
            assert words in text, words


def test_one_sheet_to_standard_output():
    out = good('sheet', '--sheet', 'long-section', '--run', 'R1', JOB)
    assert out.startswith(b'<?xml') and b'Long section of R1' in out
    mono = good('sheet', '--sheet', 'long-section', '--run', 'R1', '--mono', JOB)
    assert mono != out and b'Long section of R1' in mono


def test_wrong_uses_are_named():
    wrong = [
        (['sheet', JOB], 2, '--list'),
        (['sheet', '--sheet', 'no-such', JOB], 2, 'no-such'),
        (['sheet', '--sheet', 'soffit-plan', '--scale', 'huge', JOB], 2, 'huge'),
        (['sheet', '--sheet', 'soffit-plan', '--paper', 'A9', JOB], 2, 'A9'),
        (['sheet', '--sheet', 'soffit-plan', '--format', 'gif', JOB], 2, 'gif'),
        (['sheet', '--sheet', 'long-section', JOB], 3, 'needs a run'),
        (['sheet', '--sheet', 'long-section', '--run', 'R99', JOB], 2, 'R99'),
        (['schedule', '--schedule', 'no-such', JOB], 2, 'no-such'),
        (['export', JOB], 2, '--all'),
        (['export', '--all', '--to', '/proc/nowhere/papers', JOB], 3, 'papers'),
        (['export', '--all', '--format', 'doc', '--to', '/tmp', JOB], 2, 'doc'),
    ]
    for arguments, code, words in wrong:
        got, out, said = soffit(*arguments)
        assert (got, out) == (code, b''), (arguments, got, said)
        assert words in said, (arguments, said)


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
