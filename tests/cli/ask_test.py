#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Single questions, rules, and a void's room, through the command. Called with the path of soffit."""
import csv
import io
import json
import os
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

HALL = ROOT / 'examples' / 'community-hall.json'


def soffit(code, *arguments, **variables):
    done = subprocess.run([sys.argv[1], *map(str, arguments)], capture_output=True, text=True, check=False, env={**os.environ, **variables})
    assert done.returncode == code, (arguments, done.returncode, done.stderr)
    return done.stdout if code == 0 else done.stderr


def working(*arguments):
    answer = json.loads(soffit(0, 'ask', *arguments, '--format', 'json'))
    return answer, {line['symbol']: line for line in answer['working']}


def test_list_and_help():
    listed = json.loads(soffit(0, 'ask', '--format', 'json'))
    text = soffit(0, 'ask')
    assert len(listed) > 30 and all(f"  {question['question']} " in text for question in listed)
    for question in listed:
        shown = soffit(0, 'ask', question['question'])
        assert question['title'] in shown
        for asked in question['inputs']:
            assert f"  {asked['key']} " in shown, (question['question'], asked)


def test_answers():
    # a published worked answer: six 4 mm² stranded singles, 3 m straight: 348, so 20 mm
    answer, lines = working('conduit-units', 'cables=6x4', 'length=3', '--rules', 'britain')
    assert lines['Σc']['value'] == 348 and lines['size']['value'] == 20, lines
    # by hand: 2.5 mm², 20 A, 25 m: 9.00 V of 230
    answer, lines = working('volt-drop', 'amps=20', 'length=25m')
    assert abs(lines['ΔU']['value'] - 9) < 1e-9 and answer['verdict'] == 'good'
    assert lines['u']['rule']['stand_in'] and lines['u']['rule']['source'].startswith('BS 7671')
    assert 'volt drop: 9 V' in soffit(0, 'ask', 'volt-drop', 'amps=20', 'length=25m', LC_ALL='de_DE.UTF-8')
    answer, _ = working('fit', 'tubes=110,2x25')
    assert len(answer['rows']) == 3 and answer['verdict'] == 'good'


def test_own_values():
    with tempfile.TemporaryDirectory() as folder:
        own = Path(folder) / 'own.ini'
        own.write_text('[circuit.limits]\nsource=our office\nconfidence=common-practice\npower_percent=3\n', encoding='utf-8')
        answer, lines = working('volt-drop', 'amps=20', 'length=25', '--overrides', own)
        assert answer['verdict'] == 'bad' and lines['e']['rule']['overridden']
        changed = list(csv.DictReader(io.StringIO(soffit(0, 'rules', '--changed', '--overrides', own, '--format', 'csv'))))
    assert [(row['rule'], row['value'], row['was']) for row in changed] == [('circuit.limits.power_percent', '3', '5')], changed


def test_wrong_use():
    assert 'there is no question "fitt"' in soffit(2, 'ask', 'fitt')
    assert 'KEY=VALUE' in soffit(2, 'ask', 'fit', '110')
    assert 'tubes: has to be given' in soffit(2, 'ask', 'fit', 'depth=250')
    assert 'no table' in soffit(3, 'ask', 'conduit-trade', 'wires=3x0.01')
    assert '--job' in soffit(2, 'ask', 'fit', 'tubes=20', '--job', HALL, '--rules', 'britain')
    assert 'no table "nowhere"' in soffit(2, 'rules', 'nowhere')
    assert 'no bay "bay Z"' in soffit(3, 'void', HALL, 'bay Z', 1)
    assert 'no void "99"' in soffit(3, 'void', HALL, 'bay A', 99)


def test_rules():
    for name in ('south-africa', 'britain', 'europe', 'north-america'):
        rows = list(csv.DictReader(io.StringIO(soffit(0, 'rules', '--rules', name, '--format', 'csv'))))
        assert len(rows) > 300 and all(row['source'] and row['confidence'] for row in rows), name
    rows = list(csv.DictReader(io.StringIO(soffit(0, 'rules', 'waste.sockets', '--format', 'csv'))))
    assert {row['rule'].split('[')[0] for row in rows} == {'waste.sockets'}


