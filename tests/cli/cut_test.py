#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Laying out rooms and cutting through the command, reckoned again in fractions. Called with the path of soffit."""
import csv
import io
import json
import os
import shutil
import sqlite3
import subprocess
import sys
import tempfile
from fractions import Fraction
from pathlib import Path
from xml.etree import ElementTree

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

SOFFIT = sys.argv[1]
JOB = ROOT / 'examples' / 'community-hall.json'
LOCALES = ('C', 'de_DE.UTF-8', 'tr_TR.UTF-8')
LENGTHS = 'length_mm,copies,mark\n2350,12,long\n1750,8,short\n'
BARS = 'length_mm,kerf_mm\n6000,3\n'
RECTANGLES = 'mark,length_mm,width_mm,copies,turn\nshelf,1190,400,6,yes\ndoor,1800,595,4,no\nside,1100.5,300,8,yes\n'
SHEETS = 'mark,length_mm,width_mm,cost,kerf_mm,trim_mm\nply,2440,1220,389.95,3.2,10\n'


def soffit(*arguments, code=0, part='', **variables):
    done = subprocess.run([SOFFIT, *map(str, arguments)], capture_output=True, check=False, env={**os.environ, **variables})
    said = done.stderr.decode()
    assert done.returncode == code and part in said, (arguments, done.returncode, said)
    return done.stdout


class Lists:
    """Two lists in files of their own."""
    def __init__(self, items, stock):
        self.folder = tempfile.TemporaryDirectory(prefix='soffit-cut-')
        self.items, self.stock = Path(self.folder.name) / 'items.csv', Path(self.folder.name) / 'stock.csv'
        self.items.write_text(items, encoding='utf-8')
        self.stock.write_text(stock, encoding='utf-8')

    def cut(self, *options, **variables):
        return soffit('cut', self.items, self.stock, *options, **variables)

    def refused(self, part):
        self.cut(code=3, part=part)


def rows(text):
    return list(csv.DictReader(io.StringIO(text.decode(), newline=''), strict=True))


def sums(found):
    return {row['mark']: row['value'] for row in found if row['row'] == 'sum'}


def test_lengths_of_a_worked_example():
    """12 of 2350 and 8 of 1750 from 6000 with 3 mm of saw: 8 lengths, which is also the bound: 42.2 m and the cuts need more than 7."""
    lists = Lists(LENGTHS, BARS)
    found = rows(lists.cut('--format', 'csv'))
    total = sums(found)
    assert (total['lengths'], total['lengths_bound'], total['proven']) == ('8', '8', 'yes'), total
    assert (total['bought_m'], total['used_m'], total['waste_m'], total['bought_bound_m']) == ('48', '42.2', '5.8', '48'), total
    counts, ways = {}, {}
    for row in found:
        if row['row'] == 'piece':
            counts[row['mark']] = counts.get(row['mark'], 0) + int(row['times'])
            ways.setdefault(row['way'], []).append(row)
    assert counts == {'long': 12, 'short': 8}
    for pieces in ways.values():
        at = Fraction(0)
        for piece in pieces:
            assert Fraction(piece['x_mm']) == at
            at += Fraction(piece['length_mm']) + 3
        assert at - 3 <= 6000
    text = lists.cut().decode()
    assert '20 pieces from 8 stock lengths' in text and 'proven' in text and '8 × 6000' in text


def test_offcuts_are_kept_from_the_least_on():
    """Derived: of 6000, 2350 and 1750 with their cuts of 3 leave 1894, which is kept from 1800 on and waste from 1900 on."""
    for least, offcuts, kept, waste in (('1800', '1', '1.894', '0.006'), ('1900', '0', '0', '1.9'), ('1894', '1', '1.894', '0.006')):
        lists = Lists('length_mm\n2350\n1750\n', f'length_mm,kerf_mm,offcut_mm\n6000,3,{least}\n')
        found = rows(lists.cut('--format', 'csv'))
        total = sums(found)
        assert (total['offcuts'], total['kept_m'], total['waste_m']) == (offcuts, kept, waste), (least, total)
        assert [(row['x_mm'], row['length_mm']) for row in found if row['row'] == 'offcut'] == [('4106', '1894')] * int(offcuts)
        assert ('Kept for later' in lists.cut().decode()) == (offcuts == '1')
    Lists('length_mm\n2350\n', 'length_mm,offcut_mm\n6000,300\n4800,400\n').refused('one least offcut')


