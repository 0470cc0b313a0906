"""canvas(): the layouts looked at by Shapely (GEOS), from the pattern's own pieces, and the layout sheet read back."""
import itertools
import math
import re
import xml.etree.ElementTree as ElementTree

import numpy as np
import pytest
from shapely.affinity import affine_transform
from shapely.geometry import Point, Polygon, box

from built import tg

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture(scope="module")
def coat():
    return tg.draft(chest_girth=1016, make=True)


@pytest.fixture(scope="module")
def uneven():
    return tg.draft(chest_girth=1016, low_shoulder_right=15, make=True)


def polygon(path):
    return Polygon(path.flatten(1e-3))


def expected_cuts(pattern, cloth, doubled):
    """What has to lie there: (piece, side), once for each to be cut, or once a pair."""
    other = {"right": "left", "left": "right"}
    cuts = []
    for piece in pattern.pieces.values():
        if piece.cloth != cloth:
            continue
        mine = [(piece.name, piece.side)] * (piece.cut // 2 if piece.mirrored else piece.cut)
        cuts += mine
        if piece.mirrored and not doubled:
            cuts += [(name, other[side]) for name, side in mine]
    return sorted(cuts)


def look_at(strip, places, length, gap=5.0, doubled=False):
    """Places within the strip, apart by the gap, congruent to their pieces, mirrored for the other side."""
    outlines = [polygon(place.outline) for place in places]
    inside = box(0, 0, length, strip.width).buffer(2e-3)
    for place, outline in zip(places, outlines):
        assert outline.is_valid and outline.exterior.is_ccw and inside.contains(outline)
        a, b, c, d, e, f = place.matrix
        assert a * a + b * b == pytest.approx(1, abs=1e-12) and a * c + b * d == pytest.approx(0, abs=1e-12)
        piece = strip.pattern.pieces[place.piece]
        assert a * d - b * c == pytest.approx(1 if place.side == piece.side else -1, abs=1e-12)
        moved = affine_transform(polygon(piece.outline), [a, c, b, d, e, f])
        if place.part:
            assert outline.difference(moved.buffer(1e-3)).is_empty and outline.area < moved.area
        else:
            assert outline.symmetric_difference(moved).area < 1e-4 * moved.area
        # the warp runs along the strip
        warp = math.radians(place.warp)
        along = (a * math.cos(warp) + c * math.sin(warp), b * math.cos(warp) + d * math.sin(warp))
        assert abs(along[0]) == pytest.approx(1, abs=1e-12) and along[1] == pytest.approx(0, abs=1e-12)
    for one, other in itertools.combinations(outlines, 2):
        assert one.distance(other) >= gap - 4e-3
    assert max(outline.bounds[2] for outline in outlines) == pytest.approx(length, abs=2e-3)
    whole = [place for place in places if place.part < 2]
    assert sorted((place.piece, place.side) for place in whole) == expected_cuts(strip.pattern, strip.cloth, doubled)
    return outlines


def mark_to_warp(strip, place):
    """Angle of the pattern's grain mark on the strip, from 0 to 90: as it lies, not as it is said to."""
    mark = strip.pattern.pieces[place.piece].marks["grain"].path.cubics
    (x, y) = mark[-1][3] - mark[0][0]
    a, b, c, d, _, _ = place.matrix
    turn = math.degrees(math.atan2(b * x + d * y, a * x + c * y)) % 180
    return min(turn, 180 - turn)


def break_lean(strip, place):
    """By how much the warp leans from the grain toward the break line, degrees: of the piece as it lies."""
    marks = strip.pattern.pieces[place.piece].marks
    grain = marks["grain"].path.cubics[0][3] - marks["grain"].path.cubics[0][0]
    fold = marks["break_line"].path.cubics[-1][3] - marks["break_line"].path.cubics[0][0]
    a, b, c, d, _, _ = place.matrix
    turn = np.array([[a, c], [b, d]])
    grain, fold = turn @ grain, turn @ fold
    if grain[0] < 0:  # it lies end for end
        grain, fold = -grain, -fold
    toward = math.copysign(1, grain[0] * fold[1] - grain[1] * fold[0]) * math.copysign(1, grain @ fold)
    return -toward * math.degrees(math.atan2(grain[1], grain[0]))


@pytest.mark.parametrize("angle", [0, 20, 45, -30, 90])
@pytest.mark.parametrize("width", [950, 1500])
def test_layouts(coat, angle, width):
    strip = tg.canvas(coat, angle=angle, width=width, iterations=100)
    look_at(strip, strip.places, strip.length)
    look_at(strip, strip.straight_places, strip.straight_length)
    assert strip.overlap_free()
    for place in strip.places:
        if place.piece == "body_canvas":
            assert mark_to_warp(strip, place) == pytest.approx(abs(angle), abs=1e-9)
            if abs(angle) < 90:
                assert break_lean(strip, place) == pytest.approx(angle, abs=1e-9)
        else:
            assert mark_to_warp(strip, place) == pytest.approx(0, abs=1e-9)
    for place in strip.straight_places:
        assert mark_to_warp(strip, place) == pytest.approx(0, abs=1e-9)
    area = sum(polygon(place.outline).area for place in strip.places)
    assert strip.yield_ == pytest.approx(area / (width * strip.length), rel=1e-4)
    assert strip.waste == pytest.approx(width * strip.length - area, rel=1e-3)
    assert strip.extra == pytest.approx(strip.length - strip.straight_length, abs=1e-9)
    assert strip.length_bound <= strip.length and strip.length == strip.cloth_length and strip.joins == 0


def test_the_look_can_fail(coat):
    strip = tg.canvas(coat, iterations=0)
    with pytest.raises(AssertionError):
        look_at(strip, strip.places, strip.length, gap=30)
    with pytest.raises(AssertionError):
        look_at(strip, strip.places[1:], strip.length)
    with pytest.raises(AssertionError):
        look_at(strip, strip.places, strip.length - 1)


def test_the_hair_lies_across_haircloth(coat):
    strip = tg.canvas(coat, "haircloth", iterations=100)
    look_at(strip, strip.places, strip.length)
    assert [round(mark_to_warp(strip, place), 9) for place in strip.places] == [90.0] * 4
    assert strip.extra == 0


def test_mirrored_pairs_and_both_alike(coat):
    pairs = tg.canvas(coat, angle=20, width=900, iterations=0)
    assert [break_lean(pairs, p) for p in pairs.places if p.piece == "body_canvas"] == pytest.approx([20, 20])
    alike = tg.canvas(coat, angle=20, width=900, sides="alike", iterations=0)
    look_at(alike, alike.places, alike.length)
    leans = {p.side: break_lean(alike, p) for p in alike.places if p.piece == "body_canvas"}
    assert leans["right"] == pytest.approx(20) and leans["left"] == pytest.approx(-20)


@pytest.mark.parametrize("plies, width", [("folded", 1400), ("layers", 700)])
def test_doubled(coat, plies, width):
    strip = tg.canvas(coat, angle=20, width=width, plies=plies, iterations=100)
    assert strip.width == 700
    look_at(strip, strip.places, strip.length, doubled=True)
    assert strip.cloth_length == strip.length * (2 if plies == "layers" else 1)


def test_sides_cut_apart(uneven):
    strip = tg.canvas(uneven, angle=20, width=900, iterations=100)
    look_at(strip, strip.places, strip.length)
    bodies = {place.piece: break_lean(strip, place) for place in strip.places if place.piece.startswith("body")}
    assert set(bodies) == {"body_canvas_right", "body_canvas_left"}
    assert list(bodies.values()) == pytest.approx([20, 20])
    alike = tg.canvas(uneven, angle=20, width=900, sides="alike", iterations=0)
    assert break_lean(alike, next(p for p in alike.places if p.piece == "body_canvas_left")) == pytest.approx(-20)


@pytest.mark.parametrize("angle, width, overlap", [(45, 500, 20), (45, 420, 10), (-45, 450, 40), (20, 350, 20)])
def test_joins(coat, angle, width, overlap):
    """The parts together are the piece; they lap by as much as was said, along the warp."""
    with pytest.raises(tg.TailorError, match="allow joins"):
        tg.canvas(coat, angle=angle, width=width, iterations=0)
    strip = tg.canvas(coat, angle=angle, width=width, overlap=overlap, iterations=100)
    look_at(strip, strip.places, strip.length)
    assert strip.joins == 2
    for side in ("right", "left"):
        piece = polygon(coat.pieces["body_canvas"].outline)
        back = []
        for place in strip.places:
            if place.piece != "body_canvas" or place.side != side:
                continue
            a, b, c, d, e, f = place.matrix
            det = a * d - b * c
            whole = [d / det, -c / det, -b / det, a / det, (c * f - d * e) / det, (b * e - a * f) / det]
            back.append((affine_transform(polygon(place.outline), whole), place.warp))
        (one, warp), (other, _) = back
        assert one.union(other).symmetric_difference(piece).area < 1e-4 * piece.area
        lap = one.intersection(other)
        across = affine_transform(lap, [math.cos(-math.radians(warp)), -math.sin(-math.radians(warp)),
                                        math.sin(-math.radians(warp)), math.cos(-math.radians(warp)), 0, 0])
        assert across.bounds[3] - across.bounds[1] == pytest.approx(overlap, abs=1e-3)
        assert lap.geom_type == "Polygon"


def test_the_same_call_gives_the_same_layout(coat):
    one, other = (tg.canvas(coat, angle=45, iterations=200) for _ in range(2))
    stepped = tg.canvas(coat, angle=45, iterations=50).step(150)
    for strip in (other, stepped):
        assert strip.length == one.length
        assert all(np.array_equal(a.matrix, b.matrix) for a, b in zip(one.places, strip.places))
    assert one.iterations == 200
    assert tg.canvas(coat, angle=45, iterations=0).length >= one.length


def test_the_angle_is_the_orders(coat):
    slanting = tg.draft(chest_girth=1016, canvas_angle=15, make=True)
    assert tg.canvas(slanting, iterations=0).angle == 15
    assert tg.canvas(slanting, angle=0, iterations=0).angle == 0


def test_refusals(coat, uneven):
    with pytest.raises(tg.CallError, match="whole make"):
        tg.canvas(tg.draft(chest_girth=1016))
    with pytest.raises(tg.CallError, match="plies is one of single, folded, layers"):
        tg.canvas(coat, plies="three")
    with pytest.raises(tg.CallError, match="one side only"):
        tg.canvas(uneven, width=1500, plies="folded")
    with pytest.raises(tg.TailorError) as caught:
        tg.canvas(coat, angle=45, width=300)
    assert caught.value.high == 300 and caught.value.value > 500 and "body_canvas" in str(caught.value)


# ---- the sheet


def groups(svg):
    return {group.get("id"): group for group in ElementTree.fromstring(svg).iter(SVG + "g") if group.get("id")}


def test_the_sheet_shows_the_layout_at_its_scale(coat):
    """Outlines read back from the SVG are the layout's, five times smaller."""
    strip = tg.canvas(coat, angle=20, iterations=100)
    found = groups(strip.to_svg(title="Order 12"))
    assert {"heading", "table", "lay-1", "lay-2"} <= set(found) and "lay-3" not in found
    for lay, places in (("lay-1", strip.places), ("lay-2", strip.straight_places)):
        drawn = []
        for number, place in enumerate(places, 1):
            path = max(found[f"{lay}-place-{number}"].iter(SVG + "path"), key=lambda p: len(p.get("d")))
            numbers = np.array([float(n) for n in re.findall(r"-?\d+\.?\d*", path.get("d"))]).reshape(-1, 2)
            drawn.append(numbers.max(axis=0) - numbers.min(axis=0))
            controls = place.outline.cubics.reshape(-1, 2)
            assert drawn[-1] == pytest.approx((controls.max(axis=0) - controls.min(axis=0)) / 5, abs=2e-3)
            words = "".join(found[f"{lay}-place-{number}"].itertext())
            assert place.piece.replace("_", " ") in words and place.side in words
    table = " ".join(found["table"].itertext())
    assert f"{math.ceil(strip.length)} mm" in table and f"{round(strip.extra)} mm" in table and "20°" in table


def test_sheets_in_every_format(coat, tmp_path):
    strip = tg.canvas(coat, angle=45, width=500, overlap=20, iterations=50)
    assert strip.to_pdf().startswith(b"%PDF-") and strip.to_png().startswith(b"\x89PNG")
    assert strip.to_pdf() == strip.to_pdf()
    strip.to_svg(tmp_path / "canvas.svg", unit="in8")
    assert "joins lapped 3/4 in" in (tmp_path / "canvas.svg").read_text()


def test_level_labels_stand_in_their_pieces(coat):
    """The middle of each line of a level label lies inside."""
    strip = tg.canvas(coat, angle=20, iterations=100)
    found = groups(strip.to_svg())
    level = 0
    for number, place in enumerate(strip.places, 1):
        group = found[f"lay-1-place-{number}"]
        path = max(group.iter(SVG + "path"), key=lambda p: len(p.get("d")))
        numbers = np.array([float(n) for n in re.findall(r"-?\d+\.?\d*", path.get("d"))]).reshape(-1, 2)
        low, controls = numbers.min(axis=0), place.outline.cubics.reshape(-1, 2)
        for text in group.iter(SVG + "text"):
            if text.get("transform"):
                continue
            level += 1
            x = controls[:, 0].min() + (float(text.get("x")) - low[0]) * 5
            y = controls[:, 1].max() - (float(text.get("y")) - low[1]) * 5
            assert polygon(place.outline).contains(Point(x, y)), place.piece
    assert level >= 6
