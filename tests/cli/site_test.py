#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What a ceiling contractor would recount of the example before he orders and while he sets out: pieces, timber, fixings, screws,
joints and cornices of its rooms, reckoned again from the layouts' own lines. Called with the path of soffit."""
import csv
import io
import json
import math
import os
import re
import subprocess
import sys
import tempfile
from collections import Counter
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import lists  # noqa: E402
import tap  # noqa: E402

SOFFIT = sys.argv[1]
JOB = ROOT / 'examples' / 'community-hall.json'
BATTEN = 38
TAPE = 1.05  # board.takeoff.tape_factor: common practice
FIELD, END, EDGE = 230, 150, 10  # mm, a UK standard specification clause in line with BS 8212
PLAIN = ('room 2', 'room 3', 'room 4', 'room 5')  # no hatch, bulkhead, column or movement joint


def soffit(*arguments, codes=(0, 1)):
    done = subprocess.run([SOFFIT, *map(str, arguments)], capture_output=True, check=False, env={**os.environ, 'LC_ALL': 'C.UTF-8'})
    assert done.returncode in codes, (arguments, done.returncode, done.stderr.decode())
    return done.stdout.decode()


class Laid:
    """The example with its ceilings laid out, once."""
    folder = tempfile.TemporaryDirectory(prefix='soffit-site-')
    path = Path(folder.name) / 'hall.soffit'
    job, prices = None, {}

    @classmethod
    def get(cls):
        if cls.job is None:
            soffit('make', JOB, cls.path)
            soffit('lay', cls.path)
            cls.job = json.loads(soffit('json', cls.path))
        return cls.job

    @classmethod
    def counted(cls, room, code):
        """Net quantity of a line of the room's take-off."""
        cls.get()
        if room not in cls.prices:
            found = csv.DictReader(io.StringIO(soffit('price', cls.path, '--room', room, '--format', 'csv')))
            cls.prices[room] = {row['code']: float(row['quantity']) for row in found if row['things']}
        return cls.prices[room].get(code, 0.0)


def schedule(name):
    Laid.get()
    return list(csv.DictReader(io.StringIO(soffit('schedule', '--schedule', name, Laid.path))))


def rooms():
    return {room['id']: room for room in Laid.get()['rooms']}


def layouts():
    return {layout['room']: layout for layout in Laid.get()['layouts']}


def length(line):
    return math.dist(line['from'], line['to'])


def of_kind(layout, kind):
    return [member for member in layout['members'] if member.get('kind', 'batten') == kind]


def pieces(layout):
    """Corners by number: a corner without one belongs to piece 1."""
    found = {}
    for corner in layout['corners']:
        found.setdefault(corner.get('piece', 1), []).append(corner['at'])
    return found


def box(points):
    return min(p[0] for p in points), min(p[1] for p in points), max(p[0] for p in points), max(p[1] for p in points)


def area(points):
    return abs(sum(a[0] * b[1] - a[1] * b[0] for a, b in zip(points, points[1:] + points[:1]))) / 2


def names():
    return {room['name']: room['id'] for room in Laid.get()['rooms']}


def test_pieces_are_the_same_on_plan_in_cutting_and_on_labels():
    """Every number on the plan has a sheet, a size that its outline has and one label; and nothing else has."""
    cut, labels = {}, Counter()
    for row in schedule('cutting'):
        if row['What'] == 'board':
            cut[names()[row['Room']], int(row['Piece'])] = float(row['Length (mm)']), float(row['Width (mm)'])
    with tempfile.TemporaryDirectory() as folder:
        soffit('export', '--all', '--format', 'svg', '--to', folder, Laid.path)
        assert lists.assert_fit(Path(folder)) > 10
        for path in Path(folder).glob('sheet-labels-*.svg'):
            texts = re.findall(r'<text[^>]*>([^<]*)</text>', path.read_text(encoding='utf-8'))
            labels.update((names()[a], int(b)) for a, b in zip(texts, texts[1:]) if a in names() and b.isdigit())
            labels.update((names()[b], int(a)) for a, b in zip(texts, texts[1:]) if b in names() and a.isdigit())
    on_plan = {(room, number): box(corners) for room, layout in layouts().items() for number, corners in pieces(layout).items()}
    faces = {(room, piece.get('piece', 1)) for room, layout in layouts().items() for piece in layout.get('faces', [])}
    assert set(cut) == set(on_plan) | faces, set(cut) ^ (set(on_plan) | faces)
    for key, (x0, y0, x1, y1) in on_plan.items():
        assert all(abs(a - b) <= 0.1 for a, b in zip(sorted(cut[key]), sorted((x1 - x0, y1 - y0)))), (key, cut[key])
    assert set(labels) == set(cut), set(labels) ^ set(cut)


