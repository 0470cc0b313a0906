"""What a tape finds on the pieces of a dozen coats, by GEOS: girths, widths (slices of polygons), coverage, lapel."""
import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon

import curves
import drafted

everyone = pytest.mark.parametrize("name", drafted.ORDERS)
FAR = 5000


def slice_at(outline, level):
    """(least x, greatest x) of an outline at a level."""
    cut = curves.polygon(outline, 2048).intersection(LineString([(-FAR, level), (FAR, level)]))
    return cut.bounds[0], cut.bounds[2]


def half_girth(coat, level, centre_front):
    pieces = coat.pieces
    back, side = slice_at(pieces["back"].outline, level), slice_at(pieces["sidebody"].outline, level)
    girth = back[1] - back[0] + side[1] - side[0] + centre_front - slice_at(pieces["forepart"].outline, level)[0]
    dart = pieces["forepart"].marks.get("dart")
    if dart is not None and curves.polygon(dart).intersects(LineString([(-FAR, level), (FAR, level)])):
        girth -= np.ptp(slice_at(dart, level))
    return girth


@everyone
@pytest.mark.parametrize("where", ["waist", "seat"])
def test_girths_at_waist_and_seat(name, where):
    coat = drafted.coat(name)
    centre = coat.point("forepart", f"centre_front_{where}")
    girth = half_girth(coat, centre[1], centre[0])
    assert girth == pytest.approx((coat.fields[f"{where}_girth"] + coat.fields[f"{where}_ease"]) / 2, abs=0.01)
    assert coat.quantities[f"half_girth_{where}"] == pytest.approx(girth, abs=1e-4)
    assert coat.quantities[f"finished_{where}"] == pytest.approx(2 * girth, abs=2e-4)


@everyone
def test_girth_at_the_scye_line(name):
    """The library takes sidebody and forepart where they touch, at the top of their seam, a little above the scye line.
    A tape on the line finds the seam begun: up to a millimetre less in half the coat, or more on a stout man."""
    coat = drafted.coat(name)
    centre = coat.point("forepart", "centre_front_scye")
    girth = half_girth(coat, centre[1] - 1e-6, centre[0])
    wanted = (coat.fields["chest_girth"] + coat.fields["chest_ease"]) / 2
    assert girth == pytest.approx(wanted, abs=1)
    assert coat.quantities["half_girth_scye"] == pytest.approx(wanted, abs=0.01)
    assert coat.quantities["finished_chest"] == pytest.approx(2 * wanted, abs=0.02)


@everyone
def test_widths_of_back_and_chest(name):
    coat = drafted.coat(name)
    cross = coat.point("back", "cross_back")
    back = slice_at(coat.pieces["back"].outline, cross[1])
    assert back[1] == pytest.approx(cross[0], abs=1e-4)
    width = coat.fields["back_width"] + coat.constants["ease_share_back"] * coat.fields["chest_ease"]
    assert 2 * (back[1] - back[0]) == pytest.approx(width, abs=0.01)
    assert coat.quantities["cross_back_finished"] == pytest.approx(2 * (back[1] - back[0]), abs=1e-3)
    fore = slice_at(coat.pieces["forepart"].outline, coat.point("forepart", "scye_plumb")[1])
    chest = 2 * (coat.point("forepart", "centre_front_scye")[0] - fore[0])
    share = 1 - coat.constants["ease_share_back"] - coat.constants["ease_share_scye"]
    assert chest == pytest.approx(coat.fields["cross_chest"] + share * coat.fields["chest_ease"], abs=0.01)
    assert coat.quantities["cross_chest_finished"] == pytest.approx(chest, abs=1e-3)
    side = slice_at(coat.pieces["sidebody"].outline, coat.point("sidebody", "waist")[1])
    assert coat.quantities["sidebody_at_waist"] == pytest.approx(side[1] - side[0], abs=1e-4)


@everyone
def test_the_scye_is_an_egg(name):
    """Lowest on the scye line, behind its middle; nowhere behind the back width, nor beyond the front of scye."""
    coat = drafted.coat(name)
    level, front = coat.point("forepart", "scye_front")[1], coat.point("forepart", "scye_front")[0]
    paths = {piece: curves.points(coat.edge(piece, "scye")) for piece in ("back", "sidebody", "forepart")}
    lowest = min(points[:, 1].min() for points in paths.values())
    assert lowest == pytest.approx(level, abs=1)
    side = paths["sidebody"]
    place = side[side[:, 1].argmin(), 0]
    back = coat.point("back", "cross_back")[0]
    share = (place - back) / (front - back)
    assert 0.575 <= share <= 0.65
    assert coat.checks["scye_low_least"] == pytest.approx(share, abs=2e-3)
    assert paths["forepart"][:, 0].max() <= front + 1e-6
    below = paths["back"][paths["back"][:, 1] < coat.point("back", "cross_back")[1]]
    assert below[:, 0].min() >= back - 1e-6


