"""The mechanics of cloth: how woven sheets stretch, bend and hang, alone and in layers.

    from tailorgeom.cloth import Cloth, Layer, Layers

    wool = Cloth(weight=280, stretch_warp=4900, stretch_weft=3300, shear=50, contraction=0.15,
                 bending_warp=12, bending_weft=8, twist=2.2, thickness=0.6)
    wool.along(45).stretch                                    # N/m on the bias; arrays of angles give arrays
    canvas = Cloth.from_tests(weight=200, thickness=0.5, bending_length_warp=25, bending_length_weft=50,
                              stretch_warp=1.2, stretch_weft=0.8, stretch_bias=1.2)
    front = Layers(wool, Layer(canvas, angle=20))             # padded: held together by its stitches
    lapel = Layers(wool, Layer(canvas, angle=20), Layer(wool, hold=0))     # the facing is laid in loose
    lapel.along(13.2).bending_length_across

Units: g/m2, N/m (stretch and shear), uN.m (bending and twist, of a width), mm, N/cm (tension), degrees. Angles are
signed, from the garment's straight grain, positive toward the break line: +45 and -45 are different coats.
`tailorgeom.cloths()` has cloths and canvases by name, and says of each what stands behind it; none is one measured
cloth. `read_cloths` reads a table of your own. Numbers hold for small stretches (5 % or so); friction within the cloth
is left out.
"""
from __future__ import annotations

import csv
import math
import os
import re
from collections.abc import Iterable
from dataclasses import dataclass, fields
from typing import Any, Optional, Union

import numpy as np
from numpy.typing import ArrayLike

from ._link import doubles_in, ffi, lib, text
from .errors import CallError, OrderError, TailorError, of_fault
from .geometry import _each, _like

__all__ = [
    "Along",
    "Cloth",
    "Droop",
    "Layer",
    "Layers",
    "bending_length_of_droop",
    "droop",
    "read_cloths",
    "standing_height",
    "trellis_area",
    "trellis_line",
    "trellis_shear",
]

Number = Union[float, np.ndarray]
PROPERTIES = tuple(
    text(lib.tailor_table_text(lib.tailor_cloth_table(), number, lib.TAILOR_COLUMN_NAME))
    for number in range(1, lib.TAILOR_CLOTH_COUNT)
)
TESTS = (
    "weight",
    "thickness",
    "bending_length_warp",
    "bending_length_weft",
    "bending_length_bias",
    "stretch_warp",
    "stretch_weft",
    "stretch_bias",
    "contraction",
)
JOINTS = {"padded": lib.TAILOR_JOINT_PADDED, "fused": lib.TAILOR_JOINT_FUSED}


def row(names: Iterable[str], values: dict[str, Any], what: str) -> np.ndarray:
    """Keywords as one of the library's arrays; None is not given."""
    names = tuple(names)
    unknown = sorted(set(values) - set(names))
    if unknown:
        raise CallError(f"{what} has no {unknown[0]}: it takes {', '.join(names)}", lib.TAILOR_BAD_ARGUMENT)
    out = np.full(len(names) + 1, math.nan)
    for number, name in enumerate(names, 1):
        if values.get(name) is not None:
            out[number] = values[name]
    return out


def called(call: Any, *arguments: Any) -> None:
    """Make a call that fills a fault, and raise what it tells."""
    fault = ffi.new("tailor_fault *")
    if call(*arguments, fault):
        raise of_fault(fault)


@dataclass(frozen=True)
class Along:
    """What a sheet is along a line; numbers, or arrays for an array of lines.

    stretch: N/m, of a strip cut along the line, free to narrow; bending: uN.m, bent along the line, of a wide strip;
    bending_narrow: of a narrow one, real strips lie between; bending_across: rolled about the line, as a lapel about
    its break line; bending_length, bending_length_across: mm; weight: g/m2; drape_length: mm, over all directions."""

    stretch: Number
    bending: Number
    bending_narrow: Number
    bending_across: Number
    bending_length: Number
    bending_length_across: Number
    weight: Number
    drape_length: Number


def _along(call: Any, of: np.ndarray, angle: ArrayLike) -> Along:
    angles = np.ravel(np.asarray(angle, dtype=np.float64))
    out = np.empty((angles.size, lib.TAILOR_ALONG_COUNT))
    for one, line in zip(angles.tolist(), out):
        called(call, doubles_in(of), len(of), one, doubles_in(line), len(line))
    return Along(*(_like(out[:, entry].copy(), angle) for entry in range(1, lib.TAILOR_ALONG_COUNT)))


