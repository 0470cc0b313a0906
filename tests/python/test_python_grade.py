"""Grades and built patterns from Python: lengths by SciPy's quadrature, areas by Shapely, and the three ways of
grading side by side."""
import json

import numpy as np
import pytest
from scipy.integrate import quad
from shapely.geometry import Point, Polygon

from built import tg

CHESTS = {-2: 914.4, -1: 965.2, 0: 1016.0, 1: 1066.8, 2: 1117.6}


@pytest.fixture(scope="module")
def coats():
    return {step: tg.draft(chest_girth=chest) for step, chest in CHESTS.items()}


@pytest.fixture(scope="module")
def workroom(coats):
    """A workroom's table: named points and ends of edges only, from two sizes."""
    two = tg.Grade.from_sizes([coats[0], coats[1]], [0, 1])
    return tg.Grade.from_rules(coats[0], {key: rule.move for key, rule in two.rules().items()})


@pytest.fixture(scope="module")
def broken(coats):
    """Every control point, with a break at the base."""
    return tg.Grade.from_sizes([coats[0], coats[-2], coats[2]], [(0, 0), (-2, 0), (0, 2)])


def length(cubics):
    """Arc length by adaptive quadrature of the speed."""
    total = 0.0
    for c in cubics:
        d = 3 * np.diff(c, axis=0)

        def speed(u):
            return np.hypot(*((1 - u) ** 2 * d[0] + 2 * u * (1 - u) * d[1] + u * u * d[2]))

        total += quad(speed, 0, 1, epsabs=1e-11, limit=200)[0]
    return total


def seam_gaps(shapes):
    """How far each seam is from its ease. What is sewn to the end of an edge is measured by quadrature."""
    gaps = {}
    for seam in shapes.seams.values():
        sides = []
        for stretches in seam.stretches:
            sides.append(0.0)
            for sewn in stretches:
                path = shapes.pieces[sewn.piece].edges[sewn.edge].path
                low, high = sorted((sewn.start, sewn.stop))
                sides[-1] += (length(path.cubics) if abs(high - path.length) < 1e-9 else high) - low
        gaps[seam.name] = sides[0] - sides[1] - seam.ease
    return gaps


