"""The tables: fields of an order, their choices, house constants, quantities and checks, as the C library has them.

    for field in tailorgeom.fields().values():
        print(field.name, field.unit, field.low, field.high, field.rule)
    print(tailorgeom.choices("buttoning"))
"""
from __future__ import annotations

import functools
from collections.abc import Iterator, Mapping
from dataclasses import asdict, dataclass
from typing import Any, Generic, Optional, TypeVar

from . import frames
from ._link import ffi, lib, text
from .errors import _number

__all__ = [
    "CautionRow",
    "Check",
    "Choice",
    "Constant",
    "Field",
    "Quantity",
    "Table",
    "cautions",
    "checks",
    "choices",
    "constants",
    "fields",
    "quantities",
]


@dataclass(frozen=True)
class Row:
    """What all rows have. `low` and `high` are None where there is no limit; `group` is what the row is read under."""

    name: str
    number: int
    group: str
    term: str
    unit: str
    low: Optional[float]
    high: Optional[float]
    rule: str
    provenance: str
    meaning: str
    since: str


@dataclass(frozen=True)
class Field(Row):
    """One number of an order. `rule` is how it is found when nobody gives it ("required", a sum over other fields, a
    function, or "" for a measure used only when given); `choices` are the names that it takes, in the order in which
    people see them, or (): tailorgeom.choices() says what each means, and its number."""

    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Constant(Row):
    """One number of the cutter's own way of drafting. `rule` is its default, as it stands in the table."""

    @property
    def default(self) -> float:
        """The value without a house's own."""
        return float(self.rule)


@dataclass(frozen=True)
class Quantity(Row):
    """One number measured off a finished coat. `rule` says which coats have it, where not all do; `choices` are the
    names that its numbers stand for, or (): tailorgeom.choices() has the numbers."""

    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class CautionRow(Row):
    """What a cutter may have to know of a coat: Pattern.cautions has those of one."""


@dataclass(frozen=True)
class Check(Row):
    """What a finished coat is tested for. `sense` +1: its value is at most the limit; -1: at least."""

    sense: int = 0


@dataclass(frozen=True)
class Choice(Row):
    """One choice of a field or quantity. Its `number` stands for it in a row of numbers; `synonyms` are other words
    that are read for its name."""

    synonyms: tuple[str, ...] = ()


T = TypeVar("T", bound=Row)


class Table(Mapping[str, T], Generic[T]):
    """Rows by name, in reading order; cannot be changed. `frame()` is the same as a DataFrame, if pandas is there."""

    def __init__(self, rows: list[T]) -> None:
        self._rows = {row.name: row for row in rows}

    def __getitem__(self, name: str) -> T:
        return self._rows[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._rows)

    def __len__(self) -> int:
        return len(self._rows)

    def __repr__(self) -> str:
        width = max(map(len, self._rows), default=0)
        lines = [f"{row.name:{width}}  {row.unit:6}  {_range(row):14}  {row.meaning}" for row in self._rows.values()]
        return "\n".join(line.rstrip() for line in lines)

    def frame(self) -> Any:
        """The table as a pandas DataFrame, indexed by name. ImportError without pandas."""
        return frames.pandas().DataFrame([asdict(row) for row in self._rows.values()]).set_index("name")


def _range(row: Row) -> str:
    choices = getattr(row, "choices", ())
    if choices:
        return f"1 to {len(choices)}"
    return " to ".join("" if limit is None else f"{limit:g}" for limit in (row.low, row.high)).strip()


def _read(table: Any, cls: type[T], more: Any = lambda number: {}) -> Table[T]:
    rows, place = [], 0
    while number := lib.tailor_table_at(table, place):

        def column(which: int) -> str:
            return text(lib.tailor_table_text(table, number, which))

        rows.append(
            cls(
                column(lib.TAILOR_COLUMN_NAME),
                number,
                column(lib.TAILOR_COLUMN_GROUP),
                column(lib.TAILOR_COLUMN_TERM),
                column(lib.TAILOR_COLUMN_UNIT),
                _number(lib.tailor_table_low(table, number)),
                _number(lib.tailor_table_high(table, number)),
                column(lib.TAILOR_COLUMN_RULE),
                column(lib.TAILOR_COLUMN_PROVENANCE),
                column(lib.TAILOR_COLUMN_MEANING),
                column(lib.TAILOR_COLUMN_SINCE),
                **more(number),
            )
        )
        place += 1
    return Table(rows)


def _choices(table: Any) -> Any:
    """What names a row's numbers stand for, for _read."""
    return lambda number: {"choices": tuple(_choice_table(lib.tailor_table_choices(table, number)))}


def _choice_table(table: Any) -> Table[Choice]:
    return _read(
        table,
        Choice,
        lambda number: {
            "synonyms": tuple(text(lib.tailor_table_text(table, number, lib.TAILOR_COLUMN_SYNONYMS)).split())
        },
    )


@functools.cache
def choices(name: str) -> Table[Choice]:
    """The choices of a field or quantity, by their names: what each means, and the number that stands for it. Empty
    for one that is a number; KeyError for a name that neither has."""
    for table in (lib.tailor_field_table(), lib.tailor_quantity_table()):
        number = lib.tailor_table_find(table, name.encode())
        if lib.tailor_table_choices(table, number):
            return _choice_table(lib.tailor_table_choices(table, number))
    if name not in fields() and name not in quantities():
        raise KeyError(name)
    return Table([])


@functools.cache
def fields() -> Table[Field]:
    """The fields of an order: what `draft`, `compare` and `rows` take by name."""
    table = lib.tailor_field_table()
    return _read(table, Field, _choices(table))


@functools.cache
def constants() -> Table[Constant]:
    """The house constants: what `house=` takes by name, besides fields."""
    return _read(lib.tailor_constant_table(), Constant)


@functools.cache
def quantities() -> Table[Quantity]:
    """The quantities: what `rows` gives, and `Pattern.quantities` has."""
    table = lib.tailor_quantity_table()
    return _read(table, Quantity, _choices(table))


@functools.cache
def checks() -> Table[Check]:
    """The checks that every coat is tested with."""
    return _read(lib.tailor_check_table(), Check, lambda number: {"sense": lib.tailor_check_sense(number)})


@functools.cache
def cautions() -> Table[CautionRow]:
    """The cautions that a coat may have."""
    return _read(lib.tailor_caution_table(), CautionRow)
