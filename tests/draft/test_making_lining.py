"""Linings, turned-up hems, vents and pocket pieces against GEOS (by Shapely) and QUADPACK (by SciPy): areas, lengths,
what lies in what."""
import functools

import numpy as np
import pytest
from shapely.geometry import Point
from shapely.ops import unary_union
from shapely.validation import explain_validity

import curves
import drafted

ORDERS = {
    **{name: drafted.ORDERS[name] for name in ("regular", "slim", "stout", "tall", "short", "large", "small")},
    "double": dict(chest_girth=1016, stature=1780, buttoning=7, vents=2, hip_pockets=4),
    "double four": dict(chest_girth=1060, stature=1740, buttoning=6, pocket_slant=25, hip_pockets=2),
    "slanted patch": dict(chest_girth=960, stature=1820, pocket_slant=30, hip_pockets=4, vents=1, sleeve_vent=1),
    "square": dict(chest_girth=1016, stature=1780, front_cut=2, pocket_slant=25, cuff_buttons=6),
    "belly": dict(chest_girth=1100, waist_girth=1120, belly_girth=1180, stature=1760, vents=2),
}
everyone = pytest.mark.parametrize("name", ORDERS)
LININGS = ("lining_back", "lining_sidebody", "lining_forepart", "lining_topsleeve", "lining_undersleeve")
POCKETS = ("breast_welt", "breast_bag", "pocket_flap", "flap_lining", "pocket_jetting", "pocket_bag", "patch_pocket",
           "patch_lining", "inside_pocket_jetting", "inside_pocket_bag")


class Made(drafted.Coat):
    """A coat with all its pieces."""
    EXTENT = 1

    def area(self, piece):
        return curves.polygon(self.pieces[piece].outline, 128)


@functools.cache
def made(name):
    return Made(**ORDERS[name])


@everyone
def test_outlines_and_areas(name):
    coat = made(name)
    found = [piece for piece in coat.pieces if piece in LININGS + POCKETS]
    assert set(LININGS) <= set(found)
    for piece in found:
        outline = coat.pieces[piece].outline
        polygon = curves.polygon(outline)
        assert polygon.is_valid, f"{piece}: {explain_validity(polygon)}"
        assert polygon.exterior.is_ccw, piece
        assert drafted.by_library("area", outline) == pytest.approx(polygon.area, rel=2e-6), piece


@everyone
def test_seams_have_their_ease(name):
    """By quadrature: the stretches that are sewn, of edges that are at least that long."""
    coat, tried = made(name), 0
    for seam, (ease, *sides) in coat.seams.items():
        if not seam.startswith("lining_"):
            continue
        sewn = []
        for piece, edge, start, end in sides:
            whole = curves.length(coat.pieces[piece].edges[edge])
            assert -1e-6 <= min(start, end) and max(start, end) <= whole + 1e-6, seam
            sewn.append(abs(end - start))
        assert sewn[0] - sewn[1] == pytest.approx(ease, abs=0.05), seam
        tried += 1
    assert tried >= 7


def along(path, place):
    """Length of a path from its start to the place of it nearest to a point."""
    points = curves.points(path, 4000)
    nearest = np.argmin(np.hypot(*(points - place).T))
    return np.hypot(*np.diff(points[:nearest + 1], axis=0).T).sum()


# Notches that meet in a seam: lining piece, its edge and the end that both are counted from (0 start, 1 end), twice.
NOTCHES = {
    "notch_waist_back": (("lining_back", "back_seam", 0), ("lining_sidebody", "back_seam", 1)),
    "notch_seat_back": (("lining_back", "back_seam", 0), ("lining_sidebody", "back_seam", 1)),
    "notch_waist_front": (("lining_sidebody", "front_seam", 1), ("lining_forepart", "front_seam", 0)),
    "notch_seat_front": (("lining_sidebody", "front_seam", 1), ("lining_forepart", "front_seam", 0)),
    "notch_fore_upper": (("lining_topsleeve", "forearm_seam", 1), ("lining_undersleeve", "forearm_seam", 0)),
    "notch_fore_lower": (("lining_topsleeve", "forearm_seam", 0), ("lining_undersleeve", "forearm_seam", 1)),
    "notch_hind_upper": (("lining_topsleeve", "hindarm_seam", 0), ("lining_undersleeve", "hindarm_seam", 1)),
    "notch_hind_lower": (("lining_topsleeve", "hindarm_seam", 1), ("lining_undersleeve", "hindarm_seam", 0)),
}


