"""What a draft gives: pieces with their edges, points and marks, seams, quantities, checks and fields.

Everything is read from the C library's pattern when it is asked for, and kept; nothing can be written to. Lengths are
mm; x runs from the centre back toward the centre front, y up, the nape is the origin; pieces are the wearer's right
half.
"""
from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Optional, Union

import numpy as np

from . import tables
from ._link import ffi, lib, new_cubics, text
from .errors import CheckError
from .geometry import Path
from .order import CHOICES, CONSTANTS, FIELD_COUNT, FIELDS, House
from .sheets import Drawn, Page

if TYPE_CHECKING:
    from .examine import Finding
    from .roll import Section

__all__ = ["Caution", "CheckResult", "Edge", "Mark", "Pattern", "Piece", "Seam", "Shapes", "Stretch"]

_SIDES = {lib.TAILOR_SIDE_BOTH: "both", lib.TAILOR_SIDE_RIGHT: "right", lib.TAILOR_SIDE_LEFT: "left"}
_ORIGINS = {
    lib.TAILOR_ORIGIN_NONE: "none",
    lib.TAILOR_ORIGIN_CLIENT: "client",
    lib.TAILOR_ORIGIN_HOUSE: "house",
    lib.TAILOR_ORIGIN_RULE: "rule",
}
_CLASSES = {lib.TAILOR_CAUTION_CLASS_TOLD: "told", lib.TAILOR_CAUTION_CLASS_CAUTION: "caution"}
_KINDS = {
    lib.TAILOR_MARK_NOTCH: "notch",
    lib.TAILOR_MARK_GRAIN: "grain",
    lib.TAILOR_MARK_BUTTON: "button",
    lib.TAILOR_MARK_HOLE: "hole",
    lib.TAILOR_MARK_DART: "dart",
    lib.TAILOR_MARK_LINE: "line",
    lib.TAILOR_MARK_FOLD: "fold",
}


@dataclass(frozen=True)
class Edge:
    """A run of a piece's outline, in outline direction. `number` is its row of the edge table, 0 if that has none."""

    name: str
    number: int
    path: Path


@dataclass(frozen=True)
class Mark:
    """What is drawn on a piece besides its outline. `kind`: "notch", "grain", "button", "hole", "dart", "line",
    "fold"."""

    name: str
    number: int
    kind: str
    path: Path


@dataclass(frozen=True)
class Piece:
    """One piece, net. `cut` is how many are cut for one coat, `mirrored` whether half of them are mirror images, `side`
    the wearer's side that the outline is drawn for ("right", "left", "both"), `cloth` what it is cut from. `outline` is
    closed and runs counter-clockwise; `edges`, `points` (arrays of x and y) and `marks` are found by their names."""

    name: str
    number: int
    cut: int
    mirrored: bool
    side: str
    cloth: str
    outline: Path
    edges: Mapping[str, Edge]
    points: Mapping[str, np.ndarray]
    marks: Mapping[str, Mark]

    def __repr__(self) -> str:
        twice = ", mirrored" if self.mirrored else ""
        return f"<Piece {self.name}: cut {self.cut}{twice}, of {self.cloth}, {self.outline.area / 100:.0f} cm2>"


@dataclass(frozen=True)
class Stretch:
    """A stretch of an edge that is sewn, from `start` to `stop`, lengths along the edge in outline direction; `start`
    may be the larger."""

    piece: str
    edge: str
    start: float
    stop: float

    @property
    def length(self) -> float:
        """How long it is, mm."""
        return abs(self.stop - self.start)


@dataclass(frozen=True)
class Seam:
    """Two sides sewn to one another. `stretches` are those of the first and of the second side, each in the order of
    sewing; `ease` is how much longer the first side is than the second, by intention."""

    name: str
    stretches: tuple[tuple[Stretch, ...], tuple[Stretch, ...]]
    ease: float

    @property
    def lengths(self) -> tuple[float, float]:
        """How long its two sides are, mm."""
        first, second = (sum(stretch.length for stretch in side) for side in self.stretches)
        return first, second


@dataclass(frozen=True)
class CheckResult:
    """What a check found. `holds` is None for a check that does not exist for this coat."""

    name: str
    value: float
    limit: float
    sense: int
    holds: Optional[bool]


@dataclass(frozen=True)
class Caution:
    """What a cutter should know of a coat. `kind`: "told", worth knowing, or "caution", look before you cut; `value` is
    what it was found from, in the unit of its row of cautions()."""

    name: str
    kind: str
    value: float
    sentence: str


