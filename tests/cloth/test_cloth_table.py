"""The project's table of cloths: every row is a sheet, and says what stands behind it."""
import csv
import ctypes
import math
import os
import pathlib
import re

import pytest

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("TAILOR_BUILD", ROOT / "build-tests/gcc"))
C = ctypes.CDLL(str(BUILD / "lib/libtailorgeom.so.1"))
C.tailor_cloth_table.restype = C.tailor_table_text.restype = ctypes.c_void_p
C.tailor_table_text.argtypes = [ctypes.c_void_p, ctypes.c_int, ctypes.c_int]
LINES = (ROOT / "shared/cloths.csv").read_text().splitlines()
ROWS = list(csv.DictReader(line for line in LINES if not line.startswith("#")))
NAME = 1  # TAILOR_COLUMN_NAME


def properties():
    table, names = C.tailor_cloth_table(), []
    for number in range(1, C.tailor_table_size(ctypes.c_void_p(table))):
        names.append(ctypes.string_at(C.tailor_table_text(table, number, NAME)).decode())
    return names


def check(row):
    names = properties()
    cloth = (ctypes.c_double * (len(names) + 1))(math.nan, *(float(row[name]) for name in names))
    return C.tailor_cloth_check(cloth, ctypes.c_size_t(len(cloth)), None)


def test_columns_are_the_properties():
    assert list(ROWS[0]) == ["name", "use", *properties(), "source"]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row["name"])
def test_every_row_is_a_sheet(row):
    assert check(row) == 0
    assert None not in row and re.fullmatch(r"[a-z]+(-[a-z]+)*", row["name"])
    assert row["use"] in ("cloth", "canvas", "collar", "fusible")
    assert re.match(r"(range: .*judgement|judgement: )", row["source"]) and len(row["source"]) > 20
    guessed = 0.9 * math.sqrt(float(row["bending_warp"]) * float(row["bending_weft"])) / 4
    if "twist judgement" not in row["source"] and row["name"] != "collar-melton":
        assert abs(float(row["twist"]) / guessed - 1) < 0.05


def test_names_are_unique_and_a_bad_row_is_seen():
    assert len({row["name"] for row in ROWS}) == len(ROWS) >= 8
    assert check({**ROWS[0], "shear": "-1"}) != 0 and check({**ROWS[0], "contraction": "1.9"}) != 0
