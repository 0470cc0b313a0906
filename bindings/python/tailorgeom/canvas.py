"""The canvas pieces of a coat, laid on canvas of a given width at their angle to the warp.

    coat = draft(chest_girth=1016, canvas_angle=20, make=True)
    strip = canvas(coat, width=750)
    strip.cloth_length, strip.extra               # mm of canvas to cut off; what the angle costs over straight
    for place in strip.places:
        place.piece, place.side, place.outline    # where it is to be chalked
    strip.to_pdf("canvas.pdf")
    canvas(coat, "haircloth")                     # the other cloth, a strip of its own

The strip's warp runs along x. A piece's grain mark lies along the warp; on haircloth it tells how the hair lies, which
is the weft. The body canvas is turned further, by the angle. Beside the lay stands one with the body canvas straight.
"""
from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any, Optional

import numpy as np

from ._link import doubles_in, ffi, lib, text
from .errors import CallError, of_fault
from .geometry import Path, _check
from .pattern import _SIDES, Pattern
from .sheets import Drawn, Page

__all__ = ["Canvas", "CanvasPlace", "canvas"]

_PLIES = {
    "single": lib.TAILOR_PLIES_SINGLE,
    "folded": lib.TAILOR_PLIES_FOLDED,
    "layers": lib.TAILOR_PLIES_LAYERS,
}
_SIDES_TOGETHER = {"mirrored": lib.TAILOR_SIDES_MIRRORED, "alike": lib.TAILOR_SIDES_ALIKE}


@dataclass(frozen=True)
class CanvasPlace:
    """Where one piece lies."""

    #: its name in the pattern
    piece: str
    #: the wearer's side: "right", "left", "both"; on doubled canvas that of the ply that is seen
    side: str
    #: 0 for a whole piece, 1 or 2 for the parts of a joined one
    part: int
    #: direction of the warp in the pattern's drawing of the piece, degrees counter-clockwise from x
    warp: float
    #: the map from that drawing to the strip: x' = m0 x + m2 y + m4, y' = m1 x + m3 y + m5
    matrix: np.ndarray
    #: the outline on the strip, counter-clockwise
    outline: Path


class Canvas(Drawn):
    """A lay of canvas: the best found so far, and the straight one beside it. Made by canvas(); use it from one thread
    at a time. `to_svg`, `to_pdf` and `to_png` give the layout sheet, at 1 : 5."""

    def __init__(self, handle: Any, pattern: Pattern) -> None:
        self._handle = handle
        #: the coat
        self.pattern = pattern

    def step(self, iterations: int) -> Canvas:
        """Search on, and give back the lay itself; never worse. Ctrl-C is heeded between calls."""
        _check(lib.tailor_canvas_step(self._handle, iterations), "step")
        return self

    @property
    def cloth(self) -> str:
        """What the pieces are cut from."""
        return text(lib.tailor_canvas_cloth(self._handle))

    @property
    def angle(self) -> float:
        """Angle of the body canvas's warp from its straight grain, positive toward the break line."""
        return lib.tailor_canvas_choice(self._handle, lib.TAILOR_CANVAS_CHOICE_ANGLE)

    @property
    def width(self) -> float:
        """Width of the strip on the table: half that of cloth that is folded."""
        return lib.tailor_canvas_strip_width(self._handle)

    @property
    def iterations(self) -> int:
        """How many were made."""
        return lib.tailor_lay_iterations(lib.tailor_canvas_lay(self._handle, 0))

    @property
    def length(self) -> float:
        """Length of strip used."""
        return self._result(lib.TAILOR_CANVAS_RESULT_LENGTH)

    @property
    def length_bound(self) -> float:
        """A length of strip below which no lay of these pieces can be."""
        return self._result(lib.TAILOR_CANVAS_RESULT_BOUND)

    @property
    def cloth_length(self) -> float:
        """Length of cloth to be cut off: twice that for two lengths face to face."""
        return self._result(lib.TAILOR_CANVAS_RESULT_CLOTH_LENGTH)

    @property
    def yield_(self) -> float:
        """Area of the pieces by that of the strip used."""
        return self._result(lib.TAILOR_CANVAS_RESULT_YIELD)

    @property
    def waste(self) -> float:
        """Area cut away, of all plies, mm2."""
        return self._result(lib.TAILOR_CANVAS_RESULT_WASTE)

    @property
    def straight_length(self) -> float:
        """Cloth to be cut off with the body canvas straight; NaN where it does not fit."""
        return self._result(lib.TAILOR_CANVAS_RESULT_STRAIGHT_LENGTH)

    @property
    def extra(self) -> float:
        """Cloth that the angle costs over straight; negative where it saves."""
        return self._result(lib.TAILOR_CANVAS_RESULT_EXTRA)

    @property
    def joins(self) -> int:
        """How many pieces of one coat are joined."""
        return int(self._result(lib.TAILOR_CANVAS_RESULT_JOINS))

    @property
    def places(self) -> list[CanvasPlace]:
        """Every piece where it lies."""
        return self._places(0)

    @property
    def straight_places(self) -> list[CanvasPlace]:
        """The same in the lay with the body canvas straight."""
        return self._places(1)

    def overlap_free(self) -> bool:
        """The proof once more, of both lays: exact, and independent of the search."""
        lays = {lib.tailor_canvas_lay(self._handle, straight) for straight in (0, 1)} - {ffi.NULL}
        return all(
            lib.tailor_lay_overlap_free(lay, ffi.NULL, ffi.NULL, math.nan, ffi.NULL) == lib.TAILOR_OK for lay in lays
        )

    def _result(self, which: int) -> float:
        return lib.tailor_canvas_result(self._handle, which)

    def _places(self, straight: int) -> list[CanvasPlace]:
        count = lib.tailor_lay_place_count(lib.tailor_canvas_lay(self._handle, straight))
        return [self._place(straight, number) for number in range(count)]

    def _place(self, straight: int, number: int) -> CanvasPlace:
        piece, side, part = ffi.new("int *"), ffi.new("int *"), ffi.new("int *")
        warp, needed, matrix = ffi.new("double *"), ffi.new("size_t *"), np.empty(6)
        where = (self._handle, straight, number)
        _check(lib.tailor_canvas_place(*where, piece, side, part, warp), "places")
        _check(lib.tailor_canvas_matrix(*where, doubles_in(matrix)), "places")
        _check(lib.tailor_canvas_outline(*where, ffi.NULL, 0, needed), "places")
        cubics = np.empty((needed[0], 4, 2))
        _check(
            lib.tailor_canvas_outline(*where, ffi.from_buffer("tailor_cubic[]", cubics), needed[0], needed), "places"
        )
        matrix.setflags(write=False)
        name = text(lib.tailor_piece_name(self.pattern._pointer, piece[0]))
        return CanvasPlace(name, _SIDES[side[0]], part[0], warp[0], matrix, Path(cubics, closed=True))

    def _draw(self, page: Page, format: str) -> bytes:
        from . import _sheet_link

        return _sheet_link.canvas([self._handle], page, format)

    def __repr__(self) -> str:
        return f"<Canvas: {self.cloth} at {self.angle:g} deg, length {self.length:.0f} mm, yield {self.yield_:.3f}>"


