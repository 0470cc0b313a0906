"""cloth and roll from Python: closed formulas, arrays, errors, the code in their docstrings."""
import math
import pickle
import re

import numpy as np
import pytest

import built
from built import tg

cloth, roll = tg.cloth, tg.roll
WOOL = cloth.Cloth(
    weight=280,
    stretch_warp=4900,
    stretch_weft=3300,
    shear=50,
    contraction=0.15,
    bending_warp=12,
    bending_weft=8,
    twist=2.2,
    thickness=0.6,
)
CLOTHS = cloth.read_cloths(built.ROOT / "shared/cloths.csv")
FRONT = cloth.Layers(WOOL, cloth.Layer(CLOTHS["hair-canvas"], angle=45))
MAKING = dict(lapel_width=88, button_spacing=105, break_above=115, break_length=329, break_angle=13.2)


def test_along_is_the_formula_for_arrays_of_any_shape():
    angles = np.linspace(-180, 180, 24).reshape(2, 3, 4)
    c, s = np.cos(np.radians(angles)), np.sin(np.radians(angles))
    along = WOOL.along(angles)
    assert along.stretch.shape == angles.shape and isinstance(WOOL.along(45).stretch, float)
    expected = 1 / (c**4 / 4900 + s**4 / 3300 + (1 / 50 - 0.3 / 4900) * (s * c) ** 2)
    np.testing.assert_allclose(along.stretch, expected, rtol=1e-12)
    np.testing.assert_allclose(along.bending, 12 * c**4 + 8 * s**4 + 8.8 * (s * c) ** 2, rtol=1e-12)
    np.testing.assert_allclose(along.bending_across, WOOL.along(angles + 90).bending, rtol=1e-12)
    np.testing.assert_allclose(cloth.Layers(WOOL).along(angles).stretch, expected, rtol=1e-12)
    assert WOOL.along([]).stretch.shape == (0,)


def test_a_cloth_reads_well_and_does_not_change():
    assert WOOL.weight == 280 and WOOL.twist == 2.2 and "shear=50" in repr(WOOL)
    assert pickle.loads(pickle.dumps(WOOL)) == WOOL and hash(WOOL) == hash(eval(repr(WOOL), {"Cloth": cloth.Cloth}))
    assert CLOTHS["medium-worsted"] == WOOL != CLOTHS["soft-canvas"]
    for thing in (WOOL, FRONT):
        with pytest.raises(AttributeError):
            thing.weight = 300
    with pytest.raises(AttributeError, match="no price"):
        WOOL.price
    with pytest.raises(ValueError):
        np.asarray(WOOL)[1] = 5
    assert pickle.loads(pickle.dumps(FRONT)).along(10) == FRONT.along(10) and "480 g/m2" in repr(FRONT)


def test_refusals_tell_the_property():
    with pytest.raises(tg.OrderError, match="shear of a cloth is -1 N/m") as caught:
        cloth.Cloth(**{name: getattr(WOOL, name) for name in cloth.PROPERTIES if name != "shear"}, shear=-1)
    assert (caught.value.table, caught.value.field, caught.value.value) == ("cloth", "shear", -1)
    with pytest.raises(tg.OrderError, match="weight of a cloth is not given"):
        cloth.Cloth()
    with pytest.raises(tg.CallError, match="no colour"):
        cloth.Cloth(colour=3)
    with pytest.raises(tg.CallError, match="padded, fused"):
        cloth.Layers(WOOL, cloth.Layer(WOOL, joint="pinned"))
    with pytest.raises(tg.CallError):
        cloth.Layers()
    with pytest.raises(tg.OrderError):
        cloth.droop(20, -5)
    with pytest.raises(tg.OrderError, match="the lapel width is not given"):
        roll.estimate(FRONT)
    with pytest.raises(tg.OrderError):
        roll.free_fold(0)


def test_layers():
    percent, beyond = FRONT.stretch(13.2, 0.1)
    assert percent == pytest.approx(0.142, abs=5e-4) and not beyond
    angle, stiffness = cloth.Layers(CLOTHS["hair-canvas"]).greatest_stretch()
    assert angle == pytest.approx(44.9, abs=0.06)
    assert stiffness == pytest.approx(cloth.Layers(CLOTHS["hair-canvas"]).along(angle).stretch, rel=1e-12)
    other = cloth.Layers(WOOL, cloth.Layer(CLOTHS["hair-canvas"], angle=-45))
    assert FRONT.along(13.2).bending_across > 2.5 * other.along(13.2).bending_across
    fused = cloth.Layers(WOOL, cloth.Layer(CLOTHS["light-fusible"], joint="fused", hold=0.15))
    assert fused.along(0).bending > cloth.Layers(WOOL, CLOTHS["light-fusible"]).along(0).bending


