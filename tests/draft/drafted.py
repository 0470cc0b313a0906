"""Coats drafted through the shared library, as plain numbers: what the Python tests of this folder measure with other
libraries. Curves come as arrays of shape (cubics, 4 control points, 2)."""
import ctypes
import functools
import os
import pathlib
from ctypes import POINTER, byref, c_char_p, c_double, c_int, c_int32, c_size_t, c_void_p

import numpy as np

BUILD = pathlib.Path(os.environ.get("TAILOR_BUILD", pathlib.Path(__file__).resolve().parents[2] / "build-tests/gcc"))


class Point(ctypes.Structure):
    _fields_ = [("x", c_double), ("y", c_double)]


class Cubic(ctypes.Structure):
    _fields_ = [("p", Point * 4)]


class Stretch(ctypes.Structure):
    _fields_ = [("piece", c_int32), ("edge", c_int32), ("start", c_double), ("end", c_double)]


class Fault(ctypes.Structure):
    _fields_ = [("status", c_int32), ("table", c_int32), ("index", c_int32), ("place", c_int32), ("value", c_double),
                ("low", c_double), ("high", c_double), ("sentence", ctypes.c_char * 216)]


@functools.cache
def library():
    lib = ctypes.CDLL(str(BUILD / "lib/libtailorgeom.so"))
    for table in ("field", "constant", "quantity", "check"):
        getattr(lib, f"tailor_{table}_table").restype = c_void_p
    lib.tailor_table_text.restype = c_char_p
    lib.tailor_table_text.argtypes = [c_void_p, c_int, c_int]
    lib.tailor_table_size.argtypes = [c_void_p]
    for row in ("fields", "constants", "quantities"):
        getattr(lib, f"tailor_coat_{row}").restype = POINTER(c_double)
        getattr(lib, f"tailor_coat_{row}").argtypes = [c_void_p, POINTER(c_size_t)]
    lib.tailor_coat_pattern.restype = c_void_p
    lib.tailor_coat_pattern.argtypes = lib.tailor_coat_free.argtypes = [c_void_p]
    lib.tailor_coat_check.argtypes = [c_void_p, c_int, POINTER(c_double), POINTER(c_double)]
    for what in ("piece", "edge", "point", "mark", "seam"):
        getattr(lib, f"tailor_{what}_name").restype = c_char_p
    for path in ("tailor_piece_outline", "tailor_edge_path", "tailor_mark_path"):
        getattr(lib, path).restype = POINTER(Cubic)
    lib.tailor_point_place.restype = Point
    lib.tailor_seam_ease.restype = c_double
    lib.tailor_path_length.restype = lib.tailor_path_area.restype = c_double
    lib.tailor_path_length.argtypes = lib.tailor_path_area.argtypes = [c_void_p, c_size_t]
    return lib


@functools.cache
def names(table):
    """{name: number} of a table."""
    lib = library()
    pointer = c_void_p(getattr(lib, f"tailor_{table}_table")())
    rows = {lib.tailor_table_text(pointer, number, 1).decode(): number
            for number in range(1, lib.tailor_table_size(pointer))}
    rows.pop("", None)
    return rows


def _row(table, given=None):
    row = (c_double * (max(names(table).values()) + 1))(*[float("nan")] * (max(names(table).values()) + 1))
    for name, value in (given or {}).items():
        row[names(table)[name]] = value
    return row


def _read(coat, table, row):
    """{name: value} of a whole row of a coat."""
    count = c_size_t()
    values = getattr(library(), f"tailor_coat_{row}")(coat, byref(count))
    assert count.value == len(_row(table))
    return {name: values[number] for name, number in names(table).items()}


def _check(coat, number):
    value = c_double()
    library().tailor_coat_check(coat, number, byref(value), None)
    return value.value


def _path(function, *where):
    count = c_size_t()
    path = function(*where, byref(count))
    return np.array([[(p.x, p.y) for p in path[i].p] for i in range(count.value)])


class Piece:
    def __init__(self, lib, coat, index):
        where = (coat, index)
        self.cut = lib.tailor_piece_copies(*where)
        self.outline = _path(lib.tailor_piece_outline, *where)
        self.edges = {lib.tailor_edge_name(*where, i).decode(): _path(lib.tailor_edge_path, *where, i)
                      for i in range(lib.tailor_piece_edge_count(*where))}
        places = {lib.tailor_point_name(*where, i).decode(): lib.tailor_point_place(*where, i)
                  for i in range(lib.tailor_piece_point_count(*where))}
        self.points = {name: np.array((p.x, p.y)) for name, p in places.items()}
        self.marks = {lib.tailor_mark_name(*where, i).decode(): _path(lib.tailor_mark_path, *where, i)
                      for i in range(lib.tailor_piece_mark_count(*where))}


