#!/usr/bin/env python3
"""Write cli/cloth_tables.c and bindings/python/tailorgeom/_cloth_rows.py from shared/cloths.csv, which is the only
place to edit.

    /usr/bin/python3 cli/generate_cloths.py           write them
    /usr/bin/python3 cli/generate_cloths.py --check   write nothing; exit 1 if anything would change

Exit 2, and nothing written, when the table holds a mistake. The cloths are compiled into the command line and a module
of the Python package, so that both know them wherever they are installed; the library itself knows no cloth by name.
"""
import csv
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
TABLE = ROOT / "shared/cloths.csv"
C_CODE, MODULE = ROOT / "cli/cloth_tables.c", ROOT / "bindings/python/tailorgeom/_cloth_rows.py"
PROPERTIES = [row["name"] for row in csv.DictReader(open(ROOT / "lib/cloth/properties.csv", encoding="utf-8"))]
COLUMNS = ["name", "use", *PROPERTIES, "source"]


def mistakes_of(rows):
    seen = set()
    for number, row in enumerate(rows, 2):
        if not re.fullmatch(r"[a-z]+(-[a-z0-9]+)*", row["name"]) or len(row["name"]) > 30:
            yield number, "a name is words in small letters with hyphens between, 30 bytes at most"
        if row["name"] in seen:
            yield number, "this name stands already"
        if row["use"] not in ("cloth", "canvas", "collar", "fusible"):
            yield number, "use is cloth, canvas, collar or fusible"
        for name in PROPERTIES:
            if not re.fullmatch(r"\d+(\.\d+)?", row[name]):
                yield number, f"{name} is no plain number"
        if not re.match(r"(range|judgement|measured): ", row["source"]):
            yield number, "the source begins with range:, judgement: or measured:"
        seen.add(row["name"])


def text(value, indent=0):
    """A literal, in several parts where it is long."""
    parts = re.findall(r".{1,100}(?: |$)", value) or [""]
    return ("\n" + " " * indent).join('"' + part.replace("\\", "\\\\").replace('"', '\\"') + '"' for part in parts)


def c_code(rows):
    lines = ["/* Written by cli/generate_cloths.py from shared/cloths.csv: edit that. */", '#include "cloths.h"', "",
             "const cloth_row cloth_rows[] = {"]
    for row in rows:
        values = ", ".join(row[name] for name in PROPERTIES)
        lines += [f"    {{{text(row['name'])}, {text(row['use'])},", f"     {text(row['source'], 5)},",
                  f"     {{0, {values}}}}},"]
    return "\n".join(lines + ["};", "const size_t cloth_row_count = sizeof cloth_rows / sizeof cloth_rows[0];", ""])


def module(rows):
    lines = ['"""Written by cli/generate_cloths.py from shared/cloths.csv: edit that."""', "",
             "# name, use, source, and", f"# {', '.join(PROPERTIES)}", "ROWS = ("]
    for row in rows:
        values = ", ".join(row[name] for name in PROPERTIES)
        lines += ["    (", f"        {text(row['name'])},", f"        {text(row['use'])},",
                  f"        {text(row['source'], 8)},", f"        ({values}),", "    ),"]
    return "\n".join(lines + [")", ""])


def main():
    with open(TABLE, encoding="utf-8", newline="") as file:
        reader = csv.DictReader(file, strict=True)
        rows = list(reader)
        if reader.fieldnames != COLUMNS:
            sys.exit(f"{TABLE}: the columns must be {','.join(COLUMNS)}")
    found = [f"{TABLE}:{line}: {mistake}" for line, mistake in mistakes_of(rows)]
    if found:
        print("\n".join(found), file=sys.stderr)
        return 2
    made = {C_CODE: c_code(rows), MODULE: module(rows)}
    if "--check" in sys.argv[1:]:
        return int(any(not path.exists() or path.read_text(encoding="utf-8") != said for path, said in made.items()))
    for path, said in made.items():
        path.write_text(said, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