@everyone
def test_notches_meet(name):
    coat = made(name)
    for notch, sides in NOTCHES.items():
        lengths = []
        for piece_name, edge, end in sides:
            path, place = coat.pieces[piece_name].edges[edge], coat.pieces[piece_name].marks[notch][0, 0]
            length = along(path, place)
            lengths.append(curves.length(path) - length if end else length)
        assert lengths[0] == pytest.approx(lengths[1], abs=0.15), notch


@everyone
def test_lining_lies_in_the_coat(name):
    """Nothing of it reaches out of its cloth piece but the pleat, and what is raised under the arm."""
    coat = made(name)
    more = coat.constants["lining_scye_more"] + 0.5
    for cloth in ("sidebody", "forepart", "topsleeve", "undersleeve"):
        lining, piece = coat.area(f"lining_{cloth}"), coat.area(cloth)
        assert piece.buffer(more).contains(lining), cloth
        below = lining.difference(piece.buffer(2))  # the ease lets it down a seam that slants
        if not below.is_empty:  # only at the top
            assert below.bounds[1] > piece.bounds[3] - 0.75 * (piece.bounds[3] - piece.bounds[1]), cloth
    pleat = coat.area("lining_back").difference(coat.area("back").buffer(more))
    assert pleat.bounds[2] < 0.5 * coat.constants["lining_pleat"]
    # From nape to waist: full at the nape, nothing at the waist.
    assert -pleat.bounds[0] == pytest.approx(coat.constants["lining_pleat"], abs=8)
    assert pleat.bounds[1] > -coat.fields["back_waist_length"]


@everyone
def test_hem_of_the_lining_leaves_its_fold_15_to_20_above_the_edge(name):
    coat = made(name)
    longer = coat.constants["lining_long"]
    for cloth, edge in (("back", "hem"), ("sidebody", "hem"), ("forepart", "hem"), ("topsleeve", "cuff"),
                        ("undersleeve", "cuff")):
        net = curves.line(coat.pieces[cloth].edges[edge])
        lining = curves.points(coat.pieces[f"lining_{cloth}"].edges[edge], 40)
        above = np.array([net.distance(Point(p)) for p in lining])
        # Felled longer above its own edge, it hangs half as much below that line. Its ease makes it lower.
        fold = above + longer - longer / 2
        slack = coat.constants["lining_seam_ease"] + coat.constants["forearm_stretch"]
        assert fold.max() <= 20 and fold.min() >= 15 - slack, (cloth, fold.min(), fold.max())


@everyone
def test_facing_and_lining_cover_the_forepart(name):
    coat = made(name)
    forepart, lining = coat.area("forepart"), coat.area("lining_forepart")
    inner = curves.line(coat.pieces["lining_forepart"].edges["inner_edge"], 64)
    assert forepart.buffer(0.01).contains(inner)
    if "facing" in coat.pieces:
        facing = coat.area("facing")
        own = curves.line(coat.pieces["facing"].edges["inner_edge"], 64)
        assert inner.hausdorff_distance(own) < 20 and max(own.distance(Point(p)) for p in inner.coords) < 1.5
        bare = forepart.difference(unary_union([facing, lining]).buffer(1.5))
        hem = curves.length(coat.pieces["lining_forepart"].edges["hem"])
        assert bare.area < 14 * hem + 400  # the strip along the hem, and the gorge where the facing is turned
        assert facing.intersection(lining).area < 3 * inner.length


@everyone
def test_facing_is_under_holes_and_buttons(name):
    """Its inner edge lies facing_past_holes behind whatever is farthest back of a row that buttons."""
    coat = made(name)
    marks = coat.pieces["forepart"].marks
    inner = curves.line(coat.pieces["lining_forepart"].edges["inner_edge"])
    holes = [mark for mark in marks if mark.startswith("hole_")]
    first = min(curves.points(marks[hole])[:, 1].max() for hole in holes)
    back = [marks[hole][0, 3] for hole in holes]
    back += [marks[mark][:, 0].mean(axis=0) for mark in marks if mark.startswith("button_")
             and marks[mark][:, 0, 1].mean() <= max(curves.points(marks[hole])[:, 1].max() for hole in holes) + 1]
    assert first < 0
    for place in back:
        level = curves.points(coat.pieces["lining_forepart"].edges["inner_edge"], 200)
        x = level[np.argmin(np.abs(level[:, 1] - place[1])), 0]
        assert place[0] - x > coat.constants["facing_past_holes"] - 0.1
    assert inner.is_simple


