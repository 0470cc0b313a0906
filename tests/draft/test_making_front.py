"""Facing, top collar, canvas and tapes against GEOS (by Shapely), SciPy's quadrature and the exact formulas: what
covers what, by how much, and what lies in what."""
import functools
import math

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union
from shapely.validation import explain_validity

import curves
import drafted
from test_making_lining import Made

ORDERS = {
    **{name: drafted.ORDERS[name] for name in ("regular", "slim", "stout", "belly", "tall", "short", "large", "small",
                                               "crooked", "sloping", "heavy cloth")},
    "double four": dict(chest_girth=1060, stature=1740, buttoning=6),
    "double six": dict(chest_girth=1016, stature=1780, buttoning=7, lapel_width=108),
    "shawl": dict(chest_girth=1016, stature=1780, buttoning=1, lapel=3),
    "double shawl": dict(chest_girth=1016, stature=1780, buttoning=6, lapel=3),
    "square three": dict(chest_girth=980, stature=1800, buttoning=3, front_cut=2),
}
everyone = pytest.mark.parametrize("name", ORDERS)
CUT_OUT = ("dart_edge", "slit_edge")


@functools.cache
def made(name):
    return Made(**ORDERS[name])


def shawl(coat):
    return coat.fields["lapel"] == 3


def turn(coat):
    """Thickness times turned angle."""
    between = coat.fields["canvas_thickness"] + coat.constants["padding_thickness"]
    return math.pi * (coat.fields["cloth_thickness"] + between)


def outward(coat):
    """Unit vector square to the break line, toward the lapel's edge."""
    points = coat.pieces["forepart"].points
    up = points["stand_point"] - points["break_point"]
    return np.array((up[1], -up[0])) / np.hypot(*up)


def edges(piece, *names):
    return [curves.line(piece.edges[name], 256) for name in names if name in piece.edges]


def filled(canvas):
    """The body canvas with its dart and slit closed by their triangles."""
    gaps = [Polygon((*canvas.edges[name][:, 0], canvas.edges[name][-1, 3])) for name in CUT_OUT]
    return unary_union([curves.polygon(canvas.outline, 256), *(gap.buffer(1e-6) for gap in gaps)])


@everyone
def test_outlines_and_areas(name):
    coat = made(name)
    pieces = ["facing", "body_canvas", "chest_piece", "shoulder_piece", "collar_canvas", "bridle", "edge_tape"]
    for piece_name in pieces + ["top_collar"] * (not shawl(coat)):
        outline = coat.pieces[piece_name].outline
        polygon = curves.polygon(outline, 256)
        assert polygon.is_valid, f"{piece_name}: {explain_validity(polygon)}"
        assert polygon.exterior.is_ccw, piece_name
        assert drafted.by_library("area", outline) == pytest.approx(curves.polygon(outline).area, rel=3e-6), piece_name
    assert ("top_collar" in coat.pieces) == (not shawl(coat))


@everyone
def test_grain_lies_on_the_piece(name):
    coat = made(name)
    pieces = ["facing", "body_canvas", "chest_piece", "shoulder_piece", "collar_canvas", "bridle", "edge_tape"]
    for piece_name in pieces + ["top_collar"] * (not shawl(coat)):
        piece = coat.pieces[piece_name]
        grain = LineString((piece.marks["grain"][0, 0], piece.marks["grain"][-1, 3]))
        assert curves.polygon(piece.outline, 128).contains(grain.buffer(1)), piece_name
        assert piece.marks["grain"][-1, 3, 1] >= piece.marks["grain"][0, 0, 1], piece_name


@everyone
def test_seams(name):
    coat, seen = made(name), 0
    for seam_name, (ease, *sides) in coat.seams.items():
        if not seam_name.startswith(("facing_", "top_collar_")):
            continue
        seen += 1
        lengths = [abs(end - start) for _, _, start, end in sides]
        assert lengths[0] - lengths[1] == pytest.approx(ease, abs=0.01), seam_name
        for piece, edge, start, end in sides:
            assert max(start, end) <= curves.length(coat.pieces[piece].edges[edge]) + 1e-6, seam_name
    assert seen == (5 if shawl(coat) else 9)


@everyone
def test_facing_is_wider_than_the_lapel_by_its_turn(name):
    """Square to the break line: everywhere above where it crosses over, by the turn and what rolls under."""
    coat = made(name)
    across, wanted = outward(coat), turn(coat) + coat.constants["facing_edge_more"]
    widths = [max(curves.points(coat.pieces[piece].edges["lapel_edge"]) @ across) for piece in ("forepart", "facing")]
    assert widths[1] - widths[0] == pytest.approx(wanted, abs=1e-3)
    lengths = [curves.length(coat.pieces[piece].edges["lapel_edge"]) for piece in ("forepart", "facing")]
    assert lengths[1] - lengths[0] == pytest.approx(coat.constants["facing_lapel_long"], abs=1e-6)


