"""Rows appended to the tables move nothing: numbers carry no meaning but themselves, no array rests on the order of
numbers, and a check that nobody measures fails the coats that should have it."""
import concurrent.futures
import csv
import shutil

import pytest

import ground

SANITIZED = ["-fsanitize=address,undefined", "-fno-sanitize-recover=all", "-O0"]
WHEN = "choice lapel shawl"  # the coats that should have the appended check
#: The row appended to each table: the columns that are not those of any row.
APPENDED = {
    "lib/order/choices.csv": dict(
        field="buttoning", name="four-button", term="four buttons", rows_above=2, rows_below=1,
        show_above=0, breasts=1, breaks="top", rolls="no", meaning="Four buttons."),
    "lib/order/quantities.csv": dict(name="appended_quantity", unit="mm", needs="make", side="sum"),
    "lib/pattern/checks.csv": dict(name="appended_check", unit="mm", high=1, sense="at_most", field="chest_girth",
                                   when=WHEN),
    "lib/pattern/pieces.csv": dict(name="appended_piece", net="yes", fold="yes"),
    "lib/pattern/edges.csv": dict(name="appended_edge", net="yes"),
}
OF_ANY_ROW = dict(group="appended", rank=999, term="appended", provenance="own judgement", meaning="Appended.",
                  since="9.9.9")


def append(path, cells):
    with open(path, encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    columns, same = list(rows[0]), [row for row in rows if row.get("field") == cells.get("field", row.get("field"))]
    number = 1 + max(int(row["number"]) for row in (same if "choices" in path.name else rows))
    row = {**{column: "" for column in columns}, **{k: v for k, v in OF_ANY_ROW.items() if k in columns}, **cells}
    with open(path, "a", encoding="utf-8", newline="") as file:
        csv.DictWriter(file, columns, lineterminator="\n").writerow({**row, "number": number})


@pytest.fixture(scope="module")
def appended(tmp_path_factory):
    """The program with a library whose tables have one more row each, built with the sanitizers."""
    tree = tmp_path_factory.mktemp("appended")
    shutil.copytree(ground.ROOT / "include", tree / "include")
    shutil.copytree(ground.ROOT / "lib", tree / "lib", ignore=shutil.ignore_patterns("sheet", "papers"))
    for name, cells in APPENDED.items():
        append(tree / name, cells)
    ground.run(["/usr/bin/python3", tree / "lib/base/generate_tables.py"])
    sources = [*sorted((tree / "lib").glob("*/*.c")), ground.ROOT / "tests/ground/appended_rows.c"]
    objects = [tree / f"{source.parent.name}_{source.stem}.o" for source in sources]

    def build(pair):
        ground.run(["gcc", *ground.EXACT, *ground.STRICT, *SANITIZED, "-I", tree / "include", "-c", pair[0], "-o",
                    pair[1]])
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        list(pool.map(build, zip(sources, objects)))
    ground.run(["gcc", *SANITIZED, *objects, "-lm", "-o", tree / "appended_rows"])
    return tree / "appended_rows"


@pytest.fixture(scope="module")
def unchanged(tmp_path_factory):
    program = tmp_path_factory.mktemp("unchanged") / "appended_rows"
    ground.run(["gcc", *ground.EXACT, "-I", ground.ROOT / "include", ground.ROOT / "tests/ground/appended_rows.c",
                ground.BUILD / "lib/libtailorgeom.a", "-lm", "-o", program])
    return program


def coats(text):
    """Of each order its lines, those of appended rows apart."""
    found = []
    for order in text.split("order ")[1:]:
        lines = order.splitlines()[1:]
        extra = [line for line in lines if " appended_" in line and not line.startswith("status")]
        found.append(([line for line in lines if line not in extra], extra))
    return found


def is_shawl(lines):
    lapel, = [line.split(" ")[2] for line in lines if line.startswith("field lapel ")]
    return float.fromhex(lapel) == 3  # pinned


def test_nothing_moves(appended, unchanged):
    before, after = coats(ground.run([unchanged])), coats(ground.run([appended]))
    assert len(before) == len(after) == 42
    good = made = 0
    for (lines, nothing), (same, extra) in zip(before, after):
        assert nothing == []
        assert same[1:] == lines[1:]
        assert len(lines) > 200, lines
        shawl = is_shawl(lines)
        good += lines[0].startswith("status TAILOR_OK") and not shawl
        made += any(line.startswith("piece facing") for line in lines)
        if not shawl:
            assert same[0] == lines[0]
        assert extra == ["quantity appended_quantity nan",
                         "check appended_check 0 inf 0x1p+0" if shawl else "check appended_check -1 nan nan"]
    assert good >= 24 and made == 21


def test_a_check_that_nobody_measures_fails_its_coats(appended):
    """Only shawls should have it, and no other check of theirs fails."""
    refused = [lines[0] for lines, _ in coats(ground.run([appended])) if is_shawl(lines)]
    assert len(refused) == 14
    for status in refused:
        assert status.startswith("status TAILOR_CHECK_FAILED check appended_check: inf mm, at most 1 mm is allowed: "
                                 "look at chest_girth ")


def test_the_appended_choice_is_drafted(appended, unchanged):
    """A choice needs nothing but its row: its traits say how the front fastens."""
    lines = ground.run([appended, "four-button"]).splitlines()
    assert lines[0].startswith("status TAILOR_OK"), lines[0]
    values = {tuple(line.split(" ")[:2]): line.split(" ")[2] for line in lines if line.startswith("quantity ")}
    assert float.fromhex(values["quantity", "button_count"]) == float.fromhex(values["quantity", "hole_count"]) == 4
    assert float.fromhex(values["quantity", "coverage_scye_rolled"]) > 0
    ground.run([unchanged, "four-button"], expect=1)
