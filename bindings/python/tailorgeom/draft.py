"""One order drafted: a row of fields in, a pattern out.

`draft` does nothing but what it must: the names become numbers of one block of doubles, one call into C
resolves, drafts and measures, and all that a Pattern can tell is read when it is asked for.
"""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Union

from . import named
from ._link import ffi, lib
from .errors import CheckError, OutOfMemory, TailorError, of_fault
from .order import (
    CONSTANT_COUNT,
    FIELD_COUNT,
    FIELD_TABLE,
    FIELDS,
    NO_HOUSE,
    House,
    Value,
    convert,
    house_of,
    not_given,
    unknown,
)
from .pattern import FIELDS_AT, TOTAL, Pattern

__all__ = ["draft"]

_new, _gc, _NULL = ffi.new, ffi.gc, ffi.NULL
_DOUBLES, _BLOCK = ffi.typeof("double[]"), ffi.typeof(f"double[{TOTAL}]")
_free, _draft = lib.tailor_pattern_free, lib.tailor_python_draft
_CLIENT, _NOT_GIVEN = slice(0, FIELD_COUNT), not_given(FIELD_COUNT)


def draft(
    *,
    house: Union[None, House, Mapping[str, Value]] = None,
    checks: str = "raise",
    make: bool = False,
    cloths: named.File = None,
    **fields: Any,
) -> Pattern:
    """Draft a coat from fields given by name, and measure it.

        coat = draft(chest_girth=1016, stature="180 cm", buttoning="three-button")
        coat.quantities["coverage_scye"]

    A field is a number in the unit of its table (mm, deg, g/m2), a length with its unit ("40 3/8 in"), or for a choice
    its name or number. None and NaN mean: not given. Only chest_girth is required; `fields()` lists all, with their
    ranges and how each is found when it is not given.

    cloth, canvas: the name of one of `cloths()`, or a Cloth: it fills the fields that begin so and are not given.
    cloths: a table of your own cloths, as for cloths().
    house: fields that the house gives where the client does not, and house constants, by name; or a House.
    make: True draws all that the make needs too: facing, top collar, linings, pocket pieces, canvases, tapes.
    checks: "raise" refuses a coat whose checks do not all hold; "keep" gives it nonetheless: look at `Pattern.checks`.

    Raises OrderError for values, DraftError when no coat closes on them, CheckError (with the coat in `.pattern`).
    Cost: some 30 us, and 64 KB or so of memory that goes with the Pattern."""
    given = NO_HOUSE if house is None else house_of(house)
    memory = _new(_BLOCK)
    memory[_CLIENT] = _NOT_GIVEN
    numbers = FIELDS
    try:
        for name, value in fields.items():
            kind = type(value)
            if kind is float or kind is int:
                memory[numbers[name]] = value
            else:
                memory[numbers[name]] = convert(name, numbers[name], value)
    except KeyError:
        if named.any_in(fields):
            return draft(house=house, checks=checks, make=make, **named.filled(fields, cloths))
        raise unknown("field", name, FIELD_TABLE) from None
    pointer = _draft(memory, *given.rows, make)
    if not pointer:
        raise refusal(memory, given)
    pattern = Pattern(_gc(pointer, _free), memory, given, make)
    if checks != "keep" and (checks != "raise" or memory[FIELDS_AT]):
        raise not_as_asked(pattern, checks)
    return pattern


def not_as_asked(pattern: Pattern, checks: str) -> Exception:
    """Why a coat that was drafted is not given."""
    if checks != "raise":
        return ValueError(f'checks is {checks!r}: "raise" or "keep" will do')
    error = refusal(pattern._memory, pattern._house)
    if isinstance(error, CheckError):
        error.pattern = pattern
    return error


def refusal(client: Any, house: House) -> TailorError:
    """Why an order was refused: the same calls once more, this time with a fault to be filled. So the good way does not
    pay for it."""
    fault, out = _new("tailor_fault *"), _new("tailor_pattern **")
    row, constants = _new(_DOUBLES, FIELD_COUNT), _new(_DOUBLES, CONSTANT_COUNT)
    into = (row, FIELD_COUNT, _NULL, 0, constants, CONSTANT_COUNT)
    status = lib.tailor_order_resolve(client, FIELD_COUNT, *house.rows, *into, fault)
    if not status:
        status = lib.tailor_coat_draft(row, FIELD_COUNT, constants, CONSTANT_COUNT, _NULL, out, fault)
    if not status:
        measured = (_NULL, 0, _NULL, _NULL, 0)
        status = lib.tailor_coat_measure(out[0], row, FIELD_COUNT, constants, CONSTANT_COUNT, *measured, fault)
        _free(out[0])
    return of_fault(fault) if status else OutOfMemory("there was no memory left for a moment", lib.TAILOR_NO_MEMORY)


def again(client: bytes, house: dict[str, Value], make: bool = False) -> Pattern:
    """A pattern from its pickle: drafted again, which gives the same coat within an edition."""
    memory, given = _new(_BLOCK), house_of(house)
    ffi.memmove(memory, client, len(client))
    pointer = _draft(memory, *given.rows, make)
    if not pointer:
        raise refusal(memory, given)
    return Pattern(_gc(pointer, _free), memory, given, make)
