#!/usr/bin/env python3
"""Write the public enum headers and the C tables from the CSV tables, which are the only place to edit.

    /usr/bin/python3 lib/base/generate_tables.py           write what changed
    /usr/bin/python3 lib/base/generate_tables.py --check   write nothing; exit 1 if anything would change

Exit 2, and nothing written, when a table holds a mistake: every mistake is told with its file and line.
Only the standard library is used. A CSV that does not exist is an empty table.

Rules of defaults (column `rule` of fields.csv):
    (empty)                                 stays not given
    required                                the order is refused without it
    150.2 + 0.2338 chest_girth - back_width a linear form: one number, then fields, each with an optional factor
    call NAME(field, field)                 the C function tailor_in_NAME of lib/order/defaults.c, which is given
                                            the values of exactly these fields, in this order
"""
import argparse
import csv
import pathlib
import re
import sys
import textwrap

ROOT = pathlib.Path(__file__).resolve().parents[2]
COLUMNS = "number,name,group,rank,term,unit,low,high,rule,provenance,meaning,since".split(",")
UNITS = set("mm mm2 deg g/m2 N N/cm N/m uN.m N.m2 1/m % count choice ratio".split())
NUMBER = re.compile(r"-?\d+(\.\d+)?$")
NAME = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*$")
CHOICE = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*$")
TERM = re.compile(r"\s*([+-]?)\s*(\d+(?:\.\d+)?)?\s*([a-z][a-z0-9_]*)?")
CALL = re.compile(r"call\s+([a-z][a-z0-9_]*)\s*\(([a-z0-9_,\s]*)\)$")
MOST_TERMS = 4  # TAILOR_IN_MOST_TERMS in lib/order/form.h
HIGHEST = 9999  # a slip in a number would otherwise make a huge table


class Table:
    """One CSV: where it lies, and what its names are called in C."""

    def __init__(self, path, word, kind, words, extra=(), units=True):
        self.path, self.word, self.kind, self.words = path, word, kind, words
        self.columns, self.units = COLUMNS + list(extra), units
        self.rows = []

    def size(self):
        return 1 + max((row["number"] for row in self.rows), default=0)

    def constant(self, row):
        return f"TAILOR_{self.word}_{row['name'].upper()}"


FIELDS = Table("lib/order/fields.csv", "FIELD", "FIELD", "fields", ["choices"])
CONSTANTS = Table("lib/order/constants.csv", "CONSTANT", "CONSTANT", "house constants")
QUANTITIES = Table("lib/order/quantities.csv", "QUANTITY", "QUANTITY", "quantities", ["choices"])
PIECES = Table("lib/pattern/pieces.csv", "PIECE", "PIECE", "pieces", units=False)
EDGES = Table("lib/pattern/edges.csv", "EDGE", "EDGE", "edges", units=False)
POINTS = Table("lib/pattern/points.csv", "POINT", "POINT", "points", units=False)
MARKS = Table("lib/pattern/marks.csv", "MARKED", "MARK", "marks", units=False)
CHECKS = Table("lib/pattern/checks.csv", "CHECK", "CHECK", "checks", ["field", "sense"])
CLOTH = Table("lib/cloth/properties.csv", "CLOTH", "CLOTH", "properties of a sheet of cloth")
CAUTIONS = Table("lib/coat/cautions.csv", "CAUTION", "CAUTION", "cautions", ["field", "told", "caution", "quantity"])
ORDER = [FIELDS, CONSTANTS, QUANTITIES]
PATTERN = [PIECES, EDGES, POINTS, MARKS, CHECKS]


class Mistakes(list):
    def add(self, table, line, text):
        self.append(f"{table.path}:{line}: {text}")


# ---- reading and checking -------------------------------------------------------------------------------

def read(table, mistakes):
    path = ROOT / table.path
    table.rows = []
    if not path.exists():
        return
    try:
        with open(path, encoding="utf-8-sig", newline="") as file:
            reader = csv.reader(file, strict=True)
            header = next(reader, None)
            if header != table.columns:
                mistakes.add(table, 1, f"the columns must be {','.join(table.columns)}")
                return
            for cells in reader:
                if not cells:
                    continue
                if len(cells) != len(table.columns):
                    mistakes.add(table, reader.line_num, f"{len(cells)} cells where {len(table.columns)} are needed")
                    continue
                row = dict(zip(table.columns, cells), line=reader.line_num)
                if check_row(table, row, mistakes):
                    table.rows.append(row)
    except (csv.Error, UnicodeDecodeError) as error:
        mistakes.add(table, 1, f"not readable as CSV in UTF-8: {error}")
    check_unique(table, mistakes)
    first = {}  # groups are shown in the order of their lowest number
    for row in table.rows:
        first[row["group"]] = min(row["number"], first.get(row["group"], HIGHEST))
    table.reading = sorted(table.rows, key=lambda row: (first[row["group"]], row["rank"], row["number"]))
    table.rows.sort(key=lambda row: row["number"])


