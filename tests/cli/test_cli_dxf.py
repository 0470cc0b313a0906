"""A pattern as DXF, read back by ezdxf and compared by Shapely with the curves of the same pattern's JSON."""
import json

import ezdxf
import numpy as np
import pytest
from shapely.geometry import LineString, MultiLineString, Point, Polygon

TOLERANCE = 0.01  # mm, of a chord; a little more for the rounding of its ends
LAYERS = {"notch": "notch", "grain": "grain", "button": "button", "hole": "hole", "dart": "dart", "line": "mark",
          "fold": "fold"}
FORMS = {"everyday": "40 in,", "stout and three-button": "1250 mm,three-button", "roll by cut": "950,roll-by-cut"}


def curve(path, steps=200):
    """Points of cubics, by their own sums; each cubic's end is the next one's beginning."""
    t = np.linspace(0, 1, steps)[:, None]
    points = [np.array(path[0][0], dtype=float)[None, :]]
    for a, b, c, d in np.array(path, dtype=float):
        points.append((1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t * t * (1 - t) * c + t ** 3 * d)
    return np.vstack(points)


def apart(drawn, exact):
    """How far the curve's points are from the chords; the ends of chords lie on the curve."""
    line = LineString(exact)
    assert max(line.distance(Point(p)) for p in drawn.coords) < 5e-3  # the reference's own chords
    return max(drawn.distance(Point(p)) for p in exact)


@pytest.fixture(scope="module", params=list(FORMS))
def coat(request, tmp_path_factory, command_line):
    cli = command_line(tmp_path_factory.mktemp("dxf"))
    cli.card("order,name,chest_girth,buttoning\n7,Köhler 50%% ^ 🙂," + FORMS[request.param] + "\n", "in.csv")
    cli.good("book", "in.csv", "-o", "out", "--sheets", "dxf")
    folder = cli.directory / "out" / "7"
    return json.loads((folder / "pattern.json").read_text()), ezdxf.readfile(folder / "pattern.dxf"), folder


def entities(document, piece, layer, kinds=("POLYLINE", "CIRCLE")):
    return [e for e in document.blocks.get(piece) if e.dxf.layer == layer and e.dxftype() in kinds]


def vertices(polyline):
    return np.array([(v.dxf.location.x, v.dxf.location.y) for v in polyline.vertices])


def test_the_file(coat):
    pattern, document, folder = coat
    assert document.dxfversion == "AC1009" and document.units == ezdxf.units.MM
    assert document.audit().errors == []
    assert {layer.dxf.name for layer in document.layers} >= set(LAYERS.values()) | {"outline", "text"}
    blocks = [b.name for b in document.blocks if not b.name.startswith(("*", "$"))]
    assert blocks == [piece["name"] for piece in pattern["pieces"]] and len(blocks) > 20
    assert {e.dxf.layer for name in blocks for e in document.blocks.get(name)} <= {"outline", "text", *LAYERS.values()}
    (folder / "pattern.dxf").read_bytes().decode("ascii")


def test_outlines(coat):
    """One closed line a piece, no point of it twice, as far from the curve as it says, the area that of the curve."""
    pattern, document, _ = coat
    for piece in pattern["pieces"]:
        (outline,) = entities(document, piece["name"], "outline")
        points, exact = vertices(outline), curve(piece["outline"])
        assert outline.is_closed and outline.dxf.flags == 1
        steps = np.linalg.norm(points - np.roll(points, 1, axis=0), axis=1)
        assert steps.min() > 1e-4 and not any(v.dxf.bulge for v in outline.vertices)
        ours, theirs = Polygon(points), Polygon(exact)
        assert ours.is_valid and ours.exterior.is_ccw
        assert abs(ours.area - theirs.area) <= TOLERANCE * theirs.length  # between them lies a strip of that width
        far = apart(ours.exterior, exact)
        assert far < TOLERANCE + 2e-4, (piece["name"], far)
        assert len(points) < 60 * len(piece["outline"])


def test_marks(coat):
    pattern, document, _ = coat
    for piece in pattern["pieces"]:
        for kind, layer in LAYERS.items():
            marks = [mark for mark in piece["marks"] if mark["kind"] == kind]
            found = entities(document, piece["name"], layer)
            assert len(found) >= len(marks) and bool(found) == bool(marks), (piece["name"], kind)
            for mark in marks:
                exact = curve(mark["path"])
                if found[0].dxftype() == "CIRCLE":
                    assert min(circle_off(e, exact) for e in found) < 3e-3
                    continue
                for a, b in (exact[0], exact[-1]):  # every end is a vertex
                    assert min(np.hypot(*(vertices(e) - (a, b)).T).min() for e in found) < 1e-4
                drawn = MultiLineString([line_of(e) for e in found])
                assert broken(mark["path"]) or max(drawn.distance(Point(p)) for p in exact) < TOLERANCE + 2e-4
    assert len(entities(document, "forepart", "button", ["CIRCLE"])) >= 1


def circle_off(circle, exact):
    centre = Point(circle.dxf.center.x, circle.dxf.center.y)
    return max(abs(centre.distance(Point(p)) - circle.dxf.radius) for p in exact)


def broken(path):
    return any(np.hypot(*np.subtract(a[3], b[0])) > 1e-4 for a, b in zip(path, path[1:]))


def line_of(polyline):
    points = vertices(polyline)
    return np.vstack([points, points[:1]]) if polyline.is_closed else points


def test_inserts_stand_apart(coat):
    pattern, document, _ = coat
    boxes = []
    for insert in document.modelspace().query("INSERT"):
        (outline,) = entities(document, insert.dxf.name, "outline")
        points = vertices(outline) + (insert.dxf.insert.x, insert.dxf.insert.y)
        boxes.append(Polygon(points).envelope)
    assert len(boxes) == len(pattern["pieces"])
    for i, box in enumerate(boxes):
        assert all(box.distance(other) > 50 for other in boxes[:i])


def test_texts(coat):
    """Whose piece it is, in any script, in a file of ASCII."""
    pattern, document, _ = coat
    for piece in pattern["pieces"]:
        texts = [e.dxf.text for e in entities(document, piece["name"], "text", ["TEXT"])]
        assert texts[0] == piece["name"].replace("_", " ")
        assert f"cut {piece['cut']}" in texts[2] and piece["cloth"] in texts[2]
        assert texts[3].startswith("K\\U+00F6hler 50%%%%%% ^  \\U+FFFD, order 7")
