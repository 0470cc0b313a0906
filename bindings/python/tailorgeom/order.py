"""From what people give (names, numbers, lengths with units, choices) to the rows of doubles that the C library
takes."""
from __future__ import annotations

from collections.abc import Mapping
from typing import Any, Optional, Union

from ._link import ffi, lib, text
from .errors import OrderError, of_fault

__all__ = ["House", "Value", "format_length", "format_value", "read_length", "read_value"]

#: What one field may be given as: a number in the table's unit, a length with its unit, the name of a choice; None and
#: NaN stand for "not given".
Value = Union[float, int, str, None]

NAN = float("nan")
FIELD_TABLE, CONSTANT_TABLE = lib.tailor_field_table(), lib.tailor_constant_table()
FIELD_COUNT, CONSTANT_COUNT = lib.tailor_table_size(FIELD_TABLE), lib.tailor_table_size(CONSTANT_TABLE)


def _names(table: Any) -> dict[str, int]:
    found, place = {}, 0
    while number := lib.tailor_table_at(table, place):
        found[text(lib.tailor_table_text(table, number, lib.TAILOR_COLUMN_NAME))] = number
        place += 1
    return found


FIELDS, CONSTANTS = _names(FIELD_TABLE), _names(CONSTANT_TABLE)
#: Of each field the names of its choices by their numbers; none for a field that is a number.
CHOICES = {
    field: {number: name for name, number in _names(lib.tailor_choice_table(field)).items()}
    for field in FIELDS.values()
}


def unknown(what: str, name: Any, *tables: Any) -> OrderError:
    """The exception for a name that the tables do not have, with the nearest one that they do."""
    for table in tables:
        number = lib.tailor_table_suggest(table, c_text(str(name)))
        if number:
            near = text(lib.tailor_table_text(table, number, lib.TAILOR_COLUMN_NAME))
            return OrderError(f"there is no {what} {name!r}: did you mean {near}?", lib.TAILOR_UNKNOWN_FIELD)
    return OrderError(
        f"there is no {what} {name!r}: help(tailorgeom) tells where they are listed", lib.TAILOR_UNKNOWN_FIELD
    )


def c_text(value: str) -> bytes:
    """Text for C; what ends a C string, or is no Unicode, becomes a question mark, which no length and no choice
    has."""
    return value.replace("\0", "?").encode(errors="replace")


def convert(name: str, number: int, value: Any, constant: bool = False) -> float:
    """One given value as a double, NaN for what is not given. The range is the C library's matter."""
    kind = type(value)
    if kind is float or kind is int:
        return float(value)
    if value is None or kind.__name__ == "NAType":
        return NAN
    if isinstance(value, str):
        out, fault = ffi.new("double *"), ffi.new("tailor_fault *")
        if lib.tailor_value_read(CONSTANT_TABLE if constant else FIELD_TABLE, number, c_text(value), out, fault):
            raise of_fault(fault)
        return out[0]
    if hasattr(value, "__float__") and kind.__name__ not in ("bool", "bool_"):
        try:
            return float(value)
        except (TypeError, ValueError):
            pass
    raise OrderError(
        f'{name} is given as a {kind.__name__}: a number, a length such as "40 3/8 in" or the name of a choice '
        "will do, and None for what is not given",
        lib.TAILOR_BAD_ARGUMENT,
        "constant" if constant else "field",
        name,
    )


def not_given(count: int) -> Any:
    """A new row of NaN."""
    row = ffi.new("double[]", count)
    lib.tailor_fields_clear(row, count)
    return row


