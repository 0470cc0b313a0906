"""What cannot be cut is not written: outlines that are imported, read or graded are examined first. What only needs a
look is said on standard error, with the names of the pieces."""
import json

import pytest

CARD = "[measures]\nchest_girth = 1016\nstature = 1780\n"
#: The second side is crossed by the fourth.
CROSSED = "M0,0 H200 V100 L240,100 150,60 0,100 Z"
SVG = ('<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200">'
       '<path id="{}" d="{}"/></svg>')
#: Only the break point moves: it goes through the front seam.
RULES = "piece,point,dx,dy\nforepart,break_point,-260,0\n" + "".join(
    f"forepart,{name},0,0\n" for name in ("neck_point", "shoulder_end", "hem_front", "hem.start", "front_seam.start"))


def test_a_drawing_that_crosses_itself_is_not_imported(cli):
    (cli.directory / "t.svg").write_text(SVG.format("flap", CROSSED))
    done = cli("import", "t.svg", "-o", "t.json")
    assert (done.returncode, done.out, cli.files()) == (1, "", ["t.svg"])
    first, second = done.err.splitlines()
    assert first.startswith("tailorgeom: t.svg: piece 1, edges ") and " and edge_" in first.split("(flap, ")[1]
    assert ": its outline crosses or touches itself at x 200, y " in first
    assert second.startswith("tailorgeom: t.svg: piece 1: its outline turns 0 times round, ")


def test_a_sliver_is_imported_with_a_caution(cli):
    (cli.directory / "t.svg").write_text(SVG.format("thread", "M10,10 H290 V12 H10 Z"))
    done = cli("import", "t.svg", "-o", "t.json")
    assert (done.returncode, done.out) == (0, "wrote t.json\n")
    assert done.err.startswith("tailorgeom: t.svg: caution: piece 1, edges 2 and 4: only 2 mm wide at x ")
    assert done.err.endswith(": 3 mm is least (thread, edge_2 and edge_4)\n") and done.err.count("\n") == 1


def square(name, **more):
    corners = [[0, 0], [90, 0], [90, 90], [0, 90]]
    outline = [[[a + (b - a) * third / 3 for a, b in zip(start, end)] for third in range(4)]
               for start, end in zip(corners, corners[1:] + corners[:1])]
    edges = [{"name": f"e{i}", "first": i, "count": 1} for i in range(4)]
    return {"name": name, "outline": outline, "edges": edges, **more}


@pytest.fixture
def document():
    return {"format": "tailorgeom-pattern", "format_version": 2, "pieces": [square("back"), square("flap")],
            "seams": [{"name": "round", "a": [{"piece": "back", "edge": "e1", "from": 0}], "ease": 0,
                       "b": [{"piece": "flap", "edge": "e3", "from": None, "to": 0}]}]}


def graded(cli, document, *arguments, rules="piece,point,dx,dy\nflap,e0.start,0,0\n"):
    (cli.directory / "t.json").write_text(json.dumps(document))
    (cli.directory / "r.csv").write_text(rules)
    return cli("grade", "t.json", "--rules", "r.csv", *arguments)


def test_a_sound_file_is_graded_in_silence(cli, document):
    done = graded(cli, document)
    assert (done.returncode, done.err) == (0, "")


def test_a_file_that_crosses_itself_is_refused(cli, document):
    document["pieces"][1]["outline"][1][1:3] = [[-60, 30], [-60, 60]]  # the second side, bent through the fourth
    done = graded(cli, document, "-o", "out")
    assert (done.returncode, done.out) == (1, "") and "out" not in cli.files()
    assert done.err.startswith("tailorgeom: t.json: piece 2, edges 2 and 4: its outline crosses or touches itself")
    assert "(flap, e1 and e3)" in done.err


def test_an_edge_sewn_to_itself_is_refused(cli, document):
    document["seams"][0]["b"][0].update(piece="back", edge="e1")
    done = graded(cli, document)
    assert (done.returncode, done.out) == (1, "")
    assert done.err == ("tailorgeom: t.json: seam 1: 90 mm of edge 2 of piece 1 would be sewn to themselves, "
                        "about x 90, y 45 (back, e1)\n")
    document["pieces"][0]["cut"] = 2  # one to the other
    assert graded(cli, document).returncode == 0


@pytest.mark.parametrize("spoil, said", [
    (lambda d: d["seams"][0].update(ease=3), "seam 1: it is -3 mm off its ease: up to 0.5 mm is "
                                             "allowed (round)"),
    (lambda d: d["pieces"][0].update(points=[{"name": "nape", "x": 45, "y": 1}]),
     "piece 1, point 1: it lies 1 mm off the outline, at x 45, y 1: up to 0.5 mm is allowed (back, nape)"),
    (lambda d: d["pieces"][1].update(marks=[{"name": "end", "kind": "notch", "path": [[[90, 9]] + [[99, 9]] * 3]}]),
     "piece 2, mark 1: it lies 9 mm outside of the piece, at x 99, y 9: up to 0.5 mm is allowed (flap, end)"),
])
def test_a_file_that_wants_a_look(cli, document, spoil, said):
    spoil(document)
    done = graded(cli, document)
    assert done.returncode == 0 and f"tailorgeom: t.json: caution: {said}\n" in done.err


def test_a_rule_that_turns_a_forepart_over(cli):
    """It came out as a sheet: 535 of 1845 cm2, crossing itself."""
    coat = json.loads(cli.good("draft", cli.card(CARD), "--json"))
    done = graded(cli, coat, "--sizes", "0,0.95", "--nest", "-o", "out", rules=RULES)
    assert (done.returncode, done.out) == (1, "") and "out" not in cli.files()
    lines = done.err.splitlines()
    assert lines[0].startswith("tailorgeom: step 0.95: piece 3, edges 1 and 4: its outline crosses or touches itself")
    assert lines[0].endswith(" (forepart, front_seam and lapel_edge)")
    lost = "caution: piece 3: 68 % of the area that it has in the base is lost (forepart)"
    assert any(one.endswith(lost) for one in lines)
    done = graded(cli, coat, "--sizes", "0,0.05", "--nest", "-o", "out", rules=RULES)
    assert (done.returncode, done.err) == (0, "") and cli.files("out")
