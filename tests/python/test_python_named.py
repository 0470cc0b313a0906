"""Cloths by name in Python: the table, a file of one's own, draft, rows, compare, house; the section of the lapel."""
import csv
import json
import pickle

import numpy as np
import pandas
import pytest

import built
from built import tg

TABLE = list(csv.DictReader(open(built.ROOT / "shared/cloths.csv", encoding="utf-8")))
PROPERTIES = tg.cloth.PROPERTIES
HEAD = ",".join(["name", *PROPERTIES]) + "\n"
MINE = "mine,210,8100,12100,101,0.06,31,251,9,0.52\n"
FRONT = {"chest_girth": 1016.0, "buttoning": "three-button"}


def numbers(name, place="canvas"):
    (row,) = (row for row in TABLE if row["name"] == name)
    return {f"{place}_{key}": float(row[key]) for key in PROPERTIES}


@pytest.fixture
def mine(tmp_path):
    path = tmp_path / "cloths.csv"
    path.write_text(HEAD + MINE)
    return path


def test_the_table_is_the_csv():
    cloths = tg.cloths()
    assert list(cloths) == [row["name"] for row in TABLE] and len(cloths) == len(TABLE)
    for row in TABLE:
        one = cloths[row["name"]]
        assert (one.use, one.source) == (row["use"], row["source"])
        assert all(getattr(one.cloth, key) == float(row[key]) for key in PROPERTIES)
    assert "no measured hair canvas was found" in repr(cloths)


def test_the_command_line_has_the_same():
    listed = json.loads(built.run([built.CLI, "cloth", "list", "--json"]))["cloths"]
    assert {one["name"]: one["properties"] for one in listed} == {
        name: {key: getattr(one.cloth, key) for key in PROPERTIES} for name, one in tg.cloths().items()
    }


def test_draft_by_name():
    coat = tg.draft(**FRONT, canvas="hair-canvas", cloth="open-tweed")
    typed = tg.draft(**FRONT, **numbers("hair-canvas"), **numbers("open-tweed", "cloth"))
    assert dict(coat.given) == dict(typed.given) and dict(coat.fields) == dict(typed.fields)
    assert {coat.origins[name] for name in numbers("hair-canvas")} == {"client"}
    assert pickle.loads(pickle.dumps(coat)).given == typed.given
    same = tg.draft(**FRONT, canvas=tg.cloths()["hair-canvas"], cloth=tg.cloths()["open-tweed"].cloth)
    assert dict(same.quantities) == dict(coat.quantities) or all(
        a == b or (a != a and b != b) for a, b in zip(same.quantities.values(), coat.quantities.values())
    )
    assert dict(tg.draft(**FRONT, canvas=None, cloth=float("nan")).fields) == dict(tg.draft(**FRONT).fields)


def test_a_field_goes_before_a_name():
    assert tg.draft(**FRONT, canvas="hair-canvas", canvas_shear=77).fields["canvas_shear"] == 77
    assert tg.draft(**FRONT, canvas="hair-canvas", canvas_shear=None).fields["canvas_shear"] == 100


@pytest.mark.parametrize(
    "given, sentence",
    [
        ({"canvas": "hair-canvs"}, "canvas: there is no cloth 'hair-canvs': did you mean hair-canvas?"),
        ({"canvas": "qqqq"}, "canvas: there is no cloth 'qqqq': tailorgeom.cloths() has them"),
        ({"cloth": 5}, "cloth is given as a int"),
        ({"canvas": "hair-canvas", "stooop": 3}, "there is no field 'stooop': did you mean stoop?"),
    ],
)
def test_refusals(given, sentence):
    with pytest.raises(tg.OrderError) as refused:
        tg.draft(**FRONT, **given)
    assert str(refused.value).startswith(sentence)


def test_a_value_out_of_range_names_field_value_and_range():
    with pytest.raises(tg.OrderError) as refused:
        tg.draft(**FRONT, cloth="light-fusible")
    error = refused.value
    assert (error.field, error.value, error.low, error.high) == ("cloth_weight", 65, 180, 700)


def test_the_house_may_name_it(mine):
    house = tg.House({"canvas": "mine", "canvas_twist": 14}, cloths=mine)
    coat = tg.draft(**FRONT, house=house)
    assert coat.fields["canvas_weight"] == 210 and coat.fields["canvas_twist"] == 14
    assert coat.origins["canvas_weight"] == "house"
    assert pickle.loads(pickle.dumps(coat)).fields == coat.fields
    assert tg.draft(**FRONT, canvas="hair-canvas", house=house).fields["canvas_twist"] == 8


