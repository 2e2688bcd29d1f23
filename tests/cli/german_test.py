#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The command in German: words follow the language, numbers, marks and shapes of files do not.

Called with the path of soffit and the folder of the translations.
"""
import csv
import io
import json
import os
import re
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import lists  # noqa: E402
import tap  # noqa: E402

SOFFIT, TRANSLATIONS = sys.argv[1:3]
EXAMPLE = ROOT / 'examples' / 'community-hall.json'
NUMBER = re.compile(r'[-+]?\d+([.,]\d+)?')


def soffit(*arguments, german):
    language = {'LC_ALL': 'de_DE.UTF-8', 'SOFFITWRIGHT_LOCALE': TRANSLATIONS} if german else {'LC_ALL': 'C.UTF-8'}
    environment = {**os.environ, **language}
    environment.pop('LANGUAGE', None)
    done = subprocess.run([SOFFIT, *map(str, arguments)], capture_output=True, check=False, env=environment)
    assert done.returncode in (0, 1), (arguments, done.stderr.decode())
    return done.stdout.decode()


def both(*arguments):
    return soffit(*arguments, german=False), soffit(*arguments, german=True)


def test_locale_is_there():
    known = subprocess.run(['locale', '-a'], capture_output=True, text=True, check=True).stdout.lower()
    if 'de_de.utf8' not in known:
        raise tap.Skip('the locale de_DE.UTF-8 is not installed')


def test_help_speaks_german():
    english, german = both('--help')
    assert 'Aufruf: soffit' in german and 'Usage: soffit' in english
    verbs = [re.findall(r'^  ([a-z]+)  ', text, re.MULTILINE) for text in (english, german)]
    assert verbs[0] == verbs[1] != []


def test_snags_speak_german():
    english, german = (text.splitlines() for text in both('check', EXAMPLE))
    assert len(english) == len(german) > 3
    for one, other in zip(english, german):
        assert '{' not in other and '%' not in other, other
        if one.startswith(('stop ', 'fix ', 'note ')):
            assert one.split(':')[0] != other.split(':')[0], other
            wanted, found = (sorted(match[0] for match in NUMBER.finditer(line)) for line in (one, other))
            assert wanted == found, (one, other)


def test_lists_fit_on_sheets():
    """Headings are longer than in English."""
    with tempfile.TemporaryDirectory() as folder:
        soffit('export', '--all', '--format', 'svg', '--to', folder, EXAMPLE, german=True)
        assert 'Lattung' in ''.join(path.read_text(encoding='utf-8') for path in Path(folder).glob('sheet-brandering-plan-*.svg'))
        assert lists.assert_fit(Path(folder)) > 10


def test_json_is_for_programs():
    english, german = both('check', '--format', 'json', EXAMPLE)
    assert english == german
    assert json.loads(german)


def test_schedules_keep_their_numbers():
    listed = soffit('schedule', '--list', EXAMPLE, german=False)
    names = [line.split()[0] for line in listed.splitlines()]
    assert len(names) >= 10, names
    for name in names:
        english, german = (list(csv.reader(io.StringIO(text), strict=True)) for text in both('schedule', '--schedule', name, EXAMPLE))
        assert [len(row) for row in english] == [len(row) for row in german], name
        assert english[0] != german[0], (name, german[0])
        for row, other in zip(english[1:], german[1:]):
            for cell, translated in zip(row, other):
                if NUMBER.fullmatch(cell):
                    assert cell == translated, (name, cell, translated)


def test_text_form_is_the_same():
    english, german = both('json', EXAMPLE)
    assert english == german


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
