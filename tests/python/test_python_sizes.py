"""Size tables: SciPy's monotone cubic as the reference, the tables of the project against their sources, and files
that are no tables."""
import csv
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import PchipInterpolator

import built
from built import tg

SIZES = built.ROOT / "shared/sizes"
TABLES = sorted(SIZES.glob("*.csv"))
INCH = 25.4

steps = st.lists(
    st.tuples(st.floats(2, 60), st.floats(0, 70), st.booleans()), min_size=1, max_size=12
)


@settings(max_examples=150)
@given(steps, st.floats(0, 1), st.integers(0, 11))
def test_between_rows_it_is_scipys_monotone_cubic(rises, share, where):
    chest, waist = [760.0], [600.0]
    for chest_step, waist_step, flat in rises:
        chest.append(chest[-1] + chest_step)
        waist.append(waist[-1] + (0 if flat else waist_step))
    table = tg.SizeTable({"chest_girth": chest, "waist_girth": waist})
    reference = PchipInterpolator(chest, waist)
    i = where % (len(chest) - 1)
    key = chest[i] + share * (chest[i + 1] - chest[i])
    assert table.at(chest_girth=key)["waist_girth"] == pytest.approx(float(reference(key)), abs=1e-9)
    # beyond the ends the tangent goes on
    slope = float(reference.derivative()(chest[-1]))
    beyond = table.at(chest_girth=chest[-1] + share * (chest[-1] - chest[-2]))
    assert beyond["waist_girth"] == pytest.approx(waist[-1] + slope * (beyond["chest_girth"] - chest[-1]), abs=1e-7)
    assert beyond.beyond == pytest.approx(share, abs=1e-9)


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_every_size_and_between_is_drafted(path):
    table = tg.read_sizes(path)
    for fit in table.fits:
        low, high, _, _ = table.range(fit)
        rows = [i for i, of in enumerate(table.row_fits) if of == fit]
        for i in rows:
            assert table.size(table.sizes[i], fit).draft().checks["seam_error"].holds
        for key in np.linspace(low, high, 9):
            coat = table.at(fit, chest_girth=float(key)).draft()  # all checks hold, or it raises
            assert coat.checks["seam_error"].value < 1e-6
            assert coat.quantities["finished_chest"] == pytest.approx(key + coat.fields["chest_ease"], abs=0.05)


@pytest.mark.parametrize("path", TABLES, ids=lambda path: path.stem)
def test_every_table_says_where_it_comes_from(path):
    table = tg.read_sizes(path)
    assert {"title", "key", "unit", "source", "provenance"} <= set(table.about)
    assert table.about["key"] == table.columns[0]
    assert set(table.fit_meanings) == set(table.fits)
    assert all(table.about.values()) and all(table.fit_meanings.values())
    assert f"`{path.stem}`" in (SIZES / "README.md").read_text()


def test_ansur_table_is_the_regressions():
    """Gordon et al. 2014, NATICK/TR-15/007, men (n = 4082): linear regressions on the chest, standard errors 66.43
    (stature) and 51.81 (waist); the sleeve outseam on the stature."""
    table = tg.read_sizes(SIZES / "ansur2_men.csv")
    off = {"short": (-66.43, 0), "regular": (0, 0), "long": (66.43, 0), "slim": (0, -51.81), "stout": (0, 51.81)}
    assert table.fits == tuple(off)
    for i, (name, fit) in enumerate(zip(table.sizes, table.row_fits)):
        row, chest = table.size(name, fit), 10 * float(name)
        stature = 0.19396 * chest + 1550.869 + off[fit][0]
        assert row["chest_girth"] == chest
        for field, value in {
            "stature": stature,
            "waist_girth": 1.1319 * chest - 257.774 + off[fit][1],
            "seat_girth": 0.73346 * chest + 243.005,
            "neck_girth": 0.23375 * chest + 150.174,
            "arm_length": 0.36115 * stature - 41.127,
            "wrist_girth": 0.06199 * chest + 110.292,
        }.items():
            assert row[field] == pytest.approx(value, abs=0.0501), (i, field)
    # neck at chest 1000: 383.92 (the same regression); growth of the neck for 2 in of chest: 11.88
    assert table.at(chest_girth=1000)["neck_girth"] == pytest.approx(383.92, abs=0.1)
    growth = table.at(chest_girth=1050.8)["neck_girth"] - table.at(chest_girth=1000)["neck_girth"]
    assert growth == pytest.approx(11.88, abs=0.15)


def test_vincents_rules_and_their_growth():
    """Vincent's Systems of Cutting, djvu/39: at breast 36 depth of scye 9 and front shoulder 12 1/2, at 40 9.6667 and
    13.5; for 2 in of breast 1/3 and 1/2 more. Part 1 of 1898, p. 3: front shoulder breast/4 + 3 1/2 at 27 to 35."""
    table = tg.read_sizes(SIZES / "vincent_systems.csv")
    for breast in np.arange(34, 46.01, 0.5):
        row = table.at(chest_girth=float(breast * INCH))
        assert row["scye_depth"] / INCH == pytest.approx(breast / 6 + 3, abs=1e-9)
        assert row["front_shoulder"] / INCH == pytest.approx(breast / 4 + 3.5, abs=1e-9)
    assert table.at(chest_girth=36 * INCH)["scye_depth"] == pytest.approx(9 * INCH)
    assert table.at(chest_girth=40 * INCH)["front_shoulder"] == pytest.approx(13.5 * INCH)
    youths = tg.read_sizes(SIZES / "vincent_youths.csv")
    for name in youths.sizes:
        assert youths.size(name)["front_shoulder"] / INCH == pytest.approx(float(name) / 4 + 3.5, abs=1e-9)


