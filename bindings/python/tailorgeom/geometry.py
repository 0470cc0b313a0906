"""Exact geometry on paths of cubic Bezier curves, for patterns and for anybody's own curves.

A Path is an array of shape (n, 4, 2): n cubics of start, two handles' ends, and end; a straight line is one too. Curves
stay curves: length, area and offset are those of the curve, not of a polyline. Any unit will do; angles are degrees.

    seam = Path.smooth([(0, 0), (40, 12), (90, 15)])
    seam.length, seam.point(0.5), seam.offset(10)
    outline = Path.polygon([(0, 0), (100, 0), (100, 60), (0, 60)])
    cut = outline.offset_outline(10)                          # seam allowances
"""
from __future__ import annotations

from collections.abc import Callable
from functools import cached_property
from typing import Any, Optional, Union

import numpy as np
from numpy.typing import ArrayLike

from ._link import cubics_in, doubles_in, ffi, lib, points_in
from .errors import CallError, GeometryError, of_status

__all__ = ["Path", "reflect"]

CORNERS = {"mitre": lib.TAILOR_CORNER_MITRE, "round": lib.TAILOR_CORNER_ROUND, "bevel": lib.TAILOR_CORNER_BEVEL}


def _check(status: int, doing: str) -> None:
    if status:
        raise of_status(status, doing)


def _points(points: ArrayLike) -> np.ndarray:
    array = np.ascontiguousarray(points, dtype=np.float64)
    if array.ndim != 2 or array.shape[1] != 2:
        raise CallError(f"points have the shape {array.shape}: (n, 2) is needed", lib.TAILOR_BAD_ARGUMENT)
    return array


def point(p: Any) -> tuple[float, float]:
    """Anything with two numbers as a point."""
    x, y = p
    return float(x), float(y)


def _grown(call: Callable[..., int], doing: str, make: Callable[[int], tuple[Any, ...]], room: int) -> tuple[Any, int]:
    """Call with arrays of a guessed length, and once or twice more with the length that it then asks for."""
    needed = ffi.new("size_t *")
    while True:
        arrays = make(room)
        status = call(*arrays, room, needed)
        if status != lib.TAILOR_TOO_SMALL or needed[0] <= room:
            break
        room = needed[0]
    _check(status, doing)
    return arrays, needed[0]


