"""Reading the CSV tables: one class a kind of table, and every mistake told with its file and line."""
import csv
import pathlib
import re

ROOT = pathlib.Path(__file__).resolve().parents[2]
COLUMNS = "number,name,group,rank,term,unit,low,high,rule,provenance,meaning,since".split(",")
UNITS = set("mm mm2 deg g/m2 N N/cm N/m uN.m N.m2 1/m % count choice ratio".split())
NUMBER = re.compile(r"-?\d+(\.\d+)?$")
NAME = re.compile(r"[a-z][a-z0-9]*(_[a-z0-9]+)*$")
CHOICE = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*$")
HIGHEST = 9999  # a slip in a number would otherwise make a huge table
HIGHEST_CHOICE = 255  # a pattern remembers each in a byte
LONGEST_CHOICE = 48  # so that 64 bytes are enough for any value as text


class Table:
    """One CSV: where it lies, and what its names are called in C."""

    def __init__(self, path, word, kind, words, extra=(), units=True, columns=None):
        self.path, self.word, self.kind, self.words = path, word, kind, words
        self.columns, self.units = (columns or COLUMNS) + list(extra), units
        self.rows, self.reading = [], []

    def size(self):
        return 1 + max((row["number"] for row in self.rows), default=0)

    def constant(self, row):
        return f"TAILOR_{self.word}_{row['name'].upper()}"

    def named(self, name):
        return next((row for row in self.rows if row["name"] == name), None)


FIELDS = Table("lib/order/fields.csv", "FIELD", "FIELD", "fields")
CONSTANTS = Table("lib/order/constants.csv", "CONSTANT", "CONSTANT", "house constants")
QUANTITIES = Table("lib/order/quantities.csv", "QUANTITY", "QUANTITY", "quantities", ["needs", "side"])
PIECES = Table("lib/pattern/pieces.csv", "PIECE", "PIECE", "pieces", ["net", "fold"], units=False)
EDGES = Table("lib/pattern/edges.csv", "EDGE", "EDGE", "edges", ["net"], units=False)
POINTS = Table("lib/pattern/points.csv", "POINT", "POINT", "points", ["outline"], units=False)
MARKS = Table("lib/pattern/marks.csv", "MARKED", "MARK", "marks", units=False)
CHECKS = Table("lib/pattern/checks.csv", "CHECK", "CHECK", "checks", ["field", "sense", "when"])
FINDINGS = Table("lib/pattern/findings.csv", "FINDING", "FINDING", "findings of examining", ["refuses"])
CLOTH = Table("lib/cloth/properties.csv", "CLOTH", "CLOTH", "properties of a sheet of cloth")
CAUTIONS = Table("lib/coat/cautions.csv", "CAUTION", "CAUTION", "cautions", ["field", "told", "caution", "quantity"])
ORDER = [FIELDS, CONSTANTS, QUANTITIES]
PATTERN = [PIECES, EDGES, POINTS, MARKS, CHECKS, FINDINGS]

# What else is said of a choice: whole numbers, or one of the words, which lib/order/traits.h numbers.
TRAITS = {"rows_above": None, "rows_below": None, "show_above": None, "breasts": None, "breaks": "top waist".split(),
          "rolls": ["no", "make", "cut"], "how_many": None}
# Traits that all choices of a field have: the code asks for them.
TRAITS_OF = {"buttoning": ["rows_above", "rows_below", "show_above", "breasts", "breaks", "rolls"],
             "cuff_buttons": ["how_many"], "holes": ["how_many"]}
MOST_ROWS = 6  # button_1 ... button_6, hole_1 ... hole_6
MOST = {"cuff_buttons": 5, "holes": MOST_ROWS}  # cuff_button_1 ... cuff_button_5
CHOICES = Table("lib/order/choices.csv", "CHOICE", "CHOICE", "choices", TRAITS,
                columns="field,number,name,term,synonyms,meaning,since".split(","))


class Mistakes(list):
    def add(self, table, line, text):
        self.append(f"{table.path}:{line}: {text}")

    def of(self, table, row):
        """A function that tells a mistake of this row."""
        return lambda text: self.add(table, row["line"], f"{row['name'] or 'row'}: {text}")


def read_rows(table, mistakes, check_row):
    """The rows of the CSV, in its order; a row with a mistake is left out."""
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
                before = len(mistakes)
                wrong = mistakes.of(table, row)
                check_cells(table, row, wrong)
                check_row(table, row, wrong)
                if len(mistakes) == before:
                    table.rows.append(row)
    except (csv.Error, UnicodeDecodeError) as error:
        mistakes.add(table, 1, f"not readable as CSV in UTF-8: {error}")


def check_cells(table, row, wrong):
    for column in table.columns:
        if row[column] != row[column].strip():
            wrong(f"{column} begins or ends with a space")
        if any(ord(sign) < 32 for sign in row[column]) or "*/" in row[column] or "??" in row[column]:
            wrong(f"{column} holds a control character, */ or ??")
    for column in ("number", "rank"):
        if column not in table.columns:
            continue
        if re.fullmatch(r"\d{1,4}", row[column]) and (column == "rank" or int(row[column]) > 0):
            row[column] = int(row[column])
        else:
            wrong(f"{column} {row[column]!r} is not a whole number from 1 to {HIGHEST}")
    if row["since"] and not re.fullmatch(r"\d+\.\d+\.\d+", row["since"]):
        wrong(f"since {row['since']!r} is not a version such as 0.1.0")


def read(table, mistakes):
    read_rows(table, mistakes, check_row)
    check_unique(table, mistakes)
    first = {}  # groups are shown in the order of their lowest number
    for row in table.rows:
        first[row["group"]] = min(row["number"], first.get(row["group"], HIGHEST))
    table.reading = sorted(table.rows, key=lambda row: (first[row["group"]], row["rank"], row["number"]))
    table.rows.sort(key=lambda row: row["number"])


