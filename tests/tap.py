# SPDX-License-Identifier: GPL-3.0-or-later
"""A main for tests written in Python: every function of a module whose name starts with `test_` is one TAP line.

A test fails by raising (its trace becomes diagnostics), is skipped by raising Skip, and passes otherwise.
"""
import sys
import traceback


class Skip(Exception):
    """The reason why a test cannot run here."""


def _comment(text):
    for line in text.splitlines():
        print('#', line)


def run(module_name):
    """Runs the tests in the order in which they are written; returns the code for sys.exit."""
    module = sys.modules[module_name]
    tests = [(name, value) for name, value in vars(module).items() if name.startswith('test_') and callable(value)]
    print(f'1..{len(tests)}', flush=True)
    failed = 0
    for number, (name, test) in enumerate(tests, 1):
        title = name.removeprefix('test_').replace('_', ' ')
        try:
            test()
        except Skip as reason:
            print(f'ok {number} {title} # SKIP {reason}', flush=True)
        except Exception:  # pylint: disable=broad-except # any of them is one failed test
            failed += 1
            print(f'not ok {number} {title}', flush=True)
            _comment(traceback.format_exc())
        else:
            print(f'ok {number} {title}', flush=True)
    return 1 if failed else 0
