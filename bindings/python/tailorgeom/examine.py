"""Whether a pattern can be cut and sewn: what examining it finds.

    shapes.examine()                          # a tuple of Finding, empty for a sound pattern
    graded.examine(base=shapes)               # and what has moved off its outline, or shrunk, since the base

Grade.apply() and read_pattern() examine what they give: a finding that refuses the pattern raises GeometryError, any
other is a warning of the class PatternWarning. include/tailorgeom/pattern.h tells of the kinds.
"""
from __future__ import annotations

import warnings
from dataclasses import dataclass
from typing import Any, Optional

import numpy as np

from ._link import ffi, lib, text
from .errors import class_of, of_fault
from .pattern import Shapes

__all__ = ["Finding", "PatternWarning"]


class PatternWarning(UserWarning):
    """What a cutter should look at in a pattern that was read or graded."""


@dataclass(frozen=True)
class Finding:
    """Something that was found in a pattern. `kind`: "crossing", "wound", "sewn_to_itself", "sliver", "point_off",
    "mark_off", "seam_off", "area_lost"; `refuses` whether the pattern cannot be cut for it.

    `piece` is the piece's name (None for a seam), `parts` are the names of the edges, point, mark or seam that it is
    about; `value` is what was found and `limit` what is allowed, `at` where it is, x and y. `sentence` says all of it.
    """

    kind: str
    refuses: bool
    piece: Optional[str]
    parts: tuple[str, ...]
    value: float
    limit: float
    at: np.ndarray
    sentence: str


def _edge(p: Any, finding: Any, index: int) -> str:
    return text(lib.tailor_edge_name(p, finding.piece, index))


def _parts(p: Any, f: Any) -> tuple[str, ...]:
    if f.kind in (lib.TAILOR_FINDING_CROSSING, lib.TAILOR_FINDING_SLIVER):
        return tuple(dict.fromkeys((_edge(p, f, f.part), _edge(p, f, f.other))))
    if f.kind == lib.TAILOR_FINDING_SEWN_TO_ITSELF:
        return _edge(p, f, f.part), text(lib.tailor_seam_name(p, f.other))
    if f.kind == lib.TAILOR_FINDING_POINT_OFF:
        return (text(lib.tailor_point_name(p, f.piece, f.part)),)
    if f.kind == lib.TAILOR_FINDING_MARK_OFF:
        return (text(lib.tailor_mark_name(p, f.piece, f.part)),)
    if f.kind == lib.TAILOR_FINDING_SEAM_OFF:
        return (text(lib.tailor_seam_name(p, f.part)),)
    return ()


def _finding(p: Any, base: Any, f: Any, fault: Any) -> Finding:
    status = lib.tailor_finding_fault(ffi.addressof(f), fault)
    piece = None
    if f.piece >= 0:
        piece = text(lib.tailor_piece_name(p, f.piece))
    elif f.kind == lib.TAILOR_FINDING_AREA_LOST:
        piece = text(lib.tailor_piece_name(base, f.other))
    parts = _parts(p, f)
    names = ", ".join(name for name in (piece, " and ".join(parts)) if name)
    at = np.array((f.at.x, f.at.y))
    at.setflags(write=False)
    kind = text(lib.tailor_table_text(lib.tailor_finding_table(), f.kind, lib.TAILOR_COLUMN_NAME))
    return Finding(kind, status != 0, piece, parts, f.value, f.limit, at, f"{text(fault.sentence)} ({names})")


def findings(shapes: Shapes, base: Optional[Shapes] = None) -> tuple[Finding, ...]:
    """All that is found, what refuses the pattern first."""
    p, start = shapes._pointer, ffi.NULL if base is None else base._pointer
    fault, needed, room = ffi.new("tailor_fault *"), ffi.new("size_t *"), 32
    while True:
        found = ffi.new("tailor_finding[]", room)
        status = lib.tailor_pattern_examine(p, start, found, room, needed, fault)
        if status != lib.TAILOR_TOO_SMALL:
            break
        room = needed[0]
    if status:
        raise of_fault(fault)
    return tuple(_finding(p, start, found[i], fault) for i in range(needed[0]))


def sound(shapes: Shapes, base: Optional[Shapes] = None, said: str = "", level: int = 3) -> Shapes:
    """The pattern itself, if it can be cut: else GeometryError. Other findings are warnings of the caller's caller."""
    for finding in findings(shapes, base):
        if finding.refuses:
            status = lib.TAILOR_UNSOUND
            raise class_of(status)(said + finding.sentence, status, "finding", finding.kind, finding.value)
        warnings.warn(said + finding.sentence, PatternWarning, stacklevel=level)
    return shapes