def samples(cubics):
    """Points on an outline, 21 to a curve, by Bernstein's polynomials."""
    t = np.linspace(0, 1, 21)[:, None]
    weights = np.hstack([(1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t**3])
    return np.einsum("tk,nkx->ntx", weights, cubics).reshape(-1, 2)


def apart(a, b):
    """Greatest distance of either outline's points from the other, mm."""
    worst = 0.0
    for one, other in ((a, b), (b, a)):
        ring = Polygon(other.flatten(0.001)).exterior
        worst = max(worst, max(ring.distance(Point(p)) for p in samples(one.cubics)))
    return worst


def error(shapes, coat):
    """Greatest distance of the graded outlines from the redrafted ones, mm."""
    return max(apart(shapes.pieces[name].outline, piece.outline) for name, piece in coat.pieces.items())


@pytest.mark.parametrize("step", [-2, -1.5, -0.3, 0.5, 1, 2, 2.5])
def test_seams_close_at_every_size_and_between(workroom, broken, step):
    for shapes in (workroom.apply(step), broken.apply(min(step, 0), max(step, 0))):
        for name, gap in seam_gaps(shapes).items():
            assert abs(gap) < 1e-6, name
        for piece in shapes.pieces.values():
            outline = Polygon(piece.outline.flatten(0.0005))
            assert outline.is_valid
            assert piece.outline.area == pytest.approx(outline.area, rel=1e-4)


def test_three_ways_of_grading(coats, workroom, broken):
    """Error against redrafting over 8 in of chest: rules for every control point are exact where they come from and
    within 0.25 mm between; a workroom's rules for ends and named points within 2.5 mm a step, most in the crown;
    scaling by the chest, which nobody should do, is tens of mm off."""
    for step, coat in coats.items():
        family = error(broken.apply(min(step, 0), max(step, 0)), coat)
        assert family < (0.01 if step in (-2, 0, 2) else 0.25)
        assert error(workroom.apply(step), coat) < 0.01 + 2.5 * abs(step)
        if step:
            scale = CHESTS[step] / CHESTS[0]
            scaled = tg.Path(coats[0].pieces["back"].outline.cubics * scale, closed=True)
            assert apart(scaled, coat.pieces["back"].outline) > 5


def test_up_then_down_returns(workroom, broken):
    for grade, up in ((workroom, (2,)), (workroom, (-1.3,)), (broken, (0, 1.2)), (broken, (-0.7, 0))):
        there = grade.apply(*up)
        back = grade.apply(*(-step for step in up), pattern=there)
        base = grade.base
        for name, piece in base.pieces.items():
            assert np.abs(back.pieces[name].outline.cubics - piece.outline.cubics).max() < 0.02
        still = grade.apply(*(0 for _ in up))
        for name, piece in base.pieces.items():
            assert np.array_equal(still.pieces[name].outline.cubics, piece.outline.cubics)


def test_the_rule_of_a_family(coats, workroom):
    others = [step for step in coats if step]
    family = tg.Grade.from_sizes([coats[0], *(coats[step] for step in others)], [0, *others])
    rule = family.rule("back", "shoulder_end")
    # least squares through the base, by NumPy
    steps = np.array([s for s in coats if s], dtype=float)
    moved = np.array([coats[s].pieces["back"].points["shoulder_end"] for s in coats if s])
    moved -= coats[0].pieces["back"].points["shoulder_end"]
    expected = np.linalg.lstsq(steps[:, None], moved, rcond=None)[0][0]
    assert rule.move == pytest.approx(expected, abs=1e-9)
    missed = np.abs(moved - steps[:, None] * expected).max(axis=0)
    assert rule.residual == pytest.approx(np.hypot(*missed), abs=1e-9)
    # a workroom's own patterns give its rules back
    own = tg.Grade.from_sizes([workroom.apply(0), workroom.apply(1), workroom.apply(-1)], [0, 1, -1])
    for key, found in own.rules().items():
        assert found.move == pytest.approx(workroom.rule(*key).move, abs=0.25), key
        assert found.residual < 0.02


def test_rules_from_a_file(tmp_path, coats):
    path = tmp_path / "rules.csv"
    path.write_text("piece,point,axis,dx,dy\nback,hem.start,1,0,-5\nback,hem.start,2,1,0\nback,shoulder_end,1,3,1\n")
    rules = tg.read_rules(path, axes=2)
    assert rules[("back", "hem.start")].tolist() == [[0, -5], [1, 0]]
    grade = tg.Grade.from_rules(coats[0], rules, axes=2)
    graded, base = grade.apply(1, 0), coats[0]
    moved = graded.pieces["back"].points["shoulder_end"] - base.pieces["back"].points["shoulder_end"]
    assert moved == pytest.approx((3, 1), abs=1.6)  # the front shoulder has no rule: both give way by half
    still = [shapes.pieces["forepart"].edges["lapel_edge"].path.cubics for shapes in (graded, grade.base)]
    assert np.array_equal(*still)  # no rule, and no seam that has to give way
    for text in ("piece,point,dx\n", "piece,point,dx,dy\nback,nape,x,1\n", "piece,point,dx,dy\nback,nape,inf,1\n",
                 "piece,point,dx,dy,axis\nback,nape,1,1,3\n", "piece,point,dx,dy\nback,nape,1,1\nback,nape,1,1\n"):
        path.write_text(text)
        with pytest.raises(ValueError):
            tg.read_rules(path, axes=2)


def test_what_is_no_grade(coats):
    for rules, said in (
        ({("sleeve", "nape"): (1, 1)}, "rule 1: there is no piece"),
        ({("back", "nape"): (1, 1), ("back", "elbow"): (1, 1)}, "rule 2: its piece has no point"),
        ({("back", "hem.start"): (1, 1), ("back", "centre_back.end"): (2, 1)}, "rule 2: an earlier rule"),
    ):
        with pytest.raises(tg.TailorError, match=said):
            tg.Grade.from_rules(coats[0], rules)
    with pytest.raises(ValueError):
        tg.Grade.from_rules(coats[0], {("back", "nape"): (1, 1, 1)})
    with pytest.raises(tg.GeometryError):
        tg.Grade.from_sizes([coats[0], coats[1], coats[2]], [(0, 0), (1, 1), (2, 2)])
    grade = tg.Grade.from_rules(coats[0], {})
    with pytest.raises(tg.CallError):
        grade.apply(1, 2)
    with pytest.raises(tg.CallError):
        grade.apply(1, pattern=coats[1])
    with pytest.raises(tg.CallError):
        grade.rule("back", "elbow")


def square(builder, name, clockwise=False):
    corners = [(0, 0), (100, 0), (100, 80), (0, 80)]
    corners = corners[::-1] if clockwise else corners
    builder.piece(name, cut=2, mirrored=True, side="right")
    for i, edge in enumerate(("hem", "front", "top", "back")):
        a, b = np.array(corners[i], dtype=float), np.array(corners[(i + 1) % 4], dtype=float)
        builder.edge(edge, np.array([[a, a + (b - a) / 3, a + 2 * (b - a) / 3, b]]))


def test_a_pattern_of_ones_own(coats):
    builder = tg.Builder()
    square(builder, "flap")
    builder.point("middle", (50, 40))
    builder.mark("grain", "grain", tg.draft(chest_girth=1000).pieces["back"].marks["grain"].path)
    square(builder, "lining")
    builder.seam("mouth")
    builder.stretch(0, "flap", "top")
    with pytest.raises(tg.CallError, match="seam 1, second side, stretch 1: there is no edge"):
        builder.stretch(1, "lining", "bottom")
    builder.stretch(1, "lining", "top")
    shapes = builder.finish()
    assert shapes.pieces["flap"].outline.area == pytest.approx(8000)
    assert shapes.pieces["flap"].number == 0 and shapes.pieces["flap"].mirrored
    (first,), (second,) = shapes.seams["mouth"].stretches
    assert (first.start, first.stop, second.start, second.stop) == pytest.approx((0, 100, 100, 0))
    assert shapes.to_svg().startswith("<?xml") and "flap" in repr(shapes)
    wider = {"hem.end": (10, 0), "top.start": (10, 0), "hem.start": (0, 0), "top.end": (0, 0)}
    rules = {(piece, point): move for piece in ("flap", "lining") for point, move in wider.items()}
    with pytest.warns(tg.PatternWarning, match="outside of the piece"):  # the grain is that of a back
        graded = tg.Grade.from_rules(shapes, rules).apply(2)
    assert graded.pieces["flap"].outline.area == pytest.approx(8000 * 1.2)
    assert graded.pieces["flap"].points["middle"] == pytest.approx((60, 40))
    assert (shapes.edition, dict(shapes.style)) == (0, {})
    builder.style({"lapel": "shawl", "buttoning": 2}, edition=3)
    told = builder.finish()
    assert (told.edition, dict(told.style)) == (3, {"buttoning": "two-button", "lapel": "shawl"})
    for wrong in ({"chest_girth": 1016}, {"lapell": "shawl"}, {"lapel": 9}):
        with pytest.raises(tg.OrderError):
            builder.style(wrong)
    with pytest.raises(tg.TailorError, match="already"):
        square(builder, "flap")
    with pytest.raises(tg.TailorError, match="letters"):
        builder.piece("Taschenklappe!")
    square(builder, "turned", clockwise=True)
    with pytest.raises(tg.TailorError, match="clockwise"):
        builder.finish()
    with pytest.raises(ValueError):
        builder.mark("grain", "arrow", [])


def test_a_seam_of_two_stretches_against_three(tmp_path):
    """Built, graded by rules that pull its pieces apart, written and read: the sides keep their difference."""
    builder = tg.Builder()
    for name in ("one", "two", "three", "four", "five"):
        square(builder, name)
    builder.seam("round", ease=30)
    for side, piece, from_to in ((0, "one", (10, None)), (0, "two", None),
                                 (1, "three", (60, 0)), (1, "four", (None, 20)), (1, "five", (40, 20))):
        builder.stretch(side, piece, "top", from_to)
    shapes = builder.finish()
    seam = shapes.seams["round"]
    assert [len(side) for side in seam.stretches] == [2, 3]
    assert seam.lengths == pytest.approx((190, 160)) and seam_gaps(shapes)["round"] == pytest.approx(0)
    rules = {("one", "top.start"): (8, 3), ("one", "top.end"): (0, 0), ("four", "top.start"): (1, 0),
             ("four", "top.end"): (0, 0)}
    for step in (-1, 0.5, 2):
        graded = tg.Grade.from_rules(shapes, rules).apply(step)
        assert abs(seam_gaps(graded)["round"]) < 1e-6
        assert graded.seams["round"].lengths[0] != pytest.approx(190, abs=0.5)
        tg.write_pattern(graded, tmp_path / "round.json")
        again = tg.read_pattern(tmp_path / "round.json").seams["round"]
        assert again.ease == 30
        for side, other in zip(graded.seams["round"].stretches, again.stretches):
            assert [(s.piece, s.edge) for s in side] == [(s.piece, s.edge) for s in other]
            assert [s.start for s in side] + [s.stop for s in side] == pytest.approx(
                [s.start for s in other] + [s.stop for s in other], abs=1e-9)


def test_pattern_files(tmp_path, coats, broken):
    for shapes in (coats[0], broken.apply(0, 1.3)):
        tg.write_pattern(shapes, tmp_path / "pattern.json")
        again = tg.read_pattern(tmp_path / "pattern.json")
        assert list(again.pieces) == list(shapes.pieces) and list(again.seams) == list(shapes.seams)
        for name, piece in shapes.pieces.items():
            assert again.pieces[name].outline.cubics == pytest.approx(piece.outline.cubics, abs=1e-9)
            assert list(again.pieces[name].marks) == list(piece.marks)
        for name, gap in seam_gaps(again).items():
            assert abs(gap) < 1e-6, name
        assert again.edition == shapes.edition == tg.edition and again.style == shapes.style
        assert shapes.style["buttoning"] == "two-button" and "hole_face_4" not in shapes.style
    document = json.loads((tmp_path / "pattern.json").read_text())
    for spoil in (
        lambda d: d.update(format_version=1),
        lambda d: d.update(format_version=3),
        lambda d: d["seams"][0].update(a=d["seams"][0]["a"][0]),
        lambda d: d["seams"][0].update(b=[]),
        lambda d: d.update(edition=-1),
        lambda d: d.update(edition=None),
        lambda d: d.update(style=["buttoning"]),
        lambda d: d["style"].update(buttonning="two-button"),
        lambda d: d["style"].update(buttoning="four-button"),
        lambda d: d["style"].update(buttoning=2),
        lambda d: d["pieces"][0].update(edges=[]),
        lambda d: d["pieces"][0]["edges"][0].update(count=99),
        lambda d: d["pieces"][0].update(outline=[[0, 0]]),
        lambda d: d["pieces"][0].pop("name"),
        lambda d: d["seams"][0]["a"][0].update(piece="pocket"),
        lambda d: d.update(pieces=None),
    ):
        bad = json.loads(json.dumps(document))
        spoil(bad)
        (tmp_path / "bad.json").write_text(json.dumps(bad))
        with pytest.raises(tg.CallError):
            tg.read_pattern(tmp_path / "bad.json")
    for text in ("", "[]", "{", "\xff"):
        (tmp_path / "bad.json").write_bytes(text.encode("latin-1"))
        with pytest.raises(tg.CallError):
            tg.read_pattern(tmp_path / "bad.json")
