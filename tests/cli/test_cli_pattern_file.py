"""Pattern files: what `draft --json` writes is read back to the bit; what is no pattern is refused, with its place in
the file."""
import copy
import json
import os
import pathlib
import subprocess

import pytest

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
BUILD = pathlib.Path(os.environ.get("TAILOR_BUILD", ROOT / "build-tests/gcc"))


@pytest.fixture(scope="session")
def program(tmp_path_factory):
    """The command line's own objects, with another main."""
    made = tmp_path_factory.mktemp("read") / "read_pattern"
    objects = [path for path in (BUILD / "cli/tailorgeom.p").glob("*.o") if path.name != "main.c.o"]
    linked = [BUILD / "lib", BUILD / "lib/sheet"]
    flags = [f"-L{directory}" for directory in linked] + [f"-Wl,-rpath,{directory}" for directory in linked]
    sanitized = any(b"__asan" in path.read_bytes() for path in objects)
    subprocess.run(
        ["gcc", "-std=c11", "-Wall", "-Wextra", "-Werror", *(["-fsanitize=address,undefined"] if sanitized else []),
         "-I", ROOT / "include", HERE / "read_pattern.c", *objects, *flags, "-ltailorgeom", "-ltailorgeom-sheet",
         "-ljansson", "-linih", "-lmd", "-lpthread", "-lm", "-o", made], check=True)
    return made


