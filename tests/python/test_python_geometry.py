"""Path and the fold functions: against Shapely (GEOS), closed formulas, and themselves backward."""
import math
import pickle

import numpy as np
import pytest
import shapely.geometry
from hypothesis import assume, given, settings
from hypothesis import strategies as some

from built import tg

Path = tg.Path
NUMBER = some.floats(-500, 500).map(lambda x: round(x, 3))
POINT = some.tuples(NUMBER, NUMBER)
POINTS = some.lists(POINT, min_size=3, max_size=7, unique=True)
LINE = some.tuples(POINT, POINT).filter(lambda line: math.dist(*line) > 1)


def smooth(points):
    assume(all(math.dist(a, b) > 0.5 for a, b in zip(points, points[1:])))
    return Path.smooth(points)


@given(POINTS)
def test_length_and_points_against_geos(points):
    path = smooth(points)
    line = shapely.geometry.LineString(path.flatten(1e-3))
    assert path.length == pytest.approx(line.length, rel=1e-3) and path.length >= line.length - 1e-6
    assert path.lengths.sum() == pytest.approx(path.length, rel=1e-12)
    assert np.allclose(path.point([0, len(path)]), [points[0], points[-1]])
    for place in (0.3, len(path) * 0.77):
        assert line.distance(shapely.geometry.Point(*path.point(place))) < 2e-3
    half = path.at_length(path.length / 2)
    assert path.length_to(half) == pytest.approx(path.length / 2, rel=1e-12)
    assert np.allclose(path.at_length([0, path.length / 2, path.length]), [0, half, len(path)])
    assert path.bounds == pytest.approx(line.bounds, abs=2e-3)


@given(POINTS)
def test_area_against_geos(points):
    path = Path.polygon(points)
    ring = shapely.geometry.Polygon(points)
    if ring.is_valid and ring.area > 1:
        assert abs(path.area) == pytest.approx(ring.area, rel=1e-9)
        assert path.centroid == pytest.approx(np.ravel(ring.centroid.coords), rel=1e-6, abs=1e-6)
        assert path.moments[0] == pytest.approx(path.area, rel=1e-9)
        inside = ring.representative_point()
        assert path.winding((inside.x, inside.y)) == (1 if ring.exterior.is_ccw else -1)
        assert path.winding([(inside.x, inside.y), (1e4, 1e4)]).tolist()[1] == 0


@given(POINTS, POINT)
def test_nearest_against_geos(points, p):
    path = smooth(points)
    place, distance = path.nearest(p)
    assert math.dist(path.point(place), p) == pytest.approx(distance, abs=1e-9)
    assert distance == pytest.approx(
        shapely.geometry.LineString(path.flatten(1e-4)).distance(shapely.geometry.Point(p)), abs=1e-3
    )
    places, distances = path.nearest([p, points[0]])
    assert places[0] == place and distances[1] == pytest.approx(0, abs=1e-9)


@given(POINTS, LINE)
def test_reflect_is_its_own_inverse(points, line):
    path = smooth(points)
    image = path.reflect(*line)
    assert np.allclose(image.reflect(*line).cubics, path.cubics, atol=1e-6)
    assert image.length == pytest.approx(path.length, rel=1e-9) and image.area == pytest.approx(-path.area, abs=1e-3)
    assert np.allclose(tg.reflect(path.cubics, *line), image.cubics, atol=1e-9)
    assert np.allclose(tg.reflect(points, *line), tg.reflect(np.array(points), *line))