class House:
    """A house's way of drafting, read and checked once for any number of orders: fields that it gives where the client
    does not, and house constants, by name. `house=` takes such an object or the mapping itself. cloth and canvas
    may be given by name; cloths: a table of your own, as for cloths()."""

    def __init__(self, values: Optional[Mapping[str, Any]] = None, *, cloths: Any = None) -> None:
        self.values = dict(values or {})
        if "cloth" in self.values or "canvas" in self.values:
            from . import named  # not at the top: its cloths need what this module needs

            self.values = named.filled(self.values, cloths)
        fields, constants = not_given(FIELD_COUNT), not_given(CONSTANT_COUNT)
        for name, value in self.values.items():
            if name in FIELDS:
                fields[FIELDS[name]] = convert(name, FIELDS[name], value)
            elif name in CONSTANTS:
                constants[CONSTANTS[name]] = convert(name, CONSTANTS[name], value, constant=True)
            else:
                raise unknown("house field or constant", name, CONSTANT_TABLE, FIELD_TABLE)
        #: The C library's house; NULL for one that gives nothing.
        self.pointer = ffi.NULL
        if self.values:
            made, fault = ffi.new("tailor_house **"), ffi.new("tailor_fault *")
            if lib.tailor_house_new(fields, FIELD_COUNT, constants, CONSTANT_COUNT, ffi.NULL, made, fault):
                raise of_fault(fault)
            self.pointer = ffi.gc(made[0], lib.tailor_house_free)

    def __repr__(self) -> str:
        return f"House({self.values!r})"


NO_HOUSE = House()


def house_of(house: Union[None, House, Mapping[str, Value]]) -> House:
    """What `house=` was given, as a House."""
    if house is None:
        return NO_HOUSE
    return house if isinstance(house, House) else House(house)


def read_length(length: str) -> float:
    """A typed length in mm: "102.5 cm", "1025 mm", "1025", "40 3/8 in", '40 3/8"'. OrderError with the mend for
    anything else: a comma, an exponent, "nan", a second number. The same in every locale."""
    out, fault = ffi.new("double *"), ffi.new("tailor_fault *")
    if lib.tailor_length_read(c_text(length), out, fault):
        raise of_fault(fault)
    return out[0]


#: Names of the ways to print a length.
PRINTS = {
    "mm": lib.TAILOR_PRINT_MM,
    "in8": lib.TAILOR_PRINT_INCH_8,
    "in16": lib.TAILOR_PRINT_INCH_16,
    "exact": lib.TAILOR_PRINT_EXACT,
}


def print_of(unit: str) -> int:
    """The C library's number for "mm", "in8", "in16" or "exact"."""
    if unit not in PRINTS:
        raise ValueError(f"unit is {unit!r}: one of {', '.join(PRINTS)} will do")
    return PRINTS[unit]


def format_length(mm: float, unit: str = "mm") -> str:
    """A length without its unit: to the tenth of a millimetre ("mm"), to the eighth ("in8") or sixteenth ("in16") of an
    inch: "1025", "40 3/8"; "exact" for all decimals of the millimetres that read back as the same number."""
    out, needed = ffi.new("char[]", 64), ffi.new("size_t *")
    if lib.tailor_length_write(mm, print_of(unit), out, 64, needed):
        raise OrderError(f"a length of {mm} cannot be printed", lib.TAILOR_NOT_FINITE)
    return text(out)


def _row_of(name: str) -> tuple[Any, int]:
    """Table and number of a field, a house constant or a quantity: the first that has the name, in this order."""
    tables = (FIELD_TABLE, CONSTANT_TABLE, lib.tailor_quantity_table())
    for table in tables:
        number = lib.tailor_table_find(table, c_text(name))
        if number:
            return table, number
    raise unknown("field, constant or quantity", name, *tables)


def read_value(name: str, typed: str) -> float:
    """A typed value of a field, a house constant or a quantity as a number: "40 3/8 in" is 1025.525, "21 deg" 21, the
    name of a choice or a synonym its number. OrderError with the mend for anything else."""
    out, fault = ffi.new("double *"), ffi.new("tailor_fault *")
    if lib.tailor_value_read(*_row_of(name), c_text(typed), out, fault):
        raise of_fault(fault)
    return out[0]


def format_value(name: str, value: float, unit: str = "exact") -> str:
    """A value of a field, a house constant or a quantity as text with its unit, a choice by its name: "1025.525 mm",
    "21 deg", "roll-by-cut". read_value() reads it back as the same number; a length printed in "mm", "in8" or "in16" is
    rounded, as in format_length()."""
    out, needed = ffi.new("char[]", 64), ffi.new("size_t *")
    status = lib.tailor_value_write(*_row_of(name), value, print_of(unit), out, 64, needed)
    if status:
        raise OrderError(f"{name}: {value!r} cannot be written: {text(lib.tailor_status_text(status))}", status)
    return text(out)