def check_row(table, row, wrong):
    if not NAME.match(row["name"]) or row["name"] == "count":
        wrong("name must be lower case words joined by underscores (and not 'count')")
    for column in ("group", "term", "provenance", "meaning", "since"):
        if not row[column] and (column != "group" or table.units):
            wrong(f"{column} is empty")
    if row["unit"] not in UNITS and (table.units or row["unit"]):
        wrong(f"unit {row['unit']!r} is not one of {' '.join(sorted(UNITS))}")
    ends = [row[column] for column in ("low", "high")]
    for column, end in zip(("low", "high"), ends):
        if end and not NUMBER.match(end):
            wrong(f"{column} {end!r} is not a plain decimal number")
    if all(NUMBER.match(end) for end in ends) and float(ends[0]) >= float(ends[1]):
        wrong("low is not below high")
    if row["unit"] == "choice" and any(ends):
        wrong("a choice has no low and high: they follow from its choices")
    if table in (FIELDS, CONSTANTS) and row["unit"] != "choice" and not all(ends):
        wrong("low and high are needed")
    if table is FINDINGS and bool(ends[0]) == bool(ends[1]):
        wrong("its limit is low or high")
    if table is CONSTANTS:
        check_default(row, row["rule"], wrong)
    for column in ("net", "fold", "outline", "refuses"):
        if row.get(column, "") not in ("", "yes"):
            wrong(f"{column} {row[column]!r} is neither yes nor empty")


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


# ---- choices: a row a choice; rows of the same `field` are one set, which several fields and quantities may share

class Choices:
    """The choices that one field, or several, can take."""

    def __init__(self, cell, rows):
        self.names, self.reading = cell.split(" "), rows  # read in the order of the CSV
        self.rows = sorted(rows, key=lambda row: row["number"])
        self.highest = self.rows[-1]["number"]

    def label(self):
        return self.names[0]


def read_choices(mistakes):
    """All sets, and the low and high of the fields and quantities that take them."""
    read_rows(CHOICES, mistakes, check_choice)
    cells = {}
    for row in CHOICES.rows:
        cells.setdefault(row["field"], []).append(row)
    taken, sets = {}, []
    for cell, rows in cells.items():
        one = Choices(cell, rows)
        sets.append(one)
        check_set(one, mistakes)
        for name in one.names:
            if name in taken:
                mistakes.of(CHOICES, rows[0])(f"{name} has its choices already in another set of rows")
            taken[name] = one
    for table in (FIELDS, QUANTITIES):
        for row in table.rows:
            if row["unit"] != "choice":
                continue
            row["choices"] = taken.get(row["name"])
            if not row["choices"]:
                mistakes.of(table, row)(f"its unit is choice, but {CHOICES.path} has no row of it")
            else:
                row["low"], row["high"] = "1", str(row["choices"].highest)
    for one in sets:
        for name in one.names:
            rows = [table.named(name) for table in (FIELDS, QUANTITIES)]
            if not any(row and row["unit"] == "choice" for row in rows):
                mistakes.of(CHOICES, one.reading[0])(f"no field and no quantity of unit choice is named {name!r}")
    return sets


def check_choice(table, row, wrong):
    if not CHOICE.match(row["name"]) or len(row["name"]) > LONGEST_CHOICE:
        wrong(f"a choice's name must be lower case words joined by hyphens, of {LONGEST_CHOICE} letters at most")
    if not all(NAME.match(name) for name in row["field"].split(" ")):
        wrong(f"field {row['field']!r} must be names separated by single spaces")
    for synonym in row["synonyms"].split(" ") if row["synonyms"] else []:
        if not CHOICE.match(synonym):
            wrong("synonyms must be lower case words joined by hyphens, separated by single spaces")
    if isinstance(row["number"], int) and row["number"] > HIGHEST_CHOICE:
        wrong(f"number {row['number']} is more than {HIGHEST_CHOICE}")
    for column in ("term", "meaning", "since"):
        if not row[column]:
            wrong(f"{column} is empty")
    wanted = {trait for name in row["field"].split(" ") for trait in TRAITS_OF.get(name, [])}
    for trait, words in TRAITS.items():
        if bool(row[trait]) != (trait in wanted):
            wrong(f"{trait} is {'empty' if trait in wanted else 'no trait of ' + row['field']}")
        elif row[trait] and words and row[trait] not in words:
            wrong(f"{trait} {row[trait]!r} is not one of {' '.join(words)}")
        elif row[trait] and not words and not re.fullmatch(r"\d{1,2}", row[trait]):
            wrong(f"{trait} {row[trait]!r} is not a whole number")
    if row["how_many"].isdigit() and int(row["how_many"]) > MOST.get(row["field"], 0):
        wrong(f"how_many is {MOST.get(row['field'], 0)} at most")
    if "rows_above" in wanted and all(row[trait].isdigit() for trait in ("rows_above", "rows_below", "show_above")):
        if int(row["rows_above"]) + 1 + int(row["rows_below"]) > MOST_ROWS:
            wrong(f"more than {MOST_ROWS} rows of buttons")
        if int(row["show_above"]) > int(row["rows_above"]):
            wrong("more rows for show than there are above the waist button")


def check_set(one, mistakes):
    numbers, words = {}, {}
    for row in one.reading:
        for seen, key, what in [(numbers, row["number"], "number"),
                                *[(words, word, "name") for word in [row["name"], *row["synonyms"].split()]]]:
            if key in seen:
                mistakes.of(CHOICES, row)(f"{what} {key} stands already in line {seen[key]}")
            seen.setdefault(key, row["line"])
