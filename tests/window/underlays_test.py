#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Plan pictures that mean harm, put under a plan in the window: each is refused with a message within the time that a user may be made
to wait, the window stays of use, and nothing outside the file is asked for. Run through tests/with-display:

    underlays_test.py SOFFITWRIGHT SOFFIT
"""
import json
import os
import socket
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(os.environ['SOFFITWRIGHT_SOURCE'])
sys.path[:0] = [str(ROOT / 'tests'), str(ROOT / 'tests/window')]
import tap  # noqa: E402
import driver  # noqa: E402
from driver import wait_for  # noqa: E402

PROGRAM, SOFFIT = sys.argv[1:3]
HEAD = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="400" height="400">'
WITHIN_S = 10
SLACK_S = 5  # for the accessibility bus to tell it on a busy machine
FOLDER = tempfile.TemporaryDirectory(prefix='soffitwright-underlays-')


def nested_use():
    """10^12 rectangles: each group draws the one before it ten times."""
    groups = ''.join(f'<g id="g{n}">' + f'<use xlink:href="#g{n - 1}"/>' * 10 + '</g>' for n in range(1, 13))
    return f'{HEAD}<defs><rect id="g0" width="9" height="9"/>{groups}</defs><use xlink:href="#g12"/></svg>'


def filters():
    """Pictures in pictures, each with filters that have much to do."""
    steps = ''.join(f'<feTurbulence baseFrequency="0.{n:02}" numOctaves="50"/><feMorphology radius="200"/>' for n in range(1, 61))
    return (f'{HEAD}<filter id="f" x="-1" y="-1" width="3" height="3">{steps}</filter>' + '<g filter="url(#f)">' * 40
            + '<rect width="400" height="400"/>' + '</g>' * 40 + '</svg>')


def entities():
    """Ten to the thirtieth times "ha"."""
    names = ''.join(f'<!ENTITY a{n} "{f"&a{n - 1};" * 10}">' for n in range(1, 31))
    return f'<!DOCTYPE svg [<!ENTITY a0 "ha">{names}]>{HEAD}<text>&a30;</text></svg>'


def job_with(picture):
    """A job file of its own whose plan lies over the picture."""
    outline = [[0, 0], [6000, 0], [6000, 4000], [0, 4000]]
    text = {'format': 'soffit-job', 'version': 1, 'job': {'name': 'Over a picture'}, 'profiles': [{'id': 'P1'}],
            'bays': [{'id': 'A', 'profile': 'P1', 'outline': outline}], 'underlays': [{'id': 'U1', 'file': str(picture), 'origin': [0, 4000], 'scale': 10}]}
    source = picture.with_suffix('.json')
    source.write_text(json.dumps(text), encoding='utf-8')
    job = picture.with_suffix('.soffit')
    subprocess.run([SOFFIT, 'make', source, job], check=True)
    return job


def picture(name, text):
    path = Path(FOLDER.name) / f'{name}.svg'
    path.write_text(text, encoding='utf-8')
    return path


class Window:
    """The program with a job over a picture, ended afterwards."""

    def __init__(self, path):
        self.job = job_with(path)

    def __enter__(self):
        self.program = driver.Program([PROGRAM, str(self.job)], dict(os.environ))
        self.began = time.monotonic()
        return self

    def __exit__(self, *error):
        self.program.end()

    def message(self, part):
        found = wait_for(f'a message with "{part}"', lambda: self.program.find_text(part), WITHIN_S + SLACK_S)
        print(f'# {time.monotonic() - self.began:.1f} s: {found.get_name()}')
        return found

    def is_of_use(self):
        assert self.program.process.poll() is None, self.program.output()
        self.program.find('Plan')


def refused(path, part):
    with Window(path) as window:
        found = window.message(part)
        assert path.name in found.get_name(), found.get_name()
        window.is_of_use()


def test_nested_use():
    refused(picture('uses', nested_use()), 'this drawing')


def test_filter_bomb():
    refused(picture('filters', filters()), 'this drawing')


def test_entities():
    refused(picture('entities', entities()), 'not an SVG drawing')


def test_hundred_megabytes():
    path = picture('huge', HEAD + '<!--')
    with open(path, 'ab') as file:
        file.truncate(100 << 20)
    refused(path, 'larger than the 20 MB')


def test_outside_is_not_asked_for():
    with socket.create_server(('127.0.0.1', 0)) as server:
        server.setblocking(False)
        place = f'http://127.0.0.1:{server.getsockname()[1]}/outside.svg'
        pipe = Path(FOLDER.name) / 'pipe.svg'
        os.mkfifo(pipe)
        inside = ''.join(f'<image xlink:href="{where}" width="99" height="99"/><use xlink:href="{where}#r"/><style>@import url("{where}");</style>'
                         for where in (place, pipe.as_uri(), str(pipe)))
        path = picture('outside', f'<!DOCTYPE svg [<!ENTITY e SYSTEM "{pipe.as_uri()}">]>{HEAD}{inside}<rect width="9" height="9"/></svg>')
        with Window(path) as window:
            window.is_of_use()
            end = time.monotonic() + 4
            while time.monotonic() < end:
                try:
                    server.accept()
                    raise AssertionError(f'{place} was asked for')
                except BlockingIOError:
                    pass
                try:
                    os.close(os.open(pipe, os.O_WRONLY | os.O_NONBLOCK))
                    raise AssertionError('the pipe was opened for reading')
                except OSError:
                    pass
                time.sleep(0.1)
            window.is_of_use()


if __name__ == '__main__':
    code = tap.run(__name__)
    FOLDER.cleanup()
    sys.exit(code)
