"""The cdef files say what the headers say. Both are parsed by pycparser, after the C preprocessor, and compared as
trees; layouts are those that the C compiler tells."""
import re

import pycparser
import pytest
from pycparser import c_ast, c_generator

import built

INCLUDE = built.ROOT / "include/tailorgeom"
NAMES = sorted(path.stem for path in INCLUDE.glob("*.h"))
CDEF = {path.stem: path for path in (built.BINDINGS / "cdef").glob("*.cdef")}
ORDER = ["base", "geom", "order_tables", "order", "pattern_tables", "pattern", "cloth_tables", "cloth", "fold", "lay",
         "canvas", "grade", "roll", "coat_tables", "coat", "rows", "sheet"]


def preprocessed():
    """All headers, with line marks that tell the file of each declaration."""
    text = "".join(f"#include <tailorgeom/{name}.h>\n" for name in ORDER)
    command = ["gcc", "-E", "-xc", "-std=c11", "-I", INCLUDE.parent, "-D__attribute__(x)=", "-D__extension__=", "-"]
    return built.run(command, input=text)


def cdefs(change=lambda text: text):
    """All cdef files, with marks of the same kind."""
    text = "typedef unsigned long size_t; typedef int int32_t; typedef long int64_t; "
    text += "typedef unsigned long uint64_t; typedef unsigned int uint32_t;\n"
    for name in ORDER:
        body = re.sub(r"/\*.*?\*/", "", CDEF[name].read_text(), flags=re.S)
        text += f'# 1 "{name}.h"\n' + re.sub(r"(?m)^#define.*\n", "", change(body))
    return text


def declarations(text):
    """Per header, every declaration as C again, in a form that does not depend on how it was written."""
    found = {name: [] for name in ORDER}
    write = c_generator.CGenerator()
    for node in pycparser.CParser().parse(text).ext:
        stem = node.coord.file.rsplit("/", 1)[-1].removesuffix(".h")
        if stem in found and ("tailorgeom/" in node.coord.file or "/" not in node.coord.file):
            found[stem].append(write.visit(node))
    return found


def test_one_file_a_header():
    assert sorted(ORDER) == NAMES == sorted(CDEF)
    longest = {name: 600 if name.endswith("_tables") else 300 for name in ORDER}  # tables grow with their rows
    assert [name for name in ORDER if len(CDEF[name].read_text().splitlines()) > longest[name]] == []


def test_the_same_declarations():
    headers, ours = declarations(preprocessed()), declarations(cdefs())
    for name in ORDER:
        assert ours[name] == headers[name], name
        assert headers[name]
    functions = "".join(sum(headers.values(), []))
    assert len(set(re.findall(r"\btailor_\w+(?=\()", functions))) > 100


@pytest.mark.parametrize(
    "old,new",
    [
        ("TAILOR_MISSING = 200", "TAILOR_MISSING = 210"),
        ("double x, y;", "double y, x;"),
        ("size_t order_stride", "int order_stride"),
        ("void tailor_fields_clear", "int tailor_fields_clear"),
    ],
)
def test_a_difference_would_be_seen(old, new):
    assert any(old in path.read_text() for path in CDEF.values())
    assert declarations(cdefs(lambda text: text.replace(old, new))) != declarations(preprocessed())


def test_the_same_macros():
    for name in ORDER:
        macros = re.findall(r"(?m)^#define (TAILOR_\w+) \d+$", (INCLUDE / f"{name}.h").read_text())
        assert re.findall(r"#define (\w+) \.\.\.", CDEF[name].read_text()) == macros
    core = built.tg._link.lib
    text = "".join((INCLUDE / f"{name}.h").read_text() for name in ORDER)
    for name, value in re.findall(r"(?m)^#define (TAILOR_\w+) (\d+)$", text):
        assert getattr(core, name) == int(value)


def structs():
    """Names and members of the public structs."""
    for node in pycparser.CParser().parse(preprocessed()).ext:
        if isinstance(node, c_ast.Typedef) and node.name.startswith("tailor_"):
            kind = getattr(node.type, "type", None)
            if isinstance(kind, c_ast.Struct) and kind.decls:
                yield node.name, [member.name for member in kind.decls]


def test_the_same_layouts(tmp_path):
    found = dict(structs())
    assert {"tailor_point", "tailor_cubic", "tailor_fault", "tailor_verdict", "tailor_allocator"} <= set(found)
    lines = [
        f'printf("{name} %zu\\n", sizeof({name}));'
        + "".join(f'printf("{name}.{member} %zu\\n", offsetof({name}, {member}));' for member in members)
        for name, members in found.items()
    ]
    source = tmp_path / "layout.c"
    source.write_text(
        "#include <stdio.h>\n"
        + "".join(f"#include <tailorgeom/{name}.h>\n" for name in ORDER)
        + "int main(void){"
        + "".join(lines)
        + "return 0;}"
    )
    built.run(["gcc", "-I", INCLUDE.parent, source, "-o", tmp_path / "layout"])
    told = dict(line.rsplit(" ", 1) for line in built.run([tmp_path / "layout"]).splitlines())
    ffi = built.tg._link.ffi
    for name, members in found.items():
        assert ffi.sizeof(name) == int(told[name])
        for member in members:
            assert ffi.offsetof(name, member) == int(told[f"{name}.{member}"])


def test_enumerators_have_their_values(tmp_path):
    """As the compiled module has them, against a C program."""
    names = re.findall(
        r"(?m)^\s+(TAILOR_\w+) = -?\d+", "".join(CDEF[name].read_text() for name in ORDER if name != "sheet")
    )
    source = tmp_path / "values.c"
    source.write_text(
        "#include <stdio.h>\n"
        + "".join(f"#include <tailorgeom/{name}.h>\n" for name in ORDER if name != "sheet")
        + "int main(void){"
        + "".join(f'printf("{name} %d\\n", {name});' for name in names)
        + "return 0;}"
    )
    built.run(["gcc", "-I", INCLUDE.parent, source, "-o", tmp_path / "values"])
    told = dict(line.split() for line in built.run([tmp_path / "values"]).splitlines())
    assert len(told) > 300
    assert {name: int(value) for name, value in told.items()} == {
        name: getattr(built.tg._link.lib, name) for name in told
    }


def test_the_writer_of_cdefs_agrees(tmp_path):
    """make_cdef.py writes the committed files, letter for letter."""
    (tmp_path / "cdef").mkdir()
    script = tmp_path / "make_cdef.py"
    script.write_bytes((built.BINDINGS / "make_cdef.py").read_bytes())
    built.run([built.PYTHON, script, INCLUDE])
    assert {path.stem: path.read_text() for path in (tmp_path / "cdef").iterdir()} == {
        name: path.read_text() for name, path in CDEF.items()
    }