@given(POINTS)
def test_cutting_and_joining(points):
    path = smooth(points)
    first, second = path.part(0, 0.4 * len(path)), path.part(0.4 * len(path), len(path))
    assert first.length + second.length == pytest.approx(path.length, rel=1e-9)
    joined = first.join(second)
    assert joined.length == pytest.approx(path.length, rel=1e-9) and joined.gap() == 0
    assert path.reversed().reversed() == path and np.allclose(path.reversed().start, path.end)
    assert path.move(3, -4).start == pytest.approx(path.start + (3, -4))
    assert path.transform((2, 0, 0, 2, 0, 0)).length == pytest.approx(2 * path.length, rel=1e-9)
    closed = path.close()
    assert closed.closed and closed.gap() == 0 and closed.area == pytest.approx(path.area, abs=1e-6)


def test_crossings():
    wave, line = Path.smooth([(0, 0), (10, 10), (20, -10), (30, 10), (40, 0)]), Path.line((-5, 1), (45, 1))
    places = wave.cross_line((0, 1), (1, 1))
    assert len(places) == 4 and np.allclose(wave.point(places)[:, 1], 1)
    ours, others = wave.cross(line)
    assert np.allclose(ours, places, atol=1e-9) and np.allclose(line.point(others), wave.point(ours), atol=1e-6)
    assert len(wave.cross_line((0, 50), (1, 50))) == 0
    with pytest.raises(tg.GeometryError):
        wave.cross(wave)
    assert wave.crosses_itself() is None
    loop = Path.smooth([(0, 0), (10, 10), (10, 0), (0, 10)])
    low, high = loop.crosses_itself()
    assert np.allclose(loop.point(low), loop.point(high), atol=1e-6)


def test_arc_and_curvature():
    circle = Path.arc((5, 6), 100, 0, 360)
    assert circle.length == pytest.approx(200 * math.pi, rel=1e-5) and circle.area == pytest.approx(
        1e4 * math.pi, rel=1e-5
    )
    assert circle.curvature([0.5, 3.2]) == pytest.approx([0.01, 0.01], rel=1e-3)
    assert Path.arc((5, 6), 100, 360, 0).area == pytest.approx(-circle.area)
    assert np.allclose(circle.direction(0), (0, 1), atol=1e-9)
    assert Path.hermite((0, 0), (1, 0), (3, 0), (1, 0)).length == pytest.approx(3)
    assert Path.monotone([(0, 0), (5, 10), (4, 30)]).bounds[2] == pytest.approx(5)


@settings(max_examples=40)
@given(some.floats(20, 200), some.floats(20, 200), some.floats(-8, 15), some.sampled_from(["mitre", "round", "bevel"]))
def test_offset_of_outlines_against_geos(width, height, distance, corner):
    assume(abs(distance) > 0.1)
    box = [(0, 0), (width, 0), (width, height), (0, height)]
    offset = Path.polygon(box).offset_outline(distance, corner, tolerance=1e-3)
    style = {"round": 1, "mitre": 2, "bevel": 3}[corner]
    geos = shapely.geometry.Polygon(box).buffer(distance, join_style=style, mitre_limit=4, resolution=64)
    assert offset.closed and offset.area == pytest.approx(geos.area, rel=2e-3)


def test_offsets():
    box = Path.polygon([(0, 0), (100, 0), (100, 60), (0, 60)])
    assert box.offset_outline(-31) is None
    assert box.offset_outline([10, 0, 10, 0]).area == pytest.approx(100 * 80, rel=1e-6)
    edge = Path.smooth([(0, 0), (50, 10), (100, 0)])
    beside = edge.offset(10)
    assert np.allclose([edge.nearest(p)[1] for p in beside.flatten(0.1)], 10, atol=0.02)
    assert beside.point(0.5 * len(beside))[1] < edge.point(1)[1]  # to the right


def test_of_a_pattern():
    """The outline of a forepart, offset as a cutter adds 10 mm of seam: against GEOS on a fine polygon."""
    outline = tg.draft(chest_girth=1016).pieces["forepart"].outline
    cut = outline.offset_outline(10, "round")
    geos = shapely.geometry.Polygon(outline.flatten(1e-3)).buffer(10, resolution=64)
    assert cut.area == pytest.approx(geos.area, rel=1e-4)
    assert outline.area == pytest.approx(shapely.geometry.Polygon(outline.flatten(1e-4)).area, rel=1e-6)


