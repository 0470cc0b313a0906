"""Geom against libraries that know nothing of it: mpmath and SciPy for lengths and splines, GEOS (through Shapely) for
areas, meetings, insides and offsets."""
import numpy as np
import mpmath
import pytest
import scipy.interpolate
import scipy.spatial
import shapely.geometry as shape

import geometry as g
from geometry import C, D, N, Point

mpmath.mp.dps = 22


def exact_length(c, to=1):
    """Integral of the speed, the interval cut where the speed is least: next to the roots of the hodograph."""
    z = [mpmath.mpc(*p) for p in c]
    a, b, d = 3 * (z[3] - 3 * z[2] + 3 * z[1] - z[0]), 6 * (z[0] - 2 * z[1] + z[2]), 3 * (z[1] - z[0])
    cuts = [mpmath.mpf(0), mpmath.mpf(to)]
    roots = np.roots([complex(a), complex(b), complex(d)])
    cuts += [mpmath.mpf(float(root.real)) for root in roots if 0 < root.real < to]
    return float(mpmath.quad(lambda t: abs((a * t + b) * t + d), sorted(cuts), maxdegree=8))


@pytest.mark.parametrize("kind", g.KINDS)
def test_lengths(kind):
    random = np.random.default_rng(1)
    for _ in range(40):
        c = g.random_curve(random, kind)
        made, t = g.path(c), random.uniform()
        assert C.tailor_cubic_length(made) == pytest.approx(exact_length(c), abs=1e-9, rel=1e-12)
        assert C.tailor_cubic_length_to(made, t) == pytest.approx(exact_length(c, t), abs=1e-9, rel=1e-12)
        wanted = random.uniform() * C.tailor_cubic_length(made)
        assert exact_length(c, C.tailor_cubic_at_length(made, wanted)) == pytest.approx(wanted, abs=1e-9)


def test_areas_and_moments():
    random = np.random.default_rng(2)
    for _ in range(60):
        c = g.smooth_outline(random, 8, 200, 0.4) + random.uniform(-300, 300, 2)
        made, m = g.path(c), (D * 6)()
        C.tailor_path_moments(made, 8, m)
        coarse, fine = (shape.Polygon(g.points(c, steps)) for steps in (500, 1000))
        area = (4 * fine.area - coarse.area) / 3  # the polygons' error falls by four
        assert C.tailor_path_area(made, 8) == pytest.approx(area, rel=1e-9)
        assert m[0] == pytest.approx(area, rel=1e-9)
        assert (m[1] / m[0], m[2] / m[0]) == pytest.approx(fine.centroid.coords[0], abs=1e-3)
        box = (D * 4)()
        C.tailor_path_bounds(made, 8, box)
        assert list(box) == pytest.approx(fine.bounds, abs=1e-3)


def test_splines():
    random = np.random.default_rng(3)
    for count in (2, 3, 4, 9, 30):
        for _ in range(20):
            at = random.uniform(-100, 100, (count, 2))
            made = (g.Cubic * (count - 1))()
            assert C.tailor_path_smooth((Point * count)(*map(tuple, at)), count, made) == 0
            along = np.concatenate([[0], np.cumsum(np.hypot(*np.diff(at, axis=0).T))])
            batten = scipy.interpolate.CubicSpline(along, at, bc_type="natural")
            steps = np.concatenate([np.linspace(a, b, 8, endpoint=False) for a, b in zip(along, along[1:])])
            assert g.points(g.numbers(made), 8)[:-1] == pytest.approx(batten(steps), abs=1e-9)

            at[:, 1] = np.cumsum(random.uniform(0.1, 50, count)) * random.choice([-1, 1])
            assert C.tailor_path_monotone((Point * count)(*map(tuple, at)), count, made) == 0
            rising = at[np.argsort(at[:, 1])]
            if count == 2:
                pchip = lambda y: np.interp(y, rising[:, 1], rising[:, 0])
            else:
                pchip = scipy.interpolate.PchipInterpolator(rising[:, 1], rising[:, 0])
            drawn = g.points(g.numbers(made), 16)
            assert drawn[:, 0] == pytest.approx(pchip(drawn[:, 1]), abs=1e-9)


def crossings(a, b):
    p, q, found = (D * 64)(), (D * 64)(), N()
    assert C.tailor_path_cross_path(g.path(a), len(a), g.path(b), len(b), 1e-9, p, q, 64, found) == 0
    return np.array(p[: found.value]), np.array(q[: found.value])


