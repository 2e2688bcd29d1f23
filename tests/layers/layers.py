#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads every #include in src/ against the table of layers in DEVELOPERS.md, and checks what else keeps the tree whole:
what may stand at the top level, the size of files and functions, .ui files with their classes, and that no text for people is left
out of the translations.

The functions that find faults take a folder, so that the tests at the end can also give them a tree that is wrong.
"""
import re
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT / 'tests'))
import tap  # noqa: E402

# The layers, and what each may include beside itself.
BASE = ['base']
MODEL = ['job', 'rules', 'geometry', 'base']
ENGINE = ['space', *MODEL]
ENGINES = ['ceiling', 'drainage', 'circuits', 'lighting', 'routing']
SHEETS = ['drawing', 'estimate', 'checks', *ENGINES, *ENGINE]
COMMAND = ['sheets', 'store', *SHEETS]
LAYERS = {
    'base': [],
    'geometry': BASE,
    'rules': BASE,
    'job': ['geometry', 'base'],
    'space': MODEL,
    **{engine: ENGINE for engine in ENGINES},
    'checks': ['ceiling', 'drainage', 'circuits', 'lighting', *ENGINE],
    'estimate': [*ENGINES, *ENGINE],
    'drawing': ['geometry', 'base'],
    'sheets': SHEETS,
    'store': ['job', 'base'],
    'cli': COMMAND,
    'window': ['cli', *COMMAND],
}

# Libraries by the start of the name that is included: the layers that may, and in how many files together.
MANY = 10_000
LIBRARIES = {
    'geos_c.h': (['geometry'], 1),
    'glpk.h': (['ceiling'], 1),
    'sqlite3.h': (['store'], MANY),
    'json-glib/': (['store', 'cli'], MANY),
    'librsvg/': (['cli'], 1),
    'cairo': (['drawing', 'cli', 'window'], MANY),
    'pango/': (['drawing', 'window'], MANY),
    'gtk/': (['window'], MANY),
    'gdk/': (['window'], MANY),
    'gsk/': (['window'], MANY),
    'graphene': (['window'], MANY),
    'glib': (list(LAYERS), MANY),
    'gio/': (list(LAYERS), MANY),
    'gobject/': (list(LAYERS), MANY),
    'gmodule.h': (['window'], MANY),
}
# What C and POSIX bring may stand anywhere.
PLAIN = set('''assert ctype errno fcntl fenv float ftw inttypes limits locale math poll pthread sched setjmp signal
    stdalign stdarg stdatomic stdbool stddef stdint stdio stdlib string strings sys/file sys/mman sys/prctl sys/resource
    sys/stat sys/statvfs sys/syscall sys/time sys/types sys/wait tgmath time unistd'''.split())

TOP_LEVEL = {'README.md', 'DEVELOPERS.md', 'COPYING', 'meson.build', 'meson_options.txt',
             'src', 'data', 'ui', 'tests', 'po', 'examples'}
LARGEST = 1_000_000
# Lines of a source, a header (the habit is 120; a table of the model may be longer), a function.
LONGEST = {'.c': 800, '.h': 300}
LONGEST_FUNCTION = 60

INCLUDE = re.compile(r'^\s*#\s*include\s*(?:"([^"]+)"|<([^>]+)>)', re.MULTILINE)
COMMENT = re.compile(r'/\*.*?\*/|//[^\n]*|"(?:[^"\\\n]|\\.)*"', re.DOTALL)
TRANSLATED = re.compile(r'(?<![\w])(?:N?C?_|Q_|g_dgettext|ngettext|g_dngettext|g_dpgettext2?|dgettext|gettext)\s*\(')


def sources(root, *patterns):
    return sorted(path for pattern in patterns for path in (root / 'src').rglob(pattern))


def library_of(name):
    return next((start for start in LIBRARIES if name == start or name.startswith(start)), None)


def check_own(root, path, layer, name):
    target, generated = name.split('/')[0], '/' not in name and layer == 'window' and not (path.parent / name).exists()
    if generated:
        return None
    if target not in LAYERS:
        return f'include "{name}" from src/: "layer/name.h"'
    if target != layer and target not in LAYERS[layer]:
        return f'{layer} may not include {target} ("{name}")'
    if not (root / 'src' / name).exists():
        return f'"{name}" does not exist'
    return None


def check_system(path, layer, name):
    if name.removesuffix('.h') in PLAIN:
        return None
    library = library_of(name)
    if library is None:
        return f'<{name}> belongs to no library in the table of tests/layers/layers.py'
    if layer not in LIBRARIES[library][0]:
        return f'{layer} may not use <{name}>'
    if layer == 'window' and 'tools' in path.parts and library in ('gtk/', 'gdk/', 'gsk/'):
        return f'tools are state machines without GTK: <{name}>'
    return None


def include_faults(root):
    """One line a wrong #include."""
    faults, users = [], {}
    for path in sources(root, '*.c', '*.h'):
        place = path.relative_to(root)
        layer = place.parts[1]
        if layer not in LAYERS:
            faults.append(f'{place}: src/{layer} is no layer')
            continue
        for own, system in INCLUDE.findall(path.read_text(encoding='utf-8')):
            fault = check_own(root, path, layer, own) if own else check_system(path, layer, system)
            if fault:
                faults.append(f'{place}: {fault}')
            if system and library_of(system):
                users.setdefault(library_of(system), set()).add(str(place))
    for library, files in sorted(users.items()):
        if len(files) > LIBRARIES[library][1]:
            faults.append(f'<{library}> is wrapped in one file, but used in {", ".join(sorted(files))}')
    return faults