class Cloth:
    """A sheet of woven cloth; immutable, checked when made. Its properties are attributes: weight (g/m2), stretch_warp,
    stretch_weft, shear (N/m), contraction (ratio), bending_warp, bending_weft, twist (uN.m), thickness (mm)."""

    __slots__ = ("_row",)

    def __init__(self, **properties: float) -> None:
        made = row(PROPERTIES, properties, "a cloth")
        called(lib.tailor_cloth_check, doubles_in(made), len(made))
        made.setflags(write=False)
        object.__setattr__(self, "_row", made)

    @classmethod
    def from_tests(cls, **tests: Optional[float]) -> Cloth:
        """A cloth from what strips of it tell: weight, thickness; bending_length_warp, _weft and, if measured, _bias
        (mm; see bending_length_of_droop); stretch_warp, stretch_weft (% at 100 gf/cm), stretch_bias (% at 5 gf/cm);
        contraction, else 0.1. Without the bias bending length the twist is a guess from the other two."""
        given, made = row(TESTS, tests, "a test"), np.empty(lib.TAILOR_CLOTH_COUNT)
        called(lib.tailor_cloth_from_tests, doubles_in(given), len(given), doubles_in(made), len(made))
        return cls(**dict(zip(PROPERTIES, made[1:].tolist())))

    def along(self, angle: ArrayLike) -> Along:
        """What it is along a line so many degrees off its warp, or along each of an array of them."""
        return _along(lib.tailor_cloth_along, self._row, angle)

    def __getattr__(self, name: str) -> float:
        if name in PROPERTIES:
            return self._row[PROPERTIES.index(name) + 1].item()
        raise AttributeError(f"a cloth has no {name}")

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError("a cloth does not change: make another")

    def __array__(self, dtype: Any = None) -> np.ndarray:
        return self._row if dtype is None else self._row.astype(dtype)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Cloth) and np.array_equal(self._row[1:], other._row[1:])

    def __hash__(self) -> int:
        return hash(self._row[1:].tobytes())

    def __repr__(self) -> str:
        return f"Cloth({', '.join(f'{name}={getattr(self, name):g}' for name in PROPERTIES)})"

    def __reduce__(self) -> tuple:
        return _cloth_of, (self._row[1:].tolist(),)


def _cloth_of(values: list[float]) -> Cloth:
    return Cloth(**dict(zip(PROPERTIES, values)))


@dataclass(frozen=True)
class Layer:
    """A cloth in its place: `angle` is how far its warp leans from the straight grain toward the break line, degrees;
    `joint` is "padded" (`hold` 1: the stitches hold it wholly, 0: it is laid in loose) or "fused" (`hold` is the bond:
    1 is a solid plate, several times too stiff for cloth; 0.15 is a guess)."""

    cloth: Cloth
    angle: float = 0.0
    joint: str = "padded"
    hold: float = 1.0


class Layers:
    """Cloths joined to one sheet, the lowest first: Cloth or Layer, one to eight. Immutable; `array` is the C
    library's, stiffness by stiffness."""

    __slots__ = ("array",)

    def __init__(self, *layers: Union[Cloth, Layer]) -> None:
        given = [one if isinstance(one, Layer) else Layer(one) for one in layers]
        if any(one.joint not in JOINTS for one in given):
            raise CallError(f"a joint is one of {', '.join(JOINTS)}", lib.TAILOR_BAD_ARGUMENT)
        cloths = np.array([one.cloth._row for one in given]).reshape(-1, lib.TAILOR_CLOTH_COUNT)
        angles = np.array([one.angle for one in given], dtype=np.float64)
        holds = np.array([one.hold for one in given], dtype=np.float64)
        made = np.empty(lib.TAILOR_LAYERS_COUNT)
        called(
            lib.tailor_layers_join,
            doubles_in(cloths),
            len(given),
            lib.TAILOR_CLOTH_COUNT,
            doubles_in(angles),
            ffi.new("int[]", [JOINTS[one.joint] for one in given]),
            doubles_in(holds),
            doubles_in(made),
            len(made),
        )
        made.setflags(write=False)
        object.__setattr__(self, "array", made)

    def __setattr__(self, name: str, value: Any) -> None:
        raise AttributeError("layers do not change: join others")

    def along(self, angle: ArrayLike) -> Along:
        """What they are along a line so many degrees from the straight grain toward the break line, or along each of an
        array of them."""
        return _along(lib.tailor_layers_along, self.array, angle)

    def stretch(self, angle: float, tension: float) -> tuple[float, bool]:
        """How much a line stretches under a tension in N/cm: % and whether that is beyond the 5 % or so within which
        cloth is linear; the number is then only nominal."""
        percent, beyond = ffi.new("double *"), ffi.new("int *")
        called(lib.tailor_layers_stretch, doubles_in(self.array), len(self.array), angle, tension, percent, beyond)
        return percent[0], bool(beyond[0])

    def greatest_stretch(self) -> tuple[float, float]:
        """The direction in which they stretch most, degrees, and the stiffness along it, N/m."""
        angle, stiffness = ffi.new("double *"), ffi.new("double *")
        called(lib.tailor_layers_greatest_stretch, doubles_in(self.array), len(self.array), angle, stiffness)
        return angle[0], stiffness[0]

    def __repr__(self) -> str:
        weight, thickness = self.array[lib.TAILOR_LAYERS_WEIGHT], self.array[lib.TAILOR_LAYERS_THICKNESS]
        return f"<Layers of {weight:g} g/m2, {thickness:g} mm>"

    def __reduce__(self) -> tuple:
        return _layers_of, (self.array.tolist(),)


