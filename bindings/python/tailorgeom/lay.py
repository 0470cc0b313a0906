"""Placing shapes on a strip of cloth of fixed width, so that the length used is short.

    canvas = lay([front, chest], 750, gap=5, angle=45, mirrored=1, half_turn=True)
    canvas.length, canvas.yield_                  # mm of cloth, share of it that is used
    canvas.step(2000)                             # search on; never worse
    for place in canvas.places:
        place.shape, place.turned, place.outline  # the drawing where it lies

The strip runs along x from 0, its width along y from 0, the warp along x. The same call gives the same lay:
`iterations` count, not seconds, and `seed` chooses another search. Each lay is proved free of overlap before it is
handed out.
"""
from __future__ import annotations

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any, Union

import numpy as np
from numpy.typing import ArrayLike

from ._link import doubles_in, ffi, lib, points_in
from .errors import CallError, of_fault
from .geometry import Path, _check

__all__ = ["Lay", "Place", "lay"]

Shape = Union[Path, ArrayLike, Mapping[str, Any]]
_PER_SHAPE = ("angle", "copies", "mirrored", "half_turn")


@dataclass(frozen=True)
class Place:
    """Where one copy of a shape lies."""

    #: number of the shape, in the order given
    shape: int
    #: whether it is the mirror image
    mirrored: bool
    #: whether it lies end for end
    turned: bool
    #: where the origin of the drawing comes to lie
    x: float
    y: float
    #: the drawing where it lies; a mirror image runs clockwise if the drawing runs counter-clockwise
    outline: Path
    #: the polygon that was laid, (n, 2), counter-clockwise; curves are within the tolerance of it
    polygon: np.ndarray


class Lay:
    """A lay: the best placing found so far. Made by lay(); use it from one thread at a time."""

    def __init__(self, handle: Any, outlines: list[Path], width: float) -> None:
        self._handle = handle
        self._outlines = outlines
        #: width of the strip
        self.width = width

    def step(self, iterations: int) -> Lay:
        """Search on, and give back the lay itself. 100 and then 50 are the same as 150. Ctrl-C is heeded between
        calls: take small steps where it matters."""
        _check(lib.tailor_lay_step(self._handle, iterations), "step")
        return self

    @property
    def iterations(self) -> int:
        """How many were made."""
        return lib.tailor_lay_iterations(self._handle)

    @property
    def length(self) -> float:
        """Length of cloth used."""
        return lib.tailor_lay_length(self._handle)

    @property
    def length_bound(self) -> float:
        """A length below which no lay of these shapes can be."""
        return lib.tailor_lay_length_bound(self._handle)

    @property
    def area(self) -> float:
        """Area of all outlines on the strip."""
        return lib.tailor_lay_area(self._handle)

    @property
    def yield_(self) -> float:
        """Area by width times length: 1 would leave no waste."""
        return lib.tailor_lay_yield(self._handle)

    @property
    def places(self) -> list[Place]:
        """All copies, as they lie in the best lay so far: the shapes in their order, as drawn and then mirrored."""
        return [self._place(number) for number in range(lib.tailor_lay_place_count(self._handle))]

    def _place(self, number: int) -> Place:
        shape, mirrored, turned = ffi.new("int *"), ffi.new("int *"), ffi.new("int *")
        at, needed, matrix = ffi.new("tailor_point *"), ffi.new("size_t *"), np.empty(6)
        _check(lib.tailor_lay_place(self._handle, number, shape, mirrored, turned, at), "places")
        _check(lib.tailor_lay_matrix(self._handle, number, doubles_in(matrix)), "places")
        _check(lib.tailor_lay_polygon(self._handle, number, ffi.NULL, 0, needed), "places")
        polygon = np.empty((needed[0], 2))
        _check(lib.tailor_lay_polygon(self._handle, number, points_in(polygon), needed[0], needed), "places")
        outline = np.empty_like(self._outlines[shape[0]].cubics)
        lib.tailor_path_affine(
            self._outlines[shape[0]]._c, len(outline), doubles_in(matrix), ffi.from_buffer("tailor_cubic[]", outline)
        )
        return Place(
            shape[0], bool(mirrored[0]), bool(turned[0]), at.x, at.y, Path(outline, closed=True), polygon
        )

    def overlap_free(self) -> bool:
        """The proof once more: exact, and independent of the search."""
        return lib.tailor_lay_overlap_free(self._handle, ffi.NULL, ffi.NULL, math.nan, ffi.NULL) == lib.TAILOR_OK

    def __repr__(self) -> str:
        places = lib.tailor_lay_place_count(self._handle)
        return f"<Lay: {places} places, length {self.length:g}, yield {self.yield_:.4f}>"


def _told(shape: Shape, common: dict[str, Any]) -> tuple[Path, dict[str, Any]]:
    """Outline and manner of a shape."""
    own: dict[str, Any] = {}
    outline: Any = shape
    if isinstance(shape, Mapping):
        own = dict(shape)
        outline = own.pop("outline", None)
        strange = sorted(set(own) - set(_PER_SHAPE))
        if outline is None or strange:
            raise CallError(
                f"a shape has an outline and may have {', '.join(_PER_SHAPE)}"
                + (f", not {strange[0]}" if strange else ""),
                lib.TAILOR_BAD_ARGUMENT,
            )
    if not isinstance(outline, Path):
        outline = Path.polygon(outline)
    return outline, {**common, **own}


def lay(
    shapes: Iterable[Shape],
    width: float,
    *,
    gap: float = 0.0,
    angle: float = 0.0,
    copies: int = 1,
    mirrored: int = 0,
    half_turn: bool = False,
    doubled: bool = False,
    tolerance: float = 0.25,
    iterations: int = 500,
    seed: int = 1,
) -> Lay:
    """Lay shapes on a strip of cloth.

    shapes: outlines, each a Path, points of a polygon, or a dict of outline and any of angle, copies, mirrored,
        half_turn, which then stand for that shape in place of the keywords
    width: of the strip; gap: least distance between two outlines
    angle: by which shapes are turned counter-clockwise before they are laid, degrees
    copies, mirrored: how many as drawn, and how many mirrored in a line along the warp
    half_turn: whether a copy may lie end for end
    doubled: the cloth is folded lengthwise; each place cuts a piece and its mirror image, so mirrored = copies
    tolerance: how far the polygon that is laid may be from a curve; the true curves keep the gap
    iterations: how long to search; seed: which search

    Refuses, with `value` and `high`, a shape that is wider than the strip."""
    made, fault = ffi.new("tailor_lay **"), ffi.new("tailor_fault *")

    def check(status: int) -> None:
        if status:
            raise of_fault(fault)

    check(lib.tailor_lay_new(width, gap, tolerance, doubled, ffi.NULL, made, fault))
    handle = ffi.gc(made[0], lib.tailor_lay_free)
    common = {"angle": angle, "copies": copies, "mirrored": mirrored, "half_turn": half_turn}
    outlines = []
    for shape in shapes:
        outline, how = _told(shape, common)
        outlines.append(outline)
        check(
            lib.tailor_lay_add(
                handle, outline._c, len(outline), how["angle"], how["half_turn"], how["copies"], how["mirrored"], fault
            )
        )
    check(lib.tailor_lay_begin(handle, seed, fault))
    return Lay(handle, outlines, width / 2 if doubled else width).step(iterations)
