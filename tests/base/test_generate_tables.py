"""The generator of tables: what is committed is what it writes; each mistake in a table is told with its line."""
import pathlib
import shutil
import subprocess
import sys

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
GENERATOR = "lib/base/generate_tables.py"
PARTS = ["lib/base/tables_read.py", "lib/base/tables_rules.py", "lib/base/tables_write.py"]
WRITTEN = ["include/tailorgeom/order_tables.h", "include/tailorgeom/pattern_tables.h",
           "include/tailorgeom/cloth_tables.h", "lib/order/tables.c", "lib/pattern/tables.c",
           "lib/pattern/net_tables.h", "lib/cloth/tables.c", "include/tailorgeom/coat_tables.h",
           "lib/coat/tables.c"]


def generate(root, *arguments, directory="/"):
    return subprocess.run([sys.executable, str(root / GENERATOR), *arguments], cwd=directory, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE)


@pytest.fixture
def tree(tmp_path):
    """A copy of the generator and the tables, to spoil."""
    for path in [GENERATOR, *PARTS, *WRITTEN, *ROOT.glob("lib/*/*.csv")]:
        path = pathlib.Path(path)
        path = path.relative_to(ROOT) if path.is_absolute() else path
        (tmp_path / path).parent.mkdir(parents=True, exist_ok=True)
        shutil.copy(ROOT / path, tmp_path / path)
    return tmp_path


def replace(tree, name, old, new):
    text = (tree / name).read_text()
    assert old in text
    (tree / name).write_text(text.replace(old, new, 1))


def test_committed_files_are_what_the_tables_give():
    done = generate(ROOT, "--check")
    assert (done.returncode, done.stdout, done.stderr) == (0, "", "")


def test_runs_from_any_directory_and_writes_only_what_changed(tree):
    before = {name: (tree / name).read_bytes() for name in WRITTEN}
    (tree / WRITTEN[0]).unlink()
    done = generate(tree, directory=tree / "lib")
    assert done.returncode == 0
    assert done.stdout == f"wrote {WRITTEN[0]}\n"
    assert {name: (tree / name).read_bytes() for name in WRITTEN} == before


def test_check_writes_nothing(tree):
    replace(tree, "lib/order/fields.csv", "mm,1400,2200", "mm,1400,2100")
    before = {name: (tree / name).read_bytes() for name in WRITTEN}
    done = generate(tree, "--check")
    assert done.returncode == 1
    assert "include/tailorgeom/order_tables.h: differs" in done.stderr and "lib/order/tables.c: differs" in done.stderr
    assert {name: (tree / name).read_bytes() for name in WRITTEN} == before


def test_a_missing_table_is_an_empty_one(tree):
    for path in tree.glob("lib/pattern/*.csv"):
        path.unlink()
    assert generate(tree).returncode == 0
    assert "#define TAILOR_CHECK_COUNT 1\n" in (tree / WRITTEN[1]).read_text()
    for header in ROOT.glob("include/tailorgeom/*.h"):
        if not header.name.endswith("_tables.h"):
            shutil.copy(header, tree / "include/tailorgeom")
    for header in ["lib/base/table.h", "lib/order/traits.h", "lib/pattern/net.h", "lib/pattern/when.h"]:
        shutil.copy(ROOT / header, tree / header)
    subprocess.run(["gcc", "-std=c11", "-Wall", "-Wextra", "-Wpedantic", "-Werror", "-fsyntax-only",
                    f"-I{tree}/include", str(tree / "lib/pattern/tables.c")], check=True)


@pytest.mark.parametrize("compiler, standard",
                         [("gcc", "c11"), ("clang", "c11"), ("g++", "c++17"), ("clang++", "c++17")])
@pytest.mark.parametrize("header", ["order_tables.h", "pattern_tables.h"])
def test_headers_compile(compiler, standard, header):
    language = "c++" if "++" in compiler else "c"
    source = f'#include "{ROOT}/include/tailorgeom/{header}"\nint used;\n'
    subprocess.run([compiler, "-x", language, "-std=" + standard, "-Wall", "-Wextra", "-Wpedantic", "-Wconversion",
                    "-Werror", "-fsyntax-only", "-"], input=source, text=True, check=True)