def test_offcuts_of_sheets_are_parts_that_the_cuts_leave():
    """Derived: a door of 2000 x 800 leaves, of 2440 x 1220, what two cuts leave: 436 and 416 broad at a saw of 4, kept both ways from 400 on."""
    lists = Lists('length_mm,width_mm,turn\n2000,800,no\n', 'length_mm,width_mm,kerf_mm,offcut_mm\n2440,1220,4,400\n')
    found = rows(lists.cut('--format', 'csv'))
    places = [(row['row'], *(Fraction(row[key]) for key in ('x_mm', 'y_mm', 'length_mm', 'width_mm'))) for row in found if row['row'] != 'sum']
    assert len(places) == 3 and sorted(min(place[3:]) for place in places if place[0] == 'offcut') == [416, 436], places
    for i, (_, x, y, length, width) in enumerate(places):
        assert x + length <= 2440 and y + width <= 1220
        assert not any(overlap({'x': x, 'y': y, 'l': length, 'w': width}, {'x': a, 'y': b, 'l': c, 'w': d}, 4) for _, a, b, c, d in places[:i])
    kept = sum(length * width for row, _, _, length, width in places if row == 'offcut')
    total = sums(found)
    assert Fraction(total['kept_m2']) == round(kept / 1000000, 3) and total['offcuts'] == '2', total
    assert abs(Fraction(total['bought_m2']) - Fraction(total['used_m2']) - Fraction(total['kept_m2']) - Fraction(total['waste_m2'])) <= Fraction('0.002')
    said = json.loads(lists.cut('--format', 'json'))
    assert len(said['ways'][0]['offcuts']) == 2 and b'keep' in lists.cut('--format', 'svg')


def overlap(a, b, gap):
    return all(max(a[at], b[at]) < min(a[at] + a[size], b[at] + b[size]) + gap for at, size in (('x', 'l'), ('y', 'w')))


def test_rectangles_lie_apart_inside_the_trims():
    lists = Lists(RECTANGLES, SHEETS)
    found = rows(lists.cut('--format', 'csv'))
    wanted = {row['mark']: row for row in csv.DictReader(io.StringIO(RECTANGLES))}
    counts, ways = {}, {}
    for row in found:
        if row['row'] != 'piece':
            continue
        counts[row['mark']] = counts.get(row['mark'], 0) + int(row['times'])
        place = {'x': Fraction(row['x_mm']), 'y': Fraction(row['y_mm']), 'l': Fraction(row['length_mm']), 'w': Fraction(row['width_mm'])}
        assert place['x'] >= 10 and place['y'] >= 10 and place['x'] + place['l'] <= 2430 and place['y'] + place['w'] <= 1210, row
        sizes = Fraction(wanted[row['mark']]['length_mm']), Fraction(wanted[row['mark']]['width_mm'])
        assert (place['l'], place['w']) == (sizes[::-1] if row['turned'] == 'yes' else sizes)
        assert row['turned'] == 'no' or wanted[row['mark']]['turn'] == 'yes'
        ways.setdefault(row['way'], []).append(place)
    assert counts == {'shelf': 6, 'door': 4, 'side': 8}
    for places in ways.values():
        for i, place in enumerate(places):
            assert not any(overlap(place, other, Fraction('3.2')) for other in places[:i])
    total = sums(found)
    assert Fraction(total['cost']) == int(total['sheets']) * Fraction('389.95') and int(total['sheets_bound']) <= int(total['sheets'])


