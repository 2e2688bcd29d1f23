#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Pictures of the program at work on the example, for README and metainfo. Run by data/screenshots/make:

    screenshots.py SOFFITWRIGHT SOFFIT FOLDER
"""
import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(os.environ['SOFFITWRIGHT_SOURCE'])
sys.path[:0] = [str(ROOT / 'tests/window')]
import driver  # noqa: E402
from driver import Atspi, key, wait_for, xdotool  # noqa: E402

PROGRAM, SOFFIT, FOLDER = sys.argv[1:4]


def take(name):
    """What the display shows once it has stopped changing, in as many colours as it needs to stay small."""
    path = Path(FOLDER) / f'{name}.png'
    last = [b'']
    xdotool('mousemove', 720, 18)  # off the plan: nothing there is lit up
    time.sleep(2)  # what was asked for has begun to show

    def settled():
        shown = subprocess.run(['import', '-window', 'root', 'ppm:-'], capture_output=True, check=True).stdout
        same, last[0] = shown == last[0], shown
        return same

    wait_for('a display at rest', settled)
    subprocess.run(['convert', 'ppm:-', '-strip', '-dither', 'None', '-colors', '256', f'png8:{path}'], input=last[0], check=True)
    print(path, path.stat().st_size)


def main():
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / 'community-hall.soffit'
        subprocess.run([SOFFIT, 'make', ROOT / 'examples/community-hall.json', job], check=True)
        program = driver.Program([PROGRAM, str(job)], dict(os.environ))
        window = wait_for('the window', lambda: xdotool('search', '--onlyvisible', '--class', 'soffitwright')).split()[-1]
        xdotool('windowmove', window, 0, 0)
        xdotool('windowsize', '--sync', window, 1440, 900)
        wait_for('its snags', lambda: program.find_text(' stop · '))
        take('plan')

        key('ctrl+3')
        snag = wait_for('the snag of the shower', lambda: program.find_text('The hole of Shower'))
        program.click(snag)
        program.press('Show')
        take('snag')

        program.press('Things')
        program.click(program.find('Search the things of the job'))
        driver.write('S1')
        row = wait_for('the soil pipe', lambda: program.find_text('Soil from three WCs'))
        program.click(row)
        program.press('Along the run')
        program.press('Values')
        take('along')

        program.press('Things')
        program.click(program.find('Search the things of the job'))
        key('ctrl+a')
        driver.write('room 4')
        program.click(wait_for('the library', lambda: program.find_text('room 4')))
        key('ctrl+b')
        wait_for('other layouts of the room', lambda: program.find('Use this: Alternative 3'))
        take('ceilings')
        key('Escape')

        key('ctrl+e')
        wait_for('the preview', lambda: program.find('Preview of the page', showing=False))
        take('sheets')
        program.end()


if __name__ == '__main__':
    main()
