"""One coat in one object: what it says of itself, and pieces from elsewhere measured as it."""
import pickle

import numpy as np
import pytest

from built import tg

MEASURED = dict(
    chest_girth=1016, waist_girth=880, seat_girth=1030, back_waist_length=440, arm_length=610, back_width=390,
    shoulder_slope=21,
)  # fmt: skip


def test_for_toile_only_until_all_is_measured():
    coat = tg.draft(chest_girth=1016)
    caution = coat.cautions["toile_only"]
    assert caution.kind == "caution" and caution.value == 6
    assert "waist_girth" in caution.sentence and "chest_girth" not in caution.sentence
    assert not tg.draft(**MEASURED).cautions
    assert "toile_only" in tg.draft(**{**MEASURED, "back_width": None}).cautions
    assert not tg.draft(chest_girth=1016, making="made-to-measure").cautions
    assert set(coat.cautions) <= set(tg.cautions())


def test_a_deepened_scye_is_told_and_then_a_caution():
    kinds = {}
    for arm in range(330, 440, 10):
        coat = tg.draft(**MEASURED, upper_arm_girth=arm, checks="keep")
        deepened = coat.quantities["scye_deepened"]
        caution = coat.cautions.get("scye_deepened")
        kind = caution and caution.kind
        assert kind == (None if deepened < 1e-6 else "told" if deepened <= 8 else "caution"), (arm, deepened)
        assert caution is None or caution.value == deepened and f"{arm} mm" in caution.sentence
        kinds[kind] = True
    assert set(kinds) == {None, "told", "caution"}


def test_rows_say_the_same():
    table = {"chest_girth": [1016, 40, 1100], "making": ["bespoke", "bespoke", "made-to-measure"]}
    answer = tg.rows(table, "lapel_area", on_error="keep")
    assert answer["cautions"].tolist() == ["toile_only", "", ""]


def test_pieces_measured_as_the_coat():
    coat = tg.draft(**MEASURED, make=True)
    again = tg.measure(coat, like=coat)
    for name, value in coat.quantities.items():
        assert np.array_equal(again.quantities[name], value, equal_nan=True), name
    assert {n: (c.value, c.limit) for n, c in again.checks.items() if c.holds is not None} == {
        n: (c.value, c.limit) for n, c in coat.checks.items() if c.holds is not None}
    assert again.origins == coat.origins
    larger = tg.draft(**{**MEASURED, "chest_girth": 1040})
    with pytest.raises(tg.CheckError) as refused:
        tg.measure(larger, like=coat, checks="raise")
    assert any(check.holds is False for check in refused.value.pattern.checks.values())
    with pytest.raises(TypeError):
        pickle.dumps(again)


def test_what_is_no_coat():
    builder = tg.Builder()
    builder.piece("flap", cut=2, mirrored=True)
    builder.edge("mouth", [[(0, 0), (20, 0), (40, 0), (60, 0)]])
    builder.edge("round", [[(60, 0), (60, 80), (0, 80), (0, 0)]])
    with pytest.raises(tg.CallError, match="no piece back"):
        tg.measure(builder.finish(), like=tg.draft(chest_girth=1016))


def test_a_house_is_checked_when_it_is_made():
    with pytest.raises(tg.OrderError, match="in the house's values"):
        tg.House({"lapel_width": 900})
    house = tg.House({"lapel_width": 92, "hang": 18})
    coats = [tg.draft(chest_girth=1016, house=house) for _ in range(2)]
    del house
    assert [coat.fields["lapel_width"] for coat in coats] == [92, 92] and coats[0].constants["hang"] == 18
