"""Examining patterns, with GEOS (Shapely) as the outside reference: whether a path is simple, where it crosses itself,
its turns, and how narrow a piece is."""
import json
import warnings

import numpy as np
import pytest
from shapely.geometry import LinearRing, LineString, Point, Polygon
from shapely.ops import unary_union

from built import tg


def line(a, b):
    a, b = np.asarray(a, float), np.asarray(b, float)
    return np.array([a, a + (b - a) / 3, a + 2 * (b - a) / 3, b])


def polygon(corners):
    return np.array([line(a, b) for a, b in zip(corners, [*corners[1:], corners[0]])])


def piece(cubics, name="flap", cut=1):
    builder = tg.Builder()
    builder.piece(name, cut=cut)
    for i, cubic in enumerate(cubics):
        builder.edge(f"e{i}", cubic[None])
    return builder


def sampled(cubics, each=64):
    t = np.linspace(0, 1, each + 1)[:-1, None]
    weights = np.hstack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3])
    return np.vstack([weights @ cubic for cubic in cubics])


def simple(points):
    return LinearRing(points).is_simple


def nearest_crossing(points, at):
    """Distance from the nearest place where a closed polyline crosses itself: there GEOS cuts it."""
    cut = unary_union(LineString(np.vstack([points, points[:1]])))
    ends = {place for part in cut.geoms for place in (part.coords[0], part.coords[-1])} - {tuple(points[0])}
    return min(np.hypot(*(np.array(place) - at)) for place in ends)


def turns(points):
    way = np.diff(np.vstack([points, points[:2]]), axis=0)
    way = way[np.hypot(*way.T) > 1e-12]
    angle = np.arctan2(way[:, 1], way[:, 0])
    turned = np.diff(np.append(angle, angle[0]))
    return round(((turned + np.pi) % (2 * np.pi) - np.pi).sum() / (2 * np.pi))


def random_path(dice):
    """A closed path of 3 to 9 curves that runs counter-clockwise: often simple, often not."""
    n = dice.integers(3, 10)
    angle = np.sort(dice.uniform(0, 2 * np.pi, n))
    knots = dice.uniform(60, 400, n)[:, None] * np.column_stack([np.cos(angle), np.sin(angle)])
    wild = dice.choice([0.1, 0.4, 0.9])
    cubics = polygon(list(knots))
    cubics[:, 1:3] += dice.normal(0, 1, (n, 2, 2)) * wild * 150
    if tg.Path(cubics, True).area < 0:
        cubics = cubics[::-1, ::-1]
    return cubics


def test_random_paths_against_geos():
    dice, seen = np.random.default_rng(5), {"simple": 0, "crossing": 0, "wound": 0}
    for _ in range(600):
        cubics = random_path(dice)
        found = {finding.kind: finding for finding in piece(cubics).finish().examine()}
        points = sampled(cubics)
        if simple(points) != ("crossing" not in found):
            points = sampled(cubics, 4096)  # a small loop, or a near miss
        assert simple(points) == ("crossing" not in found)
        if "crossing" not in found:
            seen["simple"] += 1
            ring = Polygon(points)
            assert ring.exterior.is_ccw and "wound" not in found
            assert ring.area == pytest.approx(tg.Path(cubics, True).area, rel=1e-3)
            continue
        seen["crossing"] += 1
        crossing = found["crossing"]
        assert crossing.refuses and crossing.piece == "flap" and len(crossing.parts) in (1, 2)
        fine = sampled(cubics, 1024)
        assert nearest_crossing(fine, crossing.at) < 0.02
        turned = turns(fine)
        assert ("wound" in found) == (turned != 1)
        if turned != 1:
            seen["wound"] += 1
            assert found["wound"].value == turned
    assert min(seen.values()) > 60


def dumb_bell(dice, width):
    """Two blocks joined by a neck of that width, at any angle."""
    a, b, c, d = dice.uniform(30, 120, 4)
    long = dice.uniform(0.5, 60)
    corners = [(0, 0), (a, 0), (a, b), (a + long, b), (a + long, 0), (a + long + c, 0), (a + long + c, b + width + d),
               (a + long, b + width + d), (a + long, b + width), (a, b + width), (a, b + width + d), (0, b + width + d)]
    turn = dice.uniform(0, 2 * np.pi)
    matrix = np.array([[np.cos(turn), np.sin(turn)], [-np.sin(turn), np.cos(turn)]])
    return polygon(list(np.array(corners) @ matrix))


def test_necks_against_geos():
    dice, seen = np.random.default_rng(6), [0, 0]
    for _ in range(150):
        width = dice.uniform(1, 6)
        cubics = dumb_bell(dice, width)
        found = [finding for finding in piece(cubics).finish().examine() if finding.kind == "sliver"]
        shape = Polygon(cubics[:, 0])
        if shape.buffer(-1.45).geom_type == "MultiPolygon":  # a cutter of 2.9 mm round does not get through
            assert found
        if found:
            sliver, = found
            assert not sliver.refuses and len(sliver.parts) == 2
            assert sliver.value == pytest.approx(width, abs=0.1)
            at = Point(sliver.at)
            assert shape.contains(at) and shape.exterior.distance(at) == pytest.approx(sliver.value / 2, abs=0.1)
        seen[len(found)] += 1
    assert min(seen) > 40


