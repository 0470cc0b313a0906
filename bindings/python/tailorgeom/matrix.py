"""Tables in and out of rows(): whatever kind of table comes in is read into a matrix of doubles, and the answer has its
kind.

A cell is what draft() takes for a field: a number, a length with its unit, the name of a choice; None and NaN are "not
given". A cell that cannot be read refuses its row and no other.
"""
from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any, Optional

import numpy as np

from . import frames, named
from ._link import lib
from .errors import CallError, TailorError
from .order import FIELD_TABLE, FIELDS, NAN, convert, unknown

__all__ = ["Matrix", "read"]


def as_array(values: Any) -> np.ndarray:
    """As NumPy has it, but a number beside a text stays a number."""
    array = np.asarray(values)
    mixed = array.dtype.kind in "US" and not isinstance(values, (str, np.ndarray))
    return np.array(values, dtype=object) if mixed else array


def not_a_table(sentence: str) -> CallError:
    """The exception for something that cannot be read as a table."""
    return CallError(sentence, lib.TAILOR_BAD_ARGUMENT)


class Matrix:
    """A table as the C library takes it. `faults` has the rows with cells that cannot be read; their cells are NaN."""

    def __init__(self, names: list[str], count: int) -> None:
        self.names = names
        self.orders = np.empty((count, len(names)))
        self.faults: dict[int, TailorError] = {}

    def fill(self, place: int, values: Any) -> None:
        """Put a column in its place."""
        name, column = self.names[place], self.orders[:, place]
        array = as_array(values)
        if array.ndim > 1 or (array.ndim == 1 and len(array) != len(column)):
            raise not_a_table(f"the column {name} has the shape {array.shape}, but there are {len(column)} rows")
        if array.dtype.kind in "fiu":
            column[...] = array
            return
        read: dict[str, float] = {}
        cells = [array.item()] * len(column) if array.ndim == 0 else array.tolist()
        for row, cell in enumerate(cells):
            try:
                if type(cell) is str and cell in read:
                    column[row] = read[cell]
                    continue
                column[row] = convert(name, FIELDS[name], cell)
                if type(cell) is str:
                    read[cell] = column[row]
            except TailorError as error:
                column[row] = NAN
                self.faults.setdefault(row, error)


def read(table: Any, columns: Optional[Sequence[str]], cloths: named.File = None) -> tuple[Matrix, str]:
    """The table, and its kind: "frame", "structured", "array" or "dict"."""
    if frames.is_frame(table):
        kind, names, count = "frame", list(table.columns), len(table)
        take = {name: table[name].to_numpy() for name in columns or names if name in names}
    elif isinstance(table, np.ndarray) and table.dtype.names:
        kind, names, count = "structured", list(table.dtype.names), table.size
        take = {name: table[name].ravel() for name in names}
    elif isinstance(table, Mapping):
        kind, names, take = "dict", list(table), dict(table)
        lengths = [len(values) for values in take.values() if not isinstance(values, str) and np.ndim(values)]
        count = lengths[0] if lengths else 1
    else:
        array = as_array(table)
        if array.ndim != 2 or columns is None or len(columns) != array.shape[1]:
            raise not_a_table(
                "a table is a dict of columns, a structured array, a DataFrame, or a 2-D array with columns=[...], "
                f"a name for each of its columns; this is a {type(table).__name__} of shape {array.shape}"
            )
        kind, names, count = "array", list(columns), array.shape[0]
        take = {name: array[:, place] for place, name in enumerate(names)}
    wanted = names if columns is None else list(columns)
    for name in wanted:
        if name not in names:
            raise not_a_table(f"the table has no column {name!r}")
        if name not in FIELDS and name not in named.PLACES:
            raise unknown("field", name, FIELD_TABLE)
    places = [name for name in wanted if name in named.PLACES]
    if places:
        return with_cloths(wanted, places, take, count, named.cloths(cloths)), kind
    matrix = Matrix(wanted, count)
    if kind == "array" and array.dtype.kind in "fiu":
        matrix.orders[...] = array
    else:
        for place, name in enumerate(wanted):
            matrix.fill(place, take[name])
    return matrix, kind


def with_cloths(
    wanted: list[str], places: list[str], take: Mapping[str, Any], count: int, known: named.Cloths
) -> Matrix:
    """A table with columns of names of cloths: what is not given in the fields that they stand for is filled in."""
    given = [name for name in wanted if name not in places]
    more = [f"{place}_{name}" for place in places for name in named.sheets.PROPERTIES]
    matrix = Matrix(given + [name for name in more if name not in given], count)
    matrix.orders[...] = NAN
    for column, name in enumerate(given):
        matrix.fill(column, take[name])
    for place in places:
        columns = [matrix.names.index(f"{place}_{name}") for name in named.sheets.PROPERTIES]
        cells = as_array(take[place])
        if cells.ndim > 1 or (cells.ndim == 1 and len(cells) != count):
            raise not_a_table(f"the column {place} has the shape {cells.shape}, but there are {count} rows")
        found: dict[Any, Any] = {}
        for row, cell in enumerate([cells.item()] * count if cells.ndim == 0 else cells.tolist()):
            try:
                if cell not in found:
                    cloth = named.cloth_of(place, cell, known)
                    found[cell] = None if cloth is None else list(named.fields_of(place, cloth).values())
                if found[cell] is not None:
                    numbers = matrix.orders[row, columns]
                    matrix.orders[row, columns] = np.where(np.isnan(numbers), found[cell], numbers)
            except TailorError as error:
                matrix.faults.setdefault(row, error)
    return matrix


def answer(
    kind: str,
    table: Any,
    names: list[str],
    values: np.ndarray,
    more: Mapping[str, np.ndarray],
) -> Any:
    """The quantities, and the columns that follow them if there are any, in a table of that kind."""
    if kind == "array":
        return np.column_stack([values, more["status"]]) if more else values
    columns: dict[str, np.ndarray] = {name: values[:, place] for place, name in enumerate(names)}
    columns.update(more)
    if kind == "frame":
        return frames.pandas().DataFrame(columns, index=table.index)
    if kind == "structured":
        out = np.empty(len(values), dtype=[(name, column.dtype) for name, column in columns.items()])
        for name, column in columns.items():
            out[name] = column
        return out.reshape(table.shape)
    return columns