def listed_files(root):
    """Every file that belongs to the project: what git knows, else what lies here but for builds and dotfolders."""
    known = shutil.which('git') and (root / '.git').exists()
    done = subprocess.run(['git', '-C', str(root), 'ls-files', '-z', '--cached', '--others', '--exclude-standard'],
                          capture_output=True, check=False) if known else None
    if done and done.returncode == 0:
        names = [name for name in done.stdout.decode().split('\0') if name]
        return [Path(name) for name in names if (root / name).is_file()]
    found = (path.relative_to(root) for path in root.rglob('*') if path.is_file())
    return [path for path in found if not path.parts[0].startswith(('build', '.')) and '__pycache__' not in path.parts]


def tree_faults(root):
    """What stands at the top level uninvited, and files that are too large."""
    files = listed_files(root)
    top = sorted({path.parts[0] for path in files})
    faults = [f'{name}: does not belong at the top level' for name in top if name not in TOP_LEVEL and not name.startswith('.')]
    faults += [f'{path}: {size} bytes, more than {LARGEST}' for path in files
               if (size := (root / path).stat().st_size) > LARGEST]
    return faults


def licence_faults(root):
    return [f'{path.relative_to(root)}: SPDX-License-Identifier is not in its first line' for path in sources(root, '*.c', '*.h')
            if 'SPDX-License-Identifier: GPL-3.0-or-later' not in path.read_text(encoding='utf-8').split('\n', 1)[0]]


def function_lengths(text):
    """(first line, lines) of each function; in this style its braces alone stand in the first column."""
    begin = None
    for number, line in enumerate(text.splitlines(), 1):
        if line == '{':
            begin = number
        elif line == '}' and begin is not None:
            yield begin, number - begin + 1
            begin = None


def length_faults(root):
    faults = []
    for path in sources(root, '*.c', '*.h'):
        place, text = path.relative_to(root), path.read_text(encoding='utf-8')
        if (lines := text.count('\n')) > LONGEST[path.suffix]:
            faults.append(f'{place}: {lines} lines, more than {LONGEST[path.suffix]}')
        faults += [f'{place}:{begin}: a function of {lines} lines, more than {LONGEST_FUNCTION}'
                   for begin, lines in function_lengths(text) if lines > LONGEST_FUNCTION]
    return faults


def potfiles(root):
    lines = (root / 'po' / 'POTFILES.in').read_text(encoding='utf-8').splitlines()
    return [line.strip() for line in lines if line.strip() and not line.startswith('#')]


