# SPDX-License-Identifier: GPL-3.0-or-later
"""Lists on drawn sheets."""
import re


def assert_fit(folder):
    """No list of the sheets in SVG in the folder runs into the column of notes beside it; how many lists there are."""
    n = 0
    for path in folder.glob('sheet-*.svg'):
        text = path.read_text(encoding='utf-8')
        column = re.search(r'<path class="[^"]*" d="M([0-9.]+) [0-9.]+L\1 [0-9.]+"/>\n<g id="notes"', text)
        end = float(column[1]) if column else float(re.search(r'width="([0-9.]+)mm"', text)[1])
        for group in re.findall(r'<g id="list[^"]*" class="list">(.*?)\n</g>', text, re.S):
            rights = [float(x) for line in re.findall(r' d="([^"]*)"', group) for x in re.findall(r'[ML]([0-9.]+) ', line)]
            assert max(rights) < end, (path.name, max(rights), end)
            n += 1
    return n