def check_row(table, row, mistakes):
    before = len(mistakes)

    def wrong(text):
        mistakes.add(table, row["line"], f"{row['name'] or 'row'}: {text}")

    for column in table.columns:
        if row[column] != row[column].strip():
            wrong(f"{column} begins or ends with a space")
        if any(ord(sign) < 32 for sign in row[column]) or "*/" in row[column] or "??" in row[column]:
            wrong(f"{column} holds a control character, */ or ??")
    for column in ("number", "rank"):
        if re.fullmatch(r"\d{1,4}", row[column]) and (column == "rank" or int(row[column]) > 0):
            row[column] = int(row[column])
        else:
            wrong(f"{column} {row[column]!r} is not a whole number from 1 to {HIGHEST}")
    if not NAME.match(row["name"]) or row["name"] == "count":
        wrong("name must be lower case words joined by underscores (and not 'count')")
    for column in ("group", "term", "provenance", "meaning", "since"):
        if not row[column] and (column != "group" or table.units):
            wrong(f"{column} is empty")
    if row["unit"] not in UNITS and (table.units or row["unit"]):
        wrong(f"unit {row['unit']!r} is not one of {' '.join(sorted(UNITS))}")
    if row["since"] and not re.fullmatch(r"\d+\.\d+\.\d+", row["since"]):
        wrong(f"since {row['since']!r} is not a version such as 0.1.0")
    for column in ("low", "high"):
        if row[column] and not NUMBER.match(row[column]):
            wrong(f"{column} {row[column]!r} is not a plain decimal number")
    if len(mistakes) == before and row["low"] and row["high"] and float(row["low"]) >= float(row["high"]):
        wrong("low is not below high")
    if "choices" in table.columns:
        check_choices(row, wrong)
    if table in (FIELDS, CONSTANTS) and row["unit"] != "choice" and not (row["low"] and row["high"]):
        wrong("low and high are needed")
    if table is CONSTANTS:
        check_default(row, row["rule"], wrong)
    return len(mistakes) == before


def check_choices(row, wrong):
    names = row["choices"].split(" ") if row["choices"] else []
    if (row["unit"] == "choice") != bool(names):
        wrong("choices belong to a row of unit choice, and such a row needs them")
    if len(set(names)) != len(names) or not all(CHOICE.match(name) for name in names):
        wrong("choices must be different lower case words joined by hyphens, separated by single spaces")
    if row["unit"] == "choice":
        if row["low"] or row["high"]:
            wrong("a choice has no low and high: they follow from its choices")
        row["low"], row["high"] = "1", str(len(names))


def check_default(row, text, wrong):
    if not NUMBER.match(text):
        wrong(f"rule {text!r} is not the default number")
    elif NUMBER.match(row["low"]) and NUMBER.match(row["high"]):
        if not float(row["low"]) <= float(text) <= float(row["high"]):
            wrong(f"the default {text} lies outside {row['low']} to {row['high']}")


def check_unique(table, mistakes):
    for column in ("number", "name"):
        seen = {}
        for row in table.rows:
            if row[column] in seen:
                mistakes.add(table, row["line"], f"{column} {row[column]} stands already in line {seen[row[column]]}")
            seen.setdefault(row[column], row["line"])


def check_checks(mistakes):
    names = {row["name"] for row in FIELDS.rows}
    for row in CHECKS.rows:
        if row["field"] and row["field"] not in names:
            mistakes.add(CHECKS, row["line"], f"{row['name']}: no field is named {row['field']!r}")
        if row["sense"] not in ("at_most", "at_least"):
            mistakes.add(CHECKS, row["line"], f"{row['name']}: sense must be at_most or at_least")


