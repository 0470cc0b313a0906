"""A coat altered after a fitting, and the overlay of both: against draft() and against the C library's words."""
import xml.etree.ElementTree as tree

import pytest

from built import tg

COAT = dict(chest_girth=1016, waist_girth=890, arm_length=602, buttoning="two-button")


@pytest.fixture(scope="module")
def coat():
    return tg.draft(**COAT)


def test_altered_is_what_was_in_use_and_so_much_more(coat):
    altered = tg.alter(coat, side_let_out=6, arm_length_left="-10 mm", break_rise=-12, lapel_width="+1/8 in",
                       stoop=None)
    # what is altered is said outright; the rest is left to the rules as before
    lapel = dict(tg.draft(**COAT).fields)["lapel_width"] + 3.175
    same = tg.draft(**COAT, side_let_out=6, arm_length_left=592, break_rise=0, lapel_width=lapel)
    assert dict(altered.quantities) == pytest.approx(dict(same.quantities), nan_ok=True, abs=0)
    assert altered.given == same.given and coat.given == tg.draft(**COAT).given


def test_a_house_and_the_make_go_along(coat):
    house = tg.House({"lapel_width": 92, "hollow_limit": 22})
    altered = tg.alter(tg.draft(**COAT, house=house, make=True), lapel_width=-2)
    assert altered.given["lapel_width"] == 90 and "facing" in altered.pieces
    assert altered.quantities["hollow"] == tg.draft(**COAT, house=house).quantities["hollow"]


@pytest.mark.parametrize("deltas, words, field", [
    ({"arm_length": 300}, "arm_length 602 mm altered by +300 mm is 902 mm: 400 to 830 mm is allowed", "arm_length"),
    ({"buttoning": 1}, "buttoning is a choice", "buttoning"),
    ({"front_shoulder": 4}, "front_shoulder is neither given nor assumed", "front_shoulder"),
    ({"arm_lenght": 1}, "did you mean arm_length?", None),
    ({"crook": "5 violets"}, "crook", "crook"),
])
def test_refusals(coat, deltas, words, field):
    with pytest.raises(tg.OrderError) as refused:
        tg.alter(coat, **deltas)
    assert words in str(refused.value)
    if field:
        assert refused.value.field == field


def test_no_coat(coat):
    with pytest.raises(tg.DraftError):
        tg.alter(coat, stoop=29, balance=-20)


def test_overlay(coat, tmp_path):
    altered = tg.alter(coat, low_hip_left=6)
    overlay = tg.Overlay(coat, altered, ("old", "new"))
    svg = overlay.to_svg(title="Order 12")
    texts = [text.text for text in tree.fromstring(svg.encode()).iter("{http://www.w3.org/2000/svg}text")]
    assert {"Order 12 - for toile only", "before, dashed: old", "after, solid: new", "forepart left"} <= set(texts)
    overlay.to_pdf(tmp_path / "overlay.pdf")
    assert (tmp_path / "overlay.pdf").read_bytes().startswith(b"%PDF-")
    assert "<svg" in overlay._repr_svg_() and repr(overlay).startswith("<Overlay of <Pattern ")