class Path:
    """A path of cubics, each beginning where the one before it ends. Immutable; `closed` says that it is an outline.

    A *place* on a path is one number: cubic index + parameter, from 0 to len(path); places outside are clipped. Where a
    method takes a place, a length or a point it takes an array of them too, and gives an array. `numpy.asarray(path)`
    is `path.cubics`."""

    __slots__ = ("__dict__", "_c", "closed", "cubics")

    def __init__(self, cubics: ArrayLike, closed: bool = False) -> None:
        array = np.asarray(cubics)
        if array.dtype != np.float64 or array.flags.writeable or not array.flags.c_contiguous:
            array = np.array(array, dtype=np.float64, order="C")
            array.setflags(write=False)
        if array.ndim != 3 or array.shape[1:] != (4, 2):
            raise CallError(f"cubics have the shape {array.shape}: (n, 4, 2) is needed", lib.TAILOR_BAD_ARGUMENT)
        self.cubics, self.closed = array, closed
        self._c = cubics_in(array) if len(array) else ffi.NULL

    # ---- making

    @classmethod
    def line(cls, a: ArrayLike, b: ArrayLike) -> Path:
        """The straight line from a to b."""
        return cls(_one(lib.tailor_cubic_line(point(a), point(b))))

    @classmethod
    def polyline(cls, points: ArrayLike) -> Path:
        """Straight lines from point to point."""
        p = _points(points)
        return cls(np.stack([p[:-1], (2 * p[:-1] + p[1:]) / 3, (p[:-1] + 2 * p[1:]) / 3, p[1:]], axis=1))

    @classmethod
    def polygon(cls, points: ArrayLike) -> Path:
        """Straight lines round a closed outline; the first point need not be given again."""
        p = _points(points)
        if len(p) and not np.array_equal(p[0], p[-1]):
            p = np.concatenate([p, p[:1]])
        return cls(cls.polyline(p).cubics, closed=True)

    @classmethod
    def hermite(cls, a: ArrayLike, leave: ArrayLike, b: ArrayLike, arrive: ArrayLike) -> Path:
        """The curve from a to b with the handles a + leave and b - arrive."""
        return cls(_one(lib.tailor_cubic_hermite(point(a), point(leave), point(b), point(arrive))))

    @classmethod
    def arc(cls, centre: ArrayLike, radius: float, start: float, stop: float) -> Path:
        """An arc of a circle from one angle to another, degrees counter-clockwise from the x axis (stop below start:
        the other way), in pieces of 45 degrees at most: within 4.3e-6 radii of the circle."""
        count = max(1, int(np.ceil(abs(stop - start) / 45 - 1e-9)))
        angles = np.linspace(start, stop, count + 1)
        return cls(
            np.concatenate(
                [_one(lib.tailor_cubic_arc(point(centre), radius, a, b)) for a, b in zip(angles[:-1], angles[1:])]
            )
        )

    @classmethod
    def smooth(cls, points: ArrayLike) -> Path:
        """The smooth curve through points, as a batten bends: continuous direction and curvature."""
        return cls._through(lib.tailor_path_smooth, points, "smooth")

    @classmethod
    def monotone(cls, points: ArrayLike) -> Path:
        """The curve through points whose y only rises or only falls, x never overshooting: a seam through its
        levels."""
        return cls._through(lib.tailor_path_monotone, points, "monotone")

    @classmethod
    def _through(cls, make: Any, points: ArrayLike, doing: str) -> Path:
        p = _points(points)
        out = np.empty((max(len(p) - 1, 0), 4, 2))
        _check(make(points_in(p), len(p), cubics_in(out)), doing)
        return cls(out)

    # ---- being an array

    def __len__(self) -> int:
        return len(self.cubics)

    def __array__(self, dtype: Any = None) -> np.ndarray:
        return self.cubics if dtype is None else self.cubics.astype(dtype)

    def __getitem__(self, which: Any) -> np.ndarray:
        return self.cubics[which]

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Path) and self.closed == other.closed and np.array_equal(self.cubics, other.cubics)

    def __hash__(self) -> int:
        return hash((self.closed, self.cubics.tobytes()))

    def __repr__(self) -> str:
        return f"<Path of {len(self)} cubics, {'closed, ' if self.closed else ''}length {self.length:.6g}>"

    def __reduce__(self) -> tuple:
        return Path, (np.array(self.cubics), self.closed)

    # ---- measuring

    @cached_property
    def length(self) -> float:
        """The arc length."""
        return lib.tailor_path_length(self._c, len(self))

    @property
    def lengths(self) -> np.ndarray:
        """The arc length of each cubic."""
        out = np.empty(len(self))
        lib.tailor_path_lengths(self._c, len(self), doubles_in(out))
        return out

    @property
    def area(self) -> float:
        """The area, exact, positive counter-clockwise; an open path is closed by its chord."""
        return lib.tailor_path_area(self._c, len(self))

    @property
    def centroid(self) -> np.ndarray:
        """The centre of the area."""
        out = ffi.new("tailor_point *")
        _check(lib.tailor_path_centroid(self._c, len(self), out), "centroid")
        return np.array((out.x, out.y))

    @property
    def moments(self) -> np.ndarray:
        """Area and its moments about the origin: integrals of 1, x, y, x x, x y, y y over it."""
        out = np.empty(6)
        lib.tailor_path_moments(self._c, len(self), doubles_in(out))
        return out

    @property
    def bounds(self) -> tuple[float, float, float, float]:
        """The upright box round the curve: x low, y low, x high, y high."""
        out = ffi.new("double[4]")
        lib.tailor_path_bounds(self._c, len(self), out)
        return out[0], out[1], out[2], out[3]

    @property
    def start(self) -> np.ndarray:
        """Where it begins."""
        return self.point(0.0)

    @property
    def end(self) -> np.ndarray:
        """Where it ends."""
        return self.point(float(len(self)))

    def gap(self) -> float:
        """The widest gap between the end of a cubic and the start of the next, and of a closed path at its closing."""
        return lib.tailor_path_gap(self._c, len(self), self.closed)

    # ---- places

    def point(self, place: ArrayLike) -> np.ndarray:
        """The point at a place: (2,), or (..., 2) for an array of places."""
        places = np.ascontiguousarray(place, dtype=np.float64)
        out = np.empty((places.size, 2))
        lib.tailor_path_points(self._c, len(self), doubles_in(places), places.size, points_in(out))
        return out.reshape(*np.shape(place), 2)

    def direction(self, place: ArrayLike) -> np.ndarray:
        """The unit tangent at a place; at a joint that of the cubic which begins there."""
        found = [lib.tailor_path_direction(self._c, len(self), p) for p in np.ravel(place).tolist()]
        return np.array([(d.x, d.y) for d in found]).reshape(*np.shape(place), 2)

    def curvature(self, place: ArrayLike) -> Union[float, np.ndarray]:
        """The signed curvature, 1 / radius, positive where the path turns left; at a joint that of the cubic which
        begins there."""

        def one(p: float) -> float:
            if not len(self):
                return float("nan")
            cubic = int(min(max(p, 0.0), len(self) - 1))
            return lib.tailor_cubic_curvature(self._c + cubic, min(max(p - cubic, 0.0), 1.0))

        return _each(one, place)

    def at_length(self, length: ArrayLike) -> Union[float, np.ndarray]:
        """The place at a length from the start, clipped to the path."""
        lengths = np.ascontiguousarray(length, dtype=np.float64)
        out = np.empty(lengths.size)
        lib.tailor_path_at_lengths(self._c, len(self), doubles_in(lengths), lengths.size, doubles_in(out))
        return _like(out, length)

    def length_to(self, place: ArrayLike) -> Union[float, np.ndarray]:
        """The length from the start to a place."""
        return _each(lambda p: lib.tailor_path_length_to(self._c, len(self), p), place)

    def nearest(self, points: ArrayLike) -> tuple[Any, Any]:
        """Place and distance of the nearest point of the path, for a point (2,) or for points (n, 2)."""
        single = np.ndim(points) == 1
        p = _points(np.reshape(points, (-1, 2)))
        places, distances = np.empty(len(p)), np.empty(len(p))
        lib.tailor_path_nearests(self._c, len(self), points_in(p), len(p), doubles_in(places), doubles_in(distances))
        return (places.item(), distances.item()) if single else (places, distances)

    def winding(self, points: ArrayLike) -> Any:
        """How many times the path goes round a point counter-clockwise, for a point (2,) or for points (n, 2)."""
        single = np.ndim(points) == 1
        p = _points(np.reshape(points, (-1, 2)))
        out = np.empty(len(p), dtype=np.int32)
        lib.tailor_path_windings(self._c, len(self), points_in(p), len(p), ffi.from_buffer("int[]", out))
        return out.item() if single else out

    # ---- meeting

    def cross_line(self, a: ArrayLike, b: ArrayLike) -> np.ndarray:
        """The places where the path meets the whole line through a and b, ascending; none is an empty array."""
        (out,), count = _grown(
            lambda places, room, needed: lib.tailor_path_cross_line(
                self._c, len(self), point(a), point(b), doubles_in(places), room, needed
            ),
            "cross_line",
            lambda room: (np.empty(room),),
            16,
        )
        return out[:count]

    def cross(self, other: Path, tolerance: float = 1e-6) -> tuple[np.ndarray, np.ndarray]:
        """Where two paths meet: places on this one, ascending, and places on the other. Touches and ends within
        `tolerance` count. GeometryError when they share a stretch."""
        (p, q), count = _grown(
            lambda p, q, room, needed: lib.tailor_path_cross_path(
                self._c, len(self), other._c, len(other), tolerance, doubles_in(p), doubles_in(q), room, needed
            ),
            "cross",
            lambda room: (np.empty(room), np.empty(room)),
            32,
        )
        return p[:count], q[:count]

    def crosses_itself(self, tolerance: float = 1e-6) -> Optional[tuple[float, float]]:
        """The two places where the path crosses, touches or runs back over itself, the lower first; None if it does
        not."""
        crosses, places = ffi.new("int *"), ffi.new("double[2]")
        _check(lib.tailor_path_crosses_itself(self._c, len(self), tolerance, crosses, places), "crosses_itself")
        return (places[0], places[1]) if crosses[0] else None

    # ---- cutting, joining, moving

    def part(self, start: float, stop: float) -> Path:
        """The part from one place to another; on a closed path start > stop runs through the closing joint."""
        (out,), count = _grown(
            lambda cubics, room, needed: lib.tailor_path_part(
                self._c, len(self), start, stop, cubics_in(cubics), room, needed
            ),
            "part",
            lambda room: (np.empty((room, 4, 2)),),
            len(self) + 2,
        )
        return Path(out[:count])

    def reversed(self) -> Path:
        """The same path run backward."""
        return self._mapped(lambda out: lib.tailor_path_reverse(self._c, len(self), out), "reversed")

    def transform(self, matrix: ArrayLike) -> Path:
        """Mapped by six numbers m: x' = m0 x + m2 y + m4, y' = m1 x + m3 y + m5."""
        six = np.ascontiguousarray(matrix, dtype=np.float64)
        if six.shape != (6,):
            raise CallError(f"the matrix has the shape {six.shape}: six numbers are needed", lib.TAILOR_BAD_ARGUMENT)
        return self._mapped(lambda out: lib.tailor_path_affine(self._c, len(self), doubles_in(six), out), "transform")

    def move(self, x: float, y: float) -> Path:
        """Moved by x and y."""
        return self.transform((1, 0, 0, 1, x, y))

    def reflect(self, a: ArrayLike, b: ArrayLike) -> Path:
        """The mirror image in the line through a and b, run in the same order: an outline then turns clockwise."""
        return self._mapped(lambda out: lib.tailor_path_reflect(self._c, len(self), point(a), point(b), out), "reflect")

    def join(self, other: Path, tolerance: float = 0.0) -> Path:
        """This path and then the other; ends up to `tolerance` apart are moved to their middle."""
        out = np.empty((len(self) + len(other), 4, 2))
        _check(
            lib.tailor_path_join(self._c, len(self), other._c, len(other), tolerance, cubics_in(out), len(out)), "join"
        )
        return Path(out)

    def close(self, tolerance: float = 0.0) -> Path:
        """The closed path: ends up to `tolerance` apart are moved to their middle, a wider gap gets a straight line."""
        out, count = np.empty((len(self) + 1, 4, 2)), ffi.new("size_t *")
        out[:-1] = self.cubics
        _check(lib.tailor_path_close(cubics_in(out), len(self), tolerance, len(out), count), "close")
        return Path(out[: count[0]], closed=True)

    def _mapped(self, call: Callable[[Any], Any], doing: str) -> Path:
        out = np.empty(self.cubics.shape)
        if len(self):
            _check(call(cubics_in(out)) or 0, doing)
        return Path(out, self.closed)

    # ---- points and offsets

    def flatten(self, tolerance: float = 0.1) -> np.ndarray:
        """Points (m, 2) along the path, chords within `tolerance` of the curve, start and end included."""
        (out,), count = _grown(
            lambda points, room, needed: lib.tailor_path_flatten(
                self._c, len(self), tolerance, points_in(points), room, needed
            ),
            "flatten",
            lambda room: (np.empty((room, 2)),),
            16 * len(self) + 2,
        )
        return out[:count]

    def offset(self, distance: float, tolerance: float = 0.01) -> Path:
        """The parallel of one smooth edge, at a distance to the right of its direction (outside of a counter-clockwise
        outline), to the left if negative. Loops of bends tighter than the distance are cut away."""
        (out,), count = _grown(
            lambda cubics, room, needed: lib.tailor_path_offset(
                self._c, len(self), distance, tolerance, cubics_in(cubics), room, needed
            ),
            "offset",
            lambda room: (np.empty((room, 4, 2)),),
            8 * len(self) + 8,
        )
        return Path(out[:count])

    def offset_outline(
        self, distances: ArrayLike, corner: str = "mitre", mitre_limit: float = 4.0, tolerance: float = 0.01
    ) -> Optional[Path]:
        """The outline at a distance outside of this closed path (inside if negative): one distance, or one for each
        cubic. None when nothing is left.

        corner: "mitre" (a bevel beyond `mitre_limit` times the distance), "round" or "bevel".
        """
        if corner not in CORNERS:
            raise CallError(f"corner is {corner!r}: one of {', '.join(CORNERS)} will do", lib.TAILOR_BAD_ARGUMENT)
        widths = np.ascontiguousarray(np.broadcast_to(np.asarray(distances, dtype=np.float64), (len(self),)))
        (out,), count = _grown(
            lambda cubics, room, needed: lib.tailor_outline_offset(
                self._c,
                len(self),
                doubles_in(widths),
                CORNERS[corner],
                mitre_limit,
                tolerance,
                cubics_in(cubics),
                room,
                needed,
            ),
            "offset_outline",
            lambda room: (np.empty((room, 4, 2)),),
            8 * len(self) + 8,
        )
        return Path(out[:count], closed=True) if count else None


def reflect(points: ArrayLike, a: ArrayLike, b: ArrayLike) -> np.ndarray:
    """The mirror image of points of any shape (..., 2) in the line through a and b."""
    array = np.ascontiguousarray(points, dtype=np.float64)
    if array.shape[-1:] != (2,):
        raise CallError(f"points have the shape {array.shape}: (..., 2) is needed", lib.TAILOR_BAD_ARGUMENT)
    if point(a) == point(b):
        raise GeometryError("reflect: the line's two points are one", lib.TAILOR_DEGENERATE)
    out = np.empty(array.shape)
    lib.tailor_points_reflect(points_in(array), array.size // 2, point(a), point(b), points_in(out))
    return out


def _one(cubic: Any) -> np.ndarray:
    return np.array([[(p.x, p.y) for p in cubic.p]])


def _each(call: Callable[[float], float], of: ArrayLike) -> Union[float, np.ndarray]:
    return _like(np.array([call(value) for value in np.ravel(of).tolist()], dtype=np.float64), of)


def _like(flat: np.ndarray, shape: ArrayLike) -> Union[float, np.ndarray]:
    return flat.item() if np.ndim(shape) == 0 else flat.reshape(np.shape(shape))
