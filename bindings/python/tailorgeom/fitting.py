"""After a fitting: an order altered, and two coats laid on one another."""
from __future__ import annotations

from typing import Union

from ._link import ffi, lib
from .draft import again
from .errors import of_fault
from .order import FIELD_COUNT, FIELD_TABLE, FIELDS, convert, unknown
from .pattern import Pattern
from .sheets import Drawn, Page

__all__ = ["Overlay", "alter"]


def alter(coat: Pattern, **deltas: Union[float, str, None]) -> Pattern:
    """The coat altered by what a fitting found: of each field named, so much is added to the value in use (negative:
    taken away), in the field's unit or as a length with a unit; everything else is as it was given.

        altered = alter(coat, side_let_out=6, arm_length_left="-10 mm", break_rise=-12)
        Overlay(coat, altered).to_svg("overlay.svg")

    A side without a value of its own begins at that of both; a change of both sides is one of each. The coat given is
    left as it is. Raises OrderError for a choice, a field without a value, and what leads out of a range; DraftError
    and CheckError when no coat closes on the altered order."""
    row = ffi.new("double[]", FIELD_COUNT)
    lib.tailor_fields_clear(row, FIELD_COUNT)
    for name, delta in deltas.items():
        number = FIELDS.get(name)
        if number is None:
            raise unknown("field", name, FIELD_TABLE)
        row[number] = convert(name, number, delta)
    fault, altered = ffi.new("tailor_fault *"), ffi.new("double[]", FIELD_COUNT)
    house = coat._house
    if lib.tailor_order_alter(house.pointer, coat._client, row, altered, FIELD_COUNT, fault):
        raise of_fault(fault)
    return again(bytes(ffi.buffer(altered)), house.values, coat._make, "raise")


class Overlay(Drawn):
    """Two coats laid on one another, piece by piece, each at its own origin: the first dashed, the second solid. A
    notebook shows it; to_svg, to_pdf and to_png give the sheet."""

    def __init__(self, before: Pattern, after: Pattern, labels: tuple[str, str] = ("", "")) -> None:
        self.before, self.after, self.labels = before, after, labels

    def _draw(self, page: Page, format: str) -> bytes:
        from . import _sheet_link

        return _sheet_link.overlay(self.before._pointer, self.after._pointer, self.labels, page, format)

    def __repr__(self) -> str:
        return f"<Overlay of {self.before!r} and {self.after!r}>"
