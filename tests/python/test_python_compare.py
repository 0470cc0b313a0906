"""compare(): rows, labels, tables, house constants, refusals; and its fronts as sheets."""
import numpy as np
import pandas
import pytest

import built
from built import tg


@pytest.fixture(scope="module")
def seven():
    return tg.compare({"chest_girth": "40 in"})


def test_the_seven_fastenings(seven):
    assert seven.labels == list(tg.fields()["buttoning"].choices) and len(seven) == 7 and not seven.errors
    for label, coat in seven.patterns.items():
        alone = tg.draft(chest_girth=1016, buttoning=label)
        assert repr(coat.quantities) == repr(alone.quantities)
        assert seven[label] is coat
    assert seven[0] is seven["one-button"]
    assert isinstance(seven.table, pandas.DataFrame) and seven.table.shape == (7, len(tg.quantities()))
    assert seven.table.loc["two-button", "lapel_area"] == seven["two-button"].quantities["lapel_area"]
    with pytest.raises(KeyError):
        seven["four-button"]


def test_what_differs(seven):
    differing = seven.differing()
    assert {"coverage_scye", "lapel_area", "coverage_scye_rolled"} <= set(differing) and "crown_length" not in differing
    lines = str(seven).splitlines()
    assert lines[0].split() == seven.labels and len(lines) == 1 + len(differing)
    (row,) = [line.split() for line in lines if line.startswith("coverage_scye ")]
    assert row[1] == "mm" and [float(cell) for cell in row[2:]] == pytest.approx(
        seven.quantities["coverage_scye"], abs=0.05
    )


def test_as_the_command_line(seven, tmp_path):
    """The same order and the same numbers as `tailorgeom compare --json`."""
    import json

    (tmp_path / "card.ini").write_text("[measures]\nchest_girth = 40 in\n")
    told = json.loads(built.run([built.BUILD / "cli/tailorgeom", "compare", tmp_path / "card.ini", "--json"]))
    assert [row["buttoning"] for row in told["rows"]] == seven.labels
    for row, coat in zip(told["rows"], seven):
        ours = {name: None if np.isnan(value) else value for name, value in coat.quantities.items()}
        assert row["quantities"] == ours


def test_axes():
    both = tg.compare({"chest_girth": 1016}, by={"lapel_width": [80, 95.5], "hang": [10, 20], "lapel": ["peak", 1]})
    assert both.labels[:3] == ["80, 10, peak", "80, 10, 1", "80, 20, peak"] and len(both) == 8
    assert [coat.fields["lapel_width"] for coat in both] == [80.0] * 4 + [95.5] * 4
    assert [coat.constants["hang"] for coat in both] == [10.0, 10.0, 20.0, 20.0] * 2
    assert len(tg.compare({"chest_girth": 1016}, by={})) == 1
    with pytest.raises(tg.OrderError, match="lapel_width"):
        tg.compare({"chest_girth": 1016}, by={"lapelwidth": [80]})


def test_a_pattern_can_be_compared():
    coat = tg.draft(chest_girth=1016, stature=1850, buttoning=1, house={"chest_ease": 90})
    one = tg.compare(coat)["one-button"]
    assert repr(one.quantities) == repr(coat.quantities)


def test_refusals():
    with pytest.raises(tg.OrderError) as caught:
        tg.compare({"chest_girth": 1016}, by={"lapel_width": [80, 500]})
    assert str(caught.value).startswith("500: ") and caught.value.field == "lapel_width"
    kept = tg.compare({"chest_girth": 1016}, by={"lapel_width": [80, 500]}, on_error="keep")
    assert list(kept.errors) == ["500"] and list(kept.patterns) == ["80"]
    assert np.isnan(kept.quantities["lapel_area"][1]) and "refused" in str(kept)
    with pytest.raises(tg.OrderError):
        kept["500"]
    assert "<svg" in kept.to_svg()
    with pytest.raises(ValueError):
        tg.compare({"chest_girth": 1016}, on_error="skip")