def test_grain_is_kept():
    lists = Lists('length_mm,width_mm\n1000,2000\n', 'length_mm,width_mm,turn\n2000,1000,no\n')
    lists.refused('line 2: piece of 1000 × 2000 mm fits no stock')
    found = rows(Lists('length_mm,width_mm\n1000,2000\n', 'length_mm,width_mm\n2000,1000\n').cut('--format', 'csv'))
    assert found[0]['turned'] == 'yes' and sums(found)['proven'] == 'yes'


def test_cheapest_mix_of_stock():
    """Two of 2.9 m: one of 6 m at 60 beats two of 3 m at 40; from 3 m at 25 it is the other way."""
    for cost, bought in (('40', {'6000'}), ('25', {'3000'})):
        lists = Lists('length_mm,copies\n2900,2\n', f'length_mm,cost\n6000,60\n3000,{cost}\n')
        found = rows(lists.cut('--format', 'csv'))
        assert {row['stock_length_mm'] for row in found if row['row'] == 'piece'} == bought
        assert sums(found)['proven'] == 'yes' and sums(found)['cost'] == ('60.00' if cost == '40' else '50.00')


def test_json_says_what_csv_says():
    for items, stock in ((LENGTHS, BARS), (RECTANGLES, SHEETS)):
        lists = Lists(items, stock)
        found, plan = rows(lists.cut('--format', 'csv')), json.loads(lists.cut('--format', 'json'))
        pieces = [row for row in found if row['row'] == 'piece']
        assert sum(len(way['pieces']) for way in plan['ways']) == len(pieces)
        listed = [piece for way in plan['ways'] for piece in way['pieces']]
        for row, piece in zip(pieces, listed):
            assert row['mark'] == piece['mark'] and Fraction(row['x_mm']) == Fraction(str(piece['x_mm']))
            assert Fraction(row['length_mm']) == Fraction(str(piece['length_mm']))
        total = sums(found)
        assert plan['proven'] == (total['proven'] == 'yes') and plan['pieces'] == int(total['pieces'])
        if 'cuts' in plan['ways'][0]:
            assert all({'from_mm', 'to_mm'} < set(cut) for way in plan['ways'] for cut in way['cuts'])


def test_drawing():
    for items, stock in ((LENGTHS, BARS), (RECTANGLES, SHEETS)):
        lists = Lists(items, stock)
        root = ElementTree.fromstring(lists.cut('--format', 'svg', '--title', 'Shelves & doors'))
        words = ' '.join(root.itertext())
        assert 'Shelves & doors' in words and 'pieces from' in words
        assert root.get('width') == '297mm' and len([node for node in root.iter() if node.get('class') == 'way']) >= 2
        path = lists.items.parent / 'plan.pdf'
        lists.cut('--to', path)
        assert path.read_bytes().startswith(b'%PDF')
    convert = shutil.which('rsvg-convert')
    if convert is None:
        raise tap.Skip('rsvg-convert is not installed')
    path = lists.items.parent / 'plan.svg'
    lists.cut('--to', path)
    assert len(subprocess.run([convert, path], check=True, capture_output=True).stdout) > 5000


