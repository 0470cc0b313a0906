"""lay(): the layouts looked at by Shapely (GEOS), which knows nothing of how they were made."""
import math
import pickle

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from shapely.geometry import Polygon, box

from built import tg

RECTANGLE = [(0, 0), (120, 0), (120, 50), (0, 50)]
L_SHAPE = [(0, 0), (100, 0), (100, 30), (30, 30), (30, 90), (0, 90)]


def rounded():
    """A piece with a hollow, all of curves."""
    return tg.Path(
        np.array(
            [
                [(0, 0), (60, -20), (120, -20), (180, 10)],
                [(180, 10), (200, 60), (190, 120), (150, 200)],
                [(150, 200), (100, 150), (60, 120), (-10, 190)],
                [(-10, 190), (70, 100), (60, 50), (0, 0)],
            ],
            dtype=float,
        ),
        closed=True,
    )


def look_at(lay, gap=0.0, tolerance=0.25):
    """Containment, distances and areas: of the polygons that were laid exactly, of the curves within a micrometre."""
    polygons = [Polygon(place.polygon) for place in lay.places]
    curves = [Polygon(place.outline.flatten(1e-3)) for place in lay.places]
    strip = box(0, 0, lay.length, lay.width)
    for polygon, curve in zip(polygons, curves):
        assert polygon.is_valid and polygon.exterior.is_ccw
        assert strip.buffer(tolerance).contains(polygon)
        assert strip.buffer(2e-3).contains(curve)
        assert curve.difference(polygon.buffer(tolerance + 1e-3)).is_empty
        assert curve.hausdorff_distance(polygon) <= tolerance + 2e-3
    for i, a in enumerate(polygons):
        for j in range(i):
            assert a.intersection(polygons[j]).area == 0
            assert a.distance(polygons[j]) >= gap * (1 - 1e-12)
            assert curves[i].intersection(curves[j]).area <= 1e-6 * curves[i].area
            assert curves[i].distance(curves[j]) >= gap - 4e-3
    area = sum(curve.area for curve in curves)
    assert lay.area == pytest.approx(area, rel=1e-4)
    assert lay.yield_ == pytest.approx(lay.area / (lay.width * lay.length), rel=1e-6)
    assert max(curve.bounds[2] for curve in curves) == pytest.approx(lay.length, abs=2e-3)
    assert lay.length >= lay.length_bound * (1 - 1e-6) >= 0.99 * area / lay.width
    assert lay.overlap_free()


def test_shapely_would_see_an_overlap():
    """The check can fail."""
    lay = tg.lay([RECTANGLE], 200, copies=2, iterations=0)
    place = lay.places[0]

    class Spoilt:
        places = [place, place]
        length, width, area, yield_, length_bound = lay.length, lay.width, lay.area, lay.yield_, lay.length_bound
        overlap_free = lay.overlap_free

    look_at(lay)
    with pytest.raises(AssertionError):
        look_at(Spoilt)


@pytest.mark.parametrize("angle", [0, 45, -30.5, 90])
@pytest.mark.parametrize("gap", [0, 5])
def test_curves_keep_the_gap(angle, gap):
    shapes = [rounded(), {"outline": L_SHAPE, "copies": 2, "mirrored": 0, "angle": 0}, RECTANGLE]
    lay = tg.lay(shapes, 420, gap=gap, angle=angle, copies=2, mirrored=2, half_turn=True, iterations=150)
    assert len(lay.places) == 10
    assert sorted((place.shape, place.mirrored) for place in lay.places) == [
        *[(0, False)] * 2, *[(0, True)] * 2, *[(1, False)] * 2, *[(2, False)] * 2, *[(2, True)] * 2
    ]
    look_at(lay, gap)
    areas = [tg.Path.polygon(RECTANGLE).area, rounded().area]
    assert {round(abs(place.outline.area), 3) for place in lay.places} >= {round(area, 3) for area in areas}


@settings(max_examples=25)
@given(
    some.lists(
        some.tuples(some.lists(some.floats(0.05, 1), min_size=3, max_size=14), some.floats(0, 360), some.booleans()),
        min_size=1, max_size=4,
    ),
    some.sampled_from([0.0, 0.5, 6.0]),
    some.integers(0, 2**64 - 1),
)
def test_polygons_of_any_kind(stars, gap, seed):
    shapes = []
    for radii, angle, half_turn in stars:
        turn = 2 * np.pi * np.arange(len(radii)) / len(radii)
        points = 100 * np.array(radii)[:, None] * np.stack([np.cos(turn), np.sin(turn)], axis=1)
        shapes.append({"outline": points, "angle": angle, "half_turn": half_turn, "copies": 2})
    lay = tg.lay(shapes, 260, gap=gap, tolerance=0, mirrored=1, iterations=20, seed=seed)
    look_at(lay, gap, 1e-3)


def test_tiles_leave_no_waste():
    lay = tg.lay([[(0, 0), (40, 0), (40, 50), (0, 50)]], 100, copies=6, iterations=50)
    assert lay.length == pytest.approx(120, abs=1e-3) and lay.yield_ == pytest.approx(1, abs=1e-5)


def test_steps_add_up_and_never_harm():
    one = tg.lay([L_SHAPE, RECTANGLE], 210, copies=3, half_turn=True, iterations=300)
    other = tg.lay([L_SHAPE, RECTANGLE], 210, copies=3, half_turn=True, iterations=0)
    lengths = [other.step(step).length for step in (0, 1, 49, 100, 150)]
    assert lengths == sorted(lengths, reverse=True)
    assert one.iterations == other.iterations == 300
    assert [(p.x, p.y, p.turned) for p in one.places] == [(p.x, p.y, p.turned) for p in other.places]
    assert "6 places" in repr(one)


def test_doubled_cloth():
    lay = tg.lay([rounded()], 800, copies=2, mirrored=2, doubled=True, half_turn=True, iterations=50)
    assert lay.width == 400 and len(lay.places) == 2 and not any(place.mirrored for place in lay.places)
    look_at(lay)


def test_refusals_name_shape_and_width():
    with pytest.raises(tg.OrderError, match="shape 2 needs a strip of 120 at its angle: the width is 100") as caught:
        tg.lay([L_SHAPE, {"outline": RECTANGLE, "angle": 90}], 100)
    assert caught.value.value == pytest.approx(120, abs=1e-3) and caught.value.high == 100
    with pytest.raises(tg.GeometryError, match="shape 1 crosses or touches itself"):
        tg.lay([[(0, 0), (10, 10), (10, 0), (0, 10)]], 100)
    with pytest.raises(tg.OrderError, match="not a number"):
        tg.lay([[(0, 0), (10, math.nan), (10, 0)]], 100)
    for bad in ({"copies": 0}, {"gap": -1}, {"tolerance": -1}, {"doubled": True}):
        with pytest.raises(tg.CallError):
            tg.lay([RECTANGLE], 100, **bad)
    with pytest.raises(tg.CallError, match="not grain"):
        tg.lay([{"outline": RECTANGLE, "grain": 3}], 100)
    with pytest.raises(tg.CallError):
        tg.lay([], 100)
    with pytest.raises(tg.CallError):
        tg.lay([RECTANGLE], 100, iterations=-1)
    with pytest.raises(tg.CallError, match="curves"):
        tg.lay([rounded()], 800, tolerance=0)
    with pytest.raises(TypeError):
        pickle.dumps(tg.lay([RECTANGLE], 100))