def test_boards_fill_the_rooms():
    """Pieces of a plain room add up to what its outline holds; none is under another, none is past a wall."""
    for room in PLAIN:
        found = pieces(layouts()[room])
        whole = box(rooms()[room]['outline'])
        assert math.isclose(sum(area(corners) for corners in found.values()), area(rooms()[room]['outline']), abs_tol=10), room
        boxes = [box(corners) for corners in found.values()]
        assert all(b[0] >= whole[0] and b[1] >= whole[1] and b[2] <= whole[2] and b[3] <= whole[3] for b in boxes)
        for i, a in enumerate(boxes):
            assert not any(min(a[2], b[2]) - max(a[0], b[0]) > 0.1 and min(a[3], b[3]) - max(a[1], b[1]) > 0.1 for b in boxes[:i])


def test_rooms_end_at_the_faces_of_walls():
    """Half a wall's thickness off its middle: no board reaches into one."""
    for room, layout in layouts().items():
        for wall in Laid.get()['walls']:
            half = wall.get('thickness_mm', 110) / 2
            x0, y0, x1, y1 = box([wall['from'], wall['to']])
            x0, x1, y0, y1 = (x0 - half, x1 + half, y0, y1) if x0 == x1 else (x0, x1, y0 - half, y1 + half)
            for corners in pieces(layout).values():
                b = box(corners)
                assert min(x1, b[2]) - max(x0, b[0]) < 0.1 or min(y1, b[3]) - max(y0, b[1]) < 0.1, (room, wall['id'], b)


def test_timber_is_cut_as_it_is_drawn():
    """Metres of each kind: drawn, counted in the take-off and cut from stock (longer ones in parts); studs stand upright."""
    words = {'batten': 'batten', 'perimeter': 'batten along a wall', 'noggin': 'noggin', 'trimmer': 'trimmer'}
    codes = {'batten': 'batten', 'perimeter': 'wall-batten', 'noggin': 'noggin', 'trimmer': 'trimmer'}
    cut = Counter()
    for row in schedule('cutting'):
        if row['What'] in words.values():
            cut[names()[row['Room']], row['What']] += float(row['Length (mm)']) * int(row['Copies']) * int(row['Cut so'])
    for room, layout in layouts().items():
        for kind, word in words.items():
            members = of_kind(layout, kind)
            drawn = sum(map(length, members))
            assert math.isclose(Laid.counted(room, f'{codes[kind]}-{BATTEN}x{BATTEN}') * 1000, drawn, abs_tol=0.6), (room, kind)
            assert drawn - 0.01 <= cut[room, word] <= drawn + 2 * len(members), (room, kind, drawn, cut[room, word])


def test_every_batten_is_fixed_at_every_rib():
    """By hand: ribs 600 apart with their middles from the bay's side, 140 broad. Three cross the store and the meeting room (5,400, 6,000 and
    6,600 above grid 1), fourteen the library and the office (600 to 8,400 left of grid C); battens along a wall that run across the ribs
    are fixed to them as well."""
    for room, ribs in (('room 2', 3), ('room 3', 3), ('room 4', 14), ('room 5', 14)):
        layout = layouts()[room]
        way = [abs(b - a) for a, b in zip(*(of_kind(layout, 'batten')[0][end] for end in ('from', 'to')))]
        along = 0 if way[0] > way[1] else 1
        across = [member for member in of_kind(layout, 'perimeter') if abs(member['from'][along] - member['to'][along]) > 1]  # along the battens
        assert len(layout['fixings']) == ribs * (len(of_kind(layout, 'batten')) + len(across)) == Laid.counted(room, 'rib-fixing'), room
        for fixing in layout['fixings']:
            beside = fixing['at'][1] % 600 if along else (18000 - fixing['at'][0]) % 600
            assert min(beside, 600 - beside) <= 70 - 35, (room, fixing)  # 35 from a rib's edge: from memory


