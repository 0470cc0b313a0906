"""How a lapel rolls: its section across the break line, and whether it holds at the drawn break.

    from tailorgeom import roll

    section = roll.section(bending_length=22, lapel_width=85)         # mechanics: a heavy strip with a pressed set
    section.crest_height, section.lies, section.line                  # mm, True, points (201, 2)

    found = roll.estimate(front, lapel_width=88, button_spacing=105, break_above=115, break_length=329,
                          break_angle=13.2, bridle_stiffness=150, bridle_drawn_in=3)
    found.roll_class, found.distance, found.band                      # "between", 7.7, 12.0

The section follows from its inputs as exactly as it is computed. The estimate is a law fitted to 70 runs of a
simulation of one idealised front; no real coat has confirmed its millimetres, and outside that block it gives no
class and no distance (None). In the simulation a bridle drawn in counts most, then the buttonhole bar, the width of
the lapel, the canvas; the angle of the canvas alone did not move the turning point. `front` is a
tailorgeom.cloth.Layers: cloth and canvas, without the facing.
"""
from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import Any, Optional

import numpy as np

from ._link import doubles_in, ffi, lib, points_in
from .cloth import PROPERTIES, Cloth, Layer, Layers, called, row
from .errors import of_status
from .sheets import Drawn, Page

__all__ = ["Estimate", "FreeFold", "Section", "bridle_tension", "buttonhole_ratio", "estimate", "free_fold", "section",
           "section_of"]

SECTION = (
    "bending_length",
    "lapel_width",
    "set",
    "set_band",
    "curl",
    "chest_lean",
    "break_angle",
    "free",
    "links",
)
MAKING = (
    "lapel_width",
    "button_spacing",
    "break_above",
    "break_length",
    "break_angle",
    "bridle_stiffness",
    "bridle_drawn_in",
    "buttonhole_bar",
    "buttonhole_sides",
    "hang_load",
)
CLASSES = {lib.TAILOR_ROLL_CLASS_HOLDS: "holds", lib.TAILOR_ROLL_CLASS_BETWEEN: "between",
           lib.TAILOR_ROLL_CLASS_THROUGH: "rolls through"}


@dataclass(frozen=True)
class Section(Drawn):
    """A lapel folded over and let go. crest_height: mm of roll above the chest; crest_radius: its smallest radius,
    NaN where nothing bends; lies: whether the edge lies on the chest; edge_height: mm by which it stands off;
    overhang: mm of roll beyond the beginning of the set; line: points from the held forepart over the crease to the
    edge, (links + 1, 2); coat: the Pattern whose lapel it is, or None. `to_svg`, `to_pdf` and `to_png` draw it, and a
    notebook shows it."""

    crest_height: float
    crest_radius: float
    lies: bool
    edge_height: float
    overhang: float
    line: np.ndarray
    coat: Any = field(default=None, repr=False, compare=False)

    def _draw(self, page: Page, format: str) -> bytes:
        from . import _sheet_link

        return _sheet_link.section(self.line, self.coat and self.coat._coat, page, format)


def section(bending_length: float, lapel_width: float, **more: Optional[float]) -> Section:
    """The section of a lapel. bending_length: mm, of cloth, canvas and facing across the break line; lapel_width: mm.
    And, with their defaults (own assumptions): set 165 degrees pressed over a set_band of 20 mm, curl 4 /m by the
    padding, chest_lean 20 degrees, break_angle 0, 30 mm of forepart free to lift; 200 links (40 are quicker, within
    2 %)."""
    given = row(SECTION, {"bending_length": bending_length, "lapel_width": lapel_width, **more}, "a section")
    out, line = np.empty(lib.TAILOR_ROLLED_COUNT), np.empty((lib.TAILOR_ROLLED_LINE_COUNT, 2))
    called(
        lib.tailor_roll_section, doubles_in(given), len(given), doubles_in(out), len(out), points_in(line), len(line)
    )
    links = given[lib.TAILOR_SECTION_LINKS]
    line = line if math.isnan(links) else line[: int(links) + 1].copy()
    line.setflags(write=False)
    height, radius, lies, edge, overhang = out[1 : lib.TAILOR_ROLLED_STEPS].tolist()
    return Section(height, radius, lies == 1, edge, overhang, line)


