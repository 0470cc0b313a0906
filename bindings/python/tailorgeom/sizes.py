"""Size tables: sizes as rows of fields, read from a CSV file or given; an order at any place between them.

    table = read_sizes("shared/sizes/ansur2_men.csv")
    order = table.at(chest_girth=1013, fit="regular", arm_length=640)      # other measures given stay as given
    coat = order.draft(buttoning="three-button")

    near = table.nearest(chest_girth=1013, stature=1840, waist_girth=900)
    near.size, near.fit, near.reason, near.differences

A table is a CSV file with the columns `size` and `fit` (which may be left out), then fields, the first of which is what
sizes go by; cells as draft() takes them. Beside it may lie an INI file of the same name that says where it comes from:
`SizeTable.about` and `.fit_meanings`. shared/sizes/README.md has the whole of it.
"""
from __future__ import annotations

import configparser
import csv
import os
import pathlib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any, Optional, Union

import numpy as np

from ._link import doubles_in, ffi, lib
from .draft import draft
from .errors import OrderError, TailorError, of_fault
from .order import CHOICES, FIELD_COUNT, FIELD_TABLE, FIELDS, Value, convert, not_given, unknown
from .pattern import Pattern

__all__ = ["Nearest", "SizeTable", "Sized", "read_sizes"]

NAMES = {number: name for name, number in FIELDS.items()}
MOST_BYTES = 1 << 24  # of a file: a table of sizes is small


class Sized(dict):
    """An order found in a size table: fields by name, ready for draft(), compare() and rows(). `beyond` tells how many
    steps it lies beyond the table's sizes: 0 within, above 0 beyond the largest, below 0 under the smallest; `fit` is
    the number of the fit, which may lie between two."""

    beyond: float = 0.0
    fit: float = 1.0

    def draft(self, **more: Any) -> Pattern:
        """Draft it, with more fields, `house=` and `checks=` as draft() takes them."""
        return draft(**{**self, **more})


@dataclass(frozen=True)
class Nearest:
    """The size nearest to a client. `reason` is the measure that decided against the second best, `distance` how far
    off it is in the table's own steps, `differences` client less size, mm, for what both have."""

    size: str
    fit: str
    row: int
    reason: str
    distance: float
    differences: Mapping[str, float]


def _row(fields: Mapping[str, Value]) -> Any:
    row = not_given(FIELD_COUNT)
    for name, value in fields.items():
        if name not in FIELDS:
            raise unknown("field", name, FIELD_TABLE)
        row[FIELDS[name]] = convert(name, FIELDS[name], value)
    return row


def _fields(row: Any) -> dict[str, Union[float, str]]:
    found: dict[str, Union[float, str]] = {}
    for number, name in NAMES.items():
        value, choices = row[number], CHOICES[number]
        if value == value:
            found[name] = choices[int(value)] if choices else value
    return found


