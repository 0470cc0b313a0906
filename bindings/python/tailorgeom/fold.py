"""The fold of any forepart: its break line, its lapel turned over, and how much of the chest it covers.

Pure functions on your own points and paths, in any unit, x toward the centre front and y up: they need no order and no
draft.

    stand = stand_point(shoulder_end, neck_point, 22)
    angle = fold_angle(stand, break_point)
    turned = turn(lapel, stand, break_point)
    covered = coverage(stand, break_point, scye_front_x, front_edge, level)
"""
from __future__ import annotations

from typing import Any, Union

import numpy as np
from numpy.typing import ArrayLike

from ._link import cubics_in, ffi, lib
from .errors import of_status
from .geometry import Path, _check, _each, point

__all__ = ["coverage", "fold_angle", "stand_point", "turn"]


def stand_point(shoulder_end: ArrayLike, neck_point: ArrayLike, stand: float) -> np.ndarray:
    """The upper end of a break line: on the shoulder line run on beyond the neck point, `stand` from it."""
    out = ffi.new("tailor_point *")
    _check(lib.tailor_fold_stand_point(point(shoulder_end), point(neck_point), stand, out), "stand_point")
    return np.array((out.x, out.y))


def fold_angle(stand_point: ArrayLike, break_point: ArrayLike) -> float:
    """The angle of a break line from plumb, degrees; positive when it leans back toward the neck, as a break line
    does."""
    return lib.tailor_fold_angle(point(stand_point), point(break_point))


def turn(lapel: Union[Path, ArrayLike], stand_point: ArrayLike, break_point: ArrayLike) -> Path:
    """The lapel turned over its break line: as many cubics, their direction kept. Turning twice gives the lapel
    back."""
    path = lapel if isinstance(lapel, Path) else Path(lapel)
    out = np.empty(path.cubics.shape)
    if len(path):
        status = lib.tailor_path_reflect(path._c, len(path), point(stand_point), point(break_point), cubics_in(out))
        _check(status, "turn")
    return Path(out, path.closed)


def coverage(
    stand_point: ArrayLike, break_point: ArrayLike, scye_front_x: float, front_edge: Union[Path, ArrayLike], level: Any
) -> Union[float, np.ndarray]:
    """How much of the chest a front covers at a level (or an array of levels): the horizontal distance from the front
    of the scye to the break line or, below the break point, to the front edge, whose farthest crossing counts.
    GeometryError above the stand point and where the front edge does not reach the level."""
    path = front_edge if isinstance(front_edge, Path) else Path(front_edge)
    out = ffi.new("double *")

    def one(y: float) -> float:
        status = lib.tailor_fold_coverage(
            point(stand_point), point(break_point), scye_front_x, path._c, len(path), y, out
        )
        if status:
            raise of_status(status, f"coverage at level {y:g}")
        return out[0]

    return _each(one, level)