@pytest.fixture(scope="session")
def read(program):
    def run(document, expect=0):
        text = document if isinstance(document, bytes) else json.dumps(document).encode()
        done = subprocess.run([program], input=text, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        assert done.returncode == expect, done.stderr
        return json.loads(done.stdout) if expect == 0 else done.stderr.decode()
    return run


@pytest.fixture
def drafted(cli, card):
    return json.loads(cli.good("draft", card, "--json"))


def test_a_draft_reads_back(read, drafted):
    again = read(drafted)
    assert again["format"] == "tailorgeom-pattern"
    assert (again["edition"], again["style"]) == (drafted["edition"], drafted["style"])
    for piece, other in zip(drafted["pieces"], again["pieces"]):
        assert len(piece["outline"]) == len(other["outline"])
        for a, b in zip(piece["outline"], other["outline"]):
            assert a[1:] == b[1:]  # to the bit; a start may move to where the curve before it ends
            assert a[0] == pytest.approx(b[0], abs=1e-9)
        for member in ("name", "cut", "mirrored", "side", "cloth", "points", "marks"):
            assert piece[member] == other[member]
        for a, b in zip(piece["edges"], other["edges"]):
            assert (a["name"], a["first"], a["count"]) == (b["name"], b["first"], b["count"])
    for a, b in zip(drafted["seams"], again["seams"]):
        assert (a["name"], a["ease"]) == (b["name"], b["ease"])
        for side in "ab":
            assert len(a[side]) == len(b[side]) >= 1
            for one, other in zip(a[side], b[side]):
                assert one["piece"] == other["piece"] and one["edge"] == other["edge"]
                assert one["from"] == pytest.approx(other["from"], abs=1e-8)
                assert one["to"] == pytest.approx(other["to"], abs=1e-8)
    choices = {name: field["value"] for name, field in drafted["fields"].items() if isinstance(field["value"], str)}
    assert drafted["style"] == choices and choices["buttoning"] and drafted["edition"] >= 1
    # what was read is read again as the same
    assert read(again) == again


def line(a, b):
    return [a, [a[0] + (b[0] - a[0]) / 3, a[1] + (b[1] - a[1]) / 3],
            [a[0] + 2 * (b[0] - a[0]) / 3, a[1] + 2 * (b[1] - a[1]) / 3], b]


SQUARE = {
    "format": "tailorgeom-pattern", "format_version": 2,
    "pieces": [{"name": "flap", "outline": [line([0, 0], [9, 0]), line([9, 0], [9, 9]), line([9, 9], [0, 9]),
                                            line([0, 9], [0, 0])],
                "edges": [{"name": "hem", "first": 0, "count": 2}, {"name": "top", "first": 2, "count": 2}]}],
    "seams": [{"name": "mouth", "a": [{"piece": "flap", "edge": "hem", "from": 1}],
               "b": [{"piece": "flap", "edge": "top", "from": None, "to": 9},
                     {"piece": "flap", "edge": "top", "from": 9, "to": 1}]}],
}


def test_what_may_be_left_out(read):
    piece = read(SQUARE)["pieces"][0]
    assert (piece["cut"], piece["mirrored"], piece["side"], piece["cloth"]) == (1, False, "both", "cloth")
    seam = read(SQUARE)["seams"][0]
    assert (read(SQUARE)["edition"], read(SQUARE)["style"], read(SQUARE)["for_toile"]) == (0, {}, False)
    assert seam["ease"] == 0 and seam["a"][0]["to"] == pytest.approx(18)
    assert seam["b"][0]["from"] == pytest.approx(18) and seam["b"][1]["to"] == 1


@pytest.mark.parametrize("toile", [True, False])
def test_for_toile(cli, read, toile):
    """Read, written again, graded, and on the sheets of both."""
    document = {**SQUARE, "for_toile": toile}
    assert read(document)["for_toile"] is toile
    (cli.directory / "flap.json").write_text(json.dumps(document))
    (cli.directory / "r.csv").write_text("piece,point,dx,dy\nflap,hem.start,-1,0\n")
    sizes = ["grade", "flap.json", "--rules", "r.csv", "--sizes", "0,1"]
    assert [size["for_toile"] for size in json.loads(cli.good(*sizes, "--json"))["sizes"]] == [toile, toile]
    cli.good(*sizes, "--nest", "-o", "out")
    sheets = [path for path in (cli.directory / "out").rglob("*.svg")]
    assert sheets and all((" - for toile only</text>" in path.read_text()) is toile for path in sheets)


def test_a_seam_of_two_stretches_against_three(cli, read):
    """Read, written the same, graded by rules: its sides differ by what they did."""
    def piece(name, width):
        corners = [[0, 0], [width, 0], [width, 80], [0, 80]]
        return {"name": name, "outline": [line(corners[i], corners[(i + 1) % 4]) for i in range(4)],
                "edges": [{"name": edge, "first": i, "count": 1}
                          for i, edge in enumerate(["hem", "front", "top", "back"])]}

    def sewn(piece, start, stop):
        return {"piece": piece, "edge": "top", "from": start, "to": stop}

    document = {"format": "tailorgeom-pattern", "format_version": 2,
                "pieces": [piece(name, width) for name, width in zip("abcde", (100, 90, 80, 70, 60))],
                "seams": [{"name": "round", "a": [sewn("a", 40, 100), sewn("b", 0, 90)], "ease": 10,
                           "b": [sewn("c", 80, 30), sewn("d", 70, 0), sewn("e", 20, 40)]}]}
    assert read(document)["seams"][0] == document["seams"][0]
    (cli.directory / "five.json").write_text(json.dumps(document))
    (cli.directory / "r.csv").write_text(
        "piece,point,dx,dy\na,top.start,6,0\na,top.end,0,0\nd,top.start,2,0\nd,top.end,0,0\n")
    base, wide = json.loads(cli.good("grade", "five.json", "--rules", "r.csv", "--sizes", "0,1.5", "--json"))["sizes"]
    lengths = [[sum(abs(one["to"] - one["from"]) for one in size["seams"][0][side]) for side in "ab"]
               for size in (base, wide)]
    assert lengths[0] == pytest.approx([150, 140], abs=1e-9)
    assert lengths[1][0] - lengths[1][1] == pytest.approx(10, abs=1e-6) and lengths[1][0] > 152


def changed(path, value):
    document = copy.deepcopy(SQUARE)
    at = document
    for key in path[:-1]:
        at = at[key]
    if value is KeyError:
        del at[path[-1]]
    else:
        at[path[-1]] = value
    return document


PIECE, STRETCH = ("pieces", 0), ("seams", 0, "b", 1)


@pytest.mark.parametrize("path,value,said", [
    (("format",), "other", "format: "),
    (("format_version",), 1, "format_version: only version 2 can be read here: draft, grade or import"),
    (("format_version",), 3, "format_version: only version 2 can be read here: a later"),
    (("format_version",), "2", "format_version: only version 2"),
    (("edition",), -1, "edition: an edition is a whole number from 0"),
    (("edition",), "1", "edition: "),
    (("edition",), None, "edition: "),
    (("for_toile",), 1, "for_toile: a pattern is for a toile only, true, or not, false"),
    (("for_toile",), None, "for_toile: "),
    (("style",), ["buttoning"], "style: "),
    (("style",), {"buttonning": "two-button"}, "style.buttonning: there is no choice of that name"),
    (("style",), {"chest_girth": "1016"}, "style.chest_girth: there is no choice of that name"),
    (("style",), {"buttoning": "four-button"}, "style.buttoning: buttoning takes one of"),
    (("style",), {"buttoning": 2}, "style.buttoning: a choice is told by its name"),
    (("pieces",), [], "pieces: "),
    (PIECE + ("name",), "Flap!", "pieces[0]: piece 1: a name has"),
    (PIECE + ("name",), 5, "pieces[0]: "),
    (PIECE + ("cut",), "two", 'pieces[0]: "cut"'),
    (PIECE + ("cut",), 10**12, "pieces[0]: piece 1: cut is 1 to 99"),
    (PIECE + ("side",), "front", 'pieces[0]: "side"'),
    (PIECE + ("outline",), "round", "pieces[0]: a path"),
    (PIECE + ("outline", 1), [[0, 0]], "pieces[0]: a cubic is four points"),
    (PIECE + ("outline", 1, 1), [0, "0"], "pieces[0]: a cubic is four points"),
    (PIECE + ("outline", 1, 1), [0, 1e300], "pieces[0].edges[0]: "),
    (PIECE + ("outline", 1, 3), [9, 9.5], "pattern: piece 1, edge 2: "),
    (PIECE + ("edges", 1, "first"), 1, "pieces[0].edges[1]: "),
    (PIECE + ("edges", 1, "count"), 3, "pieces[0].edges[1]: "),
    (PIECE + ("edges", 1, "count"), 1, "pieces[0]: the edges are not the whole outline"),
    (PIECE + ("edges", 1, "name"), "hem", "pieces[0].edges[1]: piece 1, edge 2: the name stands for another"),
    (PIECE + ("edges",), KeyError, "pieces[0]: the edges"),
    (PIECE + ("points",), [{"name": "tip", "x": 1}], "pieces[0].points[0]: "),
    (PIECE + ("marks",), [{"name": "tip", "kind": "arrow", "path": []}], "pieces[0].marks[0]: "),
    (PIECE + ("marks",), [{"name": "tip", "kind": "line", "path": []}], "pieces[0].marks[0]: "),
    (STRETCH + ("piece",), "lining", "seams[0].b[1]: seam 1, second side, stretch 2: there is no piece"),
    (STRETCH + ("edge",), "bottom", "seams[0].b[1]: seam 1, second side, stretch 2: there is no edge"),
    (STRETCH + ("from",), 19, "seams[0].b[1]: seam 1, second side, stretch 2: a bound lies beyond"),
    (STRETCH + ("from",), "0", 'seams[0].b[1]: "from"'),
    (("seams", 0, "a"), [], "seams[0].a: a side"),
    (("seams", 0, "a"), KeyError, "seams[0].a: a side"),
    (("seams", 0, "b"), {"piece": "flap", "edge": "top"}, "seams[0].b: a side"),
    (("seams", 0, "name"), "Mouth", "seams[0]: seam 1: a name has"),
    (("seams", 0, "ease"), "much", "seams[0]: "),
])
def test_what_is_no_pattern(read, path, value, said):
    assert said in read(changed(path, value), expect=1)


NO_JSON = {
    "nothing": b"", "torn": b"{", "bytes": b"\xff\xfe", "open": b"[1, 2", "twice": b'{"format": 1, "format": 2}',
    "nan": b"NaN", "deep": b"[" * 5000, "huge": b'{"format": "tailorgeom-pattern", "format_version": 1e999}',
}


@pytest.mark.parametrize("text", NO_JSON.values(), ids=NO_JSON)
def test_what_is_no_json(read, text):
    assert "line 1, column" in read(text, expect=1)
