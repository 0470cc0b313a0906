#!/usr/bin/env python3
"""Write cli/size_tables.c from shared/sizes, which is the only place to edit.

    /usr/bin/python3 cli/generate_sizes.py           write it
    /usr/bin/python3 cli/generate_sizes.py --check   write nothing; exit 1 if it would change

The tables are compiled into the command line, so that it knows them by name wherever it is installed.
"""
import pathlib
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
C_CODE = ROOT / "cli/size_tables.c"
WIDTH = 110
LONGEST = 4095  # bytes of a string that every compiler of C11 takes


def parts(line):
    """A line in parts that stand within the width of a source, cut after a comma or a blank."""
    while len(line) > WIDTH:
        cut = max(line.rfind(mark, 0, WIDTH) for mark in ", ") + 1
        yield line[:cut]
        line = line[cut:]
    yield line


def text(path):
    said = path.read_text(encoding="utf-8")
    if len(said.encode()) > LONGEST:
        sys.exit(f"{path}: {len(said.encode())} bytes are more than the {LONGEST} that a string may have")
    lines = said.replace("\\", "\\\\").replace('"', '\\"').splitlines()
    return "\n".join(f'     "{part}"' for line in lines for part in parts(line + "\\n"))


def c_code():
    lines = ["/* Written by cli/generate_sizes.py from shared/sizes: edit that. */", '#include "sizes.h"', "",
             "const size_text size_texts[] = {"]
    for table in sorted((ROOT / "shared/sizes").glob("*.csv")):
        lines += [f'    {{"{table.stem}",', f"{text(table)},", f"{text(table.with_suffix('.ini'))}}},"]
    return "\n".join(lines + ["};", "const size_t size_text_count = sizeof size_texts / sizeof size_texts[0];", ""])


def main():
    if "--check" in sys.argv[1:]:
        return int(not C_CODE.exists() or C_CODE.read_text(encoding="utf-8") != c_code())
    C_CODE.write_text(c_code(), encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
