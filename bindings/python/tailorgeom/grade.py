"""Grading a pattern by rules, and finding the rules that a family of sizes follows.

    grade = Grade.from_sizes([coat_40, coat_42], [0, 1])        # what one size more does to every point
    grade.apply(0.5)                                            # a pattern half a step up: seams equal, joints smooth
    grade.rule("back", "shoulder_end").move                     # dx, dy a step

    grade = Grade.from_rules(pattern, {("back", "shoulder_end"): (3, 1), ("back", "hem.start"): (0, -5)})
    grade = Grade.from_rules(pattern, read_rules("rules.csv"))

Points are those of the pattern, or "shoulder.start" and "shoulder.end" for the ends of an edge. include/tailorgeom/
grade.h tells how curves, marks and seams are carried along.
"""
from __future__ import annotations

import csv
import os
import pathlib
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any, Optional, Union

import numpy as np

from ._link import doubles_in, ffi, lib, points_in
from .errors import CallError, of_fault
from .examine import sound
from .order import c_text
from .pattern import Shapes

__all__ = ["Grade", "Rule", "read_rules"]

#: (piece, point) -> (dx, dy) of one step, or one such pair for each axis.
Rules = Mapping[tuple[str, str], Any]


@dataclass(frozen=True)
class Rule:
    """How a point moves on one step, mm; `residual` is how far the sizes lie off it at most."""

    move: np.ndarray
    residual: float


class Grade:
    """How the points of a base pattern move on one step of each axis. Immutable. Made by from_rules() and
    from_sizes()."""

    def __init__(self, pointer: Any) -> None:
        self._pointer = pointer
        #: How many axes it has.
        self.axes: int = lib.tailor_grade_axis_count(pointer)

    @classmethod
    def from_rules(cls, base: Shapes, rules: Rules, axes: int = 1) -> Grade:
        """A grade from rules: what no rule names is carried along. A rule that names what is not there, or moves a
        place that another moves differently, raises CallError or OrderError; its number counts in the mapping's
        order."""
        moves = np.zeros((len(rules), axes, 2))
        for i, move in enumerate(rules.values()):
            given = np.asarray(move, dtype=np.float64)
            if given.size != 2 * axes:
                raise ValueError(f"rule {i + 1}: {axes} pairs of dx and dy are wanted")
            moves[i] = given.reshape(axes, 2)
        texts = [[ffi.new("char[]", c_text(name)) for name in names] for names in rules]
        named = ffi.new("tailor_rule[]", texts)
        out, fault = ffi.new("tailor_grade **"), ffi.new("tailor_fault *")
        if lib.tailor_grade_from_rules(base._pointer, named, points_in(moves), len(rules), axes, ffi.NULL, out, fault):
            raise of_fault(fault)
        return cls(ffi.gc(out[0], lib.tailor_grade_free))

    @classmethod
    def from_sizes(cls, patterns: Sequence[Shapes], steps: Any) -> Grade:
        """The grade that a family follows: the first pattern is the base, its steps are 0; `steps` one number a
        pattern, or one for each axis. With a size more than axes it meets every size, else by least squares."""
        array = np.ascontiguousarray(np.asarray(steps, dtype=np.float64))
        array = array.reshape(len(patterns), -1) if array.size else array.reshape(0, 1)
        out, fault = ffi.new("tailor_grade **"), ffi.new("tailor_fault *")
        pointers = ffi.new("tailor_pattern *[]", [pattern._pointer for pattern in patterns])
        if lib.tailor_grade_from_sizes(
            pointers, len(patterns), doubles_in(array), array.shape[1], ffi.NULL, out, fault
        ):
            raise of_fault(fault)
        return cls(ffi.gc(out[0], lib.tailor_grade_free))

    def apply(self, *steps: float, pattern: Optional[Shapes] = None) -> Shapes:
        """The pattern at so many steps of each axis, any real numbers; from the base, or from a pattern that this grade
        gave. Seams are made equal again: GeometryError where that cannot be, and where a piece comes out that cannot be
        cut. What else examine() finds of it, beside the base, is a PatternWarning."""
        array = np.array(steps, dtype=np.float64)
        out, fault = ffi.new("tailor_pattern **"), ffi.new("tailor_fault *")
        start = ffi.NULL if pattern is None else pattern._pointer
        if lib.tailor_grade_apply(
            self._pointer, start, doubles_in(array), len(array), ffi.NULL, out, fault
        ):
            raise of_fault(fault)
        return sound(Shapes(ffi.gc(out[0], lib.tailor_pattern_free)), self.base)

    def rule(self, piece: str, point: str, axis: int = 0) -> Rule:
        """How a named point, or the end of an edge ("shoulder.start"), moves on one step of an axis."""
        move, residual = ffi.new("tailor_point *"), ffi.new("double *")
        if lib.tailor_grade_rule(self._pointer, c_text(piece), c_text(point), axis, move, residual):
            raise CallError(
                f"there is no point {point!r} on a piece {piece!r}, or no axis {axis}", lib.TAILOR_BAD_ARGUMENT
            )
        return Rule(np.array((move.x, move.y)), residual[0])

    def rules(self, axis: int = 0) -> dict[tuple[str, str], Rule]:
        """The rules of every named point and every start of an edge, by (piece, point): a workroom's table."""
        return {
            (piece.name, name): self.rule(piece.name, name, axis)
            for piece in self.base.pieces.values()
            for name in [*piece.points, *(f"{edge}.start" for edge in piece.edges)]
        }

    @property
    def base(self) -> Shapes:
        """The pattern that it was made of, with more joints where the grade needs them."""
        pointer = lib.tailor_grade_base(self._pointer)
        shapes = Shapes(ffi.cast("tailor_pattern *", pointer))
        shapes._keeps = self._pointer  # type: ignore[attr-defined]
        return shapes

    def __repr__(self) -> str:
        return f"<Grade of {len(self.base.pieces)} pieces on {self.axes} axes>"


def read_rules(path: Union[str, "os.PathLike[str]"], axes: int = 1) -> dict[tuple[str, str], np.ndarray]:
    """Rules from a CSV file with the columns piece, point, dx, dy (mm a step); for more axes axis, counted from 1, and
    a line for each. ValueError names the line for what is no rule."""
    rules: dict[tuple[str, str], np.ndarray] = {}
    with open(pathlib.Path(path), newline="", encoding="utf-8-sig") as file:
        reader = csv.DictReader(file, strict=True)
        missing = {"piece", "point", "dx", "dy"} - set(reader.fieldnames or ())
        if missing:
            raise ValueError(f"{path}: there is no column {', '.join(sorted(missing))}")
        for line in reader:
            try:
                key, axis = (line["piece"], line["point"]), int(line.get("axis") or 1)
                move = float(line["dx"]), float(line["dy"])
                if not (1 <= axis <= axes and all(np.isfinite(move))):
                    raise ValueError
            except (TypeError, ValueError):
                said = f"{path}, line {reader.line_num}: dx and dy are numbers, axis is 1 to {axes}"
                raise ValueError(said) from None
            rule = rules.setdefault(key, np.full((axes, 2), np.nan))
            if not np.isnan(rule[axis - 1, 0]):
                raise ValueError(f"{path}, line {reader.line_num}: {key[0]} {key[1]} has a rule already")
            rule[axis - 1] = move
    return {key: np.nan_to_num(rule, nan=0.0) for key, rule in rules.items()}