def test_bad_lists_are_named():
    for items, stock, part in (
            ('length_mm\n12x\n', BARS, 'items.csv: line 2, character 1: length_mm: "12x" is no size'),
            ('mark,length_mm\na,\n', BARS, 'items.csv: line 2, character 3: length_mm: a length above 0 is missing'),
            ('length_mm,copies\n10,1.5\n', BARS, 'line 2, character 4: copies: "1.5" is no number of copies'),
            ('lenght_mm\n10\n', BARS, 'line 1, character 1: there is no column "lenght_mm"; columns are length_mm, width_mm'),
            ('length_mm,length_mm\n1,1\n', BARS, 'line 1, character 11: the column "length_mm" stands twice'),
            ('copies\n1\n', BARS, 'the column "length_mm" is missing'),
            ('length_mm\n', BARS, 'there is nothing to cut'),
            ('length_mm\n"10\n', BARS, 'items.csv: line 2'),
            ('length_mm\n0.001\n', BARS, 'at most two decimals'),
            ('length_mm,cost\n1,2\n', BARS, 'there is no column "cost"'),
            ('length_mm\n7000\n', BARS, 'line 2: piece of 7000 mm fits no stock'),
            (LENGTHS, 'length_mm,copies\n6000,2\n', 'does not do for all pieces'),
            (LENGTHS, 'length_mm,cost\n6000,10\n3000,\n', 'stock.csv: line 3, character 6: cost: give every row a cost, or none'),
            (LENGTHS, 'length_mm,kerf_mm\n6000,3\n3000,2\n', 'stock.csv: line 3, character 6: kerf_mm: one saw cuts all of it'),
            (LENGTHS, 'length_mm,width_mm\n6000,38\n', 'the pieces have no width'),
            (RECTANGLES, BARS, 'the pieces are rectangles'),
            (LENGTHS, 'length_mm,trim_mm\n100,50\n', 'the trims leave nothing of it'),
            (LENGTHS, 'length_mm,turn\n100,maybe\n', 'turn: "maybe" is neither yes nor no')):
        Lists(items, stock).refused(part)


def test_a_list_of_a_spreadsheet_with_decimal_commas():
    with_points = Lists('length_mm,copies,mark\n2350.5,3,A\n', 'length_mm,cost\n6000,89.95\n').cut('--format', 'json')
    with_commas = Lists('\ufefflength_mm;copies;mark\r\n2350,5;3;A\r\n', 'length_mm;cost\r\n6000;89,95\r\n').cut('--format', 'json')
    assert with_points == with_commas


def test_wrong_use():
    lists = Lists(LENGTHS, BARS)
    lists.cut('--format', 'gif', code=2, part='no format "gif"')
    lists.cut('--paper', 'A9', code=2, part='no paper "A9"')
    lists.cut('--effort', '0', code=2, part='--effort is a number from 1 to 1000')
    soffit('cut', lists.items, code=2, part='something is missing')
    soffit('cut', '-', '-', code=2, part='only one of the lists')
    soffit('cut', lists.items, '/nowhere.csv', code=3, part='/nowhere.csv')


def test_a_list_from_standard_input():
    lists = Lists(LENGTHS, BARS)
    done = subprocess.run([SOFFIT, 'cut', '-', str(lists.stock), '-f', 'csv'], input=LENGTHS.encode(), capture_output=True, check=True)
    assert done.stdout == lists.cut('--format', 'csv')


def test_same_bytes_in_every_locale():
    for items, stock in ((LENGTHS, BARS), (RECTANGLES, SHEETS)):
        lists = Lists(items, stock)
        for form in ('text', 'csv', 'json', 'svg'):
            assert len({lists.cut('--format', form, LC_ALL=locale, LANGUAGE='en') for locale in LOCALES}) == 1, form
    with tempfile.TemporaryDirectory() as name:
        laid = Path(name) / 'laid.json'
        said = {(soffit('lay', JOB, '--output', laid, '--replace', LC_ALL=locale, LANGUAGE='en'), laid.read_bytes()) for locale in LOCALES}
        assert len(said) == 1


def closed_rooms():
    job = json.loads(JOB.read_text(encoding='utf-8'))
    return [room['id'] for room in job['rooms'] if room.get('finish', 'closed') == 'closed']


