#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Price lists, take-off and choice of finish through the command, reckoned again with csv and decimal. Called with the path of soffit."""
import csv
import io
import json
import os
import subprocess
import sys
import tempfile
from decimal import ROUND_CEILING, ROUND_HALF_UP, Decimal
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

SOFFIT = sys.argv[1]
JOB = ROOT / 'examples' / 'community-hall.json'
LOCALES = ('C', 'de_DE.UTF-8', 'tr_TR.UTF-8')
CENT, MILLI, WHOLE = Decimal('0.01'), Decimal('0.001'), Decimal(1)
MARKUP, VAT = Decimal('1.2'), Decimal('0.15')  # of the South African rule set


def soffit(*arguments, code=0, part='', **variables):
    done = subprocess.run([SOFFIT, *map(str, arguments)], capture_output=True, check=False, env={**os.environ, **variables})
    said = done.stderr.decode()
    assert done.returncode == code and part in said, (arguments, done.returncode, said)
    return done.stdout


def table(*arguments):
    text = soffit(*arguments).decode()
    return list(csv.DictReader(io.StringIO(text, newline=''), strict=True))


def half_up(value, unit):
    return value.quantize(unit, ROUND_HALF_UP)


def price_rows(*options):
    return {row['code']: row for row in table('prices', JOB, *options)}


def is_cut(line):
    """Whether what is ordered is the stock that its cutting takes, and no percentage."""
    code = line['code']
    return line['unit'] == 'm' and (code in ('cornice', 'shadow-line', 'corner-bead') or code.startswith('conduit-')
                                    or code.split('-')[0] in ('batten', 'wall', 'noggin', 'trimmer', 'primary', 'stud'))


def reckon(line, price):
    """Ordered, material and labour of a line as the trade reckons them: waste earns no labour, whole things are ordered whole."""
    net = Decimal(line['quantity'])
    ordered = net + half_up(net * Decimal(price['waste']) / 100, MILLI)
    if line['unit'] == 'no':
        ordered = ordered.quantize(WHOLE, ROUND_CEILING)
    if is_cut(line):
        ordered = Decimal(line['ordered'])
        assert net <= ordered < net + 6 * len(line['things'].split(';')), line  # less than a length more in each room
    material = half_up(Decimal(price['material']) * ordered, CENT)
    labour = half_up(Decimal(price['labour']) * net, CENT)
    return ordered, material, labour


def sums(rows):
    return {row['code']: Decimal(row['sum']) for row in rows if row['trade'] == 'total'}


def check_quote(rows, prices):
    material = labour = Decimal(0)
    lines = [row for row in rows if row['trade'] not in ('total', 'hours', 'note')]
    assert lines
    for line in lines:
        ordered, of_material, of_labour = reckon(line, prices[line['code']])
        assert Decimal(line['ordered']) == ordered, line
        assert Decimal(line['material']) == of_material, line
        assert Decimal(line['labour']) == of_labour, line
        assert Decimal(line['sum']) == of_material + of_labour, line
        assert line['unit'] == prices[line['code']]['unit'], line
        stock = Decimal(prices[line['code']]['length_mm']) / 1000
        if is_cut(line):
            assert not line['lengths'] or Decimal(line['lengths']) * stock == ordered, line
        elif line['unit'] == 'm' and stock > 0:
            assert Decimal(line['lengths']) == (ordered / stock).quantize(WHOLE, ROUND_CEILING), line
        material += of_material
        labour += of_labour
    found = sums(rows)
    assert found['material'] == material and found['labour'] == labour and found['cost'] == material + labour, found
    assert found['price'] == half_up(found['cost'] * MARKUP, CENT), found
    assert found['vat'] == half_up(found['price'] * VAT, CENT) and found['total'] == found['price'] + found['vat'], found
    return lines


def test_default_list_reads_back():
    with open(ROOT / 'data' / 'prices.csv', encoding='utf-8', newline='') as file:
        rows = list(csv.reader(file, strict=True))
    assert rows[0] == ['code', 'description', 'unit', 'supplier', 'material', 'labour', 'waste', 'length_mm', 'width_mm',
                       'centres_mm', 'field_mm', 'wet', 'fire_min', 'lead_days', 'inertia_mm4']
    assert len({row[0] for row in rows}) == len(rows) and all(len(row) == len(rows[0]) for row in rows)
    for row in rows[1:]:
        assert Decimal(row[4]) >= 0 and Decimal(row[5]) >= 0 and row[3] == ''


def test_prices_are_byte_stable():
    first = soffit('prices', JOB)
    assert first == (ROOT / 'data' / 'prices.csv').read_bytes()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        soffit('prices', JOB, '--to', folder / 'a.csv')
        soffit('new', folder / 'a.soffit')
        assert (folder / 'a.csv').read_bytes() == first == soffit('prices', folder / 'a.soffit')