@everyone
def test_coverage_by_crossing_lines(name):
    coat = drafted.coat(name)
    stand, at_break, scye = (coat.point("forepart", p) for p in ("stand_point", "break_point", "scye_front"))
    fold, edge = LineString([stand, at_break]), curves.line(coat.edge("forepart", "front_edge"), 4096)
    levels = {"coverage_scye": scye[1], "coverage_top_button": coat.point("forepart", "top_button_level")[1]}
    for quantity, level in levels.items():
        ruler = LineString([(scye[0], level), (FAR, level)])
        crossing = ruler.intersection(fold if level >= at_break[1] else edge)
        assert coat.quantities[quantity] == pytest.approx(crossing.bounds[2] - scye[0], abs=1e-4), quantity
    assert coat.quantities["break_length"] == pytest.approx(fold.length, abs=1e-9)
    angle = np.degrees(np.arctan2(at_break[0] - stand[0], stand[1] - at_break[1]))
    assert coat.quantities["break_angle"] == pytest.approx(angle, abs=1e-9)


@everyone
def test_the_open_vee(name):
    """Twice the triangle between centre front, break line and neck point level."""
    coat = drafted.coat(name)
    stand, at_break, neck = (coat.point("forepart", p) for p in ("stand_point", "break_point", "neck_point"))
    centre = coat.point("forepart", "centre_front_scye")[0]
    beyond = at_break + 10 * (at_break - stand)
    above = Polygon([stand + 10 * (stand - at_break), beyond, (centre + FAR, beyond[1]), (centre + FAR, FAR)])
    strip = Polygon([(centre, neck[1]), (-FAR, neck[1]), (-FAR, -FAR), (centre, -FAR)])
    assert coat.quantities["vee_area"] == pytest.approx(2 * above.intersection(strip).area, rel=1e-9)
    assert coat.quantities["vee_depth"] == pytest.approx(neck[1] - at_break[1], abs=1e-9)


@everyone
def test_the_lapel_turned_is_a_mirror_image(name):
    coat = drafted.coat(name)
    forepart = coat.pieces["forepart"]
    stand, at_break = forepart.points["stand_point"], forepart.points["break_point"]
    fold = LineString([stand + 2 * (stand - at_break), at_break + 2 * (at_break - stand)])
    turned = forepart.marks["lapel_turned"]
    shawl = "lapel_step" not in forepart.edges  # then the gorge's line, parted somewhere, ends at the edge
    for edge, drawn in (("lapel_edge", turned[2:3]), *(() if shawl else (("lapel_step", turned[1:2]),))):
        flat = curves.points(forepart.edges[edge])
        image = LineString(curves.mirrored(flat, stand, at_break))
        assert image.hausdorff_distance(curves.line(drawn)) < 1e-6
        widest = max(Point(p).distance(fold) for p in flat[::32])
        assert max(Point(p).distance(fold) for p in curves.points(drawn)[::32]) == pytest.approx(widest, abs=1e-6)
    tip = forepart.points["tip"]
    widest = max(Point(xy).distance(fold) for xy in curves.points(forepart.edges["lapel_edge"], 2048)) if shawl else (
        Point(tip).distance(fold))
    assert widest == pytest.approx(coat.fields["lapel_width"], abs=0.01)
    worn = Point(curves.mirrored(tip, stand, at_break))
    clear = worn.distance(curves.line(forepart.edges["scye"]))
    assert coat.quantities["lapel_tip_to_scye"] == pytest.approx(clear, abs=1e-3)
    assert np.allclose(curves.mirrored(curves.mirrored(tip, stand, at_break), stand, at_break), tip, atol=1e-9)
    # worn, the lapel lies on the forepart; only gorge and step may reach over the neck
    body = curves.polygon(forepart.outline, 256)
    assert curves.polygon(turned, 256).difference(body.buffer(0.01)).area < 0.35 * coat.quantities["lapel_area"]


@everyone
def test_the_left_side_is_the_mirror_image_of_the_right(name):
    """Pieces are cut two, one the other's mirror image, as large; mirrored twice it is the same."""
    coat = drafted.coat(name)
    a, b = np.array((0.0, 0.0)), np.array((0.0, 1.0))
    for piece in coat.pieces.values():
        flat = curves.points(piece.outline, 64)[:-1]
        left = Polygon(curves.mirrored(flat, a, b))
        assert not left.exterior.is_ccw
        assert left.area == pytest.approx(Polygon(flat).area, rel=1e-12)
        assert np.allclose(curves.mirrored(curves.mirrored(flat, a, b), a, b), flat, atol=1e-9)
        assert piece.cut == 2


def end_of(coat, text):
    """Direction at an end of an edge: "PIECE EDGE 0" at its start, 1 at its end."""
    piece, edge, end = text.split()
    return curves.direction(coat.edge(piece, edge), int(end))


def joined(a, b):
    """The rotation that lays one piece against the other along a seam's end: their edges run against each other."""
    c, s = -b @ a, b[1] * a[0] - b[0] * a[1]
    return np.array(((c, -s), (s, c)))