def check_cautions(mistakes):
    fields, quantities = ({row["name"] for row in table.rows} for table in (FIELDS, QUANTITIES))
    for row in CAUTIONS.rows:
        if row["field"] and row["field"] not in fields:
            mistakes.add(CAUTIONS, row["line"], f"{row['name']}: no field is named {row['field']!r}")
        if row["quantity"] and row["quantity"] not in quantities:
            mistakes.add(CAUTIONS, row["line"], f"{row['name']}: no quantity is named {row['quantity']!r}")
        if bool(row["quantity"]) != bool(row["told"] or row["caution"]):
            mistakes.add(CAUTIONS, row["line"], f"{row['name']}: bounds belong to a quantity, and a quantity needs one")
        for column in ("told", "caution"):
            if row[column] and not NUMBER.match(row[column]):
                mistakes.add(CAUTIONS, row["line"], f"{row['name']}: {column} {row[column]!r} is not a number")
        if row["number"] > 128:
            mistakes.add(CAUTIONS, row["line"], f"{row['name']}: a caution is one of 128 bits")


# ---- rules ----------------------------------------------------------------------------------------------

class Rule:
    """constant + sum of factor * field, or a call with the values of `fields`."""

    def __init__(self, row):
        self.row, self.constant, self.terms, self.call = row, "0", [], None
        text = row["rule"]
        if text.startswith("call"):
            match = CALL.match(text)
            if not match:
                raise ValueError("a call is written `call NAME(field, field)`, naming the fields it is given")
            self.call = match.group(1)
            self.terms = [("0", name.strip()) for name in match.group(2).split(",") if name.strip()]
        else:
            self.read_form(text)
        if len(self.terms) > MOST_TERMS:
            raise ValueError(f"more than {MOST_TERMS} fields in one rule")
        if len(set(self.fields())) != len(self.terms):
            raise ValueError("a field stands twice in the rule")

    def fields(self):
        return [name for _, name in self.terms]

    def read_form(self, text):
        place, numbers = 0, 0
        while place < len(text):
            match = TERM.match(text, place)
            sign, factor, name = match.groups()
            if not (factor or name) or (place > 0 and not sign):
                raise ValueError(f"not a linear form, from {text[place:]!r} on")
            minus = "-" if sign == "-" else ""
            if name:
                self.terms.append((minus + (factor or "1"), name))
            else:
                numbers += 1
                self.constant = minus + factor
            place = match.end()
        if numbers > 1 or (numbers == 0 and not self.terms):
            raise ValueError("a linear form has one number, then its fields")


def make_rules(mistakes):
    """All rules of the fields in an order in which each rule's fields come before it."""
    rules, known = {}, {row["name"]: row for row in FIELDS.rows}
    for row in FIELDS.rows:
        if row["rule"] in ("", "required"):
            continue
        try:
            rule = Rule(row)
        except ValueError as error:
            mistakes.add(FIELDS, row["line"], f"{row['name']}: rule {row['rule']!r}: {error}")
            continue
        unknown = [name for name in rule.fields() if name not in known]
        for name in unknown:
            mistakes.add(FIELDS, row["line"], f"{row['name']}: the rule names {name!r}, which is no field")
        for name in rule.fields():
            if name in known and known[name]["rule"] == "":
                mistakes.add(FIELDS, row["line"], f"{row['name']}: the rule names {name}, which may stay not given")
        if not rule.terms and not rule.call:
            check_default(row, rule.constant, lambda text: mistakes.add(FIELDS, row["line"], f"{row['name']}: {text}"))
        if not unknown:
            rules[row["name"]] = rule
    resolved = {row["name"] for row in FIELDS.rows if row["name"] not in rules}
    ordered, waiting = [], list(rules.values())
    while waiting:
        ready = [rule for rule in waiting if resolved.issuperset(rule.fields())]
        if not ready:
            for rule in waiting:
                text = f"{rule.row['name']}: its rule leads back to itself, or to one that does"
                mistakes.add(FIELDS, rule.row["line"], text)
            return []
        ordered += ready
        resolved.update(rule.row["name"] for rule in ready)
        waiting = [rule for rule in waiting if rule.row["name"] not in resolved]
    return ordered


# ---- writing --------------------------------------------------------------------------------------------

NOTE = "Generated by lib/base/generate_tables.py from the CSV tables: edit those, not this file."


def quoted(text):
    """A C string, long ones as several that C joins."""
    parts = textwrap.wrap(text, 100, drop_whitespace=False, break_long_words=False) or [""]
    escaped = ['"' + part.replace("\\", "\\\\").replace('"', '\\"') + '"' for part in parts]
    return "\n         ".join(escaped)