def test_a_draft_has_no_findings():
    assert tg.draft(chest_girth=1016, make=True).examine() == ()
    assert tg.draft(chest_girth=1080, low_shoulder_left=10, buttoning="double-six", make=True).examine() == ()


HELD = {("forepart", name): (0, 0) for name in ("neck_point", "shoulder_end", "hem_front", "hem.start",
                                                "front_seam.start")}


def test_a_rule_that_turns_a_forepart_over():
    """The forepart came out, a third of its size and crossing itself, as a pattern to be cut."""
    coat = tg.draft(chest_girth=1016, stature=1780, make=True)
    grade = tg.Grade.from_rules(coat, {("forepart", "break_point"): (-260, 0), **HELD})
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        grade.apply(0.05)
    with pytest.raises(tg.GeometryError, match="piece 3, edges 1 and 4: its outline crosses or touches itself") as e:
        grade.apply(0.95)
    assert str(e.value).endswith("(forepart, front_seam and lapel_edge)")
    assert (e.value.table, e.value.field, e.value.name) == ("finding", "crossing", "TAILOR_UNSOUND")
    with pytest.warns(tg.PatternWarning, match=r"mark \d+: it lies .* outside of the piece") as told:
        grade.apply(0.5)
    assert all(warning.filename == __file__ for warning in told)


def test_what_is_read_is_examined(tmp_path):
    crossed = piece(polygon([(0, 0), (200, 0), (200, 100), (240, 100), (150, 60), (0, 100)])).finish()
    kinds = [finding.kind for finding in crossed.examine()]
    assert kinds == ["crossing", "wound"]
    tg.write_pattern(crossed, tmp_path / "bad.json")
    said = "bad.json: piece 1, edges 2 and 4: .* at x 200, y 82.* .flap, e1 and e3"
    with pytest.raises(tg.GeometryError, match=said):
        tg.read_pattern(tmp_path / "bad.json")
    thread = piece(polygon([(0, 0), (500, 0), (500, 2), (0, 2)])).finish()
    tg.write_pattern(thread, tmp_path / "thin.json")
    with pytest.warns(tg.PatternWarning, match="thin.json: piece 1, edges 1 and 3: only 2 mm wide"):
        again = tg.read_pattern(tmp_path / "thin.json")
    assert again.pieces["flap"].outline.area == pytest.approx(1000)


def test_findings_by_name():
    builder = piece(polygon([(0, 0), (200, 0), (200, 100), (0, 100)]), "back")
    builder.point("nape", (100, 3))
    builder.mark("drawn", "notch", line((50, 5), (50, -5))[None])
    builder.seam("round", ease=8)
    builder.stretch(0, "back", "e0", (0, 60))
    builder.stretch(1, "back", "e0", (200, 50))
    shapes = builder.finish()
    found = {finding.kind: finding for finding in shapes.examine()}
    assert list(found) == ["sewn_to_itself", "point_off", "mark_off", "seam_off"]
    assert found["sewn_to_itself"].parts == ("e0", "round") and found["sewn_to_itself"].value == pytest.approx(10)
    assert (found["point_off"].piece, found["point_off"].parts) == ("back", ("nape",))
    assert found["point_off"].value == pytest.approx(3) and found["point_off"].limit == 0.5
    assert found["mark_off"].parts == ("drawn",) and found["mark_off"].at == pytest.approx((50, -5))
    assert found["seam_off"].piece is None and found["seam_off"].parts == ("round",)
    assert found["seam_off"].value == pytest.approx(60 - 150 - 8)
    larger = piece(polygon([(0, 0), (900, 0), (900, 100), (0, 100)]), "back").finish()
    assert [f.kind for f in shapes.examine(base=larger)][-1] == "area_lost"
    other = piece(polygon([(0, 0), (90, 0), (90, 100)]), "front").finish()
    lost = shapes.examine(base=other)[-1]
    assert (lost.kind, lost.piece, lost.value) == ("area_lost", "front", 1)
    assert lost.sentence == "piece 1 of the base is not there (front)"
    with pytest.raises((ValueError, AttributeError)):
        lost.at[0] = 5


def test_many_findings():
    builder = tg.Builder()
    for i in range(50):
        builder.piece(f"thread_{i}")
        for k, cubic in enumerate(polygon([(0, 0), (500, 0), (500, 2), (0, 2)])):
            builder.edge(f"e{k}", cubic[None])
    found = builder.finish().examine()
    assert [finding.piece for finding in found] == [f"thread_{i}" for i in range(50)]
    json.dumps([finding.sentence for finding in found])