def test_rooms_are_laid_and_kept():
    with tempfile.TemporaryDirectory() as name:
        job, laid = Path(name) / 'a.soffit', Path(name) / 'b.json'
        soffit('make', JOB, job)
        found = rows(soffit('lay', job, '--format', 'csv'))
        assert [row['room'] for row in found] == closed_rooms() and {row['did'] for row in found} == {'new'}
        layouts = json.loads(soffit('json', job))['layouts']
        assert {layout['room'] for layout in layouts} == set(closed_rooms())
        for row, layout in zip(found, sorted(layouts, key=lambda layout: closed_rooms().index(layout['room']))):
            kinds = [member.get('kind', 'batten') for member in layout['members']]
            assert (kinds.count('batten'), kinds.count('noggin')) == (int(row['battens']), int(row['noggins'])), row
            pieces = layout['pieces'] + layout.get('faces', [])
            assert max(piece['sheet'] for piece in pieces) == int(row['boards']) and len(pieces) == int(row['pieces']), row
            waste, used = Fraction(row['waste_m2']), Fraction(row['board_m2'])
            assert abs(waste / (waste + used) * 100 - Fraction(row['waste_percent'])) < Fraction('0.2') and waste >= 0
        before = soffit('json', job)
        assert {row['did'] for row in rows(soffit('lay', job, '--format', 'csv'))} == {'kept'}
        assert {row['did'] for row in rows(soffit('lay', job, '--again', '--format', 'csv'))} == {'again'}
        assert soffit('json', job) == before
        soffit('lay', JOB, '--output', laid)
        assert laid.read_bytes() == before
        soffit('lay', JOB, '--output', laid, code=3, part='there is a file of this name already')


def test_laying_is_one_edit_in_the_history():
    with tempfile.TemporaryDirectory() as name:
        job = Path(name) / 'a.soffit'
        soffit('make', JOB, job)
        soffit('lay', job)
        with sqlite3.connect(job) as base:
            assert base.execute('SELECT name FROM edit').fetchall() == [('Lay out ceilings',)]
        base.close()


def test_rooms_that_cannot_be_laid():
    with tempfile.TemporaryDirectory() as name:
        job = Path(name) / 'a.json'
        shutil.copy(JOB, job)
        before = job.read_bytes()
        found = rows(soffit('lay', job, 'Hall', '--format', 'csv', code=1))
        assert (found[0]['did'], found[0]['battens']) == ('not', '') and 'choose the closed finish first' in found[0]['remarks']
        soffit('lay', job, 'attic', code=3, part='no room "attic"')
        assert job.read_bytes() == before
        found = rows(soffit('lay', job, 'Foyer', 'room 6', '--format', 'csv'))
        assert [row['room'] for row in found] == ['room 6'] and job.read_bytes() != before
        soffit('lay', '-', code=2, part='needs --output')


def price_list():
    with open(ROOT / 'data' / 'prices.csv', encoding='utf-8', newline='') as file:
        return {row['code']: Fraction(row['material'] or 0) + Fraction(row['labour'] or 0) for row in csv.DictReader(file)}


def sheets_of(text):
    """"6 × 3600x1200 + 2 × 3600x900" as numbers of sheets by size."""
    return {size: int(count) for count, size in (part.split(' × ') for part in text.split(' + '))}


def test_alternatives_are_reckoned_again():
    prices = price_list()
    job = json.loads(JOB.read_text(encoding='utf-8'))
    for tag in ('room 2', 'room 3'):
        room = next(room for room in job['rooms'] if room['id'] == tag)
        board = f"board-{room.get('board', 'gypsum')}-{room.get('board_thickness', 9.5):g}"
        found = rows(soffit('lay', JOB, tag, '--alternatives', '--format', 'csv'))
        assert len(found) > 3 and [row['number'] for row in found] == [str(i + 1) for i in range(len(found))]
        keys = [(int(row['faults']), int(row['slivers']), Fraction(row['cost'])) for row in found]
        assert keys == sorted(keys) and len({tuple(row[key] for key in row if key != 'number') for row in found}) == len(found)
        areas = set()
        for row in found:
            sheets = sheets_of(row['of'])
            assert sum(sheets.values()) == int(row['sheets'])
            cost = sum(count * prices[f'{board}-{size}'] for size, count in sheets.items())
            cost += Fraction(row['batten_m']) * prices['batten-38x38'] + Fraction(row['joint_m']) * Fraction('1.05') * prices['joint-tape']
            assert abs(cost - Fraction(row['cost'])) < Fraction('0.5'), (row, float(cost))
            bought = sum(count * Fraction(size.split('x')[0]) * Fraction(size.split('x')[1]) for size, count in sheets.items()) / 10**6
            areas.add(round(float(bought - Fraction(row['waste_m2'])), 2))
        assert max(areas) - min(areas) < 0.011, areas  # whatever the sheets, the ceiling is as large


