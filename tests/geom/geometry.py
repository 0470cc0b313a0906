"""The built library's geom through ctypes, and curves to try it on. The library is named by TAILORGEOM_LIBRARY, or lies
in the build directory that TAILOR_BUILD names."""
import ctypes
import os
import pathlib

import numpy as np


class Point(ctypes.Structure):
    _fields_ = [("x", ctypes.c_double), ("y", ctypes.c_double)]


class Cubic(ctypes.Structure):
    _fields_ = [("p", Point * 4)]


def _library():
    named = os.environ.get("TAILORGEOM_LIBRARY")
    if named:
        return ctypes.CDLL(named)
    if not os.environ.get("TAILOR_BUILD"):
        raise RuntimeError("set TAILORGEOM_LIBRARY to the shared library, or TAILOR_BUILD to the build directory")
    found = sorted(pathlib.Path(os.environ["TAILOR_BUILD"]).glob("lib/libtailorgeom.so*"))
    return ctypes.CDLL(str([path for path in found if path.is_file() and ".p" not in path.name][0]))


C = _library()
D, N, POINTER = ctypes.c_double, ctypes.c_size_t, ctypes.POINTER
for name in ("cubic_length", "cubic_length_to", "cubic_at_length", "path_length", "path_area", "path_nearest"):
    getattr(C, "tailor_" + name).restype = D
C.tailor_cubic_length_to.argtypes = C.tailor_cubic_at_length.argtypes = [POINTER(Cubic), D]
C.tailor_path_length.argtypes = C.tailor_path_area.argtypes = [POINTER(Cubic), N]
C.tailor_path_nearest.argtypes = [POINTER(Cubic), N, Point, POINTER(D)]
C.tailor_path_winding.argtypes = [POINTER(Cubic), N, Point]
C.tailor_path_moments.argtypes = [POINTER(Cubic), N, POINTER(D)]
C.tailor_path_bounds.argtypes = [POINTER(Cubic), N, POINTER(D)]
C.tailor_path_smooth.argtypes = C.tailor_path_monotone.argtypes = [POINTER(Point), N, POINTER(Cubic)]
C.tailor_path_flatten.argtypes = [POINTER(Cubic), N, D, POINTER(Point), N, POINTER(N)]
C.tailor_path_cross_path.argtypes = [POINTER(Cubic), N, POINTER(Cubic), N, D, POINTER(D), POINTER(D), N, POINTER(N)]
C.tailor_path_crosses_itself.argtypes = [POINTER(Cubic), N, D, POINTER(ctypes.c_int), POINTER(D)]
C.tailor_path_offset.argtypes = [POINTER(Cubic), N, D, D, POINTER(Cubic), N, POINTER(N)]
C.tailor_outline_offset.argtypes = [POINTER(Cubic), N, POINTER(D), ctypes.c_int, D, D, POINTER(Cubic), N, POINTER(N)]
MITRE, ROUND, BEVEL = 1, 2, 3
ROOM = 512


def path(cubics):
    """(n, 4, 2) numbers as an array of cubics."""
    cubics = np.ascontiguousarray(cubics, float).reshape(-1, 4, 2)
    made = (Cubic * len(cubics))()
    ctypes.memmove(made, cubics.ctypes.data, cubics.nbytes)
    return made


def numbers(cubics, count=None):
    """An array of cubics as (n, 4, 2) numbers."""
    count = len(cubics) if count is None else count
    return np.frombuffer(bytes(cubics), float)[: 8 * count].reshape(-1, 4, 2).copy()


def points(cubics, steps):
    """Points of the curves by numpy alone: `steps` a cubic, and the last end."""
    cubics = np.asarray(cubics, float).reshape(-1, 4, 2)
    t = np.arange(steps) / steps
    weights = np.array([(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t * t, t ** 3])
    return np.vstack([np.einsum("kt,nkc->ntc", weights, cubics).reshape(-1, 2), cubics[-1, 3]])


def outline_offset(cubics, distances, corner=ROUND, limit=4.0, tolerance=0.01):
    made, room, needed = path(cubics), (Cubic * ROOM)(), N(99)
    n = len(made)
    distances = (D * n)(*np.broadcast_to(np.asarray(distances, float), n))
    status = C.tailor_outline_offset(made, n, distances, corner, limit, tolerance, room, ROOM, needed)
    assert status == 0, (status, list(distances))
    return numbers(room, needed.value)


def line(a, b):
    a, b = np.asarray(a, float), np.asarray(b, float)
    return np.array([a, a + (b - a) / 3, a + 2 * (b - a) / 3, b])


def polygon(corners):
    return np.array([line(corners[i], corners[(i + 1) % len(corners)]) for i in range(len(corners))])


def smooth_outline(random, count, radius, rough):
    """Closed, counter-clockwise, each joint's direction that of the chord across it."""
    turn = np.arange(count) * 2 * np.pi / count
    r = radius * random.uniform(1 - rough, 1 + rough, count)
    at = np.stack([r * np.cos(turn), r * np.sin(turn)], 1)
    tangent = (np.roll(at, -1, 0) - np.roll(at, 1, 0)) / 6
    to, to_tangent = np.roll(at, -1, 0), np.roll(tangent, -1, 0)
    return np.stack([at, at + tangent, to - to_tangent, to], 1)


def star(random, count):
    """A polygon seen whole from the origin."""
    turn = (np.arange(count) + random.uniform(0, 0.8, count)) * 2 * np.pi / count
    r = random.uniform(60, 200, count)
    return np.stack([r * np.cos(turn), r * np.sin(turn)], 1)


def random_curve(random, kind):
    if kind == "seam":
        c = np.array([[0, 0], [100, 0], [200, 0], [300, 0]], float)
        c[1:3, 1] = random.uniform(-60, 60, 2)
        return c + random.normal(0, 10, (4, 2))
    if kind == "wild":
        return random.uniform(-200, 200, (4, 2))
    if kind == "zero handle":
        c = random.uniform(-200, 200, (4, 2))
        c[1] = c[0]
        return c
    cusp = np.array([[0, 0], [1, 1], [0, 1], [1, 0]], float) * random.uniform(50, 300)
    return cusp + random.normal(0, 1, (4, 2)) * 10 ** random.uniform(-9, 1)


KINDS = ("seam", "wild", "zero handle", "near cusp")
