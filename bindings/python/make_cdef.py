#!/usr/bin/python3
"""Writes cdef/<header>.cdef from the public headers: what cffi has to know of them, without comments and directives.

    /usr/bin/python3 bindings/python/make_cdef.py [INCLUDE_DIRECTORY]

The files are committed, so that pip needs no script. Counts and versions become `...`: the C compiler tells them, since
tables grow within an ABI. A test parses headers and cdef files with another tool and compares what it finds.
"""
import pathlib
import re
import sys
import textwrap

HERE = pathlib.Path(__file__).resolve().parent
INCLUDE = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else HERE.parents[1] / "include/tailorgeom"


def declarations(header):
    text = re.sub(r"/\*.*?\*/", "", header, flags=re.S)
    macros = re.findall(r"(?m)^#define (TAILOR_\w+) \d+$", text)
    text = re.sub(r"(?m)^#ifdef __cplusplus\n.*\n#endif\n", "", text)
    text = re.sub(r"(?m)^#if defined\(__GNUC__\)(.*\n)*?#endif\n", "", text)
    text = re.sub(r"(?m)^#.*\n", "", text)
    text = re.sub(r"\bTAILOR_API\s+", "", text)
    blocks = re.split(r"(?<=;)\s*\n(?!\s|\})", text.strip())  # a declaration each, its own lines' breaks forgotten
    lines = [line for block in blocks for line in wrapped(block)]
    return "".join(f"{line}\n" for line in lines + [f"#define {macro} ..." for macro in macros])


def wrapped(declaration):
    """Its lines: enumerators and members one a line, anything else as one line that is wrapped."""
    if "{" not in declaration:
        return textwrap.wrap(" ".join(declaration.split()), 118, subsequent_indent="    ", break_on_hyphens=False)
    return [line.rstrip() for line in declaration.splitlines() if line.strip()]


for path in sorted(INCLUDE.glob("*.h")):
    body = declarations(path.read_text())
    (HERE / "cdef" / f"{path.stem}.cdef").write_text(f"/* <tailorgeom/{path.name}>, by make_cdef.py */\n{body}")
