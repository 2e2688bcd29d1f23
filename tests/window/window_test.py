#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The window as a user meets it, on a display of its own: opens the example, draws a run with pointer and keys, sees the snag
appear, undoes it, exports everything and reads the files. Run through tests/with-display."""
import csv
import os
import re
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


def counts():
    """Stops, fixes and notes as the panel shows them, once the check is through."""
    node = program().find_text(' stop · ')
    match = re.fullmatch(r'(\d+) stop · (\d+) fix · (\d+) note', node.get_name()) if node else None
    return tuple(map(int, match.groups())) if match else None


def focus_plan(at=None):
    x, y, width, height = program().box(program().find('Plan'))
    xdotool('mousemove', int(x + width * (at[0] if at else 0.06)), int(y + height * (at[1] if at else 0.08)))
    return x, y, width, height


def click_plan(across, down):
    focus_plan((across, down))
    xdotool('click', 1)


def test_starts_with_an_empty_window():
    environment = dict(os.environ)
    state['program'] = driver.Program([sys.argv[1]], environment)
    for name in ('Open the example', 'Start', 'Start from a plan picture…', 'Open a job…'):
        program().find(name)


def test_refuses_a_length_that_is_none():
    entry = program().find('Length along the voids', Atspi.Role.TEXT)
    program().click(entry)
    key('ctrl+a')
    write('12+')
    key('Return')
    wait_for('a message about the length', lambda: program().find_text('12+'))


def test_opens_the_example():
    program().press('Open the example')
    program().find('Plan')
    state['before'] = wait_for('snags of the example', counts)
    assert state['before'][0] >= 1 and sum(state['before']) >= 3, state['before']


def titles():
    return [xdotool('getwindowname', window) for window in xdotool('search', '--onlyvisible', '--class', 'soffitwright').split()]


def test_pages_open_by_key_from_the_plan():
    for letter, title in (('r', 'Rules'), ('p', 'Price and choice'), ('c', 'Calculations')):
        click_plan(0.06, 0.08)
        key('ctrl+shift+' + letter)
        wait_for(f'the page {title}', lambda: title in titles())
        wait_for(f'{title} in front', lambda: xdotool('getactivewindow', 'getwindowname') == title)
        key('ctrl+w')
        wait_for(f'{title} closed', lambda: title not in titles())


def test_list_of_snags_follows_a_drag():
    """The gas pipe of the example is dragged across the voids of the kitchen and let go of by Escape."""
    key('ctrl+3')
    program().press('Things')
    program().click(program().find('Search the things of the job'))
    write('GA1')
    program().click(wait_for('the gas pipe', lambda: program().find_text('gas GA1')))
    key('Return')  # in the middle of the plan
    wait_for('its values', lambda: program().find('Outside diameter (mm)'))
    x, y, width, height = program().box(program().find('Plan'))
    label = wait_for('the counts', lambda: program().find_text(' stop · '))
    before, middle = label.get_name(), (x + width // 2, y + height // 2)
    xdotool('mousemove', *middle)
    xdotool('mousedown', 1)
    for step in range(1, 30):
        xdotool('mousemove', middle[0], middle[1] - 8 * step)
        if label.get_name() != before:
            break
    wait_for('other counts while dragging', lambda: label.get_name() != before)
    assert program().find_text('Snags while moving'), 'the heading says nothing of the drag'
    xdotool('key', 'Escape')  # key() would let go of the button first
    xdotool('mouseup', 1)
    wait_for('the snags as before', lambda: label.get_name() == before)
    undo = program().find('Undo', Atspi.Role.PUSH_BUTTON)
    assert undo.get_description() == 'Undo', undo.get_description()


def test_draws_a_run_with_pointer_and_keys_and_sees_its_snags():
    key('ctrl+4')
    wait_for('the tools of the conduits', lambda: program().find('Conduit'))
    click_plan(0.06, 0.08)  # bare paper: the plan has the focus
    key('k')
    wait_for('the tool in hand', lambda: program().find_text('Next: Conduit'))
    click_plan(0.40, 0.45)
    focus_plan((0.47, 0.80))
    write('2500')
    wait_for('what is typed', lambda: program().find_text('2500'))
    key('Return', 'Return')  # accepts the length, ends the run
    after = wait_for('more stops than before', lambda: (counts() or (0,))[0] > state['before'][0] and counts())
    state['after'] = after
    undo = program().find('Undo', Atspi.Role.PUSH_BUTTON)
    wait_for('undo names the edit', lambda: undo.get_description() == 'Undo Draw power run')
    key('Escape')


def test_undo_and_redo_bring_the_snags_back():
    key('ctrl+z')
    wait_for('the snags as before', lambda: counts() == state['before'])
    key('ctrl+shift+z')
    wait_for('the snags of the run', lambda: counts() == state['after'])
    key('ctrl+z')
    wait_for('the snags as before', lambda: counts() == state['before'])


def test_choosing_a_snag_shows_its_place():
    scale = wait_for('the scale', lambda: next((n for n in program().find_all(role=Atspi.Role.LABEL) if re.fullmatch(r'1:\d+', n.get_name())), None))
    near = scale.get_name()
    key('ctrl+0')  # the plan may stand near already
    wait_for('the whole plan', lambda: scale.get_name() != near)
    before = scale.get_name()
    mark = program().find('S1', Atspi.Role.LABEL)
    x, y, _, height = program().box(mark)
    xdotool('mousemove', x + 60, y + height // 2)
    xdotool('click', 1)
    wait_for('the plan goes there', lambda: scale.get_name() != before)
    wait_for('what is concerned is picked', lambda: program().find_text('Nothing picked') is None)


def test_things_can_be_walked_picked_and_changed_without_a_pointer():
    program().press('Things')
    entry = program().find('Search the things of the job')
    program().click(entry)
    key('ctrl+a')
    write('downlight')
    rows = wait_for('downlights in the list', lambda: [n for n in program().find_all(role=Atspi.Role.LIST_ITEM)
                                                       if 'downlight' in ' '.join(c.get_name() or '' for c in driver.walk(n)).lower()])
    assert len(rows) > 3, len(rows)
    program().press('Values')


def test_every_control_has_a_name():
    wanting = {Atspi.Role.PUSH_BUTTON, Atspi.Role.TOGGLE_BUTTON, Atspi.Role.CHECK_BOX, Atspi.Role.ENTRY, Atspi.Role.TEXT,
               Atspi.Role.COMBO_BOX, Atspi.Role.LIST, Atspi.Role.SPIN_BUTTON}
    nameless = []
    for node in program().find_all():
        if node.get_role() not in wanting:
            continue
        # A button inside a drop-down, or the text inside an entry, is named by what holds it.
        parent = node.get_parent()
        own = parent is None or parent.get_role() not in {Atspi.Role.COMBO_BOX, Atspi.Role.ENTRY, Atspi.Role.TEXT}
        name = node.get_name() or ''
        if name.startswith('Gtk') or (own and not name):
            nameless.append(f'{node.get_role_name()} "{name}" in {parent.get_name() if parent else None}')
    assert not nameless, nameless


def test_rows_say_what_they_are():
    """A screen reader stops at the rows themselves: severity, mark and sentence of a snag."""
    names = [node.get_name() or '' for node in program().find_all(role=Atspi.Role.LIST_ITEM)]
    assert any(re.match(r'Stop S\d+: .{20,}', name) for name in names), names


def choose_folder(folder):
    """In the file chooser: a slash opens the entry for a place."""
    chooser = program().find('Choose a folder')
    wait_for('the file chooser in front', lambda: xdotool('getactivewindow', 'getwindowname') == 'Choose a folder')
    write(str(folder))
    wait_for('the folder in an entry', lambda: str(folder) in [driver.text_of(n) for n in driver.walk(chooser)])
    key('Return')


def test_exports_all_sheets_and_schedules():
    folder = Path(tempfile.mkdtemp(prefix='soffitwright-export-'))
    state['folder'] = folder
    key('ctrl+e')
    program().press('Export all…')
    choose_folder(folder)
    wait_for('the files', lambda: program().find_text('files written to'))
    assert list(folder.glob('sheet-*.svg')) and list(folder.glob('schedule-*.csv')), list(folder.iterdir())
    key('Escape')


def exported(pattern):
    paths = sorted(state['folder'].glob(pattern))
    assert len(paths) > 5, paths
    return paths


def test_sheets_are_good_svg():
    for path in exported('*.svg'):
        subprocess.run(['xmllint', '--noout', '--nonet', str(path)], check=True, capture_output=True)
        assert b'<text' in path.read_bytes(), path.name
        drawn = subprocess.run(['rsvg-convert', '-w', '400', str(path)], check=True, capture_output=True).stdout
        assert drawn[:4] == b'\x89PNG' and len(drawn) > 2000, path.name


def test_schedules_can_be_read_back():
    for path in exported('*.csv'):
        with path.open(encoding='utf-8', newline='') as file:
            rows = list(csv.reader(file, strict=True))
        assert rows and len({len(row) for row in rows}) == 1, path.name


def test_window_and_command_write_the_same():
    jobs = list((Path(os.environ['XDG_DATA_HOME']) / 'soffitwright/jobs').glob('*.soffit'))
    assert len(jobs) == 1, jobs
    other = tempfile.mkdtemp(prefix='soffitwright-export-')
    subprocess.run([sys.argv[2], 'export', '--all', '--to', other, str(jobs[0])], check=True, capture_output=True)
    mine = {path.name: path.read_bytes() for path in exported('*')}
    theirs = {path.name: path.read_bytes() for path in Path(other).iterdir()}
    assert mine.keys() == theirs.keys(), mine.keys() ^ theirs.keys()
    for name in mine:
        assert mine[name] == theirs[name], name


def test_nothing_was_complained_about():
    faults = [line for line in program().output().splitlines()
              if re.search(r'-(WARNING|CRITICAL)|ERROR', line) and 'dconf' not in line and 'portal' not in line.lower()]
    assert not faults, faults


def test_ends_when_asked():
    key('ctrl+q')
    wait_for('the end', lambda: program().process.poll() is not None, 20)
    assert program().process.returncode == 0, program().process.returncode


if __name__ == '__main__':
    code = tap.run(__name__)
    if 'program' in state and state['program'].process.poll() is None:
        state['program'].end()
    sys.exit(code)
