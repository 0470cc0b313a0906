#!/usr/bin/python3
"""The two extension modules of the package, from the same cdef files for meson and for pip.

    cffi_build.py core OUTPUT.c         writes the source of tailorgeom._core (meson compiles it)

`_core` binds libtailorgeom, `_sheet` libtailorgeom-sheet: who only computes does not load cairo.
"""
import pathlib
import sys

import cffi

HERE = pathlib.Path(__file__).resolve().parent
CORE = ("base", "geom", "order_tables", "order", "pattern_tables", "pattern", "cloth_tables", "cloth", "fold", "lay",
        "canvas", "grade", "roll", "coat_tables", "coat", "rows")
# The writer that the sheet calls: a function of Python's, in tailorgeom/sheets.py.
WRITER = 'extern "Python" int tailor_python_write(void *user, const void *data, size_t bytes);'


def cdef(header):
    return (HERE / "cdef" / f"{header}.cdef").read_text()


def includes(*headers):
    return "".join(f"#include <tailorgeom/{name}.h>\n" for name in headers)


def core(**how):
    ffi = cffi.FFI()
    for header in CORE:
        ffi.cdef(cdef(header))
    ffi.set_source("tailorgeom._core", includes("canvas", "fold", "grade", "lay", "roll", "rows"), **how)
    return ffi


def sheet(**how):
    ffi = cffi.FFI()
    ffi.include(core())
    ffi.cdef(cdef("sheet"))
    ffi.cdef(WRITER)
    ffi.set_source("tailorgeom._sheet", includes("grade", "rows", "sheet"), **how)
    return ffi


if __name__ == "__main__":
    {"core": core, "sheet": sheet}[sys.argv[1]]().emit_c_code(sys.argv[2])