def test_meetings():
    random = np.random.default_rng(4)
    total = 0
    for i in range(300):
        a = g.smooth_outline(random, 6, 100, 0.5) if i % 2 else g.random_curve(random, "wild")[None]
        b = g.smooth_outline(random, 9, 100, 0.5) if i % 3 else g.random_curve(random, "wild")[None]
        met = shape.LineString(g.points(a, 1500)).intersection(shape.LineString(g.points(b, 1500)))
        expected = np.array([point.coords[0] for point in getattr(met, "geoms", [met]) if not point.is_empty])
        expected = expected.reshape(-1, 2)
        places, _ = crossings(a, b)
        assert len(places) == len(expected), i
        total += len(places)
        for place in places:
            k = min(int(place), len(a) - 1)
            t = place - k
            at = sum(w * p for w, p in zip([(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t ** 3], a[k]))
            assert np.hypot(*(expected - at).T).min() < 0.02
    assert total > 300


def test_crossing_itself():
    random = np.random.default_rng(5)
    seen = {0: 0, 1: 0}
    for i in range(300):
        c = g.smooth_outline(random, 8, 100, 0.3 + 0.6 * (i % 2))
        c[:, 1:3] += random.normal(0, 60 * (i % 3), (8, 2, 2))
        answer, places = g.ctypes.c_int(9), (D * 2)()
        assert C.tailor_path_crosses_itself(g.path(c), 8, 1e-6, answer, places) == 0
        if answer.value == 0 or places[1] - places[0] > 0.1:  # loops finer than the polygon do not show there
            assert answer.value == (not shape.LinearRing(g.points(c, 600)[:-1]).is_simple), i
        seen[answer.value] += 1
    assert min(seen.values()) > 50


def test_inside_and_nearest():
    random = np.random.default_rng(6)
    for _ in range(40):
        c = g.smooth_outline(random, 9, 100, 0.6)
        made, ring = g.path(c), shape.Polygon(g.points(c, 1000))
        if not ring.is_valid:
            continue
        for at in random.uniform(-150, 150, (50, 2)):
            distance = D()
            C.tailor_path_nearest(made, 9, Point(*at), distance)
            assert distance.value == pytest.approx(ring.exterior.distance(shape.Point(at)), abs=1e-3)
            if distance.value > 0.01:
                assert C.tailor_path_winding(made, 9, Point(*at)) == ring.contains(shape.Point(at))


def farthest(a, b):
    """From any of a's points to the line b."""
    b = shape.LineString(b)
    return max(b.distance(shape.Point(p)) for p in a)


def same_outline(offset, reference, within):
    """The larger part of the reference is the offset, boundary against boundary."""
    if reference.is_empty:
        return len(offset) == 0
    part = max(getattr(reference, "geoms", [reference]), key=lambda one: one.area)
    if len(offset) == 0:
        return part.area < 2 * within * part.length  # all of it within the tolerance of nothing
    ring, drawn = np.array(part.exterior.coords), g.points(offset, 60)
    assert shape.Polygon(drawn).is_valid
    return farthest(drawn[::7], ring) < 4 * within and farthest(ring[::7], drawn) < 4 * within \
        and abs(shape.Polygon(drawn).area - shape.Polygon(part.exterior).area) < within * part.length


@pytest.mark.parametrize("seed", range(4))
def test_round_offsets(seed):
    random = np.random.default_rng(100 + seed)
    empty = 0
    for i in range(60):
        c = g.smooth_outline(random, 8, 150, 0.35) if i % 3 == 0 else \
            g.smooth_outline(random, 12, 150, 0.6) if i % 3 == 1 else g.polygon(g.star(random, random.integers(4, 9)))
        outline = shape.Polygon(g.points(c, 400 if i % 3 < 2 else 1))
        if not outline.is_valid or outline.exterior.is_ccw is False:
            continue
        distance = random.choice([-1, 1]) * 10 ** random.uniform(-0.5, 2.3)
        reference = outline.buffer(distance, resolution=200)
        offset = g.outline_offset(c, distance)
        empty += len(offset) == 0
        assert same_outline(offset, reference, 0.01 + 2e-4 * abs(distance) ** 0.5), (seed, i, distance)
    assert empty > 0


def test_mitred_and_bevelled_offsets():
    random = np.random.default_rng(7)
    for i in range(150):
        at = g.star(random, random.integers(3, 8))
        outline = shape.Polygon(at)
        if not outline.is_valid or not outline.exterior.is_ccw:
            continue
        distance = 10 ** random.uniform(-1, 1.5)
        for corner, style in ((g.MITRE, 2), (g.BEVEL, 3)):
            reference = outline.buffer(distance, join_style=style, mitre_limit=1e6)
            assert same_outline(g.outline_offset(g.polygon(at), distance, corner, 1e6), reference, 0.01), (i, corner)


def test_unequal_mitres_are_half_planes():
    """The mitred allowance of a convex polygon is where the half-planes beside its moved sides overlap."""
    random = np.random.default_rng(8)
    compared = 0
    for _ in range(300):
        hull = random.normal(0, 100, (8, 2))
        at = hull[scipy.spatial.ConvexHull(hull).vertices]  # counter-clockwise
        way = np.roll(at, -1, 0) - at
        way /= np.hypot(*way.T)[:, None]
        out = np.stack([way[:, 1], -way[:, 0]], 1)
        distances = random.uniform(4, 6, len(at))
        levels = [(out[k - 1] @ at[k] + distances[k - 1], out[k] @ at[k] + distances[k]) for k in range(len(at))]
        corners = np.array([np.linalg.solve([out[k - 1], out[k]], levels[k]) for k in range(len(at))])
        past = np.einsum("nk,nk->n", corners - at, np.roll(way, 1, 0)), np.einsum("nk,nk->n", corners - at, way)
        if past[0].min() < 0 or past[1].max() > 0:
            continue  # so blunt a corner gets a step, not a mitre
        planes = np.column_stack([out, -(np.einsum("nk,nk->n", out, at) + distances)])
        meeting = scipy.spatial.HalfspaceIntersection(planes, at.mean(0)).intersections
        expected = shape.MultiPoint(meeting).convex_hull
        drawn = shape.Polygon(g.outline_offset(g.polygon(at), distances, g.MITRE, 1e6)[:, 0])
        assert drawn.symmetric_difference(expected).area < 1e-6 * drawn.area
        compared += 1
    assert compared > 50