@everyone
def test_turn_ups_and_vents_lie_beyond_the_net_edge(name):
    coat, depths = made(name), {"hem_turn_up": "hem_turn_up", "cuff_turn_up": "cuff_turn_up"}
    seen = set()
    for piece_name in ("back", "sidebody", "forepart", "topsleeve", "undersleeve"):
        piece = coat.area(piece_name)
        for mark, path in coat.pieces[piece_name].marks.items():
            if mark not in ("hem_turn_up", "cuff_turn_up", "vent", "sleeve_vent"):
                continue
            seen.add(mark)
            region = curves.polygon(path, 128)
            assert region.is_valid and region.exterior.is_ccw, (piece_name, mark)
            assert region.intersection(piece).area < 2e-3 * region.area, (piece_name, mark)
            assert unary_union([region.buffer(0.02), piece.buffer(0.02)]).geom_type == "Polygon"
            if mark in depths:
                edge = curves.line(coat.pieces[piece_name].edges["cuff" if mark == "cuff_turn_up" else "hem"])
                depth = max(edge.distance(Point(p)) for p in region.exterior.coords)
                assert depth == pytest.approx(coat.constants[depths[mark]], abs=2.5), (piece_name, mark)
    vents, sleeve_vent = coat.fields["vents"], coat.fields["sleeve_vent"]
    assert ("vent" in seen) == (vents > 1) and ("sleeve_vent" in seen) == (sleeve_vent > 1)
    assert {"hem_turn_up", "cuff_turn_up"} <= seen


@everyone
def test_a_turned_up_hem_ends_on_its_seams(name):
    """Folded at the net edge, the ends of what is turned up lie on the seams of the piece."""
    coat = made(name)
    for piece_name, edge, mark, seams in (("back", "hem", "hem_turn_up", ("centre_back", "back_seam")),
                                          ("sidebody", "hem", "hem_turn_up", ("back_seam", "front_seam")),
                                          ("topsleeve", "cuff", "cuff_turn_up", ("hindarm_seam", "forearm_seam")),
                                          ("undersleeve", "cuff", "cuff_turn_up", ("forearm_seam", "hindarm_seam"))):
        piece = coat.pieces[piece_name]
        net, outer = piece.edges[edge], piece.marks[mark][1]
        for end, seam in enumerate(seams):
            fold, place = net[-1 if end else 0, 3 if end else 0], outer[3 if end else 0]
            folded = curves.mirrored(place[None], fold, fold + curves.direction(net, end))[0]
            assert curves.line(piece.edges[seam]).distance(Point(folded)) < 1.5, (piece_name, seam)


@everyone
def test_areas_of_flap_and_welt(name):
    coat = made(name)
    if "pocket_flap" in coat.pieces:
        mouth = coat.pieces["pocket_flap"].edges["mouth"][0]
        across, height = abs(mouth[0, 0] - mouth[3, 0]), coat.constants["flap_height"]
        corner = (1 - np.pi / 4) * 20 ** 2  # rounded at 20 mm; less or more where the flap slants
        assert coat.area("pocket_flap").area == pytest.approx(across * height - corner, abs=25)
        assert coat.area("flap_lining").area < coat.area("pocket_flap").area
    welt = curves.polygon(coat.pieces["forepart"].marks["breast_welt"])
    assert coat.area("breast_welt").area == pytest.approx(2 * welt.area, rel=1e-9)
    if "patch_pocket" in coat.pieces:
        assert 0.6 * coat.area("patch_pocket").area < coat.area("patch_lining").area < coat.area("patch_pocket").area


def test_every_kind_of_pocket_was_seen():
    seen = {piece for name in ORDERS for piece in made(name).pieces}
    assert set(POCKETS) <= seen
