#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The pages beside the plan, by keys and as a screen reader meets them: price and choice, single calculations, rules. What they show
is held against what the command says of the same job. Run through tests/with-display."""
import csv
import io
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(os.environ['SOFFITWRIGHT_SOURCE'])
sys.path[:0] = [str(ROOT / 'tests'), str(ROOT / 'tests/window')]
import tap  # noqa: E402
import driver  # noqa: E402
from driver import Atspi, key, wait_for, write, xdotool  # noqa: E402

state = {}


def program():
    return state['program']


def command(*arguments):
    return subprocess.run([sys.argv[2], *map(str, arguments)], check=True, capture_output=True, text=True).stdout


def job_file():
    jobs = list((Path(os.environ['XDG_DATA_HOME']) / 'soffitwright/jobs').glob('*.soffit'))
    assert len(jobs) == 1, jobs
    return jobs[0]


def total():
    """Price of the whole job with tax, as the command says."""
    copy = Path(tempfile.mkdtemp()) / 'copy.soffit'  # the window holds the job itself
    shutil.copy(job_file(), copy)
    rows = csv.DictReader(io.StringIO(command('price', '--format', 'csv', copy)))
    return next(row['sum'] for row in rows if row['code'] == 'total')


def shows(text):
    return next((n for n in program().find_all(role=Atspi.Role.LABEL) if (n.get_name() or '') == text), None)


def front(title):
    wait_for(f'"{title}" in front', lambda: xdotool('getactivewindow', 'getwindowname') == title)


def click(node):
    """Of the window in front: the driver's own click means the program's last window."""
    place = xdotool('getwindowgeometry', '--shell', xdotool('getactivewindow'))
    numbers = dict(line.split('=') for line in place.splitlines() if '=' in line)
    box = node.get_extents(Atspi.CoordType.WINDOW)
    xdotool('mousemove', int(numbers['X']) + box.x + box.width // 2, int(numbers['Y']) + box.y + box.height // 2)
    xdotool('click', 1)


def is_checked(node):
    return node.get_state_set().contains(Atspi.StateType.CHECKED)


def test_opens_the_example():
    state['program'] = driver.Program([sys.argv[1], str(ROOT / 'examples/community-hall.json')], dict(os.environ))
    wait_for('snags of the example', lambda: program().find_text(' stop · '))


def test_price_page_says_what_the_command_says():
    key('ctrl+shift+p')
    front('Price and choice')
    state['total'] = total()
    wait_for('the price of the whole job', lambda: shows(state['total']))


def test_choosing_a_finish_is_an_edit():
    open_soffit = program().find('Finish the room so: Open soffit, painted')
    closed = program().find('Finish the room so: Boards on brandering')
    wait_for('the first room is open', lambda: is_checked(open_soffit))
    click(closed)
    wait_for('the first room is closed', lambda: is_checked(closed))
    wait_for('another price', lambda: not shows(state['total']))
    changed = total()
    assert changed != state['total']
    wait_for('the price with it', lambda: shows(changed))
    key('ctrl+z')
    wait_for('the first room is open again', lambda: is_checked(open_soffit))
    wait_for('the price before', lambda: shows(state['total']))


def test_lines_pick_what_they_count():
    click(program().find('Quantities'))
    click(wait_for('a line of the take-off', lambda: program().find_text('Finish paint, water-borne')))
    wait_for('what it counts', lambda: program().find_text('counted by this line is picked'))


def price_row(code):
    copy = Path(tempfile.mkdtemp()) / 'copy.soffit'
    shutil.copy(job_file(), copy)
    return next((row for row in csv.DictReader(io.StringIO(command('prices', copy))) if row['code'] == code), None)


def test_a_row_of_the_price_list_is_changed_where_it_is_used():
    """The job has no prices of its own: the invented ones are taken over first. Keys alone; what is wrong is said; edits can be undone."""
    click(program().find('Price row'))
    wait_for('its values', lambda: on_page('Price and choice', 'Greatest batten centres (mm)'))
    before = price_row('finish-paint')
    assert before is not None
    key('Tab', 'Tab')
    write('paint shop')
    key('Tab')
    wait_for('the supplier', lambda: price_row('finish-paint')['supplier'] == 'paint shop')
    key('ctrl+a')
    write('dear')
    key('Tab')
    wait_for('what is wrong', lambda: program().find_text('"dear"'))
    assert price_row('finish-paint')['material'] == before['material']
    key('Escape')
    wait_for('no values any more', lambda: not on_page('Price and choice', 'Greatest batten centres (mm)'))
    key('ctrl+z')
    wait_for('the supplier before', lambda: price_row('finish-paint')['supplier'] == before['supplier'])
    key('ctrl+z')
    wait_for('the invented prices', lambda: shows(state['total']))


def alternatives():
    copy = Path(tempfile.mkdtemp()) / 'copy.soffit'
    shutil.copy(job_file(), copy)
    return list(csv.DictReader(io.StringIO(command('lay', copy, 'room 2', '--alternatives', '--format', 'csv'))))


def on_page(title, name):
    """A control or text of one page by its name: quicker than through the whole program."""
    page = next((n for n in driver.children(program().node) if n.get_name() == title), None)
    return next((n for n in driver.walk(page) if (n.get_name() or '') == name and driver.is_shown(n)), None) if page else None


def names_wanting(title):
    """Controls of one page that a screen reader would have no name for."""
    wanting = {Atspi.Role.PUSH_BUTTON, Atspi.Role.TOGGLE_BUTTON, Atspi.Role.CHECK_BOX, Atspi.Role.RADIO_BUTTON, Atspi.Role.ENTRY,
               Atspi.Role.TEXT, Atspi.Role.COMBO_BOX, Atspi.Role.LIST, Atspi.Role.TREE_TABLE, Atspi.Role.TABLE}
    nameless = []
    page = next(n for n in driver.children(program().node) if n.get_name() == title)
    for node in driver.walk(page):
        if node.get_role() not in wanting or not driver.is_shown(node):
            continue
        parent = node.get_parent()
        own = parent is None or parent.get_role() not in {Atspi.Role.COMBO_BOX, Atspi.Role.ENTRY, Atspi.Role.TEXT}
        name = node.get_name() or ''
        if name.startswith('Gtk') or (own and not name):
            nameless.append(f'{node.get_role_name()} "{name}" in {parent.get_name() if parent else None}')
    return nameless


def test_price_page_has_names():
    faults = names_wanting('Price and choice')
    assert not faults, faults
    key('Escape')
    wait_for('the page is closed', lambda: xdotool('getactivewindow', 'getwindowname') != 'Price and choice')


def test_boards_side_by_side():
    page, said = 'Boards side by side', alternatives()
    key('ctrl+b')
    front(page)
    wait_for('all alternatives', lambda: on_page(page, f'Use this: Alternative {len(said)}'))
    for row in said[:3]:
        assert on_page(page, f"R {row['cost']}") and on_page(page, row['of']), row
    faults = names_wanting(page)
    assert not faults, faults
    assert wait_for('the second', lambda: on_page(page, 'Use this: Alternative 2')).do_action(0)
    wait_for('what the job has now', lambda: on_page(page, 'As the job has it: alternative 2') and not on_page(page, 'Use this: Alternative 2'))
    copy = Path(tempfile.mkdtemp()) / 'copy.soffit'
    shutil.copy(job_file(), copy)
    row = next(csv.DictReader(io.StringIO(command('lay', copy, 'room 2', '--format', 'csv'))))
    assert (row['did'], row['boards'], row['joint_m']) == ('kept', said[1]['sheets'], said[1]['joint_m']), row
    key('ctrl+z')
    wait_for('it is undone', lambda: not on_page(page, 'As the job has it: alternative 2') and on_page(page, 'Use this: Alternative 2'))
    key('Escape')
    wait_for('the page is closed', lambda: xdotool('getactivewindow', 'getwindowname') != page)


def test_a_snag_leads_to_its_rule():
    snag = wait_for('the snag', lambda: program().find_text('Hot, basins (HW1) is '))
    click(snag)
    program().press('Show the rule and number behind it')
    front('Rules')
    wait_for('the value', lambda: program().find_text('checks.clearances.'))
    wait_for('what rests on it', lambda: program().find_text('Snags of this job that rest on it'))
    faults = names_wanting('Rules')
    assert not faults, faults


def test_a_changed_rule_is_marked_and_can_be_undone():
    click(program().find('Value in this job'))
    key('ctrl+a')
    write('25')
    key('Tab')
    write('letter of the engineer')
    key('Return')
    wait_for('the change', lambda: program().find_text(' = 25 mm, changed in this job'))
    click(program().find('Take back'))
    wait_for('the value before', lambda: program().find_text('checks.clearances.') and not program().find_text('changed in this job; '))


def test_asks_a_calculation():
    key('Escape')
    wait_for('the rules are closed', lambda: xdotool('getactivewindow', 'getwindowname') != 'Rules')
    key('ctrl+shift+c')
    front('Calculations')
    write('drilling')  # the search has the focus
    wait_for('what is found', lambda: shows('Drilling into a rib'))
    key('Return')      # the first that is found; its first value has the focus
    wait_for('the question', lambda: program().find('Width of the rib\'s underside, mm'))
    write('150')
    wait_for('what the command says', lambda: program().find_text('52 mm'))
    assert '52 mm' in command('ask', 'drill-strip', 'rib=150')
    faults = names_wanting('Calculations')
    assert not faults, faults


def test_a_wrong_value_is_named():
    write('x')
    wait_for('a sentence about the value', lambda: program().find_text('150x'))
    key('BackSpace')
    wait_for('the answer again', lambda: program().find_text('52 mm'))


def test_leads_to_the_rule_that_it_quotes():
    button = wait_for('a rule that is quoted', lambda: next((n for n in program().find_all(role=Atspi.Role.PUSH_BUTTON)
                                                             if (n.get_name() or '').startswith('Show the rule deck.drill')), None))
    assert button.do_action(0)
    front('Rules')
    wait_for('the value', lambda: program().find_text('deck.drill.'))


def test_draws_an_answer():
    key('Escape')
    front('Calculations')
    search = program().find('Search the calculations')
    click(search)
    key('ctrl+a')
    write('fall-table')  # its name in the command
    key('Return')
    wait_for('the question', lambda: program().find('Depth of the void, mm'))
    write('250')
    wait_for('the picture', lambda: program().find('Picture of the answer'))


def test_enters_a_hold_point():
    """By the fields of the page; the job holds it, and the command lists it."""
    key('Escape')
    wait_for('the calculations are closed', lambda: xdotool('getactivewindow', 'getwindowname') != 'Calculations')
    key('ctrl+shift+h')
    front('Hold points')
    click(wait_for('the field', lambda: program().find('photographs: Name')))
    write('A. Foreman')
    key('Return')

    def entered():
        copy = Path(tempfile.mkdtemp()) / 'copy.soffit'
        shutil.copy(job_file(), copy)
        return 'A. Foreman' in command('json', copy)
    wait_for('the entry in the job', entered)


def test_enters_what_was_measured():
    """By keyboard from field to field; the job holds it, the room's measures close, and it is undone."""
    page = 'As-built entry'
    key('Escape')
    wait_for('the hold points are closed', lambda: xdotool('getactivewindow', 'getwindowname') != 'Hold points')
    key('ctrl+shift+m')
    front(page)
    click(wait_for('the first edge', lambda: on_page(page, 'rib 3, low edge at the start')))
    for value in ('1742', '1879', '1738'):
        write(value)
        key('Return')
    wait_for('the shift', lambda: on_page(page, '+12, +9, +8'))
    faults = names_wanting(page)
    assert not faults, faults

    def edges():
        copy = Path(tempfile.mkdtemp()) / 'copy.soffit'
        shutil.copy(job_file(), copy)
        return [m['value_mm'] for m in json.loads(command('json', copy))['measures'] if m.get('kind') == 'edge']
    wait_for('three edges in the job', lambda: edges() == [1742, 1879, 1738])
    key('ctrl+z')
    wait_for('the last is taken back', lambda: edges() == [1742, 1879])