def test_quote_of_the_job():
    rows = table('price', JOB, '--format', 'csv')
    lines = check_quote(rows, price_rows())
    assert {'ceiling', 'painting', 'electrical', 'plumbing', 'building'} == {line['trade'] for line in lines}
    assert all(line['things'] for line in lines)
    assert not [row for row in rows if row['code'] in ('no-price', 'other-unit')]
    assert [row['code'] for row in rows if row['trade'] == 'note'][0] == 'invented-prices'


def test_rooms_add_up_to_the_job():
    job = json.loads(JOB.read_text(encoding='utf-8'))
    prices, whole, parts = price_rows(), {}, {}
    for line in check_quote(table('price', JOB, '--format', 'csv'), prices):
        whole[line['code']] = Decimal(line['quantity'])
    for room in job['rooms']:
        for line in check_quote(table('price', JOB, '--room', room['id'], '--format', 'csv'), prices):
            parts[line['code']] = parts.get(line['code'], 0) + Decimal(line['quantity'])
    assert set(parts) <= set(whole)
    assert all(parts[code] <= whole[code] for code in parts)
    assert parts['cornice'] == whole['cornice'] and parts['downlight-100'] == whole['downlight-100']


def test_own_list():
    with tempfile.TemporaryDirectory() as name:
        own = Path(name) / 'own.csv'
        own.write_text('code,unit,material,labour,waste\nskim-plaster,kg,10.05,5,12.5\ndownlight-100,m,1,1,0\n', encoding='utf-8')
        before = JOB.read_bytes()
        rows = table('price', JOB, '--list', own, '--format', 'csv')
        line = next(row for row in rows if row['code'] == 'skim-plaster')
        ordered, material, labour = reckon(line, {'waste': '12.5', 'material': '10.05', 'labour': '5'})
        assert (Decimal(line['ordered']), Decimal(line['material']), Decimal(line['labour'])) == (ordered, material, labour)
        assert sums(rows)['cost'] == material + labour
        notes = {(row['code'], row['description'].split(':')[0]) for row in rows if row['trade'] == 'note'}
        assert ('other-unit', 'downlight-100') in notes and ('no-price', 'drop-in-80') in notes
        assert JOB.read_bytes() == before
        own.write_text('code,material\ncornice,10\ncornice,"1,5"\n', encoding='utf-8')
        soffit('price', JOB, '--list', own, code=3, part='own.csv: line 3, character 1: the code "cornice" stands twice')


def test_what_is_cut_is_priced_as_it_is_ordered():
    """Once all rooms are laid out, the stock of the take-off is that of the order list: sheets, timber of a section, trims and conduits."""
    with tempfile.TemporaryDirectory() as name:
        job = Path(name) / 'hall.soffit'
        soffit('make', JOB, job)
        soffit('lay', job)
        taken, ordered = {}, {}
        for line in table('price', job, '--format', 'csv'):
            if is_cut(line) or line['code'].startswith('board-gypsum') or line['code'].startswith('board-moisture'):
                key = line['code'].split('-')[-1] if 'x' in line['code'].split('-')[-1] and line['unit'] == 'm' else line['code']
                taken[key] = taken.get(key, 0) + Decimal(line['ordered'])
        for line in table('schedule', job, '--schedule', 'order'):
            key = line['Code'].split('-')[-1] if line['Code'].startswith('batten-') else line['Code']
            if key in taken:
                ordered[key] = ordered.get(key, 0) + Decimal(line['Order']) * Decimal(line['each of'])
        assert len(taken) >= 7 and taken == ordered, (taken, ordered)


def test_list_is_read_into_a_job():
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        own = folder / 'own.csv'
        soffit('new', folder / 'a.soffit')
        (folder / 'b.json').write_bytes(soffit('json', folder / 'a.soffit'))
        for job in (folder / 'a.soffit', folder / 'b.json'):
            own.write_text('code,material,supplier\ncornice,19.99,"Yard, north"\nmoonstone,1,\n', encoding='utf-8')
            soffit('prices', job, '--from', own)
            found = {row['code']: row for row in table('prices', job)}
            assert (found['cornice']['material'], found['cornice']['supplier'], found['cornice']['labour']) == ('19.99', 'Yard, north', '22.00')
            assert found['moonstone']['material'] == '1.00' and list(found)[-1] == 'moonstone'
            before = soffit('json', job)
            own.write_text('code,material\ncornice,20\nmoonstone,1e3\n', encoding='utf-8')
            soffit('prices', job, '--from', own, code=3, part='own.csv: line 3, character 11: material: "1e3" is not an amount')
            assert soffit('json', job) == before
        soffit('prices', folder / 'a.soffit', '--from', own, '--to', own, code=2, part='exclude each other')


