"""Which symbols the libraries show, and under which version: a symbol's node is the version that its header says it
came with, 0.3 for all that is older, and the loader refuses a program that needs a node which the library lacks."""
import os
import re

import pytest

import ground

FIRST = "0.3"  # soname 1 begins here
LIBRARIES = {
    "TAILORGEOM": dict(
        file=ground.BUILD / "lib/libtailorgeom.so.1", map=ground.ROOT / "lib/tailorgeom.map",
        headers=[header for header in ground.HEADERS if header.stem != "sheet"]),
    "TAILORGEOM_SHEET": dict(
        file=ground.BUILD / "lib/sheet/libtailorgeom-sheet.so.1", map=ground.ROOT / "lib/sheet/tailorgeom-sheet.map",
        headers=[ground.ROOT / "include/tailorgeom/sheet.h"]),
}
libraries = pytest.mark.parametrize("prefix", LIBRARIES)


def number(version):
    return [int(part) for part in version.split(".")]


def nodes_of(texts, prefix):
    """What the version script must be: [(node, {symbols})], oldest first, of headers as text."""
    nodes = {}
    for text in texts:
        for name, version in ground.since(text).items():
            assert version, f"{name} does not say since when"
            nodes.setdefault(max(version, FIRST, key=number), set()).add(name)
    return [(f"{prefix}_{version}", nodes[version]) for version in sorted(nodes, key=number)]


def script_of(nodes):
    """A version script of such nodes, as one is written: each inherits from the one before, and the first hides the
    rest."""
    text, before = "", ""
    for node, symbols in nodes:
        shown = "".join(f"        {name};\n" for name in sorted(symbols))
        text += f"{node} {{\n    global:\n{shown}{'' if before else '    local: *;' + chr(10)}}}{before};\n"
        before = " " + node
    return text


def read_script(text):
    """[(node, [symbols])] of a version script; it fails on anything but nodes that follow on one another."""
    text, nodes, before = ground.without_comments(text), [], ""
    for node, shown, hidden, parent in re.findall(
            r"([\w.]+)\s*\{\s*global:(.*?)(?:local:(.*?))?\}\s*([\w.]*)\s*;", text, re.S):
        assert hidden.split() == ([] if nodes else ["*;"]), f"{node}: local belongs to the first node"
        assert parent == before, f"{node} follows on {parent or 'none'}, not on {before}"
        nodes.append((node, [word.rstrip(";") for word in shown.split()]))
        before = node
    assert text.count("{") == text.count("}") == len(nodes) > 0
    return nodes


@libraries
def test_version_script_is_the_headers(prefix):
    nodes = read_script(LIBRARIES[prefix]["map"].read_text())
    every = [name for _, symbols in nodes for name in symbols]
    assert len(every) == len(set(every))
    texts = [header.read_text() for header in LIBRARIES[prefix]["headers"]]
    assert [(node, set(symbols)) for node, symbols in nodes] == nodes_of(texts, prefix)
    assert set(every) == {name for header in LIBRARIES[prefix]["headers"] for name in ground.declared(header)}


@libraries
def test_library_shows_the_version_script(prefix):
    rows = [line.split() for line in
            ground.run(["nm", "-D", "--defined-only", LIBRARIES[prefix]["file"]]).splitlines()]
    shown = {name for _, kind, name in rows if kind != "A"}
    nodes = read_script(LIBRARIES[prefix]["map"].read_text())
    assert shown == {f"{name}@@{node}" for node, symbols in nodes for name in symbols}
    assert {kind for _, kind, _ in rows} <= {"T", "A"}, "a data symbol or an ifunc is shown"


# ---- a later version, made up: what it would come to, and what the loader then does

OLDER = """/** Old. @since 0.1.0 */
TAILOR_API int tailor_old(void);
/** Of the first node.
 *  @since 0.3.0 */
TAILOR_API int tailor_new(void);
TAILOR_API int tailor_together(void);
"""
NEWER = OLDER + """/** Later. @since 0.4.0 */
TAILOR_API int tailor_later(
    void);
/** Last; tailor_new() is of @since 0.3.0. @since 0.10.2 */
TAILOR_API int tailor_last(void);
"""


def test_a_map_is_derived():
    nodes = nodes_of([NEWER], "TAILORGEOM")
    assert nodes == [("TAILORGEOM_0.3", {"tailor_old", "tailor_new", "tailor_together"}),
                     ("TAILORGEOM_0.4", {"tailor_later"}), ("TAILORGEOM_0.10", {"tailor_last"})]
    text = script_of(nodes)
    assert "TAILORGEOM_0.4 {\n    global:\n        tailor_later;\n} TAILORGEOM_0.3;\n" in text
    assert [(node, set(symbols)) for node, symbols in read_script(text)] == nodes
    # A symbol in another node than its own, and a node that follows on none, would be seen.
    moved = text.replace("        tailor_later;\n", "").replace("        tailor_new;\n",
                                                             "        tailor_new;\n        tailor_later;\n")
    assert [(node, set(symbols)) for node, symbols in read_script(moved)] != nodes
    with pytest.raises(AssertionError, match="follows on none"):
        read_script(text.replace("} TAILORGEOM_0.3;", "};"))
    with pytest.raises(AssertionError, match="since when"):
        nodes_of(["/** No version. */\nTAILOR_API int tailor_bare(void);"], "TAILORGEOM")


@pytest.fixture(scope="module")
def versions(tmp_path_factory):
    """{name: folder} of a library of either header, both of soname 1."""
    folders = {}
    for name, header in (("older", OLDER), ("newer", NEWER)):
        folder = folders[name] = tmp_path_factory.mktemp(name)
        plain = re.sub(r"\s*\n\s*(?=void)", "", ground.without_comments(header).replace("TAILOR_API ", ""))
        (folder / "small.c").write_text(plain + plain.replace(";", " { return 42; }"))
        (folder / "small.map").write_text(script_of(nodes_of([header], "TAILORGEOM")))
        ground.run(["gcc", "-shared", "-fPIC", "-o", folder / "libsmall.so.1", folder / "small.c",
                    "-Wl,-soname,libsmall.so.1", f"-Wl,--version-script={folder / 'small.map'}"])
    return folders


@pytest.mark.parametrize("linked, run, symbol, refused", [
    ("newer", "older", "tailor_later", "TAILORGEOM_0.4"),
    ("newer", "older", "tailor_last", "TAILORGEOM_0.10"),
    ("newer", "older", "tailor_new", None),
    ("older", "newer", "tailor_old", None),
    ("newer", "newer", "tailor_last", None)])
def test_newer_against_older(versions, linked, run, symbol, refused, tmp_path):
    source, program = tmp_path / "program.c", tmp_path / "program"
    source.write_text(f"int {symbol}(void);\nint main(void) {{ return {symbol}() - 42; }}\n")
    ground.run(["gcc", source, "-o", program, versions[linked] / "libsmall.so.1"])
    needs = re.findall(r"Name: (TAILORGEOM\S+)", ground.run(["readelf", "-V", program]))
    node = next(node for node, symbols in nodes_of([NEWER], "TAILORGEOM") if symbol in symbols)
    assert needs == [node]  # and nothing newer than what it calls
    # Before main: the loader says what is wanting and ends with 1; a program that starts ends with 0.
    told = ground.run([program], expect=1 if refused else 0,
                      env={**os.environ, "LD_LIBRARY_PATH": str(versions[run])})
    assert f"version `{refused}' not found" in told if refused else told == ""