def test_cuts_without_a_job():
    """The lists of the example, then each kind with lists of its own; a size that is none is named by its field."""
    page = 'Cutting alone'
    key('Escape')
    wait_for('the as-built entry is closed', lambda: xdotool('getactivewindow', 'getwindowname') != 'As-built entry')
    key('ctrl+shift+x')
    front(page)
    click(wait_for('the example', lambda: on_page(page, 'Fill in an example')))
    answer = wait_for('a plan', lambda: next((n for n in program().find_all(role=Atspi.Role.LABEL) if (n.get_name() or '').startswith('30 pieces from')), None))
    assert 'It is proven that no plan takes less than 926.00.' in answer.get_name(), answer.get_name()
    faults = names_wanting(page)
    assert not faults, faults
    click(program().find('Saw cut, mm', Atspi.Role.TEXT))
    write('3x')
    wait_for('what is wrong', lambda: program().find_text('Saw cut: "3x"'))
    key('BackSpace')
    wait_for('a plan again', lambda: program().find_text('30 pieces from'))
    key('Escape')
    wait_for('the page is closed', lambda: xdotool('getactivewindow', 'getwindowname') != page)


def test_nothing_was_complained_about():
    faults = [line for line in program().output().splitlines()
              if re.search(r'-(WARNING|CRITICAL)|ERROR', line) and 'dconf' not in line and 'portal' not in line.lower()]
    assert not faults, faults


if __name__ == '__main__':
    code = tap.run(__name__)
    if 'program' in state and state['program'].process.poll() is None:
        state['program'].end()
    sys.exit(code)