def has_strings(text):
    code = COMMENT.sub(lambda m: '""' if m.group().startswith('"') else ' ', text)
    code = re.sub(r'^\s*#\s*define\b.*$', '', code, flags=re.MULTILINE)
    return TRANSLATED.search(code) is not None


def translation_faults(root):
    listed = potfiles(root)
    faults = [f'po/POTFILES.in: {name} does not exist' for name in listed if not (root / name).exists()]
    faults += [f'po/POTFILES.in: {name} stands there twice' for name in sorted({n for n in listed if listed.count(n) > 1})]
    for path in sources(root, '*.c', '*.h'):
        name = str(path.relative_to(root))
        if name not in listed and has_strings(path.read_text(encoding='utf-8')):
            faults.append(f'{name}: has text for people but is not in po/POTFILES.in')
    return faults


def class_name(stem):
    return 'Sw' + ''.join(part.capitalize() for part in stem.split('-'))


def ui_faults(root):
    """Each ui/x-y.ui has the template of class SwXY, is in a resource, among the translated files, and used in window/."""
    files = sorted((root / 'ui').glob('*.ui')) if (root / 'ui').is_dir() else []
    code = ''.join(path.read_text(encoding='utf-8') for path in sources(root, 'window/**/*.c'))
    listed = potfiles(root)
    resources = ''.join(path.read_text(encoding='utf-8') for path in root.glob('*/**/*.gresource.xml*')
                        if not path.relative_to(root).parts[0].startswith('build'))
    faults = []
    for path in files:
        name, wanted = f'ui/{path.name}', class_name(path.stem)
        text = path.read_text(encoding='utf-8')
        if f'<template class="{wanted}"' not in text:
            faults.append(f'{name}: has no template of class {wanted}')
        elif not re.search(rf'\b{wanted}\b', code):
            faults.append(f'{name}: no class {wanted} in src/window')
        if path.name not in resources:
            faults.append(f'{name}: is in no .gresource.xml')
        if name not in listed:
            faults.append(f'{name}: is not in po/POTFILES.in')
    return faults


def documented_layers(text):
    """The table of layers in DEVELOPERS.md: {layer: set of what it may include}."""
    rows = re.findall(r'^\| `src/(\w+)/` \|[^|]*\|[^|]*\|([^|]*)\|$', text, re.MULTILINE)
    return {layer: set(re.findall(r'\w+', allowed)) for layer, allowed in rows}


def expect_none(faults):
    assert not faults, '\n' + '\n'.join(faults)


def test_includes_follow_the_layers():
    expect_none(include_faults(ROOT))


def test_tree_holds_what_it_may():
    expect_none(tree_faults(ROOT))


def test_sources_name_their_licence():
    expect_none(licence_faults(ROOT))


def test_sources_and_functions_are_short():
    expect_none(length_faults(ROOT))


def test_text_for_people_is_translated():
    expect_none(translation_faults(ROOT))


def test_ui_files_have_their_classes():
    expect_none(ui_faults(ROOT))


def test_layers_are_documented_as_checked():
    documented = documented_layers((ROOT / 'DEVELOPERS.md').read_text(encoding='utf-8'))
    assert documented == {layer: set(allowed) for layer, allowed in LAYERS.items()}, documented


def test_layers_have_no_cycle():
    done = set()
    while len(done) < len(LAYERS):
        free = {layer for layer, allowed in LAYERS.items() if layer not in done and set(allowed) <= done}
        assert free, f'these include each other in a circle: {sorted(set(LAYERS) - done)}'
        done |= free


def made_tree(files):
    folder = tempfile.TemporaryDirectory()
    for name, text in {'po/POTFILES.in': '', **files}.items():
        path = Path(folder.name) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding='utf-8')
    return folder


def expect_fault(find, files, *parts):
    with made_tree(files) as folder:
        faults = find(Path(folder))
    assert len(faults) == len(parts), faults
    for fault, part in zip(faults, parts):
        assert part in fault, (fault, part)


