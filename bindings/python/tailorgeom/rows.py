"""Many orders at once: a table of fields in, a table of quantities out, on as many threads as you say.

    table = {"chest_girth": np.linspace(850, 1250, 1000), "buttoning": "two-button"}
    covered = rows(table, want=["coverage_scye"])["coverage_scye"]

A row's answer is the same, to the bit, as draft() gives for it, and depends on no other row and not on the threads.
"""
from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from typing import Any, Optional, Union

import numpy as np

from . import matrix, named
from ._link import doubles_in, ffi, lib, text
from .draft import refusal
from .errors import TailorError, of_fault
from .order import FIELD_COUNT, FIELDS, House, Value, _names, house_of, not_given, unknown

__all__ = ["rows"]

QUANTITY_TABLE = lib.tailor_quantity_table()
QUANTITIES = _names(QUANTITY_TABLE)
CAUTIONS = {number: name for name, number in _names(lib.tailor_caution_table()).items()}
VERDICT = np.dtype(
    [("status", "i4"), ("table", "i4"), ("index", "i4"), ("origin", "i4"), ("value", "f8"), ("limit", "f8"),
     ("cautions", "u4", 4)]
)
CHUNK = 512  # rows that a thread takes at a time: some ten milliseconds


def rows(
    table: Any,
    want: Union[str, Iterable[str], None] = None,
    *,
    columns: Optional[Sequence[str]] = None,
    house: Union[None, House, Mapping[str, Value]] = None,
    on_error: str = "raise",
    threads: int = 1,
    cloths: named.File = None,
) -> Any:
    """Resolve, draft and measure every row of a table.

    table: a dict of columns (one value instead of a column stands for all rows), a structured array, a pandas
        DataFrame, or a 2-D array with `columns`. Columns are named by fields(); cells are what draft() takes, None and
        NaN are not given.
    want: names of quantities(), one or several; None for all.
    columns: which columns of the table to take; for a 2-D array, the field of each column. Without it every column has
        to be a field, so that a misspelt one is not overlooked.
    house: as for draft(), for all rows.
    cloths: a table of your own cloths, for the columns cloth and canvas, which hold names of cloths(): each fills the
        fields that begin so where the row does not give them.
    on_error: "raise" raises the TailorError of the first row that is refused, whose number is in `.row`. "keep" goes
        on: the refused row has NaN for its quantities, and the answer three columns more: `status` (0, or the number of
        the error), `message` ("" or a sentence) and `cautions` (names of cautions(), separated by blanks); a 2-D array
        has one more, the status.
    threads: how many work at the same time; 0 for as many as there are processors. The answer is the same.

    Returns a table of the same kind: a dict of arrays, a structured array, a DataFrame with the same index, or a 2-D
    array. NaN stands for a quantity that the coat does not have. Cost: some 20 to 30 us a row and thread."""
    if on_error not in ("raise", "keep"):
        raise ValueError(f'on_error is {on_error!r}: "raise" or "keep" will do')
    orders, kind = matrix.read(table, columns, cloths)
    names = list(QUANTITIES) if want is None else [want] if isinstance(want, str) else list(want)
    for name in names:
        if name not in QUANTITIES:
            raise unknown("quantity", name, QUANTITY_TABLE)
    given = house_of(house)
    values, verdicts = _measure(orders, [QUANTITIES[name] for name in names], given, _threads(threads))
    statuses = verdicts["status"].copy()
    for row, error in orders.faults.items():
        statuses[row], values[row], verdicts["cautions"][row] = error.status, np.nan, 0
    if on_error == "raise":
        refused = np.flatnonzero(statuses)
        if len(refused):
            raise _first(orders, int(refused[0]), len(refused), given)
        return matrix.answer(kind, table, names, values, {})
    more = {"status": statuses, "message": _messages(orders, statuses, verdicts), "cautions": _cautions(verdicts)}
    return matrix.answer(kind, table, names, values, more)


def _threads(threads: int) -> int:
    if threads == 0:
        import os

        return len(os.sched_getaffinity(0))
    if threads < 0:
        raise ValueError(f"threads is {threads}: 1 or more will do, or 0 for as many as there are processors")
    return threads


def _measure(orders: matrix.Matrix, wanted: list[int], house: House, threads: int) -> tuple[np.ndarray, np.ndarray]:
    count, width = orders.orders.shape
    values, verdicts = np.empty((count, len(wanted))), np.empty(count, dtype=VERDICT)
    plan, fault = ffi.new("tailor_rows **"), ffi.new("tailor_fault *")
    columns, wants = ffi.new("int32_t[]", [FIELDS[name] for name in orders.names]), ffi.new("int32_t[]", wanted)
    if lib.tailor_rows_new(house.pointer, columns, width, wants, len(wanted), plan, fault):
        raise of_fault(fault)
    rows = ffi.gc(plan[0], lib.tailor_rows_free)

    def work(first: int, last: int) -> None:
        """A stretch of rows, with a worker of its own; the interpreter is free meanwhile."""
        made, fault = ffi.new("tailor_rows_worker **"), ffi.new("tailor_fault *")
        if lib.tailor_rows_worker_new(rows, 0, 0, made, fault):
            raise of_fault(fault)
        worker = ffi.gc(made[0], lib.tailor_rows_worker_free)
        into = ffi.from_buffer("tailor_verdict[]", verdicts[first:last])
        if lib.tailor_rows_run(worker, _at(orders.orders, first), last - first, _at(values, first), into, fault):
            raise of_fault(fault)

    if threads == 1 or count <= CHUNK:
        work(0, count)
    else:
        with ThreadPoolExecutor(threads) as pool:
            list(pool.map(lambda first: work(first, min(first + CHUNK, count)), range(0, count, CHUNK)))
    return values, verdicts


def _at(array: np.ndarray, row: int) -> Any:
    return doubles_in(array[row:]) if array.size else ffi.NULL


def _first(orders: matrix.Matrix, row: int, refused: int, house: House) -> TailorError:
    """The error of the first refused row: that of the scalar call, which says most."""
    error = orders.faults.get(row)
    if error is None:
        client = not_given(FIELD_COUNT)
        for name, value in zip(orders.names, orders.orders[row]):
            client[FIELDS[name]] = value
        error = refusal(client, house)
    others = f' ({refused} rows of {len(orders.orders)} are refused; on_error="keep" goes on)' if refused > 1 else ""
    error.args = (f"row {row}: {error}{others}",)
    error.row = row
    return error


def _messages(orders: matrix.Matrix, statuses: np.ndarray, verdicts: np.ndarray) -> np.ndarray:
    messages = np.full(len(statuses), "", dtype=object)
    fault = ffi.new("tailor_fault *")
    held = ffi.from_buffer("tailor_verdict[]", verdicts)
    for row in np.flatnonzero(statuses).tolist():
        error = orders.faults.get(row)
        if error is None:
            lib.tailor_verdict_fault(held + row, fault)
        messages[row] = text(fault.sentence) if error is None else str(error)
    return messages


def _cautions(verdicts: np.ndarray) -> np.ndarray:
    found = np.full(len(verdicts), "", dtype=object)
    for number, name in CAUTIONS.items():
        has = verdicts["cautions"][:, (number - 1) // 32] >> ((number - 1) % 32) & 1
        for row in np.flatnonzero(has).tolist():
            found[row] += f" {name}" if found[row] else name
    return found