FIELDS, CHOICES = "lib/order/fields.csv", "lib/order/choices.csv"
QUANTITIES = "lib/order/quantities.csv"
STATURE = "1,stature,measures,10,stature,mm,1400,2200,1550.9 + 0.194 chest_girth,"
SPOILED = {
    "number twice": (FIELDS, "\n3,waist_girth", "\n2,waist_girth",
        "fields.csv:4: number 2 stands already in line 3"),
    "name twice": (FIELDS, "3,waist_girth,measures", "3,stature,measures",
        "fields.csv:4: name stature stands already in line 2"),
    "number 0": (FIELDS, "\n3,waist", "\n0,waist",
        "fields.csv:4: waist_girth: number '0' is not a whole number from 1 to 9999"),
    "number large": (FIELDS, "\n3,waist", "\n10000,waist", "fields.csv:4: waist_girth: number '10000' is not"),
    "bad name": (FIELDS, "1,stature,", "1,Stature,", "fields.csv:2: Stature: name must be lower case"),
    "reserved name": (FIELDS, "1,stature,", "1,count,", "fields.csv:2: count: name must be"),
    "bad unit": (FIELDS, "stature,mm,", "stature,inch,", "fields.csv:2: stature: unit 'inch' is not one of"),
    "no range": (FIELDS, "mm,1400,2200", "mm,,2200", "fields.csv:2: stature: low and high are needed"),
    "range reversed": (FIELDS, "mm,1400,2200", "mm,2200,1400", "fields.csv:2: stature: low is not below high"),
    "range no number": (FIELDS, "mm,1400,2200", "mm,1e3,2200",
        "fields.csv:2: stature: low '1e3' is not a plain decimal"),
    "unknown field": (FIELDS, "0.194 chest_girth", "0.194 chst_girth",
        "fields.csv:2: stature: the rule names 'chst_girth', which is no field"),
    "field without rule": (FIELDS, "0.194 chest_girth", "0.194 belly_girth",
        "stature: the rule names belly_girth, which may stay not given"),
    "field twice": (FIELDS, "0.194 chest_girth", "0.1 chest_girth + 0.1 chest_girth", "a field stands twice"),
    "no linear form": (FIELDS, "0.194 chest_girth", "0.194 * chest_girth",
        "fields.csv:2: stature: rule '1550.9 + 0.194 * chest_girth': not a linear form"),
    "two numbers": (FIELDS, "1550.9 + 0.194 chest_girth", "1550.9 + 1 + 0.194 chest_girth", "has one number"),
    "missing sign": (FIELDS, "1550.9 + 0.194 chest_girth", "1550.9 0.194 chest_girth", "not a linear form"),
    "cycle": (FIELDS, "0.194 chest_girth", "0.194 chest_girth + 0.1 coat_length",
        "fields.csv:2: stature: its rule leads back to itself"),
    "cycle of one": (FIELDS, "0.194 chest_girth", "0.194 stature",
        "fields.csv:2: stature: its rule leads back to itself"),
    "bare call": (FIELDS, "call chest_ease_by_weight(cloth_weight)", "call chest_ease_by_weight",
        "naming the fields it is given"),
    "default outside": (FIELDS, "deg,12,30,21,", "deg,12,30,31,",
        "shoulder_slope: the default 31 lies outside 12 to 30"),
    "choice without choices": (FIELDS, "cuff_buttons,", "cuff_knobs,",
        "cuff_knobs: its unit is choice, but lib/order/choices.csv has no row of it"),
    "choices of nothing": (CHOICES, "\nlapel,1,", "\nlapels,1,",
        "step: no field and no quantity of unit choice is named 'lapels'"),
    "choices of a number": (CHOICES, "\nlapel,1,", "\nlapel stature,1,",
        "step: no field and no quantity of unit choice is named 'stature'"),
    "choices twice": (CHOICES, "\nlapel,1,", "\nlapel vents,1,", "lapel has its choices already in another set"),
    "choice number twice": (CHOICES, "\nlapel,2,", "\nlapel,1,", "peak: number 1 stands already in line"),
    "synonym twice": (CHOICES, "notch notched", "notch peaked", "peak: name peaked stands already in line"),
    "synonyms spaced": (CHOICES, "notch notched", "notch  notched", "step: synonyms must be lower case words"),
    "choice name": (CHOICES, "1,one-button,", "1,one_button,", "one_button: a choice's name must be lower case words"),
    "trait missing": (CHOICES, "0.1.0,0,0,0,1,waist,no,", "0.1.0,0,0,0,,waist,no,", "one-button: breasts is empty"),
    "trait of another": (CHOICES, "meets the collar in a step.\",0.1.0,,", "meets the collar in a step.\",0.1.0,1,",
        "step: rows_above is no trait of lapel"),
    "trait word": (CHOICES, "0.1.0,0,0,0,1,waist,no,", "0.1.0,0,0,0,1,hip,no,",
        "one-button: breaks 'hip' is not one of top waist"),
    "trait number": (CHOICES, "0.1.0,0,0,0,1,waist,no,", "0.1.0,0,0,0,one,waist,no,",
        "one-button: breasts 'one' is not a whole number"),
    "rows": (CHOICES, "0.1.0,0,0,0,1,waist,no,", "0.1.0,3,3,0,1,waist,no,", "one-button: more than 6 rows of buttons"),
    "rows for show": (CHOICES, "0.1.0,0,0,0,1,waist,no,", "0.1.0,0,0,1,1,waist,no,", "one-button: more rows for show"),
    "cuff buttons": (CHOICES, "0.2.0,,,,,,,5", "0.2.0,,,,,,,6", "five: how_many is 5 at most"),
    "choice with range": (FIELDS, "lapel,choice,,", "lapel,choice,1,2", "lapel: a choice has no low and high"),
    "choice number outside": (FIELDS, "closing,choice,,,1,", "closing,choice,,,3,",
        "closing: the default 3 lies outside 1 to 2"),
    "no meaning": (FIELDS, "Height of the body without shoes.", "", "stature: meaning is empty"),
    "bad version": (FIELDS, "without shoes.,0.1.0", "without shoes.,0.1", "stature: since '0.1' is not a version"),
    "cells missing": (FIELDS, STATURE, "1,stature,", "fields.csv:2: 5 cells where 12 are needed"),
    "wrong header": (FIELDS, "number,name", "nr,name", "fields.csv:1: the columns must be number,name"),
    "space at the end": (FIELDS, "1,stature,", "1,stature ,", "stature : name begins or ends with a space"),
    "end of a comment": (FIELDS, "without shoes.", "without */ shoes.", "meaning holds a control character"),
    "constant without default": ("lib/order/constants.csv", ",mm,0,6,1.6,", ",mm,0,6,,",
        "rule '' is not the default number"),
    "constant outside": ("lib/order/constants.csv", ",mm,0,6,1.6,", ",mm,0,6,7,",
        "the default 7 lies outside 0 to 6"),
    "needs": (QUANTITIES, ",section,left", ",sections,left", "needs 'sections' is not one of make, section"),
    "side": (QUANTITIES, ",,mean", ",,middle", "side 'middle' is none of left, sum, mean, twin NAME"),
    "side without twin": (QUANTITIES, ",twin scye_width", ",twin", "scye_width_right: side 'twin' is none of"),
    "twin of nobody": (QUANTITIES, ",twin scye_width", ",twin scye", "side names 'scye', which is no quantity of"),
    "twin of a twin": (QUANTITIES, ",twin scye_width", ",twin scye_length_right", "which is no quantity of the left"),
    "twin of another unit": (QUANTITIES, ",twin scye_width", ",twin hole_count", "a twin has the unit and the needs"),
    "net": ("lib/pattern/pieces.csv", "0.1.0,yes,", "0.1.0,no,", "back: net 'no' is neither yes nor empty"),
}