def test_wrong_includes_are_found():
    expect_fault(include_faults, {'src/base/a.c': '#include "job/job.h"\n', 'src/job/job.h': ''}, 'base may not include job')
    expect_fault(include_faults, {'src/ceiling/a.c': '# include "routing/r.h"', 'src/routing/r.h': ''}, 'ceiling may not include routing')
    expect_fault(include_faults, {'src/job/a.c': '#include "a.h"', 'src/job/a.h': ''}, 'include "a.h" from src/')
    expect_fault(include_faults, {'src/job/a.c': '#include "../base/a.h"'}, 'from src/')
    expect_fault(include_faults, {'src/job/a.c': '#include "base/gone.h"'}, 'does not exist')
    expect_fault(include_faults, {'src/extra/a.c': ''}, 'is no layer')
    expect_fault(include_faults, {'src/window/a.c': '#include "sheets/s.h"\n#include <gtk/gtk.h>', 'src/sheets/s.h': ''})


def test_wrong_libraries_are_found():
    expect_fault(include_faults, {'src/job/a.h': '#include <sqlite3.h>'}, 'job may not use <sqlite3.h>')
    expect_fault(include_faults, {'src/sheets/a.c': '#include <cairo-pdf.h>'}, 'sheets may not use <cairo-pdf.h>')
    expect_fault(include_faults, {'src/store/a.c': '#include <curl/curl.h>'}, 'belongs to no library')
    expect_fault(include_faults, {'src/window/tools/a.c': '#include <gtk/gtk.h>'}, 'state machines without GTK')
    expect_fault(include_faults, {'src/geometry/a.c': '#include <geos_c.h>', 'src/geometry/b.c': '#include <geos_c.h>'},
                 'wrapped in one file')


def test_wrong_trees_are_found():
    expect_fault(tree_faults, {'NOTES.txt': '', 'build-x/a': '', '.editorconfig': ''}, 'NOTES.txt')
    expect_fault(tree_faults, {'data/a.ini': 'x' * (LARGEST + 1)}, 'data/a.ini: 1000001 bytes')
    expect_fault(licence_faults, {'src/base/a.c': 'int x;\n'}, 'src/base/a.c: SPDX')


def test_long_things_are_found():
    body = '  x++;\n' * 59
    expect_fault(length_faults, {'src/base/a.c': f'void\nf (void)\n{{\n{body}}}\n'}, 'a.c:3: a function of 61 lines')
    expect_fault(length_faults, {'src/base/a.c': f'int t[] = {{\n{body}}};\nvoid\nf (void)\n{{\n}}\n'})
    expect_fault(length_faults, {'src/base/a.h': '\n' * 301}, 'a.h: 301 lines')
    expect_fault(length_faults, {'src/base/a.c': '\n' * 800})


def test_untranslated_text_is_found():
    expect_fault(translation_faults, {'src/cli/a.c': 'g_print (_("x"));'}, 'src/cli/a.c')
    expect_fault(translation_faults, {'src/cli/a.c': '/* _("x") */ g_print ("_(x)"); MAX_(2);\n#define _(x) gettext (x)\n'})
    expect_fault(translation_faults, {'src/cli/a.c': '_("x")', 'po/POTFILES.in': 'src/cli/a.c\nsrc/cli/b.c\n'}, 'src/cli/b.c does not exist')


def test_wrong_ui_files_are_found():
    good = {'ui/snag-list.ui': '<template class="SwSnagList" parent="GtkWidget"/>', 'po/POTFILES.in': 'ui/snag-list.ui',
            'src/window/snag-list.c': 'G_DEFINE_FINAL_TYPE (SwSnagList, sw_snag_list, GTK_TYPE_WIDGET)',
            'ui/window.gresource.xml': '<file>snag-list.ui</file>'}
    expect_fault(ui_faults, good)
    expect_fault(ui_faults, {**good, 'ui/snag-list.ui': '<template class="SwOther"/>'}, 'no template of class SwSnagList')
    expect_fault(ui_faults, {**good, 'src/window/snag-list.c': ''}, 'no class SwSnagList')
    expect_fault(ui_faults, {**good, 'ui/window.gresource.xml': '<file>other.ui</file>'}, 'in no .gresource.xml')
    expect_fault(ui_faults, {**good, 'po/POTFILES.in': ''}, 'not in po/POTFILES.in')


if __name__ == '__main__':
    sys.exit(tap.run(__name__))
