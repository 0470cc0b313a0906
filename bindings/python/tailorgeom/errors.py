"""What goes wrong: exceptions that carry the field, the value and the range, and say all of it in a sentence.

    try:
        tailorgeom.draft(chest_girth=40)
    except tailorgeom.TailorError as error:
        print(error)                          # "chest_girth is 40 mm: did you mean 40 in (1016 mm)? ..."
        print(error.field, error.value, error.low, error.high)

The classes follow the classes of the C library's statuses: CallError 100, OrderError 200, DraftError 300, CheckError
350, GeometryError 400, InternalError 900. Where a value is at fault they are ValueErrors too.
"""
from __future__ import annotations

import math
from typing import TYPE_CHECKING, Any, Optional

from ._link import ffi, lib, text

if TYPE_CHECKING:
    from .pattern import Pattern

__all__ = [
    "CallError",
    "CheckError",
    "DraftError",
    "GeometryError",
    "InternalError",
    "OrderError",
    "OutOfMemory",
    "TailorError",
]

_TABLES = {
    lib.TAILOR_TABLE_FIELD: "field",
    lib.TAILOR_TABLE_CONSTANT: "constant",
    lib.TAILOR_TABLE_QUANTITY: "quantity",
    lib.TAILOR_TABLE_PIECE: "piece",
    lib.TAILOR_TABLE_EDGE: "edge",
    lib.TAILOR_TABLE_POINT: "point",
    lib.TAILOR_TABLE_MARK: "mark",
    lib.TAILOR_TABLE_CHECK: "check",
    lib.TAILOR_TABLE_CLOTH: "cloth",
    lib.TAILOR_TABLE_CAUTION: "caution",
    lib.TAILOR_TABLE_FINDING: "finding",
}


class TailorError(Exception):
    """The library refused. `str(error)` is its sentence.

    status: the C library's number (202), name: its name ("TAILOR_OUT_OF_RANGE");
    table, field: which row of which table is at fault ("field", "chest_girth"); the table is "constant" for a house
        constant and "check" for a check, and both are None when no row is;
    value, low, high: what was found and what is allowed, in the row's unit; None where there is none;
    row: of rows(): which row of the caller's table, from 0; else None.
    """

    def __init__(
        self,
        sentence: str,
        status: int = lib.TAILOR_INTERNAL,
        table: Optional[str] = None,
        field: Optional[str] = None,
        value: Optional[float] = None,
        low: Optional[float] = None,
        high: Optional[float] = None,
        row: Optional[int] = None,
    ) -> None:
        super().__init__(sentence)
        self.status = status
        self.name = text(lib.tailor_status_name(status))
        self.table, self.field = table, field
        self.value, self.low, self.high = value, low, high
        self.row = row


class CallError(TailorError, ValueError):
    """The call itself: an argument that it does not take, or a writer that refused. Status 100 to 199."""


class OutOfMemory(TailorError, MemoryError):
    """There is no memory left. Status 110."""


class OrderError(TailorError, ValueError):
    """A value of the order: unknown, missing, out of its range, no choice, or against another. Status 101, 200 to 299;
    100 for what is no number and no text."""


class DraftError(TailorError, ValueError):
    """Each value is sound, but no coat closes on them together. Status 300 to 349."""


class CheckError(TailorError):
    """The coat was drafted, but a check does not hold. Status 350. `pattern` is the coat, to be looked at; `field` is
    the name of the first check that fails, `checks[...]` of the pattern tells all."""

    pattern: Optional[Pattern] = None


class GeometryError(TailorError, ValueError):
    """Geometry that has no answer: a line of no length, curves that do not meet. Status 400 to 499."""


class InternalError(TailorError, RuntimeError):
    """A promise of the library was broken: please report it. Status 900."""


_CLASSES: dict[int, type[TailorError]] = {1: CallError, 2: OrderError, 3: DraftError, 4: GeometryError}
_SPECIAL: dict[int, type[TailorError]] = {
    lib.TAILOR_UNKNOWN_FIELD: OrderError,
    lib.TAILOR_NO_MEMORY: OutOfMemory,
    lib.TAILOR_CHECK_FAILED: CheckError,
}


def class_of(status: int) -> type[TailorError]:
    """The exception of a status."""
    found: type[TailorError] = _CLASSES.get(status // 100, InternalError)
    return _SPECIAL.get(status, found)


def _number(value: float) -> Optional[float]:
    return None if math.isnan(value) else value


def of_fault(fault: Any, row: Optional[int] = None, more: str = "") -> TailorError:
    """The exception that a filled `tailor_fault` tells of; `more` goes before its sentence."""
    table, rows = _TABLES.get(fault.table), lib.tailor_table_of(fault.table)
    field = text(lib.tailor_table_text(rows, fault.index, lib.TAILOR_COLUMN_NAME)) if table else None
    return class_of(fault.status)(
        more + text(fault.sentence),
        fault.status,
        table,
        field or None,
        _number(fault.value),
        _number(fault.low),
        _number(fault.high),
        row,
    )


def of_status(status: int, doing: str) -> TailorError:
    """The exception of a call that gives no fault."""
    return class_of(status)(f"{doing}: {text(lib.tailor_status_text(status))}", status)
