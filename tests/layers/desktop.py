#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What the desktop is told about the program, tried with the desktop's own tools: desktop.py BUILD-FOLDER"""
import os
import re
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as ElementTree
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

APP = 'org.soffitwright.Soffitwright'
BUILD = Path(sys.argv[1] if len(sys.argv) > 1 else ROOT / 'build').resolve()
BUILT = BUILD / 'data'


def told(*command, **environment):
    if shutil.which(command[0]) is None:
        raise tap.Skip(f'{command[0]} is not installed')
    done = subprocess.run([str(part) for part in command], capture_output=True, text=True, check=False,
                          env={**os.environ, **environment})
    assert done.returncode == 0, done.stderr
    return done.stdout


def content_type(path):
    """The type that GIO gives to a file, from its name and from its inside."""
    text = told('gio', 'info', '-a', 'standard::content-type', path, XDG_DATA_HOME=str(path.parent / 'share'))
    return re.search(r'standard::content-type: (\S+)', text).group(1)


def test_jobs_are_known_by_name_and_by_inside():
    with tempfile.TemporaryDirectory() as folder:
        packages = Path(folder) / 'share' / 'mime' / 'packages'
        packages.mkdir(parents=True)
        shutil.copy(BUILT / f'{APP}.xml', packages)
        told('update-mime-database', packages.parent)
        named, unnamed, other = (Path(folder) / name for name in ('hall.soffit', 'hall', 'other'))
        told(BUILD / 'src' / 'cli' / 'soffit', 'new', named)
        shutil.copy(named, unnamed)
        base = sqlite3.connect(other)
        base.execute('CREATE TABLE thing (id INTEGER PRIMARY KEY)')
        base.close()
        assert content_type(named) == content_type(unnamed) == 'application/x-soffit', content_type(unnamed)
        assert content_type(other) != 'application/x-soffit'


def test_settings_have_sound_defaults():
    keys = told('gsettings', 'list-recursively', APP, GSETTINGS_SCHEMA_DIR=str(BUILT), GSETTINGS_BACKEND='memory')
    values = dict(line.split(' ', 2)[1:] for line in keys.splitlines())
    assert values['theme'] == "'follow'" and values['snap'] == 'true' and values['recent-jobs'] == '@as []', values
    width, height = map(int, re.findall(r'\d+', values['window-size']))
    assert 640 <= width <= 1920 and 480 <= height <= 1080
    rule_set = values['rule-set'].strip("'")
    if not list((ROOT / 'data' / 'rules').glob('*.ini')):
        raise tap.Skip('there are no rules yet')
    assert (ROOT / 'data' / 'rules' / f'{rule_set}.ini').exists(), rule_set


def test_desktop_file_agrees_with_the_rest():
    lines = (BUILT / f'{APP}.desktop').read_text(encoding='utf-8').splitlines()
    entry = dict(line.split('=', 1) for line in lines if '=' in line)
    assert entry['Exec'].split()[0] == 'soffitwright' and entry['Icon'] == APP
    assert entry['MimeType'] == 'application/x-soffit;'
    assert {f'Comment[{language}]' for language in languages()} <= set(entry), 'a translation is missing'


def languages():
    return (ROOT / 'po' / 'LINGUAS').read_text(encoding='utf-8').split('\n', 1)[1].split()


def test_metainfo_agrees_with_the_build():
    tree = ElementTree.parse(BUILT / f'{APP}.metainfo.xml')
    version = re.search(r"version: '([\d.]+)'", (ROOT / 'meson.build').read_text(encoding='utf-8')).group(1)
    assert tree.find('releases/release').get('version') == version
    assert tree.findtext('id') == APP and tree.findtext('launchable') == f'{APP}.desktop'


def test_icons_can_be_drawn():
    for name in (APP, f'{APP}-symbolic'):
        for size in ('16', '256'):
            picture = subprocess.run(['rsvg-convert', '-w', size, ROOT / 'data' / 'icons' / f'{name}.svg'],
                                     capture_output=True, check=True).stdout if shutil.which('rsvg-convert') else None
            if picture is None:
                raise tap.Skip('rsvg-convert is not installed')
            assert picture.startswith(b'\x89PNG') and len(picture) > 150


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
