#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Tests of tests/tap_sum.py with logs as meson and GLib write them."""
import json
import subprocess
import sys
import tempfile
from pathlib import Path

TESTS = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(TESTS))
import tap  # noqa: E402

GOOD = '# random seed: R02S\n1..3\n# Start of money tests\nok 1 /money/text\nok 2 /money/range\nok 3 /money/quote\n# End of money tests\n'
MIXED = '1..4\nok 1 /a\nnot ok 2 /b\nok 3 /c # SKIP no reference data\nnot ok 4 /d # TODO later\n'
CRASHED = '1..5\nok 1 /a\nok 2 /b\n# Bail out!\n'
BAILED = '1..3\nok 1 /a\nBail out! ERROR:store.c:12:open: assertion failed\n'
NO_PLAN = 'ok 1 /a\nok 2 /b\n'
SKIP_ALL = '1..0 # SKIP no display\n'
EMPTY_PLAN = '1..0\n'
TOO_MANY = '1..1\nok 1 /a\nok 2 /b\n'
NESTED = '1..2\n    1..2\n    ok 1 inner\n    not ok 2 inner\nok 1 /outer\nok 2 /after\n'
LATE_PLAN = 'ok 1 /a\nok 2 /b # skip: not here\n1..2\n'
WORDS = '1..1\nokay, here goes\nok 1 /a\n'


def summed(*programs, options=(), plain=()):
    """Runs the script over one testlog.json of (stdout, returncode, result[, name]) and files of TAP."""
    with tempfile.TemporaryDirectory() as folder:
        logs = []
        if programs:
            log = Path(folder) / 'testlog.json'
            entries = [{'name': p[3] if len(p) > 3 else 'core / a', 'stdout': p[0], 'returncode': p[1], 'result': p[2]}
                       for p in programs]
            log.write_text(''.join(json.dumps(entry) + '\n' for entry in entries))
            logs.append(log)
        for number, text in enumerate(plain):
            log = Path(folder) / f'{number}.tap'
            log.write_text(text)
            logs.append(log)
        done = subprocess.run([sys.executable, TESTS / 'tap_sum.py', *options, *logs], capture_output=True, text=True, check=False)
    assert done.stderr == '', done.stderr
    return done.stdout.splitlines()[-1], done.returncode, done.stdout


def expect(got, passed, failed, skipped, mention=None):
    line, code, text = got
    assert line == f'{passed} passed, {failed} failed, {skipped} skipped', text
    assert code == (1 if failed else 0), (code, text)
    assert mention is None or mention in text, text


def test_all_pass():
    expect(summed((GOOD, 0, 'OK')), 3, 0, 0)


def test_failures_skips_and_todo():
    expect(summed((MIXED, 1, 'FAIL')), 1, 2, 1, 'not ok 2 /b')


def test_several_programs_add_up():
    expect(summed((GOOD, 0, 'OK'), (MIXED, 1, 'FAIL'), (GOOD, 0, 'OK')), 7, 2, 1)


def test_crashed_program_loses_its_rest():
    expect(summed((CRASHED, -11, 'ERROR')), 2, 3, 0, 'promised 5 tests, reported 2')


def test_bail_out_counts_even_when_the_code_is_0():
    expect(summed((BAILED, 0, 'OK')), 1, 2, 0, 'assertion failed')


def test_good_plan_but_bad_end_counts_one():
    expect(summed((GOOD, 99, 'ERROR')), 3, 1, 0, 'ended with 99')


def test_meson_timeout_counts_one():
    expect(summed((GOOD, 0, 'TIMEOUT')), 3, 1, 0, 'TIMEOUT')


def test_missing_plan_counts_one():
    expect(summed((NO_PLAN, 0, 'OK')), 2, 1, 0, 'no plan')


def test_killed_before_anything_was_said():
    expect(summed(('', -9, 'TIMEOUT')), 0, 1, 0, 'ended with -9')
    expect(summed(('# seed only\n', -6, 'FAIL')), 0, 1, 0)


def test_whole_program_skipped():
    expect(summed((SKIP_ALL, 0, 'SKIP')), 0, 0, 1)


def test_skip_that_must_run_fails():
    must = ('--must-run', r'\bwindow\b')
    expect(summed((SKIP_ALL, 0, 'SKIP', 'window / draw'), (GOOD, 0, 'OK'), options=must), 3, 1, 0, 'must not be')
    expect(summed((SKIP_ALL, 0, 'SKIP', 'core / draw'), (GOOD, 0, 'OK'), options=must), 3, 0, 1)
    expect(summed((MIXED, 1, 'FAIL', 'window / draw'), options=must), 1, 3, 0)


def test_nothing_ran_fails():
    expect(summed(), 0, 1, 0, 'no test ran')
    expect(summed((EMPTY_PLAN, 0, 'OK')), 0, 1, 0, 'no test ran')


def test_empty_log_fails():
    expect(summed(plain=['']), 0, 1, 0, 'no plan')
    with tempfile.NamedTemporaryFile(suffix='.json') as log:
        done = subprocess.run([sys.executable, TESTS / 'tap_sum.py', log.name], capture_output=True, text=True, check=False)
    assert done.stdout.endswith('0 passed, 1 failed, 0 skipped\n') and done.returncode == 1, done.stdout


def test_missing_and_broken_logs_fail():
    with tempfile.TemporaryDirectory() as folder:
        broken = Path(folder) / 'testlog.json'
        broken.write_text('{"name": "cut off')
        done = subprocess.run([sys.executable, TESTS / 'tap_sum.py', broken, Path(folder) / 'absent.json'],
                              capture_output=True, text=True, check=False)
    assert done.stdout.endswith('0 passed, 2 failed, 0 skipped\n') and done.returncode == 1, done.stdout


def test_more_lines_than_planned_fails():
    expect(summed((TOO_MANY, 0, 'OK')), 2, 1, 0, 'promised 1 tests, reported 2')


def test_subtests_count_with_their_parent():
    expect(summed((NESTED, 0, 'OK')), 2, 0, 0)


def test_plan_may_come_last():
    expect(summed((LATE_PLAN, 0, 'OK')), 1, 0, 1)


def test_words_that_start_with_ok_are_not_results():
    expect(summed((WORDS, 0, 'OK')), 1, 0, 0)


def test_program_without_tap_counts_as_one():
    expect(summed(('fine\n', 0, 'OK'), ('', 77, 'SKIP'), ('bad\n', 1, 'FAIL')), 1, 1, 1)


def test_failed_program_is_shown():
    text = summed(('1..2\nok 1 /good\n# expected 3\nnot ok 2 /bad\n', 1, 'FAIL'), (GOOD, 0, 'OK'))[2]
    assert '    # expected 3\n' in text and '/good' not in text and 'seed' not in text, text
    text = summed(('1..1\nnot ok 1 /bad\n' + '# words\n' * 500, 1, 'FAIL'))[2]
    assert text.count('# words') == 100 and '(402 lines before these)' in text, text


def test_plain_tap_file_beside_a_log():
    expect(summed((GOOD, 0, 'OK'), plain=['1..2\nok 1 cppcheck\nnot ok 2 desktop file\n']), 4, 1, 0, 'not ok 2 desktop file')


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