def test_tests_of_strips():
    made = cloth.Cloth.from_tests(
        weight=280,
        thickness=0.6,
        bending_length_warp=cloth.bending_length_of_droop(2 * 16.35),
        bending_length_weft=WOOL.along(90).bending_length,
        bending_length_bias=WOOL.along(45).bending_length,
        stretch_warp=9806.65 / 4900,
        stretch_weft=9806.65 / 3300,
        stretch_bias=490.3325 / WOOL.along(45).stretch,
        contraction=0.15,
    )
    for name in cloth.PROPERTIES:
        assert getattr(made, name) == pytest.approx(getattr(WOOL, name), rel=0.01), name


def test_trellis_and_droop():
    shear = np.array([0.0, 30.0, 60.0])
    np.testing.assert_allclose(cloth.trellis_line(shear), np.sqrt(1 + np.sin(np.radians(shear))), rtol=1e-14)
    np.testing.assert_allclose(cloth.trellis_shear(cloth.trellis_line(shear) - 1), shear, atol=1e-6)
    np.testing.assert_allclose(cloth.trellis_area(shear), np.cos(np.radians(shear)), rtol=1e-14)
    hung = cloth.droop(20, 40)
    assert hung.chord_angle == pytest.approx(41.4873, abs=1e-4)
    assert math.degrees(math.atan2(hung.drop, hung.reach)) == pytest.approx(hung.chord_angle, rel=1e-12)
    assert cloth.bending_length_of_droop(40) == pytest.approx(20, rel=5e-4)
    assert cloth.standing_height(20) == pytest.approx(20 * 7.837347439 ** (1 / 3), rel=1e-9)
    assert cloth.droop(20, 30, 90).drop == pytest.approx(-30)


def test_section_and_free_fold():
    folded = roll.section(22, 85, set=165)
    assert folded.lies is True and folded.edge_height == 0 and folded.line.shape == (201, 2)
    assert folded.line[:, 1].max() == pytest.approx(folded.crest_height) and 11 < folded.crest_height < 13
    assert roll.section(40, 50).lies is False
    quick = roll.section(22, 85, set=165, links=40)
    assert quick.line.shape == (41, 2) and quick.crest_height == pytest.approx(folded.crest_height, rel=0.02)
    assert roll.free_fold(10).height == pytest.approx(9.065967, abs=1e-6)
    with pytest.raises(tg.CallError, match="no colour"):
        roll.section(22, 85, colour=1)


def test_estimate_says_nothing_out_of_range():
    found = roll.estimate(FRONT, **MAKING, bridle_stiffness=600, bridle_drawn_in=6)
    assert found.in_range is True and found.roll_class == "holds" and found.band == 12
    assert found.bridle_tension == pytest.approx(
        roll.bridle_tension(600, 6, 329, FRONT.along(13.2).stretch), rel=1e-12
    )
    loose = roll.estimate(FRONT, **MAKING)
    assert loose.roll_class == "rolls through" and loose.distance > found.distance
    beyond = roll.estimate(FRONT, **{**MAKING, "lapel_width": 59})
    assert beyond.in_range is False and beyond.roll_class is beyond.distance is beyond.band is None
    assert beyond.bending_length > 0 and beyond.buttonhole_ratio == roll.buttonhole_ratio(0, 50) == 0


@pytest.mark.parametrize("module", [cloth, roll], ids=lambda module: module.__name__)
def test_code_in_docstrings_runs(module):
    lines = [line[4:] for line in module.__doc__.splitlines() if line.startswith("    ")]
    space = {"front": FRONT}
    exec("\n".join(lines), space)
    if module is roll:  # what it says that comes out is what comes out
        said = re.search(r'# "(.*)", ([\d.]+), ([\d.]+)', module.__doc__)
        found = space["found"]
        assert (found.roll_class, f"{found.distance:.1f}", f"{found.band:.1f}") == said.groups()


def test_everything_public_has_a_docstring():
    for module in (cloth, roll):
        for name in module.__all__:
            assert getattr(module, name).__doc__, name
