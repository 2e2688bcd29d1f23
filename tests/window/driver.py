# SPDX-License-Identifier: GPL-3.0-or-later
"""Drives the window as a user does: keys and pointer through xdotool, eyes through AT-SPI. Waits for states, never sleeps blindly."""
import os
import subprocess
import time

import gi
gi.require_version('Atspi', '2.0')
from gi.repository import Atspi, GLib  # noqa: E402

PATIENCE = 60.0


def wait_for(what, look, patience=None):
    """The first true answer of look(); an AssertionError that says what was waited for otherwise."""
    global PATIENCE  # pylint: disable=global-statement # once something is amiss, what builds on it need not take as long
    patience = patience or PATIENCE
    end = time.monotonic() + patience
    events = GLib.MainContext.default()
    while time.monotonic() < end:
        while events.pending():  # what the program told the accessibility bus meanwhile
            events.iteration(False)
        try:
            found = look()
        except GLib.Error:  # the thing went away while it was looked at
            found = None
        if found:
            return found
        time.sleep(0.1)
    PATIENCE = 5.0
    raise AssertionError(f'waited {patience:.0f} s for: {what}')


def xdotool(*arguments):
    done = subprocess.run(['xdotool', *map(str, arguments)], capture_output=True, text=True, check=False, timeout=60)
    return done.stdout.strip()


def key(*names):
    for name in names:
        xdotool('key', '--clearmodifiers', name)


def write(text):
    xdotool('type', '--delay', '30', text)


def children(node):
    for i in range(node.get_child_count()):
        child = node.get_child_at_index(i)
        if child is not None:
            yield child


def walk(node, depth=0):
    yield node
    if depth < 60:
        for child in children(node):
            yield from walk(child, depth + 1)


def text_of(node):
    """What stands in an entry; None for other things."""
    text = node.get_text_iface()
    return Atspi.Text.get_text(node, 0, Atspi.Text.get_character_count(node)) if text is not None else None


def is_shown(node):
    """This GTK tells "showing" of windows only; what has never been laid out has no size."""
    if node.get_component_iface() is None:
        return False
    extents = node.get_extents(Atspi.CoordType.WINDOW)
    return extents.width > 0 and extents.height > 0


class Program:
    """The running program, as a screen reader sees it."""

    def __init__(self, command, environment):
        self.log = open(os.path.join(environment['XDG_CACHE_HOME'], 'window.log'), 'w+', encoding='utf-8')
        self.process = subprocess.Popen(command, env=environment, stdout=self.log, stderr=subprocess.STDOUT)
        self.node = wait_for('the program on the accessibility bus', self._find)

    def _find(self):
        assert self.process.poll() is None, 'the program ended: ' + self.output()
        desktop = Atspi.get_desktop(0)
        desktop.clear_cache()  # no main loop runs here that would renew what is kept
        found = next((app for app in children(desktop) if app.get_process_id() == self.process.pid), None)
        if found is not None:
            found.set_cache_mask(Atspi.Cache.NONE)
        return found

    def output(self):
        self.log.flush()
        with open(self.log.name, encoding='utf-8', errors='replace') as log:
            return log.read()

    def end(self):
        self.process.terminate()
        try:
            self.process.wait(10)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        self.log.close()

    def find_all(self, name=None, role=None, showing=True):
        for node in walk(self.node):
            try:
                if role is not None and node.get_role() != role:
                    continue
                if name is not None and (node.get_name() or '') != name:
                    continue
                if showing and not is_shown(node):
                    continue
            except GLib.Error:
                continue
            yield node

    def find(self, name=None, role=None, showing=True):
        return wait_for(f'"{name}" ({role})', lambda: next(self.find_all(name, role, showing), None))

    def find_text(self, part):
        """The first showing label whose text has `part` in it."""
        return next((n for n in self.find_all(role=Atspi.Role.LABEL) if part in (n.get_name() or '')), None)

    def press(self, name, role=None):
        node = self.find(name, role)
        wait_for(f'"{name}" can be pressed', lambda: node.get_n_actions() > 0)
        assert node.do_action(0), name

    def window_origin(self):
        window = wait_for('the window', lambda: xdotool('search', '--onlyvisible', '--pid', self.process.pid) or
                          xdotool('search', '--onlyvisible', '--class', 'soffitwright'))
        numbers = dict(line.split('=') for line in xdotool('getwindowgeometry', '--shell', window.split()[-1]).splitlines() if '=' in line)
        return int(numbers['X']), int(numbers['Y'])

    def click(self, node):
        x, y, width, height = self.box(node)
        xdotool('mousemove', x + width // 2, y + height // 2)
        xdotool('click', 1)

    def box(self, node):
        """Screen box of a node: AT-SPI gives it in window coordinates, which begin at the window's corner."""
        extents = node.get_extents(Atspi.CoordType.WINDOW)
        x, y = self.window_origin()
        return x + extents.x, y + extents.y, extents.width, extents.height