def test_sheets_and_orders_follow_the_choice():
    with tempfile.TemporaryDirectory() as name:
        job = Path(name) / 'a.soffit'
        soffit('make', JOB, job)
        found = rows(soffit('lay', job, 'room 3', '--alternatives', '--format', 'csv'))
        chosen = next(row for row in found if '+' in row['of'])
        said = rows(soffit('lay', job, 'room 3', '--choose', chosen['number'], '--format', 'csv'))
        assert [(row['room'], row['boards'], row['joint_m'], row['waste_m2']) for row in said] == [('room 3', chosen['sheets'], chosen['joint_m'], chosen['waste_m2'])]
        cut = [row for row in rows(soffit('schedule', '--schedule', 'cutting', job, LANGUAGE='en')) if (row['Room'], row['What']) == ('Meeting room', 'board')]
        assert {f"{row['Stock length (mm)']}x{row['Stock width (mm)']}" for row in cut} == set(sheets_of(chosen['of']))
        ordered = {row['Code'] for row in rows(soffit('schedule', '--schedule', 'order', job, LANGUAGE='en'))}
        assert ordered >= {f'board-gypsum-9.5-{size}' for size in sheets_of(chosen['of'])}
        again = rows(soffit('lay', job, 'room 3', '--again', '--format', 'csv'))
        assert [(row['boards'], row['waste_m2']) for row in again] == [(chosen['sheets'], chosen['waste_m2'])]
        with sqlite3.connect(job) as base:
            assert base.execute('SELECT name FROM edit').fetchall()[0] == ('Choose boards',)
        base.close()


def boxes(layout, numbers):
    """Corners of pieces, by their numbers, in one order."""
    found = {}
    for corner in layout['corners']:
        found.setdefault(corner.get('piece', 1), []).append((corner['at']['x'], corner['at']['y']) if isinstance(corner['at'], dict) else tuple(corner['at']))
    return sorted(tuple(sorted(found[number])) for number in numbers)


def test_pieces_that_stay():
    with tempfile.TemporaryDirectory() as name:
        job = Path(name) / 'a.json'
        shutil.copy(JOB, job)
        soffit('lay', job, 'room 3')
        kept = boxes(json.loads(job.read_text(encoding='utf-8'))['layouts'][0], (2, 4))
        soffit('lay', job, 'room 3', '--keep', '2,4')
        found = rows(soffit('lay', job, 'room 3', '--alternatives', '--format', 'csv', part='stay where they are: 2'))
        for row in (found[0], found[-1]):
            soffit('lay', job, 'room 3', '--choose', row['number'])
            layout = json.loads(job.read_text(encoding='utf-8'))['layouts'][0]
            assert boxes(layout, [piece.get('piece', 1) for piece in layout['pieces'] if piece.get('locked')]) == kept, row
        soffit('lay', job, 'room 3', '--free', 'all')
        assert not any(piece.get('locked') for piece in json.loads(job.read_text(encoding='utf-8'))['layouts'][0]['pieces'])


def test_choices_that_cannot_be():
    with tempfile.TemporaryDirectory() as name:
        job = Path(name) / 'a.json'
        shutil.copy(JOB, job)
        before = job.read_bytes()
        soffit('lay', job, '--alternatives', code=2, part='name it')
        soffit('lay', job, 'room 2', '--choose', '-1', code=2, part='from 1')
        soffit('lay', job, 'room 2', '--choose', '99', code=3, part='no alternative 99')
        soffit('lay', job, 'room 2', '--keep', '1', code=3, part='no boards laid out')
        soffit('lay', job, 'Hall', '--alternatives', code=3, part='choose the closed finish first')
        assert job.read_bytes() == before
        soffit('lay', job, 'room 2')
        soffit('lay', job, 'room 2', '--keep', '1,99', code=3, part='no piece 99')
        soffit('lay', job, 'room 2', '--keep', 'x', code=3, part='no number of a piece')


