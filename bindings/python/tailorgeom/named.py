"""Cloths and canvases by name: the project's own, and a file of yours.

    tg.cloths()["hair-canvas"].cloth.along(45)
    tg.draft(chest_girth=1016, canvas="hair-canvas", canvas_angle=20)
    tg.draft(chest_girth=1016, cloth="mine", cloths="mine.csv")

A name stands for the nine fields that begin with cloth_ or canvas_ and the properties of a cloth; it is filled in
before the C library is called, which knows no name. A field that is given itself goes before.
"""
from __future__ import annotations

import difflib
import os
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Union

from . import cloth as sheets
from ._cloth_rows import ROWS
from ._link import lib
from .errors import OrderError

__all__ = ["Cloths", "NamedCloth", "cloths"]

#: What a name may be given for.
PLACES = ("cloth", "canvas")


@dataclass(frozen=True)
class NamedCloth:
    """A cloth of a table. use: what it is meant for ("cloth", "canvas", "collar", "fusible"); source: what stands
    behind its numbers ("range: ...", "judgement: ..."); cloth: the numbers, a tailorgeom.cloth.Cloth."""

    name: str
    use: str
    source: str
    cloth: sheets.Cloth


class Cloths(Mapping[str, NamedCloth]):
    """Cloths by name; cannot be changed."""

    def __init__(self, rows: list[NamedCloth]) -> None:
        self._rows = {row.name: row for row in rows}

    def __getitem__(self, name: str) -> NamedCloth:
        return self._rows[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)

    def __repr__(self) -> str:
        width = max(map(len, self._rows), default=0)
        return "\n".join(f"{row.name:{width}}  {row.use:8}  {row.source}".rstrip() for row in self._rows.values())


File = Union[None, str, "os.PathLike[str]", Mapping[str, Any]]
_OWN = [NamedCloth(name, use, source, sheets.Cloth(**dict(zip(sheets.PROPERTIES, values))))
        for name, use, source, values in ROWS]


def cloths(file: File = None) -> Cloths:
    """The project's cloths and canvases by name, with what stands behind their numbers; none is one measured cloth.

    file: a CSV of your own with the columns name and the properties of a cloth, use and source beside them if you
    like; its rows come first, and go before the project's of the same name. Or a mapping of names to Cloth. OrderError
    with line and column for a file that is torn or holds what is no cloth."""
    if isinstance(file, Cloths):
        return file
    if file is None:
        return _ALL
    if isinstance(file, Mapping):
        given = [NamedCloth(name, "", "", one.cloth if isinstance(one, NamedCloth) else one) for name, one in
                 file.items()]
    else:
        given = [NamedCloth(*row) for row in sheets.read_rows(file)]
    taken = {row.name for row in given}
    return Cloths(given + [row for row in _OWN if row.name not in taken])


_ALL = Cloths(_OWN)


def any_in(values: Any) -> bool:
    """Is a cloth among the keywords or columns?"""
    return any(place in values for place in PLACES)


def cloth_of(place: str, given: Any, known: Cloths) -> Any:
    """What a place was given, as a Cloth; None for not given."""
    if given is None or given != given or type(given).__name__ == "NAType":
        return None
    if isinstance(given, NamedCloth):
        return given.cloth
    if isinstance(given, sheets.Cloth):
        return given
    if not isinstance(given, str):
        raise OrderError(
            f"{place} is given as a {type(given).__name__}: a name of cloths() or a Cloth will do",
            lib.TAILOR_BAD_ARGUMENT,
            None,
            place,
        )
    if given in known:
        return known[given].cloth
    near = difflib.get_close_matches(given, known, 1)
    mend = f"did you mean {near[0]}?" if near else "tailorgeom.cloths() has them"
    raise OrderError(f"{place}: there is no cloth {given!r}: {mend}", lib.TAILOR_NOT_A_CHOICE, None, place)


def fields_of(place: str, cloth: sheets.Cloth) -> dict[str, float]:
    """The nine fields that a cloth fills in its place."""
    return {f"{place}_{name}": getattr(cloth, name) for name in sheets.PROPERTIES}


def filled(values: Mapping[str, Any], file: File = None) -> dict[str, Any]:
    """Keywords or a house's values with the fields of the named cloths in place of the names."""
    out = {name: value for name, value in values.items() if name not in PLACES}
    known = cloths(file)
    for place in PLACES:
        cloth = cloth_of(place, values.get(place), known)
        for name, value in fields_of(place, cloth).items() if cloth is not None else ():
            if out.get(name) is None or out[name] != out[name]:
                out[name] = value
    return out