def _layers_of(values: list[float]) -> Layers:
    made, array = Layers.__new__(Layers), np.array(values)
    array.setflags(write=False)
    object.__setattr__(made, "array", array)
    return made


def read_cloths(path: Union[str, os.PathLike]) -> dict[str, Cloth]:
    """The cloths of a table, by name: a CSV with the columns name and the properties of a cloth, any others beside
    them. OrderError with line and column for one that is torn or holds what is no cloth."""
    return {name: made for name, _, _, made in read_rows(path)}


def read_rows(path: Union[str, os.PathLike]) -> list[tuple[str, str, str, Cloth]]:
    """Name, use, source and cloth of each line; use and source may be missing."""
    found: dict[str, tuple[str, str, str, Cloth]] = {}

    def refuse(column: int, sentence: str) -> OrderError:
        where = f"column {column}: " if column else ""
        return OrderError(f"{os.fspath(path)}:{lines.line_num}: {where}{sentence}", lib.TAILOR_BAD_ARGUMENT)

    with open(path, encoding="utf-8-sig", newline="") as file:
        lines = csv.reader(file, strict=True)
        try:
            head = next(lines, [])
            for name in ("name", *PROPERTIES):
                if head.count(name) != 1:
                    raise refuse(0, f"a file of cloths has one column {name}")
            for cells in lines:
                if len(cells) != len(head):
                    raise refuse(0, f"{len(cells)} cells, but the header has {len(head)}")
                one = dict(zip(head, (cell.strip() for cell in cells)))
                if not one["name"] or one["name"] in found:
                    raise refuse(head.index("name") + 1, "this name stands already" if one["name"] else "no name")
                for name in PROPERTIES:
                    if not re.fullmatch(r"[0-9]*\.?[0-9]+|[0-9]+\.", one[name]):
                        raise refuse(head.index(name) + 1, f"{name} is a plain number with a point: {one[name]!r}")
                try:
                    made = Cloth(**{name: float(one[name]) for name in PROPERTIES})
                except TailorError as error:
                    raise refuse(head.index(error.field or "name") + 1, str(error)) from None
                found[one["name"]] = (one["name"], one.get("use", ""), one.get("source", ""), made)
        except csv.Error as error:
            raise refuse(0, str(error)) from None
        except UnicodeDecodeError:
            raise refuse(0, "this is not UTF-8 text") from None
    return list(found.values())


# ---- trellis


def trellis_line(shear: ArrayLike, angle: float = 45.0) -> Number:
    """How much longer a line becomes, as a ratio, when warp and weft leave the square by `shear` degrees and do not
    stretch. `angle`: of the line, from the warp, before; 45 lengthens, -45 shortens."""
    return _each(lambda one: lib.tailor_trellis_line(one, angle), shear)


def trellis_area(shear: ArrayLike) -> Number:
    """How much smaller an area becomes, as a ratio, when warp and weft leave the square by `shear` degrees."""
    return _each(lib.tailor_trellis_area, shear)


def trellis_shear(extension: ArrayLike) -> Number:
    """The shear, degrees, that makes a line on the true bias longer by `extension` (0.05: 5 %); NaN where no net
    reaches."""
    return _each(lib.tailor_trellis_shear, extension)


# ---- droop


@dataclass(frozen=True)
class Droop:
    """How a clamped strip hangs: chord_angle and tip_angle, degrees below the horizontal; reach and drop of its tip,
    mm."""

    chord_angle: float
    tip_angle: float
    reach: float
    drop: float


def droop(bending_length: float, overhang: float, rise: float = 0.0) -> Droop:
    """A strip of cloth under its own weight, clamped `rise` degrees above the horizontal (-89.9 to 90: upright),
    exactly; lengths in mm."""
    out = np.empty(lib.TAILOR_DROOP_COUNT)
    called(lib.tailor_cloth_droop, bending_length, overhang, rise, doubles_in(out), len(out))
    return Droop(*(out[number].item() for number in range(1, len(fields(Droop)) + 1)))


def bending_length_of_droop(overhang: float, chord_angle: float = 41.5) -> float:
    """The bending length, mm, of a level strip whose overhang (mm) droops until the line to its tip lies so many
    degrees below the horizontal. At 41.5, the slope of the standard tests, it is half the overhang."""
    out = ffi.new("double *")
    called(lib.tailor_cloth_droop_bending_length, overhang, chord_angle, out)
    return out[0]


def standing_height(bending_length: ArrayLike) -> Number:
    """The greatest height, mm, at which a strip clamped upright stands by itself (Greenhill 1881)."""
    return _each(lib.tailor_cloth_standing_height, bending_length)
