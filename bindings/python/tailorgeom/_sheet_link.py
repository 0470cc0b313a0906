"""The loaded companion library, and the writer that it calls. Imported only when something is drawn: it brings
cairo."""
from __future__ import annotations

from typing import Any

from ._link import ffi as core
from ._sheet import ffi, lib
from .errors import of_fault
from .sheets import Page

FORMATS = {"svg": lib.TAILOR_SHEET_SVG, "pdf": lib.TAILOR_SHEET_PDF, "png": lib.TAILOR_SHEET_PNG}


@ffi.def_extern(error=1)
def tailor_python_write(user: Any, data: Any, size: int) -> int:
    ffi.from_handle(user).append(bytes(ffi.buffer(data, size)))
    return 0


def pattern(pointer: Any, page: Page, format: str) -> bytes:
    """The sheet of a pattern."""
    return _collect(lib.tailor_sheet_draw_pattern, page, format, pointer)


def coat(pointer: Any, page: Page, format: str) -> bytes:
    """The sheet of a coat."""
    return _collect(lib.tailor_sheet_draw_coat, page, format, pointer)


def fronts(pointers: list[Any], labels: list[str], page: Page, format: str) -> bytes:
    """The fronts of coats side by side."""
    texts = [ffi.new("char[]", _bytes(label)) for label in labels]
    what = ffi.new("tailor_pattern *[]", pointers), ffi.new("char *[]", texts), len(pointers)
    return _collect(lib.tailor_sheet_draw_fronts, page, format, *what)


def canvas(pointers: list[Any], page: Page, format: str) -> bytes:
    """Layouts of canvas, one below the other."""
    handles = ffi.new("tailor_canvas *[]", pointers)
    return _collect(lib.tailor_sheet_draw_canvas, page, format, handles, len(pointers))


def section(line: Any, coat: Any, page: Page, format: str) -> bytes:
    """The section of a lapel: an array of points (n, 2), and the coat that it is of, or None."""
    points = ffi.new("tailor_point[]", [tuple(point) for point in line.tolist()])
    return _collect(lib.tailor_sheet_draw_section, page, format, points, len(points), ffi.NULL, 0, coat=coat)


def overlay(before: Any, after: Any, labels: tuple[str, str], page: Page, format: str) -> bytes:
    """Two patterns on one another."""
    texts = [ffi.new("char[]", _bytes(label)) for label in labels]
    return _collect(lib.tailor_sheet_draw_overlay, page, format, before, after, ffi.new("char *[]", texts))


def _bytes(text: str) -> bytes:
    return text.split("\0")[0].encode(errors="replace")


def _page(page: Page, coat: Any, format: str, fault: Any) -> Any:
    """The C library's page, which Python gives back; coat: what is drawn is of this one, or None."""
    made = ffi.new("tailor_page **")
    _called(lib.tailor_page_new(ffi.NULL, made, fault), fault)
    own = ffi.gc(made[0], lib.tailor_page_free)
    numbers = {
        lib.TAILOR_PAGE_FORMAT: FORMATS[format],
        lib.TAILOR_PAGE_UNITS: page.print,
        lib.TAILOR_PAGE_ANONYMOUS: bool(page.anonymous),
    }
    for setting, value in numbers.items():
        _called(lib.tailor_page_set(own, setting, value, fault), fault)
    for setting, text in {lib.TAILOR_PAGE_CLIENT: page.client, lib.TAILOR_PAGE_TITLE: page.title}.items():
        _called(lib.tailor_page_set_text(own, setting, _bytes(text), fault), fault)
    if coat is not None:
        _called(lib.tailor_page_set_coat(own, coat, fault), fault)
    return own


def _called(status: int, fault: Any) -> None:
    if status:
        raise of_fault(fault)


def _collect(draw: Any, page: Page, format: str, *what: Any, coat: Any = None) -> bytes:
    chunks: list[bytes] = []
    handle, fault = ffi.new_handle(chunks), core.new("tailor_fault *")
    _called(draw(*what, _page(page, coat, format, fault), lib.tailor_python_write, handle, fault), fault)
    return b"".join(chunks)