def screws(chord, spacing):
    return math.ceil((chord - 2 * EDGE - 0.05) / spacing) + 1


def test_screws_by_their_spacing():
    """Along every batten below a piece: at most 230 apart in its field, 150 at its ends and along walls, 10 off its edges."""
    for room in PLAIN:
        layout, count = layouts()[room], 0
        for corners in pieces(layout).values():
            low = box(corners)
            for member in layout['members']:
                a, b = member['from'], member['to']
                t = 0 if abs(a[0] - b[0]) > 1 else 1
                at, start, end = a[1 - t], min(a[t], b[t]), max(a[t], b[t])
                sides = low[1 - t], low[1 - t + 2]
                chord = min(end - start, low[t + 2] - low[t]) if max(start, low[t]) < min(end, low[t + 2]) else 0
                if chord <= 0 or at < sides[0] - 8 or at > sides[1] + 8:
                    continue
                field = member.get('kind', 'batten') == 'batten' and sides[0] + 8 < at < sides[1] - 8
                count += screws(chord, FIELD if field else END)
        assert Laid.counted(room, 'board-screw') == count, (room, count)


def test_joints_tape_and_cornices():
    """Tape by the joints that are drawn and 5 % more; the cornice of a plain room is its perimeter with a mitre in each corner. The foyer has a
    column in its side (0.095 m deep, 0.300 broad) and four corners more; the washrooms a shaft in their corner and a bulkhead."""
    for room, layout in layouts().items():
        joints = sum(length(joint) for joint in layout['joints'] if joint.get('kind', 'long') != 'movement') / 1000
        if room != 'room 7':  # the bulkhead's faces have joints and corners of their own
            assert math.isclose(Laid.counted(room, 'joint-tape'), TAPE * joints, abs_tol=0.001), room
    perimeter = {room: sum(math.dist(a, b) for a, b in zip(r['outline'], r['outline'][1:] + r['outline'][:1])) / 1000 for room, r in rooms().items()}
    for room in PLAIN:
        assert math.isclose(Laid.counted(room, 'cornice'), perimeter[room], abs_tol=0.001)
        assert Laid.counted(room, 'cornice-mitre') == 4
    assert math.isclose(Laid.counted('room 6', 'cornice'), perimeter['room 6'] + 2 * 0.095, abs_tol=0.001)
    assert Laid.counted('room 6', 'cornice-mitre') == 8
    # Round the higher ceiling as round the room (shaft and bulkhead stand in corners), and along the two walls behind the bulkhead.
    assert math.isclose(Laid.counted('room 7', 'cornice'), perimeter['room 7'] + 6.885 + 0.385, abs_tol=0.001)


def test_all_timber_has_its_two_dimensions():
    """Beside the battens each member stands in one line of the list, between the faces that its middle and its width give."""
    listed = Counter()
    for row in schedule('timber-set-out'):
        if not row['What'].startswith('opening'):
            listed[names()[row['Room']], row['What']] += int(row['Pieces'])
    words = {'perimeter': 'batten along a wall', 'noggin': 'noggin', 'trimmer': 'trimmer', 'stud': 'stud'}
    drawn = Counter((room, words[member['kind']]) for room, layout in layouts().items() for member in layout['members'] if 'kind' in member)
    assert listed == drawn
    # By hand: hatch H2, 600 x 350 at 9,550, 8,600: from the foyer's right wall (17,885) 8,035 to 8,635, from its lower one (7,255) 1,170 to 1,520.
    rows = list(csv.reader(io.StringIO(soffit('schedule', '--schedule', 'timber-set-out', Laid.path))))
    assert ['Foyer', 'opening of hatch H2', '1', '8035', '8635', '1170', '1520'] in rows
    # Its trimmers stand round it, 38 broad.
    assert ['Foyer', 'trimmer', '1', '7997', '8035'] in [row[:5] for row in rows] and ['Foyer', 'trimmer', '1', '8635', '8673'] in [row[:5] for row in rows]


def test_orders_hold_what_is_counted():
    """Of everything that is not cut at least what the whole job takes, and less than one pack more."""
    for row in schedule('order'):
        if row['Code'] == '' or row['Code'].startswith(('batten-3', 'board-gypsum', 'board-moisture')):
            continue
        packs, pack, wanted = int(row['Order']), float(row['each of']), float(row['Wanted'])
        assert wanted <= packs * pack < wanted + pack, row


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