def schedule(name):
    text = soffit('schedule', '--schedule', name, JOB).decode()
    return list(csv.DictReader(io.StringIO(text, newline=''), strict=True))


def test_cutting_and_order_of_the_job_agree():
    """Each piece of board once; no stock length is overfilled (3 mm a cut, 2 of conduit); what is ordered is what is cut from."""
    cutting, order = schedule('cutting'), schedule('order')
    boards = [row for row in cutting if row['What'] == 'board']
    assert len({(row['Room'], row['Piece']) for row in boards}) == len(boards) > 40
    whole = sum(1 for row in boards if row['Sheet or length'] == 'whole sheet')
    sheets = whole + len({row['Sheet or length'] for row in boards if row['Sheet or length'] != 'whole sheet'})
    ordered = [row for row in order if row['Code'].startswith('board-') and row['Code'] != 'board-screw']
    assert sum(int(row['Order']) for row in ordered) == sheets
    bars = {}
    for row in cutting:
        if row['What'] != 'board':
            bars.setdefault((row['Sheet or length'], row['Cut so'], row['Stock length (mm)']), []).append(row)
    bought = Fraction(0)
    for (_, times, stock), pieces in bars.items():
        n = sum(int(row['Copies']) for row in pieces)
        kerf = 2 if pieces[0]['What'] == 'conduit' else 3
        assert sum(Fraction(row['Length (mm)']) * int(row['Copies']) for row in pieces) + kerf * (n - 1) <= Fraction(stock)
        bought += int(times) * Fraction(stock) / 1000
    assert {'batten', 'cornice', 'corner bead', 'conduit'} <= {row['What'] for row in cutting}
    lengths = [row for row in order if row['Code'].startswith(('batten-', 'conduit-')) or row['Code'] in ('cornice', 'corner-bead')]
    lengths = [row for row in lengths if row['Code'] != 'batten-hanger']
    assert sum(int(row['Order']) * Fraction(row['each of']) for row in lengths) == bought > 600
    total = [row for row in order if row['Code'] == '']
    assert len(total) == 1 and sum(Fraction(row['Material']) for row in order if row['Code']) == Fraction(total[0]['Material'])


def test_sequence_of_the_job():
    """Steps count up in every room, holds are those of the list of hold points in its order, and nothing is boarded before the permission
    to close; hours are those of the crew's days of eight hours."""
    rooms, holds = {}, {}
    for row in schedule('sequence'):
        rooms.setdefault(row['Room'], []).append(row)
    for row in schedule('hold-points'):
        holds.setdefault(row['Name of the room'], []).append(row['Hold point'])
    assert rooms.keys() == holds.keys()
    closed = [name for name, steps in rooms.items() if any(row['Work'].startswith('Put up boards') for row in steps)]
    assert len(closed) == len(closed_rooms())
    for name, steps in rooms.items():
        assert [int(row['Step']) for row in steps] == list(range(1, len(steps) + 1))
        words = [row['Work'] for row in steps]
        stops = [word.removeprefix('Hold point: ') for word in words if word.startswith('Hold point: ')]
        left_out = () if name in closed else ('permission to close', 'battens', 'boards')
        assert stops == [hold for hold in holds[name] if hold not in left_out], name
        if name in closed:
            assert words.index('Hold point: permission to close') < words.index('Put up boards in the order of their numbers')
        else:
            assert words.index('Clean, degrease and rinse the open soffit') < words.index('Prime and paint the open soffit, all coats')
        timed = [row for row in steps if row['Crew']]
        assert len(timed) >= 2
        for row in timed:
            days, crew, hours = (row['Days, from'], row['to']), int(row['Crew']), (row['Hours of all, from (h)'], row['to (h)'])
            assert float(days[0]) <= float(days[1])
            assert all(abs(float(day) * crew * 8 - float(hour)) <= 0.005 * crew * 8 + 0.05 for day, hour in zip(days, hours)), row


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
