"""The floors: no include points upward, sheet and CLI see nothing but the public headers, and who knows one of the
folders lib/, include/ and tests/ knows the other two."""
import re

import ground

LINES = [line.split() for line in (ground.ROOT / "tests/ground/floors.txt").read_text().splitlines()
         if line.strip() and not line.startswith("#")]
FLOORS = {name: int(number) for name, number, *_ in LINES}
INSIDE = {name for name, *more in LINES if "inside" in more}  # no public header
OUTSIDE = {"sheet", "cli"}  # built on what is installed
# Floors below the sheet neither print, open files, read the locale nor start threads: these headers are enough.
CORE_SYSTEM = {"stddef.h", "stdint.h", "string.h", "math.h", "float.h", "limits.h", "stdbool.h", "stdlib.h",
               "stdarg.h", "assert.h"}
INCLUDE = re.compile(r'^\s*#\s*include\s*([<"])([^>"]+)[>"]', re.M)


def floor_of_header(name):
    """order_tables.h belongs to order."""
    stem = name.removesuffix(".h")
    return stem if stem in FLOORS else stem.removesuffix("_tables")


def faults(root):
    """Sentences on every include in a tree that the floors do not allow."""
    found = []
    folders = [*root.glob("lib/*"), root / "cli"]
    files = [(folder.name, file) for folder in folders for file in folder.rglob("*.[ch]")]
    files += [(floor_of_header(file.name), file) for file in root.glob("include/tailorgeom/*.h")]
    for floor, file in files:
        where = file.relative_to(root)
        if floor not in FLOORS:
            found.append(f"{where}: {floor} is no floor")
            continue
        for mark, name in INCLUDE.findall(file.read_text()):
            if name.startswith("tailorgeom/"):
                other = floor_of_header(name.split("/")[1])
            elif mark == '"':
                target = (file.parent / name).resolve().relative_to(root.resolve())
                other = target.parts[1] if target.parts[0] == "lib" else target.parts[0]
                if other != floor and (floor in OUTSIDE or other in OUTSIDE):
                    found.append(f"{where}: {name} is not installed")
            else:
                if floor not in OUTSIDE and name not in CORE_SYSTEM:
                    found.append(f"{where}: <{name}> in the core")
                continue
            if other not in FLOORS:
                found.append(f"{where}: {name} belongs to no floor")
            elif other != floor and FLOORS[other] >= FLOORS[floor]:
                found.append(f"{where}: {name} points upward")
    return found


def test_no_arrow_points_upward():
    assert faults(ground.ROOT) == []


def test_the_check_sees_bad_arrows(tmp_path):
    bad = {
        "lib/geom/a.c": '#include "../draft/draft.h"\n',
        "lib/base/b.c": "#include <tailorgeom/geom.h>\n",
        "lib/roll/c.c": "#include <tailorgeom/grade.h>\n",
        "lib/draft/d.c": "#include <stdio.h>\n",
        "lib/sheet/output/e.c": '#include "../../draft/draft.h"\n',
        "cli/f.c": '#include "../lib/draft/draft.h"\n',
        "lib/attic/g.c": "#include <math.h>\n",
    }
    good = {"lib/draft/h.c": '#include "draft.h"\n#include "../geom/kernel.h"\n#include <tailorgeom/order_tables.h>\n'}
    for name, text in {**bad, **good}.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text)
    assert sorted(sentence.split(":")[0] for sentence in faults(tmp_path)) == sorted(bad)


def test_folder_header_and_tests_go_together():
    floors = {path.name for path in (ground.ROOT / "lib").iterdir() if path.is_dir()}
    headers = {floor_of_header(header.name) for header in ground.HEADERS}
    tests = {path.name for path in (ground.ROOT / "tests").iterdir() if path.is_dir()}
    assert floors - INSIDE == headers
    assert floors - tests == set()
    assert floors - FLOORS.keys() == set()