@pytest.mark.parametrize(
    "call",
    [
        lambda: Path([[0, 0]]),
        lambda: Path.smooth([(0, 0)]),
        lambda: Path.smooth([(0, 0), (0, 0)]),
        lambda: Path.line((0, 0), (1, 1)).reflect((1, 1), (1, 1)),
        lambda: tg.reflect([(1, 2)], (0, 0), (0, 0)),
        lambda: tg.reflect([1, 2, 3], (0, 0), (1, 0)),
        lambda: Path.line((0, 0), (1, 0)).part(1, 0),
        lambda: Path.line((0, 0), (1, 0)).join(Path.line((2, 0), (3, 0))),
        lambda: Path.line((0, 0), (1, 0)).flatten(-1),
        lambda: Path.polygon([(0, 0), (1, 0), (1, 1)]).offset_outline(1, "sharp"),
        lambda: Path.line((0, 0), (1, 0)).transform([1, 2]),
        lambda: Path.line((0, 0), (1, 0)).cross_line((0, 0), (math.nan, 1)),
        lambda: tg.stand_point((0, 0), (0, 0), 20),
        lambda: tg.turn(Path.line((0, 0), (1, 1)), (0, 0), (0, 0)),
        lambda: tg.coverage((0, 100), (50, 0), 0, Path.line((50, 0), (50, -100)), 150),
    ],
)
def test_no_answer_is_an_exception(call):
    with pytest.raises(tg.TailorError) as caught:
        call()
    assert isinstance(caught.value, ValueError) and str(caught.value)


def test_a_path_is_an_array():
    path = Path.smooth([(0, 0), (10, 5), (20, 0)])
    assert np.asarray(path) is path.cubics and path[0].shape == (4, 2) and len(path) == 2
    assert path == Path(path.cubics.tolist()) and hash(path) == hash(Path(path.cubics)) and "2 cubics" in repr(path)
    assert pickle.loads(pickle.dumps(path)) == path
    mine = np.zeros((1, 4, 2))
    taken = Path(mine)
    mine += 1
    assert taken.length == 0 and not taken.cubics.any()
    empty = Path(np.empty((0, 4, 2)))
    assert empty.length == 0 and empty.area == 0 and empty.reversed() == empty and math.isnan(empty.curvature(0.0))


def test_fold_on_a_forepart():
    """The caller's own outlines: here those of a draft, which has measured the same itself."""
    coat = tg.draft(chest_girth=1016, buttoning="three-button")
    front, q = coat.pieces["forepart"], coat.quantities
    stand, broken = front.points["stand_point"], front.points["break_point"]
    assert tg.fold_angle(stand, broken) == pytest.approx(q["break_angle"], abs=1e-9)
    levels = [front.points["scye_front"][1], front.points["top_button_level"][1]]
    covered = tg.coverage(stand, broken, front.points["scye_front"][0], front.edges["front_edge"].path, levels)
    assert covered == pytest.approx([q["coverage_scye"], q["coverage_top_button"]], abs=1e-9)
    lapel = front.edges["lapel_edge"].path
    turned = tg.turn(lapel, stand, broken)
    assert turned.length == pytest.approx(lapel.length, rel=1e-12)
    assert np.allclose(tg.turn(turned, stand, broken), lapel, atol=1e-9)


def test_stand_point_runs_on():
    assert np.allclose(tg.stand_point((0, 0), (3, 4), 5), (6, 8))


@given(some.floats(-60, 60), some.floats(1, 500))
def test_fold_angle_is_the_lean_from_plumb(angle, length):
    top = (-length * math.sin(math.radians(angle)), length * math.cos(math.radians(angle)))
    assert tg.fold_angle(top, (0, 0)) == pytest.approx(angle, abs=1e-9)