class Coat:
    """`fields` resolved, `constants`, `quantities`, `checks` {name: value}, `pieces` {name: Piece} and
    `seams` {name: (ease, (piece, edge, from, to), (piece, edge, from, to))}. Net, with the section of the roll."""
    EXTENT = 2

    def __init__(self, **order):
        lib = library()
        client, made, fault = _row("field", order), c_void_p(), Fault()
        status = lib.tailor_coat_new(None, client, c_size_t(len(client)), self.EXTENT, byref(made), byref(fault))
        assert status == 0, fault.sentence.decode()
        self.fields, self.constants = _read(made, "field", "fields"), _read(made, "constant", "constants")
        self.quantities = _read(made, "quantity", "quantities")
        self.checks = {name: _check(made, number) for name, number in names("check").items()}
        coat = c_void_p(lib.tailor_coat_pattern(made))
        self.pieces = {lib.tailor_piece_name(coat, i).decode(): Piece(lib, coat, i)
                       for i in range(lib.tailor_pattern_piece_count(coat))}
        self.seams = {lib.tailor_seam_name(coat, i).decode():
                      (lib.tailor_seam_ease(coat, i), self._side(lib, coat, i, 0), self._side(lib, coat, i, 1))
                      for i in range(lib.tailor_pattern_seam_count(coat))}
        lib.tailor_coat_free(made)

    def _side(self, lib, coat, seam, side):
        sewn = Stretch()
        assert lib.tailor_seam_stretch_count(coat, seam, side) == 1
        assert lib.tailor_seam_stretch(coat, seam, side, 0, byref(sewn)) == 0
        names_of = lib.tailor_piece_name(coat, sewn.piece), lib.tailor_edge_name(coat, sewn.piece, sewn.edge)
        return (*(name.decode() for name in names_of), sewn.start, sewn.end)

    def point(self, piece, name):
        return self.pieces[piece].points[name]

    def edge(self, piece, name):
        return self.pieces[piece].edges[name]


def by_library(function, path):
    """What the library's own tailor_path_<function> says of a path."""
    flat = np.ascontiguousarray(path, dtype=float)
    return getattr(library(), f"tailor_path_{function}")(flat.ctypes.data, len(flat))


# A dozen men, and every choice of style at least once.
ORDERS = {
    "regular": dict(chest_girth=1016, stature=1780),
    "slim": dict(chest_girth=900, waist_girth=740, stature=1740, buttoning=1),
    "stout": dict(chest_girth=1130, waist_girth=1160, seat_girth=1150, stature=1750, buttoning=2),
    "belly": dict(chest_girth=1080, waist_girth=1010, belly_girth=1090, stature=1790, front_cut=2),
    "tall": dict(chest_girth=1000, waist_girth=860, stature=1980, buttoning=3),
    "short": dict(chest_girth=980, waist_girth=850, stature=1600, buttoning=4),
    "large": dict(chest_girth=1290, waist_girth=1200, stature=1850, buttoning=5),
    "small": dict(chest_girth=860, stature=1650, lapel_width=72, button_spacing=95),
    "crooked": dict(chest_girth=1016, stature=1778, crook=25, balance=6, buttoning=3, lapel=2),
    "sloping": dict(chest_girth=1040, shoulder_slope=25, shoulder_pad=4, scye_drop=28, buttoning=5),
    "strong arm": dict(chest_girth=1060, upper_arm_girth=395, stature=1800),
    "heavy cloth": dict(chest_girth=1060, cloth_weight=560, collar_fall=50, lapel_width=96, gorge_slope=24,
                        front_cut=2, buttoning=4),
    "measured": dict(chest_girth=1016, stature=1780, front_shoulder=345, over_shoulder=488, back_width=392,
                     cross_chest=390, sleeve_from_centre_back=830, seat_level=640, lapel=2),
    "double-breasted": dict(chest_girth=1016, stature=1800, buttoning=7, waist_girth=880),
    "double-breasted four": dict(chest_girth=1100, waist_girth=1060, buttoning=6, wrap=90, button_stand=22),
    "shawl": dict(chest_girth=980, stature=1760, buttoning=1, lapel=3, lapel_width=80),
    "rolled bar": dict(chest_girth=1000, stature=1780, buttoning=4, hole_face_1=3),
}


@functools.cache
def coat(name):
    return Coat(**ORDERS[name])