class Shapes(Drawn):
    """Pieces and seams: a drafted coat, a graded pattern, or one that was built. Immutable; may be read by any number
    of threads.

    A notebook shows it as a picture; `to_svg`, `to_pdf` and `to_png` give the sheet, `plot` draws it with matplotlib.
    """

    def __init__(self, pointer: Any) -> None:
        self._pointer = pointer

    # ---- pieces and seams

    @cached_property
    def pieces(self) -> Mapping[str, Piece]:
        """The pieces by name; of a coat back, sidebody, forepart, topsleeve, undersleeve, under_collar; "back_right"
        and "back_left" where the figure's sides differ; with `make` those of the make too."""
        return _by_name(_read_piece(self._pointer, i) for i in range(lib.tailor_pattern_piece_count(self._pointer)))

    @cached_property
    def seams(self) -> Mapping[str, Seam]:
        """The seams by name."""
        pieces = list(self.pieces.values())
        return _by_name(
            _read_seam(self._pointer, i, pieces) for i in range(lib.tailor_pattern_seam_count(self._pointer))
        )

    @property
    def edition(self) -> int:
        """The edition of rules, defaults and recipe that it was drafted by; a graded pattern has its base's. 0 for what
        is no draft."""
        return lib.tailor_pattern_edition(self._pointer)

    @cached_property
    def style(self) -> Mapping[str, str]:
        """What it was drafted as: choices by the names of their fields, as far as they are known; a graded pattern has
        its base's."""
        numbers = {name: lib.tailor_pattern_style(self._pointer, FIELDS[name]) for name in tables.fields()}
        return MappingProxyType({name: CHOICES[FIELDS[name]][n] for name, n in numbers.items() if n})

    @property
    def toile_only(self) -> bool:
        """Whether it is for a toile only, as every sheet of it says then: a coat with that caution, and what is graded
        from one."""
        return bool(lib.tailor_pattern_toile_only(self._pointer))

    @property
    def outlines(self) -> dict[str, np.ndarray]:
        """The outline of each piece by name: an array (n, 4, 2), n cubics of four points."""
        return {name: piece.outline.cubics for name, piece in self.pieces.items()}

    def polylines(self, tolerance: float = 0.1) -> dict[str, np.ndarray]:
        """The outline of each piece as points (m, 2), chords within `tolerance` (mm) of the curve."""
        return {name: piece.outline.flatten(tolerance) for name, piece in self.pieces.items()}

    def examine(self, base: Optional[Shapes] = None) -> tuple[Finding, ...]:
        """What keeps the pattern from being cut and sewn, and what a cutter should look at: outlines that cross
        themselves, slivers, points and marks that lie off, seams that do not fit. Empty for a sound pattern. `base` is
        what it was graded or altered from."""
        from . import examine

        return examine.findings(self, base)

    # ---- showing

    def plot(self, ax: Any = None, **options: Any) -> Any:
        """Draw the pieces with matplotlib; options as plots.pattern() takes them. Returns the axes."""
        from . import plots

        return plots.pattern(self, ax, **options)

    def _draw(self, page: Page, format: str) -> bytes:
        from . import _sheet_link

        return _sheet_link.pattern(self._pointer, page, format)

    def __repr__(self) -> str:
        return f"<{type(self).__name__}: {', '.join(self.pieces)}; {len(self.seams)} seams>"


class Pattern(Shapes):
    """A coat. Made by draft(), compare() and measure(). Immutable; may be read by any number of threads; pickles as its
    order. Pieces, seams, sheets and plots are those of Shapes; its sheet has its cautions too.
    CheckError when a sheet is asked of a coat that was kept though a check fails.
    """

    def __init__(self, coat: Any, client: Any, house: House) -> None:
        self._coat, self._client, self._house = coat, client, house
        self._pointer = lib.tailor_coat_pattern(coat)  # lives as long as the coat
        self._make = bool(lib.tailor_coat_extent(coat) & lib.TAILOR_EXTENT_MAKE)

    # ---- numbers

    @cached_property
    def quantities(self) -> Mapping[str, float]:
        """All quantities by name, NaN for what this coat does not have. quantities() tells meanings and units."""
        values = lib.tailor_coat_quantities(self._coat, ffi.NULL)
        return MappingProxyType({row.name: values[row.number] for row in tables.quantities().values()})

    @cached_property
    def checks(self) -> Mapping[str, CheckResult]:
        """All checks by name, with value and limit."""
        found, value, limit = {}, ffi.new("double *"), ffi.new("double *")
        for row in tables.checks().values():
            holds = lib.tailor_coat_check(self._coat, row.number, value, limit)
            found[row.name] = CheckResult(row.name, value[0], limit[0], row.sense, {1: True, 0: False}.get(holds))
        return MappingProxyType(found)

    @cached_property
    def cautions(self) -> Mapping[str, Caution]:
        """What a cutter should know of this coat, by name; every sheet of it says so where it matters."""
        found, fault = {}, ffi.new("tailor_fault *")
        for place in range(lib.tailor_coat_caution_count(self._coat)):
            kind = _CLASSES[lib.tailor_coat_caution(self._coat, place, fault)]
            name = text(lib.tailor_table_text(lib.tailor_caution_table(), fault.index, lib.TAILOR_COLUMN_NAME))
            found[name] = Caution(name, kind, fault.value, text(fault.sentence))
        return MappingProxyType(found)

    @cached_property
    def fields(self) -> Mapping[str, Union[float, str, None]]:
        """The resolved order by name: every field in use, choices by their names, None for a measure that nobody gave.
        `draft(**coat.fields)` is the same coat, but for the house's constants."""
        return MappingProxyType(_named(lib.tailor_coat_fields(self._coat, ffi.NULL)))

    @cached_property
    def given(self) -> Mapping[str, Union[float, str]]:
        """What the client gave, as it was understood."""
        return MappingProxyType({name: value for name, value in _named(self._client).items() if value is not None})

    @cached_property
    def origins(self) -> Mapping[str, str]:
        """Where each field came from, by name: "client", "house", "rule", or "none"."""
        origins = lib.tailor_coat_origins(self._coat, ffi.NULL)
        return MappingProxyType({name: _ORIGINS[origins[FIELDS[name]]] for name in tables.fields()})

    @cached_property
    def constants(self) -> Mapping[str, float]:
        """The house constants in use, by name."""
        values = lib.tailor_coat_constants(self._coat, ffi.NULL)
        return MappingProxyType({name: values[CONSTANTS[name]] for name in tables.constants()})

    @cached_property
    def roll_section(self) -> Section:
        """The section of the lapel across the break line: a tailorgeom.roll.Section, which can be drawn. Whether it
        lies and how high it rolls are the quantities lapel_lies and roll_height; how far it rolls, roll_class,
        roll_distance and roll_band, a law fitted to a simulation that no real coat has confirmed."""
        from . import roll

        return roll.section_of(self)

    # ---- showing

    def _draw(self, page: Page, format: str) -> bytes:
        from . import _sheet_link

        try:
            return _sheet_link.coat(self._coat, page, format)
        except CheckError as error:
            error.pattern = self
            raise

    def _repr_svg_(self) -> Optional[str]:
        """For notebooks; None, so that they show the text, when a check fails."""
        try:
            return super()._repr_svg_()
        except CheckError:
            return None

    def __repr__(self) -> str:
        failing = [name for name, check in self.checks.items() if check.holds is False]
        given = ", ".join(f"{name}={value!r}" for name, value in self.given.items())
        state = "fails " + ", ".join(failing) if failing else "all checks hold"
        return f"<Pattern {given}: {len(self.pieces)} pieces, {state}>"

    def __reduce__(self) -> tuple:
        from .draft import again

        if not lib.tailor_coat_drafted(self._coat):
            raise TypeError("a coat that was measured, not drafted, is not pickled: write_pattern() keeps its pieces")
        return again, (bytes(ffi.buffer(self._client, 8 * FIELD_COUNT)), self._house.values, self._make)