class SizeTable:
    """Sizes, each a row of fields, in one or more fits. Immutable.

    fields: a column of values by field name; the first is the key, what sizes go by.
    sizes: names of the rows, counted from 1 if left out. fits: the fit of each row, a fit's rows together.
    about, fit_meanings: what is known of the table.

    Raises OrderError, with field, value and row, for a key that does not rise, a measure that turns back within a fit,
    a value out of its range, a measure that some sizes of a fit lack."""

    def __init__(
        self,
        fields: Mapping[str, Iterable[Value]],
        sizes: Optional[Sequence[str]] = None,
        fits: Optional[Sequence[str]] = None,
        about: Optional[Mapping[str, str]] = None,
        fit_meanings: Optional[Mapping[str, str]] = None,
    ) -> None:
        columns = {name: list(column) for name, column in fields.items()}
        rows = len(next(iter(columns.values()), []))
        #: Names of the rows, and the fit of each.
        self.sizes = tuple(sizes) if sizes is not None else tuple(str(i + 1) for i in range(rows))
        self.row_fits = tuple(fits) if fits is not None else ("regular",) * rows
        #: The fits, in order.
        self.fits = tuple(dict.fromkeys(self.row_fits))
        self.about = MappingProxyType(dict(about or {}))
        self.fit_meanings = MappingProxyType(dict(fit_meanings or {}))
        #: Names of the columns; the first is the key.
        self.columns = tuple(columns)
        if not rows or len(self.sizes) != rows or len(self.row_fits) != rows:
            raise OrderError("a size table has a name, a fit and a value of each field for every row")
        values = np.full((rows, len(columns)), np.nan)
        for c, (name, column) in enumerate(columns.items()):
            if name not in FIELDS:
                raise unknown("field", name, FIELD_TABLE)
            if len(column) != rows:
                raise OrderError(f"{name} has {len(column)} values for {rows} sizes")
            for r, cell in enumerate(column):
                values[r, c] = convert(name, FIELDS[name], cell)
        numbers = np.array([FIELDS[name] for name in columns], dtype=np.int32)
        fit_numbers = np.array([1 + self.fits.index(fit) for fit in self.row_fits], dtype=np.int32)
        out, fault = ffi.new("tailor_size_table **"), ffi.new("tailor_fault *")
        into = (ffi.from_buffer("int32_t[]", fit_numbers), ffi.NULL, out, fault)
        if lib.tailor_size_table_make(
            ffi.from_buffer("int32_t[]", numbers), len(columns), doubles_in(values), rows, len(columns), *into
        ):
            raise of_fault(fault)
        self._pointer = ffi.gc(out[0], lib.tailor_size_table_free)

    def fit_number(self, fit: Union[None, str, float] = None) -> float:
        """The number of a fit, by name or as it is; None is the only one, or "regular"."""
        if fit is None:
            fit = self.fits[0] if len(self.fits) == 1 else "regular"
        if not isinstance(fit, str):
            return float(fit)
        if fit not in self.fits:
            raise ValueError(f"there is no fit {fit!r}: one of {', '.join(self.fits)} will do")
        return 1.0 + self.fits.index(fit)

    def at(self, fit: Union[None, str, float] = None, **given: Value) -> Sized:
        """The order at a key (`chest_girth=1013`) of a fit, by name or number; 1.5 is halfway between the first two.
        What else is given stays as it is, whether the table has it or not. OrderError more than a step beyond the
        sizes."""
        row, beyond, fault = _row(given), ffi.new("double *"), ffi.new("tailor_fault *")
        number = self.fit_number(fit)
        if lib.tailor_size_table_at(
            self._pointer, number, row, FIELD_COUNT, row, FIELD_COUNT, beyond, fault
        ):
            raise of_fault(fault)
        found = Sized(_fields(row))
        found.beyond, found.fit = beyond[0], number
        return found

    def size(self, size: str, fit: Union[None, str, float] = None) -> Sized:
        """The row of that name in a fit."""
        number = self.fit_number(fit)
        for i, name in enumerate(self.sizes):
            if name == size and 1 + self.fits.index(self.row_fits[i]) == number:
                row = not_given(FIELD_COUNT)
                lib.tailor_size_table_row(self._pointer, i, row, FIELD_COUNT)
                found = Sized(_fields(row))
                found.fit = number
                return found
        raise ValueError(f"there is no size {size!r} in that fit")

    def range(self, fit: Union[None, str, float] = None) -> tuple[float, float, float, float]:
        """Of a fit: the keys of its smallest and largest size, and the least and greatest key that at() takes."""
        out = ffi.new("double[4]")
        if lib.tailor_size_table_range(self._pointer, self.fit_number(fit), out, out + 1, out + 2, out + 3):
            raise ValueError(f"there is no fit {fit!r}")
        return out[0], out[1], out[2], out[3]

    def nearest(self, **given: Value) -> Nearest:
        """The size nearest to a client's measures, with the reason; the key is required."""
        row, differences, fault = _row(given), not_given(FIELD_COUNT), ffi.new("tailor_fault *")
        at, decided, distance = ffi.new("size_t *"), ffi.new("int32_t *"), ffi.new("double *")
        if lib.tailor_size_table_nearest(
            self._pointer, row, FIELD_COUNT, at, decided, distance, differences, FIELD_COUNT, fault
        ):
            raise of_fault(fault)
        by_name = {name: differences[FIELDS[name]] for name in self.columns if not CHOICES[FIELDS[name]]}
        given_both = MappingProxyType({name: value for name, value in by_name.items() if value == value})
        return Nearest(
            self.sizes[at[0]], self.row_fits[at[0]], at[0], NAMES[decided[0]], distance[0], given_both
        )

    def __len__(self) -> int:
        return len(self.sizes)

    def __repr__(self) -> str:
        title = self.about.get("title", "sizes")
        return f"<SizeTable {title}: {len(self)} rows by {self.columns[0]}, fits {', '.join(self.fits)}>"


def _read_text(path: pathlib.Path) -> str:
    if path.stat().st_size > MOST_BYTES:
        raise OrderError(f"{path.name}: more than {MOST_BYTES} bytes are no size table")
    try:
        return path.read_bytes().decode("utf-8-sig")
    except UnicodeDecodeError:
        raise OrderError(f"{path.name} is not UTF-8 text") from None


def _about(path: pathlib.Path) -> tuple[dict[str, str], dict[str, str]]:
    """The companion, if there is one."""
    if not path.exists():
        return {}, {}
    reader = configparser.ConfigParser(interpolation=None, delimiters=("=",), comment_prefixes=(";", "#"))
    try:
        reader.read_string(_read_text(path), path.name)
    except configparser.Error as error:
        raise OrderError(f"{path.name}: {error}") from None
    parts = [dict(reader[name]) if reader.has_section(name) else {} for name in ("table", "fits")]
    return parts[0], parts[1]


def read_sizes(path: Union[str, "os.PathLike[str]"]) -> SizeTable:
    """Read a size table from a CSV file, and its companion of the same name with .ini if there is one.

    OrderError names the line for what is no table; OSError for a file that cannot be read."""
    file = pathlib.Path(path)
    lines = [line for line in csv.reader(_read_text(file).splitlines(), strict=True) if line]
    if not lines:
        raise OrderError(f"{file.name}: the table is empty")
    header = [name.strip() for name in lines[0]]
    if len(header) == 1 and ";" in header[0]:
        raise OrderError(f"{file.name}: columns are parted by ; here: write commas")
    for number, line in enumerate(lines[1:], 2):
        if len(line) != len(header):
            raise OrderError(f"{file.name}, line {number}: {len(line)} cells for {len(header)} columns")
    if len(set(header)) != len(header):
        raise OrderError(f"{file.name}: a column is there twice")
    if len(lines) == 1:
        raise OrderError(f"{file.name}: there are no sizes in it")
    columns = {name: [line[i].strip() for line in lines[1:]] for i, name in enumerate(header)}
    sizes, fits = columns.pop("size", None), columns.pop("fit", None)
    fields: dict[str, list[Value]] = {}
    for name, cells in columns.items():
        if name not in FIELDS:
            raise unknown("field", name, FIELD_TABLE)
        fields[name] = [cell if cell else None for cell in cells]
    if not fields:
        raise OrderError(f"{file.name}: there is no field in it")
    try:
        return SizeTable(fields, sizes, fits, *_about(file.with_suffix(".ini")))
    except TailorError as error:
        error.args = (f"{file.name}: {error}",)
        raise