# Lines that run on over a seam: the check that says so, the seam's end on both pieces, the line's end there.
RUNS = [
    ("scye_run_on", "back shoulder 0", "forepart shoulder 1", "back scye 1", "forepart scye 0"),
    ("neck_run_on", "back shoulder 1", "forepart shoulder 0", "back neck 0", "forepart gorge 1"),
    ("scye_run_on", "back back_seam 1", "sidebody back_seam 0", "back scye 0", "sidebody scye 1"),
    ("scye_run_on", "sidebody front_seam 1", "forepart front_seam 0", "sidebody scye 0", "forepart scye 1"),
    ("hem_run_on", "back back_seam 0", "sidebody back_seam 1", "back hem 1", "sidebody hem 0"),
    ("hem_run_on", "sidebody front_seam 0", "forepart front_seam 1", "sidebody hem 1", "forepart hem 0"),
    ("crown_run_on", "topsleeve hindarm_seam 0", "undersleeve hindarm_seam 1", "topsleeve crown 1",
     "undersleeve crown 0"),
    ("crown_run_on", "topsleeve forearm_seam 1", "undersleeve forearm_seam 0", "topsleeve crown 0",
     "undersleeve crown 1"),
]


@everyone
def test_lines_run_on_over_the_seams(name):
    """Lay one piece against the other along their seam: the line along both has a corner of two degrees at most."""
    coat, worst = drafted.coat(name), {}
    for check, seam_a, seam_b, line_a, line_b in RUNS:
        turned = joined(end_of(coat, seam_a), end_of(coat, seam_b)) @ end_of(coat, line_b)
        corner = np.degrees(np.arccos(np.clip(end_of(coat, line_a) @ turned, -1, 1)))
        assert corner < 2, (check, line_a, line_b)
        worst[check] = max(worst.get(check, 0), corner)
    for check, corner in worst.items():
        assert coat.checks[check] == pytest.approx(corner, abs=1e-4), check
    centre = curves.direction(coat.edge("back", "centre_back"), 1)
    hem = curves.direction(coat.edge("back", "hem"), 0)
    assert abs(np.degrees(np.arccos(centre @ hem)) - 90) < 2


@everyone
def test_the_lapel_edge_leaves_the_front_edge_smoothly(name):
    coat = drafted.coat(name)
    a = curves.direction(coat.edge("forepart", "front_edge"), 1)
    b = curves.direction(coat.edge("forepart", "lapel_edge"), 0)
    assert np.degrees(np.arccos(np.clip(a @ b, -1, 1))) < 0.5


@everyone
def test_sleeve_and_collar(name):
    coat = drafted.coat(name)
    top, under = coat.pieces["topsleeve"], coat.pieces["undersleeve"]
    level = coat.point("forepart", "scye_front")[1]
    front, back = coat.point("forepart", "front_pitch")[1] - level, coat.point("back", "back_pitch")[1] - level
    assert top.points["front_pitch"][1] == pytest.approx(front, abs=5)
    assert under.points["back_pitch"][1] == pytest.approx(back, abs=5)
    assert coat.quantities["crown_height"] == pytest.approx(curves.points(top.edges["crown"])[:, 1].max(), abs=0.2)
    width = (under.points["back_pitch"][0] - top.points["back_pitch"][0]) / 2
    assert coat.quantities["sleeve_half_width"] == pytest.approx(width, abs=1e-9)
    assert 2 * width - coat.fields["upper_arm_girth"] >= 2 * coat.constants["arm_allowance"] - 1e-5
    # the undersleeve's crown laid on the underscye: within 4 mm from the forearm seam to the back seam
    pitch = coat.point("forepart", "front_pitch")
    crown, scye = curves.line(under.edges["crown"]), curves.points(coat.edge("sidebody", "scye"))
    laid = np.column_stack((pitch[0] - scye[:, 0], scye[:, 1] - level))
    laid = laid[laid[:, 0] >= under.edges["crown"][-1][3][0]]
    assert max(crown.distance(Point(p)) for p in laid[::64]) <= 4
    # the collar: the crease runs on from the break line, and stand and fall are as ordered at the centre back
    collar = coat.pieces["under_collar"]
    neck, crease, leaf = collar.edges["neck"][0][0], collar.points["crease_back"], collar.edges["leaf"][-1][3]
    assert np.hypot(*(crease - neck)) == pytest.approx(coat.fields["collar_stand"], abs=1e-6)
    assert np.hypot(*(leaf - crease)) == pytest.approx(coat.fields["collar_fall"], abs=1e-6)
    stand, at_break = coat.point("forepart", "stand_point"), coat.point("forepart", "break_point")
    fold = LineString([at_break, stand])
    assert LineString([collar.marks["crease"][0][0], collar.marks["crease"][0][3]]).hausdorff_distance(
        LineString([collar.marks["crease"][0][0], stand])) < 1e-9
    assert fold.distance(Point(collar.marks["crease"][0][0])) < 1e-6
