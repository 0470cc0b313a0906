"""The generator of tables: what is committed is what it writes; each mistake in a table is told with its line."""
import pathlib
import shutil
import subprocess
import sys

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
GENERATOR = "lib/base/generate_tables.py"
WRITTEN = ["include/tailorgeom/order_tables.h", "include/tailorgeom/pattern_tables.h",
           "include/tailorgeom/cloth_tables.h", "lib/order/tables.c", "lib/pattern/tables.c", "lib/cloth/tables.c"]


def generate(root, *arguments, directory="/"):
    return subprocess.run([sys.executable, str(root / GENERATOR), *arguments], cwd=directory, text=True,
                          stdout=subprocess.PIPE, stderr=subprocess.PIPE)


@pytest.fixture
def tree(tmp_path):
    """A copy of the generator and the tables, to spoil."""
    for path in [GENERATOR, *WRITTEN, *ROOT.glob("lib/*/*.csv")]:
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
    shutil.copy(ROOT / "lib/base/table.h", tree / "lib/base")
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


FIELDS = "lib/order/fields.csv"
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
    "choice without choices": (FIELDS, "step peak shawl", "", "lapel: choices belong to a row of unit choice"),
    "choices of a number": (FIELDS, "without shoes.,0.1.0,", "without shoes.,0.1.0,a b",
        "stature: choices belong to a row of unit choice"),
    "choices spaced": (FIELDS, "step peak", "step  peak", "lapel: choices must be different lower case words"),
    "choice with range": (FIELDS, "lapel,choice,,", "lapel,choice,1,2", "lapel: a choice has no low and high"),
    "choice number outside": (FIELDS, "closing,choice,,,1,", "closing,choice,,,3,",
        "closing: the default 3 lies outside 1 to 2"),
    "no meaning": (FIELDS, "Height of the body without shoes.", "", "stature: meaning is empty"),
    "bad version": (FIELDS, "without shoes.,0.1.0", "without shoes.,0.1", "stature: since '0.1' is not a version"),
    "cells missing": (FIELDS, STATURE, "1,stature,", "fields.csv:2: 6 cells where 13 are needed"),
    "wrong header": (FIELDS, "number,name", "nr,name", "fields.csv:1: the columns must be number,name"),
    "space at the end": (FIELDS, "1,stature,", "1,stature ,", "stature : name begins or ends with a space"),
    "end of a comment": (FIELDS, "without shoes.", "without */ shoes.", "meaning holds a control character"),
    "constant without default": ("lib/order/constants.csv", ",mm,0,6,1.6,", ",mm,0,6,,",
        "rule '' is not the default number"),
    "constant outside": ("lib/order/constants.csv", ",mm,0,6,1.6,", ",mm,0,6,7,",
        "the default 7 lies outside 0 to 6"),
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


CHECKS = "number,name,group,rank,term,unit,low,high,rule,provenance,meaning,since,field,sense\n"


@pytest.mark.parametrize("row, told", [
    ("1,a,g,1,t,mm,,,,p,m.,0.1.0,crooked,at_most", "checks.csv:2: a: no field is named 'crooked'"),
    ("1,a,g,1,t,mm,,,,p,m.,0.1.0,crook,below", "checks.csv:2: a: sense must be at_most or at_least"),
])
def test_mistakes_in_checks_are_told(tree, row, told):
    (tree / "lib/pattern/checks.csv").write_text(CHECKS + row + "\n")
    done = generate(tree)
    assert done.returncode == 2 and told in done.stderr


def test_order_of_reading(tree):
    """By group, in the order of each group's lowest number, then by rank."""
    (tree / "lib/pattern/checks.csv").write_text(CHECKS + "".join(
        f"{number},{name},{group},{rank},t,mm,,,,p,m.,0.1.0,,at_least\n"
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