def section_of(coat: Any) -> Section:
    """The section of a coat's lapel (a Pattern's): the calculation that its quantities roll_height, roll_radius and
    lapel_lies are of. Cloth, canvas and facing, the facing laid in loose."""
    fields, quantities = coat.fields, coat.quantities
    wool, canvas = (Cloth(**{name: fields[f"{place}_{name}"] for name in PROPERTIES}) for place in ("cloth", "canvas"))
    padded = Layer(canvas, angle=fields["canvas_angle"], hold=fields["padding_hold"])
    lapel = Layers(wool, padded, Layer(wool, hold=0))
    found = section(
        lapel.along(quantities["break_angle"]).bending_length_across,
        fields["lapel_width"],
        set=fields["lapel_set"],
        set_band=coat.constants["lapel_set_band"],
        curl=fields["lapel_curl"],
        chest_lean=fields["chest_lean"],
        break_angle=quantities["break_angle"],
        links=40,
    )
    return replace(found, coat=coat)


@dataclass(frozen=True)
class FreeFold:
    """The free heavy fold: height, smallest radius and length in the air, mm."""

    height: float
    radius: float
    arc: float


def free_fold(bending_length: float) -> FreeFold:
    """A long strip folded over on a level table, without set: exactly, and of one shape for all."""
    out = [ffi.new("double *") for _ in range(3)]
    status = lib.tailor_roll_free_fold(bending_length, *out)
    if status:
        raise of_status(status, "free_fold")
    return FreeFold(*(one[0] for one in out))


@dataclass(frozen=True)
class Estimate:
    """in_range: within the block that the law was fitted on; roll_class: "holds", "between" or "rolls through";
    distance: mm below the drawn break point where the lapel has turned by 45 degrees, give or take `band`; these three
    are None out of range. bridle_tension: N; buttonhole_ratio: bar against canvas; break_stretch: % of the front along
    the break line at 1 N/cm; bending_across: uN.m of the front about the break line, and its bending_length, mm."""

    in_range: bool
    roll_class: Optional[str]
    distance: Optional[float]
    band: Optional[float]
    bridle_tension: float
    buttonhole_ratio: float
    break_stretch: float
    bending_across: float
    bending_length: float


def estimate(front: Layers, **making: Optional[float]) -> Estimate:
    """Does the lapel hold at the drawn break, or roll through it? Required: lapel_width, button_spacing, break_above
    (of the drawn break over the fastened button), break_length, mm, and break_angle, degrees from plumb. With
    defaults: bridle_stiffness 0 N (soft 30, medium 150, firm 600), bridle_drawn_in 0 mm, buttonhole_bar 0 N.m2 (plain
    1e-6, double over gimp 1e-5) on buttonhole_sides 1, hang_load 1 N."""
    given, out = row(MAKING, making, "an estimate"), np.empty(lib.TAILOR_ROLL_COUNT)
    array: Any = front.array
    called(
        lib.tailor_roll_estimate, doubles_in(given), len(given), doubles_in(array), len(array), doubles_in(out),
        len(out)
    )
    in_range, kind, distance, band, *rest = out[1:].tolist()
    if math.isnan(kind):
        return Estimate(False, None, None, None, *rest)
    return Estimate(in_range == 1, CLASSES[int(kind)], distance, band, *rest)


def bridle_tension(
    stiffness: float, drawn_in: float, length: float, front_stretch: float, hang_load: float = 1.0
) -> float:
    """The tension in a bridle, N: its stiffness (N) against 30 mm of front of `front_stretch` N/m; drawn_in and
    length in mm."""
    return lib.tailor_roll_bridle_tension(stiffness, drawn_in, length, front_stretch, hang_load)


def buttonhole_ratio(bar: float, bending: float) -> float:
    """How stiff a buttonhole bar (N.m2) is beside 22 mm of front of so much bending rigidity along it (uN.m)."""
    return lib.tailor_roll_buttonhole_ratio(bar, bending)