def test_a_file_of_ones_own(mine):
    assert list(tg.cloths(mine)) == ["mine", *tg.cloths()]
    assert tg.draft(**FRONT, canvas="mine", cloths=mine).fields["canvas_bending_weft"] == 251
    own = tg.cloths({"mine": tg.cloths()["soft-canvas"].cloth, "hair-canvas": tg.cloths()["linen-canvas"]})
    assert tg.draft(**FRONT, canvas="hair-canvas", cloths=own).fields["canvas_weight"] == 220
    with pytest.raises(tg.OrderError):
        tg.draft(**FRONT, canvas="mine")


@pytest.mark.parametrize(
    "text, sentence",
    [
        ("", "0: a file of cloths has one column name"),
        ("name,weight\n", "1: a file of cloths has one column stretch_warp"),
        (HEAD + "mine,210\n", "2: 2 cells, but the header has 10"),
        (HEAD + MINE + MINE, "3: column 1: this name stands already"),
        (HEAD + MINE.replace("0.06", '"0,06"'), "2: column 6: contraction is a plain number with a point: '0,06'"),
        (HEAD + MINE.replace("8100", "nan"), "2: column 3: stretch_warp is a plain number"),
        (HEAD + MINE.replace("210", "2"), "2: column 2: weight of a cloth is 2 g/m2: 20 to 2000 g/m2 is allowed"),
        (HEAD + 'mi"ne,"x"y\n', "2: "),
    ],
)
def test_a_file_that_is_refused(mine, text, sentence):
    mine.write_text(text)
    for read in (tg.cloths, tg.cloth.read_cloths):
        with pytest.raises(tg.OrderError) as refused:
            read(mine)
        assert str(refused.value).startswith(f"{mine}:{sentence}")


def test_rows_by_name(mine):
    names = ["hair-canvas", "hair-canvs", None, "mine"]
    table = {"chest_girth": [1016.0] * 4, "canvas": names, "canvas_weight": [180, np.nan, np.nan, np.nan]}
    found = tg.rows(table, ["break_bending", "break_stretch"], on_error="keep", cloths=mine)
    assert found["status"].tolist() == [0, 203, 0, 0] and "did you mean hair-canvas?" in found["message"][1]
    for row in (0, 2, 3):
        weight = None if row else 180
        coat = tg.draft(chest_girth=1016, canvas=names[row], canvas_weight=weight, cloths=mine)
        assert [found[name][row] for name in ("break_bending", "break_stretch")] == [
            coat.quantities[name] for name in ("break_bending", "break_stretch")
        ]
    with pytest.raises(tg.OrderError) as refused:
        tg.rows(table, "break_bending", cloths=mine)
    assert refused.value.row == 1
    frame = tg.rows(pandas.DataFrame(table), ["break_bending"], on_error="keep", cloths=mine)
    assert np.array_equal(frame["break_bending"], found["break_bending"], equal_nan=True)
    assert tg.rows({"chest_girth": [1016, 1000], "canvas": "hair-canvas"}, "break_bending")["break_bending"][0] == \
        tg.draft(chest_girth=1016, canvas="hair-canvas").quantities["break_bending"]


def test_compare_by_name():
    found = tg.compare({**FRONT, "canvas_weight": 300}, by={"canvas": ["soft-canvas", "hair-canvas"]})
    assert found.labels == ["soft-canvas", "hair-canvas"]
    for label, coat in found.patterns.items():
        assert coat.quantities["break_bending"] == tg.draft(**FRONT, canvas=label).quantities["break_bending"]
    base = tg.compare({**FRONT, "canvas": "hair-canvas"}, by={"lapel_width": [80.0, 90.0]})
    assert all(coat.fields["canvas_bending_weft"] == 250 for coat in base)
    with pytest.raises(tg.OrderError):
        tg.compare(FRONT, by={"canvas": ["hair-canvs"]})


@pytest.mark.parametrize("more", [{}, {"lapel_set": 60}, {"canvas": "linen-canvas", "canvas_angle": -45},
                                  {"house": {"lapel_set_band": 11}}])
def test_the_section_of_a_coat(more):
    coat = tg.draft(**FRONT, **more)
    section = coat.roll_section
    assert section.crest_height == pytest.approx(coat.quantities["roll_height"], rel=1e-12)
    assert section.crest_radius == pytest.approx(coat.quantities["roll_radius"], rel=1e-12)
    assert (1 if section.lies else 2) == coat.quantities["lapel_lies"]
    assert section.line.shape == (41, 2)
    svg = section.to_svg(title="Order 12")
    assert "Order 12" in svg and f">{round(section.crest_height, 1):g} mm<" in svg
    assert section.to_pdf().startswith(b"%PDF") and "<svg" in section._repr_svg_()
