"""A pattern of your own, by name: for those who read patterns from somewhere else.

    flap = Builder()
    flap.piece("flap", cut=2, mirrored=True)
    flap.edge("mouth", Path.line((0, 0), (150, 0)))
    ...
    shapes = flap.finish()
    shapes.to_pdf("flap.pdf")

Names have 1 to 31 small letters, digits and _, a letter first. Edges are given in outline order, counter-clockwise;
what is refused raises the error with the C library's sentence, and changes nothing.
"""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Optional, Union

import numpy as np

from ._link import cubics_in, ffi, lib
from .errors import of_fault
from .geometry import Path
from .order import CHOICES, FIELD_COUNT, FIELD_TABLE, FIELDS, Value, c_text, convert, not_given, unknown
from .pattern import _KINDS, _SIDES, Shapes

__all__ = ["Builder"]

_SIDE = {name: number for number, name in _SIDES.items()}
_KIND = {name: number for number, name in _KINDS.items()}
NAN = float("nan")


def _cubics(path: Union[Path, Any]) -> np.ndarray:
    cubics = path.cubics if isinstance(path, Path) else path
    return np.ascontiguousarray(cubics, dtype=np.float64).reshape(-1, 4, 2)


class Builder:
    """A pattern in the making; serves one thread. `finish()` gives the pattern so far and may be called again."""

    def __init__(self) -> None:
        out = ffi.new("tailor_builder **")
        self._fault = ffi.new("tailor_fault *")
        self._done(lib.tailor_builder_begin(ffi.NULL, out, self._fault))
        self._pointer = ffi.gc(out[0], lib.tailor_builder_free)

    def _done(self, status: int) -> None:
        if status:
            raise of_fault(self._fault)

    def piece(self, name: str, cut: int = 1, mirrored: bool = False, side: str = "both", cloth: str = "cloth") -> None:
        """Begin a piece; side: "right", "left", "both"."""
        if side not in _SIDE:
            raise ValueError(f'side is {side!r}: "right", "left" or "both" will do')
        add, fault = lib.tailor_builder_add_piece, self._fault
        self._done(add(self._pointer, c_text(name), cut, bool(mirrored), _SIDE[side], c_text(cloth), fault))

    def edge(self, name: str, path: Union[Path, Any]) -> None:
        """The next edge of the piece: a Path, or an array (n, 4, 2)."""
        cubics = _cubics(path)
        add = lib.tailor_builder_add_edge
        self._done(add(self._pointer, c_text(name), cubics_in(cubics), len(cubics), self._fault))

    def point(self, name: str, place: Any) -> None:
        """A named point of the piece."""
        x, y = place
        self._done(lib.tailor_builder_add_point(self._pointer, c_text(name), (float(x), float(y)), self._fault))

    def mark(self, name: str, kind: str, path: Union[Path, Any]) -> None:
        """A mark of the piece; kind: "notch", "grain", "button", "hole", "dart", "line", "fold"."""
        if kind not in _KIND:
            raise ValueError(f"kind is {kind!r}: one of {', '.join(_KIND)} will do")
        cubics = _cubics(path)
        add = lib.tailor_builder_add_mark
        self._done(add(self._pointer, c_text(name), _KIND[kind], cubics_in(cubics), len(cubics), self._fault))

    def seam(self, name: str, ease: float = 0.0) -> None:
        """Begin a seam; ease: how much longer its first side is meant to be. Its stretches follow."""
        self._done(lib.tailor_builder_add_seam(self._pointer, c_text(name), ease, self._fault))

    def stretch(
        self, side: int, piece: str, edge: str, from_to: Optional[tuple[Optional[float], Optional[float]]] = None
    ) -> None:
        """The next stretch of a side (0 or 1) of the seam: an edge of a piece, sewn from one length to another along
        it, mm; None is the edge's end. Without more, the whole edge, on the first side as its outline runs and on the
        second against it."""
        if from_to is None:
            from_to = (None, 0.0) if side == 1 else (0.0, None)
        start, stop = (NAN if bound is None else float(bound) for bound in from_to)
        add, fault = lib.tailor_builder_add_stretch, self._fault
        self._done(add(self._pointer, side, c_text(piece), c_text(edge), start, stop, fault))

    def style(self, choices: Mapping[str, Value], edition: int = 0) -> None:
        """What the pattern is a draft of: choices by the names of their fields ({"buttoning": "three-button"}), and the
        edition, 0 for no draft. Each call replaces what the one before said."""
        row = not_given(FIELD_COUNT)
        for name, value in choices.items():
            if not CHOICES.get(FIELDS.get(name, 0)):
                raise unknown("choice", name, FIELD_TABLE)
            row[FIELDS[name]] = convert(name, FIELDS[name], value)
        self._done(lib.tailor_builder_set_style(self._pointer, edition, row, FIELD_COUNT, self._fault))

    def toile_only(self, yes: bool = True) -> None:
        """Whether the pattern is for a toile only: its sheets say so then."""
        self._done(lib.tailor_builder_set_toile_only(self._pointer, bool(yes), self._fault))

    def finish(self) -> Shapes:
        """The pattern so far: outlines closed and counter-clockwise, or an error that says which is not."""
        out = ffi.new("tailor_pattern **")
        self._done(lib.tailor_builder_finish(self._pointer, ffi.NULL, out, self._fault))
        return Shapes(ffi.gc(out[0], lib.tailor_pattern_free))