@everyone
def test_facing_lies_inside_the_front_edge(name):
    """Below the break point and where the edge crosses over: nothing of it beyond the forepart, and its edge the stated
    distance inside."""
    coat = made(name)
    forepart, facing = curves.polygon(coat.pieces["forepart"].outline, 256), coat.pieces["facing"]
    inside, cross = coat.constants["facing_inside"], coat.constants["facing_cross"]
    lower = coat.pieces["forepart"].points["break_point"][1] - cross
    below = curves.polygon(facing.outline, 256).intersection(Polygon([(-999, lower), (-999, -1999), (1999, -1999),
                                                                      (1999, lower)]))
    assert below.difference(forepart.buffer(1e-6)).area < 1e-3
    edge = curves.line(coat.pieces["forepart"].edges["front_edge"], 512)
    for point in curves.points(facing.edges["front_edge"][:-1], 32):
        assert edge.distance(Point(point)) == pytest.approx(inside, abs=0.06 * inside)


@everyone
def test_facing_covers_the_holes(name):
    coat = made(name)
    facing, past = coat.pieces["facing"], coat.constants["facing_past_holes"]
    polygon, inner = curves.polygon(facing.outline, 256), curves.line(facing.edges["inner_edge"], 256)
    holes = [mark for name_of, mark in coat.pieces["forepart"].marks.items() if name_of.startswith("hole_")]
    assert holes
    for hole in holes:
        slit = LineString((hole[0, 0], hole[-1, 3]))
        assert polygon.contains(slit.buffer(8))
        assert inner.distance(slit) > past - 3  # level it is the whole of it; the edge slants


@everyone
def test_facing_covers_the_fold(name):
    """The facing reaches behind the break line and the bridle, and its inner edge stays on the forepart."""
    coat = made(name)
    facing = curves.polygon(coat.pieces["facing"].outline, 256)
    forepart = curves.polygon(coat.pieces["forepart"].outline, 256)
    line = coat.pieces["body_canvas"].marks["bridle_line"]
    up = (line[0, 3] - line[0, 0]) / np.hypot(*(line[0, 3] - line[0, 0]))
    bridle = LineString((line[0, 0], line[0, 3] - 15 * up)).buffer(5)  # its end lies aslant in the neck seam
    assert facing.buffer(0.01).contains(bridle)
    assert forepart.buffer(0.01).contains(curves.line(coat.pieces["facing"].edges["inner_edge"], 256))


@everyone
def test_top_collar_is_larger_than_the_under_collar(name):
    coat = made(name)
    top, under = coat.pieces["facing" if shawl(coat) else "top_collar"], coat.pieces["under_collar"]
    wider = turn(coat) + coat.constants["top_collar_edge"]
    backs = [piece.edges["centre_back"] for piece in (top, under)]
    widths = [np.hypot(*(back[0, 0] - back[-1, 3])) for back in backs]
    assert widths[0] - widths[1] == pytest.approx(wider, abs=1e-6)
    leaves = [curves.length(piece.edges["leaf"]) for piece in (top, under)]
    assert leaves[0] - leaves[1] == pytest.approx(coat.constants["top_collar_long"], abs=1e-6)
    # behind the neck both leaf edges lie the full width from the neck edge
    neck = curves.line(top.edges["neck"], 512)
    full = coat.fields["collar_stand"] + coat.fields["collar_fall"] + wider
    assert neck.distance(Point(top.edges["leaf"][-1, 3])) == pytest.approx(full, abs=0.02)
    if shawl(coat):
        return
    more = [curves.polygon(piece.outline, 256).area for piece in (top, under)]
    # a strip along the leaf, one along the end, and the fan that makes the leaf longer
    strips = wider * np.mean(leaves) + coat.constants["top_collar_edge"] * curves.length(top.edges["end"])
    fan = coat.constants["top_collar_long"] * full / 2
    assert more[0] - more[1] == pytest.approx(strips + fan, rel=0.2)
    back_neck = curves.length(coat.pieces["back"].edges["neck"])
    gorge = curves.length(coat.pieces["facing"].edges["gorge"])
    assert curves.length(top.edges["neck"]) == pytest.approx(back_neck + gorge, abs=1e-6)


@everyone
def test_a_shawls_edge_runs_on_into_its_collar(name):
    coat = made(name)
    if not shawl(coat):
        assert "leaf" not in coat.pieces["facing"].edges
        return
    facing = coat.pieces["facing"]
    before, after = curves.direction(facing.edges["lapel_edge"], 1), curves.direction(facing.edges["leaf"], 0)
    assert before @ after == pytest.approx(1, abs=1e-9)
    neck, back = facing.edges["neck"], coat.pieces["back"].edges["neck"]
    assert curves.length(neck) == pytest.approx(curves.length(back), abs=1e-6)


