"""Cubic curves by NumPy, SciPy and Shapely: none of the library's own geometry."""
import numpy as np
from scipy.integrate import quad
from shapely.geometry import LineString, Polygon


def at(cubic, t):
    """Points of one cubic at an array of parameters, by Bernstein's polynomials."""
    t = np.asarray(t, dtype=float)[..., None]
    s = 1 - t
    return s ** 3 * cubic[0] + 3 * s ** 2 * t * cubic[1] + 3 * s * t ** 2 * cubic[2] + t ** 3 * cubic[3]


def speed(cubic, t):
    s, legs = 1 - t, np.diff(cubic, axis=0)
    return np.hypot(*(3 * (s ** 2 * legs[0] + 2 * s * t * legs[1] + t ** 2 * legs[2])))


def length(path):
    """Arc length by QUADPACK's adaptive quadrature of the speed."""
    return sum(quad(lambda t, c=cubic: speed(c, t), 0, 1, epsabs=1e-11, epsrel=1e-11, limit=200)[0] for cubic in path)


def points(path, parts=1024):
    """Points along a path, its start and `parts` of each cubic."""
    t = np.arange(1, parts + 1) / parts
    return np.vstack([path[0][:1], *(at(cubic, t) for cubic in path)])


def line(path, parts=1024):
    return LineString(points(path, parts))


def polygon(outline, parts=1024):
    return Polygon(points(outline, parts)[:-1])


def direction(path, end):
    """Unit direction at the start (end = 0) or the end (end = 1) of a path."""
    d = path[-1][3] - path[-1][2] if end else path[0][1] - path[0][0]
    return d / np.hypot(*d)


def mirrored(xy, a, b):
    """Mirror images of points in the line through a and b, by Householder's matrix."""
    u = (b - a) / np.hypot(*(b - a))
    n = np.array((-u[1], u[0]))
    return xy - 2 * np.outer((xy - a) @ n, n).reshape(np.shape(xy))