@pytest.mark.parametrize("name", SPOILED)
def test_mistakes_are_told(tree, name):
    path, old, new, told = SPOILED[name]
    replace(tree, path, old, new)
    before = {name: (tree / name).read_bytes() for name in WRITTEN}
    done = generate(tree)
    assert done.returncode == 2 and done.stdout == ""
    assert told in done.stderr
    assert "Traceback" not in done.stderr
    assert {name: (tree / name).read_bytes() for name in WRITTEN} == before


CHECKS = "number,name,group,rank,term,unit,low,high,rule,provenance,meaning,since,field,sense,when\n"


@pytest.mark.parametrize("row, told", [
    ("crooked,at_most,always", "checks.csv:2: a: no field is named 'crooked'"),
    ("crook,below,always", "checks.csv:2: a: sense must be at_most or at_least"),
    ("crook,at_most,", "checks.csv:2: a: when '' is none of always; given FIELD; choice"),
    ("crook,at_most,seldom", "a: when 'seldom' is none of always;"),
    ("crook,at_most,given", "a: when 'given' is none of always;"),
    ("crook,at_most,given crooked", "a: when 'given crooked': no field is named 'crooked'"),
    ("crook,at_most,choice crook round", "crook has no choice 'round'"),
    ("crook,at_most,choice front_cut oval", "front_cut has no choice 'oval'"),
    ("crook,at_most,trait sleeves 2", "'sleeves' is no trait of the choices of one field"),
    ("crook,at_most,trait how_many 2", "'how_many' is no trait of the choices of one field"),
    ("crook,at_most,trait breaks hip", "'hip' is not one of top waist"),
    ("crook,at_most,trait breasts two", "'two' is not a plain decimal number"),
    ("crook,at_most,above belly 1", "no quantity is named 'belly'"),
    ("crook,at_most,piece hood", "no piece is named 'hood'"),
])
def test_mistakes_in_checks_are_told(tree, row, told):
    (tree / "lib/pattern/checks.csv").write_text(CHECKS + "1,a,g,1,t,mm,,,,p,m.,0.1.0," + row + "\n")
    done = generate(tree)
    assert done.returncode == 2 and told in done.stderr


def test_order_of_reading(tree):
    """By group, in the order of each group's lowest number, then by rank."""
    (tree / "lib/pattern/checks.csv").write_text(CHECKS + "".join(
        f"{number},{name},{group},{rank},t,mm,,,,p,m.,0.1.0,,at_least,always\n"
        for number, name, group, rank in [(1, "a", "x", 9), (2, "b", "y", 5), (3, "c", "x", 3), (7, "d", "y", 4)]))
    assert generate(tree).returncode == 0
    assert "check_reading_order[] = {\n    3, 1, 7, 2\n};" in (tree / "lib/pattern/tables.c").read_text()
    assert "#define TAILOR_CHECK_COUNT 8\n" in (tree / "include/tailorgeom/pattern_tables.h").read_text()


def test_a_byte_order_mark_and_other_line_ends_are_no_matter(tree):
    before = {name: (tree / name).read_bytes() for name in WRITTEN}
    text = (tree / FIELDS).read_text()
    (tree / FIELDS).write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert generate(tree).returncode == 0
    assert {name: (tree / name).read_bytes() for name in WRITTEN} == before