@everyone
def test_canvas_goes_beyond_the_forepart(name):
    """Some tenths less than ordered where a cubic stands for the parallel of another."""
    coat = made(name)
    canvas, forepart, k = coat.pieces["body_canvas"], coat.pieces["forepart"], coat.constants
    whole = filled(canvas)
    front = unary_union(edges(forepart, "front_edge", "lapel_edge")).buffer(0.9 * k["canvas_beyond_front"])
    assert whole.contains(front.intersection(curves.polygon(canvas.outline, 64).convex_hull))
    lapel = curves.polygon(np.concatenate([forepart.marks["lapel_turned"]]), 256)
    points = forepart.points
    assert whole.contains(Point(points["tip"]).buffer(8)) and whole.contains(Point(points["neck_point"]).buffer(5))
    assert whole.contains(curves.line(forepart.edges["gorge"], 64).buffer(4)) and lapel.area > 0
    # its slit spread, the shoulder lies as far from the slit's end as before
    slit = canvas.edges["slit_edge"]
    assert np.hypot(*(slit[0, 0] - slit[0, 3])) == pytest.approx(np.hypot(*(slit[1, 0] - slit[1, 3])), abs=1e-9)
    assert np.hypot(*(slit[0, 0] - slit[1, 3])) == pytest.approx(k["canvas_slit_spread"], abs=1e-6)


@everyone
def test_canvas_covers_what_lies_on_it(name):
    coat = made(name)
    whole, forepart = filled(coat.pieces["body_canvas"]), curves.polygon(coat.pieces["forepart"].outline, 256)
    chest = curves.polygon(coat.pieces["chest_piece"].outline, 256)
    shoulder = curves.polygon(coat.pieces["shoulder_piece"].outline, 256)
    assert whole.contains(chest) and forepart.contains(chest)
    assert forepart.buffer(0.01).contains(shoulder)
    buttons = [mark for mark_name, mark in coat.pieces["forepart"].marks.items() if mark_name.startswith("button_")]
    for button in buttons:  # sewn through the canvas; the top row of six is beside the lapel, over the chest
        assert whole.contains(curves.polygon(button, 16))


@everyone
def test_chest_piece_keeps_its_distances(name):
    coat = made(name)
    piece, points, k = coat.pieces["chest_piece"], coat.pieces["forepart"].points, coat.constants
    fold = LineString((points["break_point"], points["stand_point"]))
    front = LineString(piece.edges["break_edge"][0][[0, 3]])
    assert front.hausdorff_distance(fold) > 1
    assert fold.distance(front) == pytest.approx(k["chest_piece_behind_break"], abs=1e-6)
    lowest = curves.points(piece.edges["bottom"], 256)[:, 1].min()
    assert points["scye_front"][1] - lowest == pytest.approx(k["chest_piece_below_scye"], abs=0.5)
    rear = curves.points(piece.edges["scye"], 256)[:, 0]
    assert rear[-1] - points["scye_front"][0] == pytest.approx(k["chest_piece_short_of_scye"], abs=1e-6)


@everyone
def test_bridle(name):
    coat = made(name)
    line, points, k = coat.pieces["body_canvas"].marks["bridle_line"], coat.pieces["forepart"].points, coat.constants
    fold = LineString((points["break_point"], points["stand_point"]))
    for end in (line[0, 0], line[-1, 3]):
        assert fold.distance(Point(end)) == pytest.approx(k["bridle_inside"], abs=1e-6)
    gorge = curves.line(coat.pieces["forepart"].edges["gorge"], 1024)
    assert gorge.distance(Point(line[-1, 3])) < 1e-3  # in the neck seam
    held = np.hypot(*(line[-1, 3] - line[0, 0]))
    tape = curves.length(coat.pieces["bridle"].edges["break_edge"])
    assert tape == pytest.approx(held * (1 - coat.fields["bridle_drawn_in"] / 100), abs=1e-9)


@everyone
def test_edge_tape(name):
    coat = made(name)
    wanted = sum(curves.length(coat.pieces["forepart"].edges[edge]) for edge in ("front_edge", "lapel_edge"))
    if not shawl(coat):
        wanted += curves.length(coat.pieces["forepart"].edges["lapel_step"])
    wanted += curves.length(coat.pieces["facing"].edges["hem"])
    assert curves.length(coat.pieces["edge_tape"].edges["break_edge"]) == pytest.approx(wanted, abs=1e-6)


def test_bias_and_level():
    """Collar canvas at half a right angle to the centre back, shoulder piece to the forepart's grain; the hair of the
    chest piece level; the top collar along its fold."""
    pieces = made("regular").pieces

    def heading(path):
        return math.degrees(math.atan2(*(path[-1, 3] - path[0, 0])[::-1]))

    for name, against, angle in (("collar_canvas", pieces["under_collar"].edges["centre_back"], 45),
                                 ("top_collar", pieces["top_collar"].marks["fold_line"], 0),
                                 ("shoulder_piece", pieces["forepart"].marks["grain"], 45),
                                 ("chest_piece", pieces["forepart"].marks["grain"], 90),
                                 ("body_canvas", pieces["forepart"].marks["grain"], 0)):
        off = abs(heading(pieces[name].marks["grain"]) - heading(against)) % 180
        assert min(off, 180 - off) == pytest.approx(angle, abs=1e-6), name