def _named(row: Any) -> dict[str, Union[float, str, None]]:
    """A row of fields by name, choices by theirs, None for what is not given."""
    found: dict[str, Union[float, str, None]] = {}
    for name in tables.fields():
        number = FIELDS[name]
        value, choices = row[number], CHOICES[number]
        found[name] = None if value != value else choices[int(value)] if choices else value
    return found


def _by_name(things: Any) -> Mapping[str, Any]:
    return MappingProxyType({thing.name: thing for thing in things})


def _path(read: Any, *where: Any, closed: bool = False) -> Path:
    count = ffi.new("size_t *")
    pointer = read(*where, count)
    return Path(new_cubics(pointer, count[0]), closed)


def _read_piece(p: Any, i: int) -> Piece:
    edges = _by_name(
        Edge(text(lib.tailor_edge_name(p, i, k)), lib.tailor_edge_number(p, i, k), _path(lib.tailor_edge_path, p, i, k))
        for k in range(lib.tailor_piece_edge_count(p, i))
    )
    marks = _by_name(
        Mark(
            text(lib.tailor_mark_name(p, i, k)),
            lib.tailor_mark_number(p, i, k),
            _KINDS[lib.tailor_mark_kind(p, i, k)],
            _path(lib.tailor_mark_path, p, i, k),
        )
        for k in range(lib.tailor_piece_mark_count(p, i))
    )
    points = {}
    for k in range(lib.tailor_piece_point_count(p, i)):
        place = lib.tailor_point_place(p, i, k)
        points[text(lib.tailor_point_name(p, i, k))] = point = np.array((place.x, place.y))
        point.setflags(write=False)
    return Piece(
        text(lib.tailor_piece_name(p, i)),
        lib.tailor_piece_number(p, i),
        lib.tailor_piece_copies(p, i),
        bool(lib.tailor_piece_mirrored(p, i)),
        _SIDES[lib.tailor_piece_side(p, i)],
        text(lib.tailor_piece_cloth(p, i)),
        _path(lib.tailor_piece_outline, p, i, closed=True),
        edges,
        MappingProxyType(points),
        marks,
    )


def _read_seam(p: Any, i: int, pieces: list[Piece]) -> Seam:
    def side(which: int) -> tuple[Stretch, ...]:
        found = []
        for place in range(lib.tailor_seam_stretch_count(p, i, which)):
            lib.tailor_seam_stretch(p, i, which, place, sewn)
            of = pieces[sewn.piece]
            found.append(Stretch(of.name, list(of.edges)[sewn.edge], getattr(sewn, "from"), sewn.to))
        return tuple(found)

    sewn = ffi.new("tailor_stretch *")
    return Seam(text(lib.tailor_seam_name(p, i)), (side(0), side(1)), lib.tailor_seam_ease(p, i))