def test_pictures():
    """An answer and a void as pictures; the same figures as in words. Run of 110 with sockets at 1:60 in 250: 6.12 m, by hand."""
    with tempfile.TemporaryDirectory() as folder:
        falls, fit, hall = Path(folder) / 'falls.svg', Path(folder) / 'fit.svg', Path(folder) / 'hall.svg'
        answer, _ = working('fall-table', 'depth=250', '--picture', falls)
        assert [row for row in answer['rows'] if row[:3] == [110, 128, 60]][0][3] == 6120, answer['rows']
        assert '>6.1<' in falls.read_text(encoding='utf-8')
        working('fit', 'tubes=110,2x25', '--picture', fit)
        assert '>1: ⌀110<' in fit.read_text(encoding='utf-8')
        soffit(0, 'void', HALL, 'bay A', '4', '75,3x20', '--picture', hall)
        assert sorted(path.name for path in Path(folder).glob('hall*')) == ['hall-1.svg', 'hall-2.svg']
        assert '>1: ⌀75<' in (Path(folder) / 'hall-1.svg').read_text(encoding='utf-8')
        assert 'no picture' in soffit(3, 'ask', 'volt-drop', 'amps=20', 'length=25', '--picture', fit)
        assert '.txt' in soffit(3, 'ask', 'fit', 'tubes=110', '--picture', Path(folder) / 'fit.txt')


def test_hold_points():
    """Entered twice it is one record; a date or kind that is none leaves the job as it was."""
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / 'hall.json'
        job.write_bytes(HALL.read_bytes())
        before = len(json.loads(soffit(0, 'json', job)).get('hold_points', []))
        for result in ('failed', 'passed'):
            soffit(0, 'hold', job, 'room 2', 'conduit', '--result', result, '--by', 'A. Foreman', '--on', '2026-02-03')
        held = json.loads(soffit(0, 'json', job))['hold_points']
        entered = [one for one in held if one['room'] == 'room 2' and one.get('kind') == 'conduit']
        assert len(held) == before + 1 and len(entered) == 1 and entered[0]['result'] == 'passed' and entered[0]['on'] == '2026-02-03', held
        assert 'A. Foreman' in next(line for line in soffit(0, 'hold', job, 'room 2').splitlines() if line.startswith('conduit'))
        kept = job.read_bytes()
        assert 'YYYY-MM-DD' in soffit(3, 'hold', job, 'room 2', 'conduit', '--on', '31.2.')
        assert 'soil-test' in soffit(3, 'hold', job, 'room 2', 'roof')
        assert job.read_bytes() == kept


def test_light_places():
    """Derived: cut-out 100, 50 each side, battens of 38 at 400 leave 162 mm for the middle. The example's battens stand at 375 once laid: 137."""
    _, lines = working('light-band', 'cut-out=100', 'centres=400', 'width=38')
    assert lines['L']['value'] == 162, lines
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / 'hall.json'
        job.write_bytes(HALL.read_bytes())
        soffit(0, 'lay', job, 'room 3')
        rows = list(csv.DictReader(io.StringIO(soffit(0, 'places', job, '--room', 'room 3', '--format', 'csv'))))
        assert rows and {row['battens'] for row in rows} == {'as laid out'}, rows[:2]
        assert max(float(row['along_mm']) for row in rows) == 137, rows
        # a rib of bay A has its middle at 6000, derived: voids at 300 + 600 k
        middle = max(rows, key=lambda row: float(row['area_mm2']))
        barred, free = (json.loads(soffit(0, 'places', job, '--at', at, '--format', 'json'))[0] for at in ('5100,6000', f"{middle['x_mm']},{middle['y_mm']}"))
        assert barred['says'] == 'rib or other concrete' and float(barred['clear_mm']) < 0 and float(barred['move_x_mm']) != 0, barred
        assert free['says'] == 'allowed' and float(free['clear_mm']) > 0, free
    assert 'no light "none"' in soffit(3, 'places', HALL, '--light', 'none')
    assert 'no room lies' in soffit(3, 'places', HALL, '--at', '-9000,0')


def test_void():
    rows = json.loads(soffit(0, 'void', HALL, 'bay A', 2, '50', '--format', 'json'))
    kinds = [row['kind'] for row in rows]
    assert kinds.count('widest') == 1 and kinds.count('tube') == 1, kinds
    widest = float(next(row['outside_mm'] for row in rows if row['kind'] == 'widest'))
    # derived: a void of 200 takes 110 pipe at 1:60 for 3.1 m, and for 0.4 m under the bend of a WC
    falls = {(row['size_mm'], row['fall_n']): (row['run_m'], row['wc_run_m']) for row in rows if row['kind'] == 'fall'}
    assert falls['110.0', '60.0'] == ('3.1', '0.4'), falls
    fits = next(row['says'] for row in rows if row['kind'] == 'tube') == 'fits'
    assert fits == (widest >= 65), rows  # a 50 pipe has a socket of 65


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
