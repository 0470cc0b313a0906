"""One order drafted: a row of fields in, a coat out.

`draft` does nothing but what it must: the names become numbers of one row of doubles, one call into C resolves, drafts,
measures and checks, and all that a Pattern can tell is read when it is asked for.
"""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Union

from . import named
from ._link import ffi, lib
from .errors import CheckError, OutOfMemory, TailorError, of_fault
from .order import FIELD_COUNT, FIELD_TABLE, FIELDS, NO_HOUSE, House, Value, convert, house_of, not_given, unknown
from .pattern import Pattern, Shapes

__all__ = ["draft", "measure"]

_new, _gc, _NULL = ffi.new, ffi.gc, ffi.NULL
_ROW, _COAT = ffi.typeof(f"double[{FIELD_COUNT}]"), ffi.typeof("tailor_coat **")
_free, _coat_new, _FAILED = lib.tailor_coat_free, lib.tailor_coat_new, lib.TAILOR_CHECK_FAILED
_CLIENT, _NOT_GIVEN = slice(0, FIELD_COUNT), not_given(FIELD_COUNT)
# The quantities of a Pattern are all there, so the section of the roll is always part of it.
_NET = lib.TAILOR_EXTENT_NET | lib.TAILOR_EXTENT_SECTION
_MAKE = _NET | lib.TAILOR_EXTENT_MAKE


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
    Cost: some 90 us, and 90 KB or so of memory that goes with the Pattern."""
    given = NO_HOUSE if house is None else house_of(house)
    client = _new(_ROW)
    client[_CLIENT] = _NOT_GIVEN
    numbers = FIELDS
    try:
        for name, value in fields.items():
            kind = type(value)
            if kind is float or kind is int:
                client[numbers[name]] = value
            else:
                client[numbers[name]] = convert(name, numbers[name], value)
    except KeyError:
        if named.any_in(fields):
            return draft(house=house, checks=checks, make=make, **named.filled(fields, cloths))
        raise unknown("field", name, FIELD_TABLE) from None
    made = _new(_COAT)
    status = _coat_new(given.pointer, client, FIELD_COUNT, _MAKE if make else _NET, made, _NULL)
    if status and status != _FAILED:
        raise refusal(client, given)
    return _kept(Pattern(_gc(made[0], _free), client, given), checks, status)


def _kept(coat: Pattern, checks: str, status: int) -> Pattern:
    """The coat, or why it is not given."""
    if checks == "keep" or (checks == "raise" and not status):
        return coat
    if checks != "raise":
        raise ValueError(f'checks is {checks!r}: "raise" or "keep" will do')
    fault = _new("tailor_fault *")
    lib.tailor_coat_status(coat._coat, fault)
    error = of_fault(fault)
    if isinstance(error, CheckError):
        error.pattern = coat
    raise error


def refusal(client: Any, house: House) -> TailorError:
    """Why an order was refused: the same call once more, this time with a fault to be filled. So the good way does not
    pay for it."""
    fault, made = _new("tailor_fault *"), _new(_COAT)
    status = _coat_new(house.pointer, client, FIELD_COUNT, lib.TAILOR_EXTENT_NET, made, fault)
    _free(made[0])
    return of_fault(fault) if status else OutOfMemory("there was no memory left for a moment", lib.TAILOR_NO_MEMORY)


def again(client: bytes, house: dict[str, Value], make: bool = False, checks: str = "keep") -> Pattern:
    """A coat from its pickle: drafted again, which gives the same coat within an edition."""
    row, given, made, fault = _new(_ROW), house_of(house), _new(_COAT), _new("tailor_fault *")
    ffi.memmove(row, client, len(client))
    status = _coat_new(given.pointer, row, FIELD_COUNT, _MAKE if make else _NET, made, fault)
    if status and status != _FAILED:
        raise of_fault(fault)
    return _kept(Pattern(_gc(made[0], _free), row, given), checks, status)


def measure(shapes: Shapes, like: Pattern, *, checks: str = "keep") -> Pattern:
    """Pieces that were graded, built or read from a file, measured and checked as the coat of another's order.

        graded = measure(grade.at(1), like=tg.draft(chest_girth=1041))
        graded.checks["scye_share_most"].holds

    like: whose order and house it is. checks: "keep" gives the coat whatever its checks say, which report how far it is
    from a draft; "raise" refuses it as draft() does.

    Raises OrderError when the pieces were drafted in another style, CallError when a piece, edge or mark of a coat is
    missing."""
    made, fault, count = _new(_COAT), _new("tailor_fault *"), _new("size_t *")
    fields = lib.tailor_coat_fields(like._coat, count)
    origins = lib.tailor_coat_origins(like._coat, _NULL)
    status = lib.tailor_coat_of_pattern(
        like._house.pointer, fields, origins, count[0], shapes._pointer, made, fault
    )
    if status and status != _FAILED:
        raise of_fault(fault)
    return _kept(Pattern(_gc(made[0], _free), like._client, like._house), checks, status)