def test_shoulder_grows_more_in_the_draft_than_on_measured_men():
    """ANSUR II: shoulder length = 134.133 + 0.01478 chest, 0.75 mm for 2 in of chest. The draft's shoulder follows the
    back width, which grows 14.1 mm for 2 in, as the recipe has it: some 5.3 mm. Known, and not what men are; a house
    that wants the survey's growth gives its size table a back_width of its own."""
    survey = 0.01478 * 2 * INCH
    assert survey == pytest.approx(0.75, abs=0.1)
    small, large = tg.draft(chest_girth=1000), tg.draft(chest_girth=1000 + 2 * INCH)
    growth = large.quantities["back_shoulder_length"] - small.quantities["back_shoulder_length"]
    assert 5.0 < growth < 5.6
    # of one back the shoulder hardly changes with the chest: it is the back width that the draft follows
    same = tg.draft(chest_girth=1000 + 2 * INCH, back_width=small.fields["back_width"])
    change = same.quantities["back_shoulder_length"] - small.quantities["back_shoulder_length"]
    assert abs(change) < 2.5


def test_fits_lie_side_by_side():
    table = tg.read_sizes(SIZES / "merrow_and_vane.csv")
    short, regular, long = (table.at(fit, chest_girth=1000)["stature"] for fit in ("short", "regular", "long"))
    assert short < regular < long
    assert table.at(1.5, chest_girth=1000)["stature"] == pytest.approx((short + regular) / 2)
    assert table.at(chest_girth=1000)["stature"] == regular  # regular is meant where nothing is said
    near = table.nearest(chest_girth=1010, stature=1850, waist_girth=880)
    assert (near.size, near.fit, near.reason) == ("40", "long", "stature")
    assert near.differences["chest_girth"] == pytest.approx(-6)
    assert near.differences["waist_girth"] == pytest.approx(880 - 890)
    assert set(near.differences) == {"chest_girth", "stature", "waist_girth"}
    order = table.at("long", chest_girth=1013, stature=1800, arm_length="66 cm", lapel="peak")
    assert order["stature"] == 1800 and order["arm_length"] == 660 and order["lapel"] == "peak"
    assert order.draft(buttoning="three-button").fields["buttoning"] == "three-button"


def test_what_cannot_be_read(tmp_path):
    def write(text, name="table.csv"):
        path = tmp_path / name
        path.write_bytes(text if isinstance(text, bytes) else text.encode())
        return path

    bad = {
        "": "empty",
        "size,fit,chest_girth\n": "no sizes",
        "size,fit\n36,regular\n": "no field",
        "size;chest_girth\n36;914\n": "write commas",
        "size,chest_girth\n36,914,1\n": "line 2: 3 cells for 2 columns",
        "chest_girth,chest_girth\n914,914\n": "twice",
        "chest_girt\n914\n": "chest_girth",
        "chest_girth\n38\n": "did you mean 38 in",
        "chest_girth\n914,5\n": "cells",
        'chest_girth\n"914,5"\n': "comma",
        "chest_girth\nnan\n": "not a length",
        "chest_girth\n965\n914\n": "sizes go backwards: chest_girth 914 mm",
        "chest_girth,seat_girth\n914,940\n965,1143\n1016,1000\n": "seat_girth turns back",
        "chest_girth,seat_girth\n914,940\n965,\n": "given for some sizes",
        "chest_girth,fit\n914,short\n965,long\n1016,short\n": "fits are numbered",
        b"chest_girth\n\xff\xfe914\n": "UTF-8",
        "chest_girth,lapel\n914,fishtail\n": "lapel",
    }
    for text, said in bad.items():
        with pytest.raises(tg.TailorError) as caught:
            tg.read_sizes(write(text))
        assert said in str(caught.value), (text, str(caught.value))
    with pytest.raises(OSError):
        tg.read_sizes(tmp_path / "nowhere.csv")
    good = write("\ufeffsize,chest_girth\n36,36 in\n38,38 in\n", "good.csv")
    assert tg.read_sizes(good).at(chest_girth="37 in")["chest_girth"] == pytest.approx(37 * INCH)
    write("[table\ntitle = x\n", "good.ini")
    with pytest.raises(tg.TailorError, match="good.ini"):
        tg.read_sizes(good)


def test_what_at_and_nearest_refuse():
    table = tg.read_sizes(SIZES / "ansur2_men.csv")
    with pytest.raises(tg.OrderError) as caught:
        table.at(chest_girth=1300)
    assert (caught.value.field, caught.value.low, caught.value.high) == ("chest_girth", 840, 1280)
    assert table.at(chest_girth=1260).beyond == pytest.approx(0.5)
    assert table.at(chest_girth=850).beyond == pytest.approx(-0.75)
    with pytest.raises(tg.OrderError):
        table.at(stature=1800)
    with pytest.raises(tg.OrderError, match="chest_girth"):
        table.at(chest_grith=1000)
    with pytest.raises(ValueError, match="no fit"):
        table.at("portly", chest_girth=1000)
    with pytest.raises(tg.CallError):
        table.at(6.0, chest_girth=1000)
    with pytest.raises(tg.OrderError):
        table.nearest(chest_girth=40)
    with pytest.raises(ValueError, match="no size"):
        table.size("89")


def test_files_and_columns_are_fields():
    """A header is read as it stands, by any other reader too."""
    for path in TABLES:
        header = next(csv.reader(path.read_text().splitlines()))
        assert header[:2] == ["size", "fit"] and set(header[2:]) <= set(tg.fields())
        assert not re.search(r"[^\x20-\x7e\n]", path.read_text())