def test_choice():
    rows = table('choice', JOB, '--grid', '--format', 'csv')
    rooms = {}
    for row in rows:
        rooms.setdefault(row['room'], {})[row['figure']] = row
    assert len(rooms) == 8
    for figures in rooms.values():
        for side in ('closed', 'exposed', 'grid'):
            value = {key: Decimal(row[side]) for key, row in figures.items() if row[side].replace('.', '', 1).lstrip('-').isdigit()}
            assert figures['possible'][side] == 'yes'
            assert value['cost'] == value['material'] + value['labour']
            assert value['price'] == half_up(value['cost'] * MARKUP, CENT)
            assert value['vat'] == half_up(value['price'] * VAT, CENT) and value['total'] == value['price'] + value['vat']
            assert abs(value['price_m2'] - value['price'] / value['area_m2']) < value['price_m2'] / 100
            assert value['days_low'] <= value['days_high'] and value['later_low'] <= value['later_high']
            assert value['unpriced'] == 0
        assert Decimal(figures['finish_l']['exposed']) > Decimal(figures['finish_l']['closed'])
        assert figures['zinc_primer_l']['closed'] == '' and figures['carbon_kg']['grid'] == ''
        assert figures['carbon_kg']['confidence'] == 'from-memory' and figures['absorption_500_m2']['confidence'] == 'published'
        assert figures['wanted_mm']['rule'].startswith('room.heights[')


def test_example_list():
    with open(ROOT / 'examples' / 'prices.csv', encoding='utf-8', newline='') as file:
        prices = {row['code']: row for row in csv.DictReader(file, strict=True)}
    rows = table('price', JOB, '--list', ROOT / 'examples' / 'prices.csv', '--format', 'csv')
    priced = [row for row in rows if row['code'] in prices]
    assert len(priced) > 40
    for line in priced:
        assert (Decimal(line['ordered']), Decimal(line['material']), Decimal(line['labour'])) == reckon(line, prices[line['code']]), line
    assert sum(Decimal(line['sum']) for line in priced) == sums(rows)['cost']


def test_deck():
    """The reference trough by hand: rib 100, side 254.95, factor 1.6832, concrete 0.325 - 0.1875, strip 100 - 2 (25 + 8 + 16)."""
    with tempfile.TemporaryDirectory() as name:
        job = Path(name) / 'job.json'
        job.write_text(json.dumps({'format': 'soffit-job', 'version': 1, 'profiles': [{'id': 'p'}], 'bays': [
            {'profile': 'p', 'outline': [[0, 0], [6000, 0], [6000, 4200], [0, 4200]]}]}), encoding='utf-8')
        found = {(row['profile'], row['figure']): row['value'] for row in table('deck', job, '--format', 'csv')}
    expected = {('p', 'rib_mm'): '100', ('p', 'developed_mm'): '1009.9', ('p', 'developed_factor'): '1.683', ('p', 'concrete_m3_m2'): '0.1375',
                ('p', 'solid_m3_m2'): '0.3250', ('p', 'saving_percent'): '57.7', ('p', 'drill_strip_mm'): '2', ('', 'deck_m2'): '25.2',
                ('', 'solid_m3'): '8.19', ('', 'saved_gross_percent'): '57.7'}
    assert expected.items() <= found.items(), found
    assert Decimal(found['', 'saved_net_m3']) < Decimal(found['', 'saved_gross_m3'])
    # 0.9099 m of 0.8 mm sheet a pitch of 0.6 m, 7,850 kg/m3
    assert abs(Decimal(found['p', 'sheet_kg_m2']) - Decimal('9.52')) < Decimal('0.01')


def test_formats_say_the_same():
    for verb in ('price', 'choice'):
        rows = table(verb, JOB, '--room', 'room 6', '--format', 'csv')
        assert json.loads(soffit(verb, JOB, '--room', 'room 6', '--format', 'json')) == rows
        text = soffit(verb, JOB, '--room', 'room 6').decode()
        assert all(row.get('sum', '') in text for row in rows)
    assert table('price', JOB, '--room', 'Foyer', '--format', 'csv') == table('price', JOB, '--room', 'room 6', '--format', 'csv')


def test_same_bytes_in_every_locale():
    for verb in ('price', 'choice', 'prices'):
        options = [] if verb == 'prices' else ['--format', 'csv']
        assert len({soffit(verb, JOB, *options, LC_ALL=locale, LANGUAGE='en') for locale in LOCALES}) == 1, verb


def test_wrong_use():
    soffit('price', JOB, '--room', 'attic', code=3, part='no room "attic"')
    soffit('price', JOB, '--format', 'xml', code=2, part='--format is text, csv or json')
    soffit('choice', JOB, '--list', '/nowhere.csv', code=3, part='/nowhere.csv')
    soffit('price', code=2, part='something is missing')


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