def number(text):
    return "NAN" if text == "" else text if "." in text else text + ".0"


def range_words(row):
    words = [row["unit"]] if row["unit"] and row["unit"] != "choice" else []
    if row["unit"] == "choice":
        words = ["choice"]
    elif row["low"] and row["high"]:
        words.append(f"{row['low']} to {row['high']}")
    elif row["low"] or row["high"]:
        words.append(f"from {row['low']}" if row["low"] else f"up to {row['high']}")
    return ", ".join(words)


def comment(text, indent="    "):
    lines = textwrap.wrap(text, 112 - len(indent), break_long_words=False, break_on_hyphens=False)
    return [f"{indent}{'/** ' if i == 0 else ' *  '}{line}{' */' if i == len(lines) - 1 else ''}"
            for i, line in enumerate(lines)]


def enum(table):
    lines = ["", f"/* ---- {table.words} */", ""]
    if table.rows:
        lines.append("enum {")
        for row in table.rows:
            about = range_words(row)
            lines += comment((about + ": " if about else "") + row["meaning"])
            lines.append(f"    {table.constant(row)} = {row['number']},")
        lines += ["};", ""]
    lines.append(f"/** Length of an array indexed by the numbers above: the highest number + 1; entry 0 is unused. */")
    lines.append(f"#define TAILOR_{table.word}_COUNT {table.size()}")
    return lines


def choice_enums():
    lines = []
    for row in FIELDS.rows:
        if row["unit"] != "choice":
            continue
        lines += ["", f"/** Choices of TAILOR_FIELD_{row['name'].upper()}. */", "enum {"]
        for i, name in enumerate(row["choices"].split(" "), 1):
            lines.append(f"    TAILOR_{row['name'].upper()}_{name.upper().replace('-', '_')} = {i},")
        lines.append("};")
    return lines


def header(name, title, tables, more=()):
    guard = f"TAILORGEOM_{name.upper()}_H"
    lines = [f"/* libtailorgeom: {name} -- {title}", f" * {NOTE}",
             " * Numbers are written by hand, pinned, and never reused; units and ranges stand before each meaning. */",
             f"#ifndef {guard}", f"#define {guard}"]
    for table in tables:
        lines += enum(table)
    return "\n".join(lines + list(more) + ["", "#endif"]) + "\n"


def c_table(table):
    low = table.kind.lower()
    lines = ["", f"/* ---- {table.words} */", ""]
    lines.append(f"static const tailor_in_row {low}_rows[TAILOR_{table.word}_COUNT] = {{")
    for row in table.rows:
        field = f"TAILOR_FIELD_{row['field'].upper()}" if row.get("field") else "0"
        sense = {"at_most": "1", "at_least": "-1"}.get(row.get("sense"), "0")
        choices = len(row["choices"].split()) if row.get("choices") else 0
        texts = [row["name"], row["group"], row["term"], row["unit"], row["rule"], row["provenance"], row["meaning"],
                 row["since"], row.get("choices", "")]
        lines.append(f"    [{table.constant(row)}] = {{")
        lines.append("        {" + ",\n         ".join(quoted(text) for text in texts) + "},")
        lines.append(f"        {number(row['low'])}, {number(row['high'])}, {choices}, {field}, {sense}}},")
    if not table.rows:
        lines.append("    {{0}, NAN, NAN, 0, 0, 0}")
    lines += ["};", ""]
    order = textwrap.wrap(", ".join(str(row["number"]) for row in getattr(table, "reading", [])) or "0", 110)
    lines.append(f"static const int16_t {low}_reading_order[] = {{")
    lines += ["    " + line for line in order] + ["};", ""]
    lines.append(f"static const tailor_table {low}_table = {{")
    lines.append(f"    {low}_rows, {low}_reading_order, TAILOR_{table.word}_COUNT, {len(table.rows)},")
    lines.append(f"    TAILOR_TABLE_{table.kind}}};")
    lines += ["", f"const tailor_table *tailor_{low}_table(void)", "{", f"    return &{low}_table;", "}"]
    return lines


