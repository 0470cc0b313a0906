#!/usr/bin/python3
"""Writes cdef/<header>.cdef from the public headers: what cffi has to know of them, without comments and directives.

    /usr/bin/python3 bindings/python/make_cdef.py [INCLUDE_DIRECTORY]

The files are committed, so that pip needs no script. Counts and versions become `...`: the C compiler tells them, since
tables grow within an ABI. A test parses headers and cdef files with another tool and compares what it finds.
"""
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).resolve().parent
INCLUDE = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else HERE.parents[1] / "include/tailorgeom"


def declarations(header):
    text = re.sub(r"/\*.*?\*/", "", header, flags=re.S)
    macros = re.findall(r"(?m)^#define (TAILOR_\w+) \d+$", text)
    text = re.sub(r"(?m)^#ifdef __cplusplus\n.*\n#endif\n", "", text)
    text = re.sub(r"(?m)^#if defined\(__GNUC__\)(.*\n)*?#endif\n", "", text)
    text = re.sub(r"(?m)^#.*\n", "", text)
    text = re.sub(r"\bTAILOR_API\s+", "", text)
    lines = [line.rstrip() for line in text.splitlines() if line.strip()]
    return "".join(f"{line}\n" for line in lines + [f"#define {macro} ..." for macro in macros])


for path in sorted(INCLUDE.glob("*.h")):
    body = declarations(path.read_text())
    (HERE / "cdef" / f"{path.stem}.cdef").write_text(f"/* <tailorgeom/{path.name}>, by make_cdef.py */\n{body}")
