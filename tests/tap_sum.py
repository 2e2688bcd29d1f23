#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Adds up what tests reported and prints `N passed, N failed, N skipped` as the last line.

    tap_sum.py [--must-run REGEX] LOG…

A LOG is meson's testlog.json (one object a program) or a file of plain TAP. A program's failures are what its plan
promised and did not deliver as passed or skipped; one that ends badly, breaks off or has no plan counts at least one.
What a program with failures printed is shown, but for its passed lines.
With --must-run, what is skipped in a program whose name matches counts as failed. Ends with 1 when anything failed
or when nothing ran at all.
"""
import argparse
import json
import re
import sys
from dataclasses import dataclass, field
from pathlib import Path

PLAN = re.compile(r'1\.\.(\d+)\s*(#\s*skip\b.*)?$', re.IGNORECASE)
POINT = re.compile(r'(not )?ok\b(?P<rest>.*)$')
SHOWN = 100  # lines of a failed program
SKIP = re.compile(r'#\s*skip\b', re.IGNORECASE)


@dataclass
class Count:
    passed: int = 0
    failed: int = 0
    skipped: int = 0
    why: list = field(default_factory=list)
    said: str = ''

    def add(self, other):
        self.passed += other.passed
        self.failed += other.failed
        self.skipped += other.skipped

    def total(self):
        return self.passed + self.failed + self.skipped


def count_tap(text, returncode=0):
    """What one program's TAP says, given the code it ended with. Indented lines belong to subtests."""
    count, plan, points = Count(), None, 0
    for line in text.splitlines():
        if match := PLAN.match(line):
            plan = int(match.group(1)) if plan is None else plan
            if plan == 0 and match.group(2):
                count.skipped, plan, points = 1, 1, 1
        elif match := POINT.match(line):
            points += 1
            if match.group(1):
                count.why.append(line)
            elif SKIP.search(match.group('rest')):
                count.skipped += 1
            else:
                count.passed += 1
        elif line.startswith('Bail out!'):
            count.why.append(line)
            returncode = returncode or 1
    if plan is None:
        count.why.append('has no plan')
        plan = points + 1
    elif points != plan:
        count.why.append(f'promised {plan} tests, reported {points}')
    count.failed = max(plan, points) - count.passed - count.skipped
    if points != plan or returncode != 0:
        count.failed = max(count.failed, 1)
    if returncode != 0:
        count.why.append(f'ended with {returncode}')
    return count


def count_program(entry):
    """One object of testlog.json. Programs without TAP count as one test by meson's own verdict."""
    result, code = entry.get('result', 'ERROR'), entry.get('returncode', 1)
    text = entry.get('stdout') or ''
    if any(PLAN.match(line) or POINT.match(line) for line in text.splitlines()):
        count = count_tap(text, code)
        if result not in ('OK', 'SKIP', 'EXPECTEDFAIL') and count.failed == 0:
            count.failed = 1
            count.why.append(f'meson says {result}')
        return count
    if result in ('OK', 'EXPECTEDFAIL') and code == 0:
        return Count(passed=1)
    if result == 'SKIP':
        return Count(skipped=1)
    return Count(failed=1, why=[f'{result}, ended with {code}, without a test reported'])


def programs(path):
    """(name, Count) of each program in a log."""
    text = path.read_text(encoding='utf-8', errors='replace')
    if path.suffix != '.json':
        yield path.name, count_tap(text)
        return
    for line in text.splitlines():
        if line.strip():
            entry = json.loads(line)
            count = count_program(entry)
            count.said = (entry.get('stdout') or '') + (entry.get('stderr') or '')
            yield entry.get('name', '?'), count


def explain(path, name, count, out):
    for reason in count.why:
        print(f'{path}: {name}: {reason}', file=out)
    said = [line for line in count.said.splitlines() if not line.startswith('ok ')]
    if len(said) > SHOWN:
        print(f'    ({len(said) - SHOWN} lines before these)', file=out)
    for line in said[-SHOWN:]:
        print(f'    {line}', file=out)


def sum_logs(paths, must_run, out):
    total = Count()
    for path in paths:
        try:
            counted = list(programs(path))
        except (OSError, ValueError) as error:
            counted = [(str(path), Count(failed=1, why=[f'cannot be read: {error}']))]
        if not counted:
            counted = [(str(path), Count(failed=1, why=['holds no program']))]
        for name, count in counted:
            if must_run and count.skipped and must_run.search(name):
                count.failed, count.skipped = count.failed + count.skipped, 0
                count.why.append('was skipped and must not be')
            if count.failed:
                explain(path, name, count, out)
            total.add(count)
    return total


def main(arguments):
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument('--must-run', type=re.compile, metavar='REGEX')
    parser.add_argument('logs', nargs='*', type=Path, metavar='LOG')
    options = parser.parse_args(arguments)
    total = sum_logs(options.logs, options.must_run, sys.stdout)
    if total.total() == 0:
        print('no test ran')
        total.failed = 1
    print(f'{total.passed} passed, {total.failed} failed, {total.skipped} skipped')
    return 1 if total.failed else 0


if __name__ == '__main__':
    sys.exit(main(sys.argv[1:]))