def c_rules(rules):
    lines = ["", "/* ---- defaults of fields, in an order in which each finds its fields resolved */", ""]
    lines.append("const tailor_in_rule tailor_in_rules[] = {")
    for rule in rules:
        terms = ", ".join(f"{{{number(factor)}, TAILOR_FIELD_{name.upper()}}}" for factor, name in rule.terms)
        call = f"tailor_in_{rule.call}" if rule.call else "NULL"
        lines.append(f"    {{TAILOR_FIELD_{rule.row['name'].upper()},")
        lines.append(f"     {{{number(rule.constant)}, {len(rule.terms)}, {{{terms or '{0.0, 0}'}}}}}, {call}}},")
    if not rules:
        lines.append("    {0, {0.0, 0, {{0.0, 0}}}, NULL}")
    lines += ["};", f"const int tailor_in_rule_count = {len(rules)};", ""]
    lines.append("const double tailor_in_constant_defaults[TAILOR_CONSTANT_COUNT] = {")
    lines.append("    [0] = NAN,")
    for row in CONSTANTS.rows:
        lines.append(f"    [{CONSTANTS.constant(row)}] = {number(row['rule'])},")
    lines.append("};")
    return lines


def c_cautions():
    lines = ["", "/* ---- cautions that follow from one quantity: number, quantity, bounds from which it is told, a caution */",
             "", "const tailor_in_caution_rule tailor_in_caution_rules[] = {"]
    rules = [row for row in CAUTIONS.rows if row["quantity"]]
    for row in rules:
        lines.append(f"    {{{CAUTIONS.constant(row)}, TAILOR_QUANTITY_{row['quantity'].upper()}, {number(row['told'])}, "
                     f"{number(row['caution'])}}},")
    return lines + ["};", f"const int tailor_in_caution_rule_count = {len(rules)};"]


def c_file(includes, tables, more=()):
    lines = [f"/* {NOTE} */"] + [f"#include {name}" for name in includes]
    for table in tables:
        lines += c_table(table)
    return "\n".join(lines + list(more)) + "\n"


def generate():
    mistakes = Mistakes()
    for table in ORDER + PATTERN + [CLOTH, CAUTIONS]:
        read(table, mistakes)
    check_checks(mistakes)
    check_cautions(mistakes)
    rules = make_rules(mistakes)
    if mistakes:
        return mistakes, {}
    order_includes = ["<math.h>", "<tailorgeom/order.h>", '"../base/table.h"', '"defaults.h"', '"form.h"']
    pattern_includes = ["<math.h>", "<tailorgeom/pattern.h>", "<tailorgeom/order_tables.h>", '"../base/table.h"']
    cloth_includes = ["<math.h>", "<tailorgeom/cloth.h>", '"../base/table.h"']
    coat_includes = ["<math.h>", "<tailorgeom/coat.h>", '"../base/table.h"', '"cautions.h"']
    return mistakes, {
        "include/tailorgeom/order_tables.h":
            header("order_tables", "fields, house constants and quantities.", ORDER, choice_enums()),
        "include/tailorgeom/pattern_tables.h":
            header("pattern_tables", "pieces, edges, points, marks and checks.", PATTERN),
        "include/tailorgeom/cloth_tables.h":
            header("cloth_tables", "properties of a sheet of cloth.", [CLOTH]),
        "include/tailorgeom/coat_tables.h":
            header("coat_tables", "cautions of a coat.", [CAUTIONS]),
        "lib/coat/tables.c": c_file(coat_includes, [CAUTIONS], c_cautions()),
        "lib/order/tables.c": c_file(order_includes, ORDER, c_rules(rules)),
        "lib/pattern/tables.c": c_file(pattern_includes, PATTERN),
        "lib/cloth/tables.c": c_file(cloth_includes, [CLOTH]),
    }


def main():
    parser = argparse.ArgumentParser(description="Write enum headers and C tables from the CSV tables.")
    parser.add_argument("--check", action="store_true", help="write nothing; exit 1 if a file would change")
    check = parser.parse_args().check
    mistakes, files = generate()
    for mistake in mistakes:
        print(mistake, file=sys.stderr)
    if mistakes:
        return 2
    changed = 0
    for name, text in files.items():
        path = ROOT / name
        if path.exists() and path.read_bytes() == text.encode():
            continue
        changed += 1
        if check:
            print(f"{name}: differs from what the tables give; run lib/base/generate_tables.py", file=sys.stderr)
        else:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_bytes(text.encode())
            print(f"wrote {name}")
    return 1 if check and changed else 0


if __name__ == "__main__":
    sys.exit(main())
