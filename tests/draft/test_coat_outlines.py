"""The pieces of a dozen coats against GEOS (by Shapely) and QUADPACK (by SciPy): areas, lengths, validity, seams."""
import numpy as np
import pytest
from shapely.geometry import Point
from shapely.validation import explain_validity

import curves
import drafted

everyone = pytest.mark.parametrize("name", drafted.ORDERS)


@everyone
def test_outlines_are_valid_and_closed_and_counter_clockwise(name):
    for piece_name, piece in drafted.coat(name).pieces.items():
        ends, starts = piece.outline[:, 3], np.roll(piece.outline[:, 0], -1, axis=0)
        assert np.abs(ends - starts).max() < 1e-9, piece_name
        polygon = curves.polygon(piece.outline, 256)
        assert polygon.is_valid, f"{piece_name}: {explain_validity(polygon)}"
        assert polygon.exterior.is_ccw, piece_name


@everyone
def test_areas(name):
    """A polygon of 1024 chords a cubic falls short of a curved area by less than 2e-6 of it on these curves."""
    coat, whole = drafted.coat(name), 0
    for piece_name, piece in coat.pieces.items():
        area = curves.polygon(piece.outline).area
        assert drafted.by_library("area", piece.outline) == pytest.approx(area, rel=2e-6), piece_name
        whole += area * piece.cut
    assert coat.quantities["cloth_area"] == pytest.approx(whole, rel=2e-6)
    turned = curves.polygon(coat.pieces["forepart"].marks["lapel_turned"]).area
    assert coat.quantities["lapel_area"] == pytest.approx(turned, rel=2e-6)


@everyone
def test_lengths_of_edges(name):
    for piece in drafted.coat(name).pieces.values():
        for edge_name, path in piece.edges.items():
            assert drafted.by_library("length", path) == pytest.approx(curves.length(path), abs=1e-8), edge_name


# Quantities that are sums of lengths of edges: (piece, edge) each.
LENGTHS = {
    "finished_length": [("back", "centre_back")],
    "scye_length": [("back", "scye"), ("sidebody", "scye"), ("forepart", "scye")],
    "back_shoulder_length": [("back", "shoulder")],
    "front_shoulder_length": [("forepart", "shoulder")],
    "crown_length": [("topsleeve", "crown"), ("undersleeve", "crown")],
    "neck_seam_length": [("back", "neck"), ("forepart", "gorge")],
    "back_neck_length": [("back", "neck")],
    "gorge_length": [("forepart", "gorge")],
    "collar_leaf_length": [("under_collar", "leaf")],
    "lapel_edge_length": [("forepart", "lapel_edge")],
}


@everyone
def test_quantities_that_are_lengths(name):
    coat = drafted.coat(name)
    lengths = {quantity: sum(curves.length(coat.edge(*edge)) for edge in edges) for quantity, edges in LENGTHS.items()}
    for quantity, length in lengths.items():
        assert coat.quantities[quantity] == pytest.approx(length, abs=1e-7), quantity
    fullness = lengths["crown_length"] - lengths["scye_length"]
    assert coat.quantities["crown_fullness"] == pytest.approx(fullness, abs=1e-7)
    assert coat.fields["crown_fullness"] == pytest.approx(fullness, abs=0.01)
    ease = lengths["back_shoulder_length"] - lengths["front_shoulder_length"]
    assert coat.fields["shoulder_ease"] == pytest.approx(ease, abs=0.05)
    assert curves.length(coat.edge("under_collar", "neck")) == pytest.approx(lengths["neck_seam_length"], abs=0.01)


WHOLE = {"back_seam", "front_seam", "shoulder", "forearm_seam", "hindarm_seam"}


@everyone
def test_seam_pairs(name):
    """One edge of a whole seam is longer than the other by the stated ease; so are the stretches of the others."""
    coat = drafted.coat(name)
    for seam, (ease, a, b) in coat.seams.items():
        length_a, length_b = curves.length(coat.edge(*a[:2])), curves.length(coat.edge(*b[:2]))
        if seam in WHOLE:
            assert abs(a[3] - a[2]) == pytest.approx(length_a, abs=1e-6), seam
            assert abs(b[3] - b[2]) == pytest.approx(length_b, abs=1e-6), seam
            assert length_a - length_b == pytest.approx(ease, abs=0.05), seam
        assert abs(a[3] - a[2]) - abs(b[3] - b[2]) == pytest.approx(ease, abs=0.05), seam
    assert coat.seams["back_seam"][0] == coat.constants["blade_ease"]
    assert coat.seams["forearm_seam"][0] == -coat.constants["forearm_stretch"]
    assert coat.seams["shoulder"][0] == coat.fields["shoulder_ease"]


# Where partial seams begin and end: seam, side, which end, piece and point.
ENDS = [("crown_front", 1, 2, "topsleeve", "front_pitch"), ("crown_front", 1, 3, "topsleeve", "crown_notch"),
        ("crown_front", 2, 2, "forepart", "front_pitch"), ("crown_front", 2, 3, "forepart", "shoulder_end"),
        ("crown_back", 1, 2, "topsleeve", "crown_notch"), ("crown_back", 1, 3, "topsleeve", "back_pitch"),
        ("crown_back", 2, 2, "back", "shoulder_end"), ("crown_back", 2, 3, "back", "back_pitch"),
        ("back_neck", 1, 3, "under_collar", "neck_point"), ("back_neck", 2, 2, "back", "nape"),
        ("back_neck", 2, 3, "back", "neck_point"), ("gorge", 1, 2, "under_collar", "neck_point"),
        ("gorge", 1, 3, "under_collar", "collar_end"), ("gorge", 2, 2, "forepart", "neck_point"),
        ("gorge", 2, 3, "forepart", "collar_end"), ("shoulder", 1, 2, "back", "shoulder_end"),
        ("shoulder", 1, 3, "back", "neck_point"), ("shoulder", 2, 2, "forepart", "shoulder_end"),
        ("shoulder", 2, 3, "forepart", "neck_point"), ("hindarm_seam", 1, 2, "topsleeve", "back_pitch"),
        ("hindarm_seam", 2, 2, "undersleeve", "back_pitch")]


@everyone
def test_seams_begin_and_end_where_they_should(name):
    """Along a line of 4096 chords a cubic, 0.01 mm are reached."""
    coat = drafted.coat(name)
    for seam, side, end, piece, point in ENDS:
        where = coat.seams[seam][side]
        assert where[0] == piece
        place = curves.line(coat.edge(*where[:2]), 4096).interpolate(where[end])
        assert place.distance(Point(coat.point(piece, point))) < 0.01, (seam, side, end)


@everyone
def test_the_collar_lies_in_the_gorge(name):
    """The under collar's neck edge is the gorge of the forepart, and then an arc beyond the neck point."""
    coat = drafted.coat(name)
    gorge, neck = coat.edge("forepart", "gorge"), coat.edge("under_collar", "neck")
    assert curves.line(gorge).hausdorff_distance(curves.line(neck[-len(gorge):])) < 1e-9
    overlap = curves.polygon(coat.pieces["under_collar"].outline).intersection(curves.line(neck))
    assert overlap.length == pytest.approx(curves.length(neck), rel=1e-4)