def _choice(name: str, value: str, known: dict[str, int]) -> int:
    if value not in known:
        raise CallError(f"{name} is one of {', '.join(known)}", lib.TAILOR_BAD_ARGUMENT)
    return known[value]


def canvas(
    pattern: Pattern,
    cloth: str = "canvas",
    *,
    angle: Optional[float] = None,
    width: Optional[float] = None,
    plies: str = "single",
    sides: str = "mirrored",
    gap: Optional[float] = None,
    overlap: Optional[float] = None,
    iterations: int = 1000,
    seed: int = 1,
) -> Canvas:
    """Lay the canvas pieces of a coat that was drafted with `make=True`.

    cloth: "canvas" (body canvas, collar canvas) or "haircloth" (chest piece, shoulder piece)
    angle: of the body canvas's warp from its straight grain, degrees, positive toward the break line; that of the
        order if not given
    width: of the cloth between its selvedges, mm; 750 for canvas, 500 for haircloth
    plies: "single", "folded" (lengthwise) or "layers" (two lengths face to face)
    sides: "mirrored" pairs, or both "alike" (single only)
    gap: least distance between pieces, mm; 5
    overlap: allows a join, lapped by so much (5 to 60 mm), where a piece is too wide; none if not given
    iterations: how long to search; seed: which search

    Refuses, with `value` and `high`, a piece that does not fit the strip."""
    choices = np.full(lib.TAILOR_CANVAS_CHOICE_COUNT, math.nan)
    given = {
        lib.TAILOR_CANVAS_CHOICE_ANGLE: pattern.fields["canvas_angle"] if angle is None else angle,
        lib.TAILOR_CANVAS_CHOICE_WIDTH: width,
        lib.TAILOR_CANVAS_CHOICE_PLIES: _choice("plies", plies, _PLIES),
        lib.TAILOR_CANVAS_CHOICE_SIDES: _choice("sides", sides, _SIDES_TOGETHER),
        lib.TAILOR_CANVAS_CHOICE_GAP: gap,
        lib.TAILOR_CANVAS_CHOICE_OVERLAP: overlap,
    }
    for which, value in given.items():
        choices[which] = math.nan if value is None else value
    made, fault = ffi.new("tailor_canvas **"), ffi.new("tailor_fault *")
    if lib.tailor_canvas_begin(
        pattern._pointer, cloth.encode(), doubles_in(choices), len(choices), seed, ffi.NULL, made, fault
    ):
        raise of_fault(fault)
    return Canvas(ffi.gc(made[0], lib.tailor_canvas_free), pattern).step(iterations)
