"""The loaded companion library, and the writer that it calls. Imported only when something is drawn: it brings
cairo."""
from __future__ import annotations

from typing import Any

from ._link import ffi as core
from ._sheet import ffi, lib
from .errors import of_fault

FORMATS = {"svg": lib.TAILOR_SHEET_SVG, "pdf": lib.TAILOR_SHEET_PDF, "png": lib.TAILOR_SHEET_PNG}


@ffi.def_extern(error=1)
def tailor_python_write(user: Any, data: Any, size: int) -> int:
    ffi.from_handle(user).append(bytes(ffi.buffer(data, size)))
    return 0


def pattern(pointer: Any, title: str, unit: int, format: str) -> bytes:
    """The sheet of a pattern."""
    return _collect(lib.tailor_sheet_draw_pattern, pointer, _title(title), unit, FORMATS[format])


def fronts(pointers: list[Any], labels: list[str], title: str, format: str) -> bytes:
    """The fronts of coats side by side."""
    texts = [ffi.new("char[]", _title(label)) for label in labels]
    return _collect(
        lib.tailor_sheet_draw_fronts,
        ffi.new("tailor_pattern *[]", pointers),
        ffi.new("char *[]", texts),
        len(pointers),
        _title(title),
        FORMATS[format],
    )


def canvas(pointers: list[Any], title: str, unit: int, format: str) -> bytes:
    """Layouts of canvas, one below the other."""
    handles = ffi.new("tailor_canvas *[]", pointers)
    return _collect(lib.tailor_sheet_draw_canvas, handles, len(pointers), _title(title), unit, FORMATS[format])


def section(line: Any, title: str, unit: int, format: str) -> bytes:
    """The section of a lapel: an array of points (n, 2)."""
    points = ffi.new("tailor_point[]", [tuple(point) for point in line.tolist()])
    what = len(points), ffi.NULL, 0, _title(title), unit, FORMATS[format]
    return _collect(lib.tailor_sheet_draw_section, points, *what)


def overlay(before: Any, after: Any, label: str, other: str, title: str, unit: int, format: str) -> bytes:
    """Two patterns on one another."""
    texts = _title(label), _title(other), _title(title)
    return _collect(lib.tailor_sheet_draw_overlay, before, after, *texts, unit, FORMATS[format])


def _title(text: str) -> bytes:
    return text.split("\0")[0].encode(errors="replace")


def _collect(draw: Any, *what: Any) -> bytes:
    chunks: list[bytes] = []
    handle, fault = ffi.new_handle(chunks), core.new("tailor_fault *")
    if draw(*what, lib.tailor_python_write, handle, fault):
        raise of_fault(fault)
    return b"".join(chunks)
