#!/usr/bin/env python3
"""Write cli/phrase_tables.c from shared/fitting_notes.csv, which is the only place to edit.

    /usr/bin/python3 cli/generate_phrases.py           write it
    /usr/bin/python3 cli/generate_phrases.py --check   write nothing; exit 1 if anything would change

Exit 2, and nothing written, when the table holds a mistake. The phrases are compiled into the command line, so that it
knows them wherever it is installed, and the compiler tells when a field is not there. Rows with one phrase add up: a
phrase may change several fields. Columns: the words; the field that changes; the factor of the amount; the field that
stands in its place where that is given, or nothing; the unit of a bare amount; what it means; where it comes from.
"""
import csv
import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[1]
TABLE, CODE = ROOT / "shared/fitting_notes.csv", ROOT / "cli/phrase_tables.c"
COLUMNS = "phrase,field,factor,instead,unit,meaning,provenance".split(",")


def mistakes_of(rows):
    fields = {row["name"]: row for row in csv.DictReader(open(ROOT / "lib/order/fields.csv", encoding="utf-8"))}
    seen = set()
    for number, row in enumerate(rows, 2):
        if not re.fullmatch(r"[a-z]+( [a-z]+)+", row["phrase"]) or len(row["phrase"]) > 30:
            yield number, "a phrase is two or more words in small letters, 30 bytes at most"
        if not re.fullmatch(r"-?\d+(\.\d+)?", row["factor"]) or float(row["factor"]) == 0:
            yield number, "the factor is a number other than 0"
        for name in filter(None, (row["field"], row["instead"])):
            if fields.get(name, {}).get("unit") != row["unit"]:
                yield number, f"{name} is no field in {row['unit']}"
        if (row["phrase"], row["field"]) in seen:
            yield number, "the phrase changes this field already"
        if not row["meaning"].endswith(".") or not row["provenance"]:
            yield number, "meaning (a sentence) and provenance are needed"
        seen.add((row["phrase"], row["field"]))


def text(value):
    return '"' + value.replace("\\", "\\\\").replace('"', '\\"') + '"'


def code(rows):
    lines = ["/* Written by cli/generate_phrases.py from shared/fitting_notes.csv: edit that. */", '#include "phrases.h"',
             "", "#include <tailorgeom/order.h>", "", "const phrase_row phrase_table[] = {"]
    for row in rows:
        instead = f"TAILOR_FIELD_{row['instead'].upper()}" if row["instead"] else "0"
        lines += [f"    {{{text(row['phrase'])}, TAILOR_FIELD_{row['field'].upper()}, {row['factor']}, {instead},",
                  f"     {text(row['meaning'])},", f"     {text(row['provenance'])}}},"]
    return "\n".join(lines + ["};", "const size_t phrase_count = sizeof phrase_table / sizeof phrase_table[0];", ""])


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
    made = code(rows)
    if "--check" in sys.argv[1:]:
        return int(not CODE.exists() or CODE.read_text(encoding="utf-8") != made)
    CODE.write_text(made, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main())
