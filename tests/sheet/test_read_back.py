"""Sheets read back by other programs: librsvg draws the SVG, poppler reads PDFs, GEOS judges shapes. What they find is
compared with what the library says of the same coats (the .facts files that the C test writes beside the sheets)."""
import math
import os
import pathlib
import re
import struct
import subprocess
import xml.etree.ElementTree as ElementTree
import zlib

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Polygon, box

ROOT = pathlib.Path(__file__).resolve().parents[2]
BUILD = pathlib.Path(os.environ.get("TAILOR_BUILD", ROOT / "build-tests/gcc"))
MEN = ["regular", "small", "stout"]
FASTENINGS = ["one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut"]
TITLE = 'Order 12 <&> "Mr Fallowell" Å'
SVG = "{http://www.w3.org/2000/svg}"
MM = 25.4 / 72
OUTLINE, SQUARE = 0.9, 0.45  # weights of lines on the pattern sheet, mm
THIN = 0.125  # of the dimension lines of the fronts


def run(*command):
    done = subprocess.run([str(word) for word in command], stdout=subprocess.PIPE, stderr=subprocess.PIPE, check=False)
    assert done.returncode == 0 and not done.stderr, f"{command}: {done.stderr.decode()}"
    return done.stdout.decode()


@pytest.fixture(scope="module")
def sheets(tmp_path_factory):
    directory = tmp_path_factory.mktemp("sheets")
    done = subprocess.run([BUILD / "tests/test_sheet", "sheets"], env={**os.environ, "TAILOR_SHEETS": str(directory)},
                          capture_output=True, text=True)
    assert done.returncode == 0, done.stdout + done.stderr
    return directory


def facts(sheets, man):
    """Edges as (piece, edge) -> (cubics, length), and the four points of each coat's fold."""
    edges, coats = {}, []
    for line in (sheets / f"{man}.facts").read_text().splitlines():
        kind, *words = line.split()
        if kind == "edge":
            edges[words[0], words[1]] = int(words[2]), float(words[3])
        else:
            coats.append(np.array(words, float).reshape(4, 2))
    return edges, coats


def cubics_of(d):
    """A path's segments as arrays of four points, from SVG's absolute M, L, C and Z."""
    found, start, here = [], None, None
    for command, numbers in re.findall(r"([MLCZ])([^MLCZ]*)", d):
        p = np.array(re.findall(r"-?[\d.]+", numbers), float).reshape(-1, 2)
        if command == "M":
            start = here = p[0]
            continue
        q = {"L": lambda: p, "C": lambda: p, "Z": lambda: [start]}[command]()
        if command == "C":
            found.append(np.array([here, *q]))
        elif np.hypot(*(q[-1] - here)) > 1e-3 or command == "L":
            found.append(np.array([here, here + (q[-1] - here) / 3, here + 2 * (q[-1] - here) / 3, q[-1]]))
        here = q[-1]
    return found


def points_of(cubics, steps=64):
    t = np.linspace(0, 1, steps + 1)[:, None]
    return np.vstack([(1 - t) ** 3 * c[0] + 3 * t * (1 - t) ** 2 * c[1] + 3 * t * t * (1 - t) * c[2] + t ** 3 * c[3]
                      for c in cubics])


def length_of(cubics):
    return sum(np.hypot(*np.diff(points_of([c], 400), axis=0).T).sum() for c in cubics)


def drawn_in(pdf):
    """What poppler finds stroked on a page: (weight in mm, dashed, segments in mm)."""
    svg = run("pdftocairo", "-svg", "-noshrink", "-nocenter", pdf, "-")
    for path in ElementTree.fromstring(svg).iter(SVG + "path"):
        style = path.get("style", "")
        weight = re.search(r"stroke-width:([\d.]+)", style)
        if weight:
            assert path.get("transform") is None
            yield float(weight[1]) * MM, "dasharray" in style, [c * MM for c in cubics_of(path.get("d"))]


@pytest.fixture(scope="module", params=["poppler", "librsvg"])
def read(request, sheets, tmp_path_factory):
    """Reads a sheet's lines: from the PDF with poppler, or from the SVG as librsvg draws it."""
    def lines(name):
        if request.param == "poppler":
            return list(drawn_in(sheets / f"{name}.pdf"))
        pdf = tmp_path_factory.mktemp("drawn") / "sheet.pdf"
        run("rsvg-convert", "-f", "pdf", "-o", pdf, sheets / f"{name}.svg")
        return list(drawn_in(pdf))
    return lines


def near(value, expected, within):
    return abs(value - expected) <= within


def square_in(lines):
    """The one closed square path of the heading."""
    squares = [c for weight, dashed, c in lines if near(weight, SQUARE, 0.01) and not dashed and len(c) == 4
               and near(length_of(c), 400, 20)]
    assert len(squares) == 1
    return squares[0]


def outlines_in(lines, edges):
    """The outlines in the order of the pieces, those drawn with as many segments as the pieces have."""
    pieces = list(dict.fromkeys(piece for piece, _ in edges))
    counts = [sum(n for (owner, _), (n, _) in edges.items() if owner == piece) for piece in pieces]
    found = [c for weight, dashed, c in lines if near(weight, OUTLINE, 0.01) and not dashed and len(c) > 1]
    assert [len(c) for c in found] == counts
    return dict(zip(pieces, found))


@pytest.mark.parametrize("man", MEN)
def test_true_size(read, sheets, man):
    """The test square and every seam, measured by another program, within 0.1 mm (they come out within 0.01)."""
    lines = read(f"{man}-pattern")
    for side in square_in(lines):
        assert near(length_of([side]), 100, 0.01)
    edges, _ = facts(sheets, man)
    for piece, outline in outlines_in(lines, edges).items():
        at = 0
        for (owner, _), (count, length) in edges.items():
            if owner == piece:
                assert near(length_of(outline[at:at + count]), length, 0.01)
                at += count
        assert at == len(outline)


@pytest.mark.parametrize("man", MEN)
def test_pieces_lie_apart(read, sheets, man):
    lines = read(f"{man}-pattern")
    shapes = [Polygon(points_of(c)) for c in outlines_in(lines, facts(sheets, man)[0]).values()]
    shapes.append(Polygon(points_of(square_in(lines))))
    for i, shape in enumerate(shapes):
        assert shape.is_valid and shape.area > 1000
        for other in shapes[:i]:
            assert shape.distance(other) > 25


def groups(root):
    """All groups with a title, by id, as (title, group)."""
    found = {}
    for group in root.iter(SVG + "g"):
        if group.get("id"):
            assert group.get("id") not in found
            found[group.get("id")] = group.find(SVG + "title").text, group
    return found


@pytest.mark.parametrize("man", MEN)
def test_svg_has_titled_groups_and_real_text(sheets, man):
    root = ElementTree.parse(sheets / f"{man}-pattern.svg").getroot()
    width, height = (float(number) for number in root.get("viewBox").split()[2:])
    assert (root.get("width"), root.get("height")) == (f"{width:g}mm", f"{height:g}mm")
    assert root.find(SVG + "title").text == TITLE
    found = groups(root)
    pieces = list(dict.fromkeys(piece for piece, _ in facts(sheets, man)[0]))
    assert pieces == ["back", "sidebody", "forepart", "topsleeve", "undersleeve", "under_collar"]
    for name in pieces:
        words = name.replace("_", " ")
        piece = next(group for key, (title, group) in found.items() if title == words)
        assert [g.find(SVG + "title").text for g in piece.findall(SVG + "g")] == [
            f"{words}: outline", f"{words}: marks", f"{words}: labels"]
        texts = [text.text for text in piece.iter(SVG + "text")]
        assert words in texts and "cut 2, mirrored" in texts
        assert any(re.fullmatch("wearer's (left|right), face up", text) for text in texts)
        for (owner, edge), (_, length) in facts(sheets, man)[0].items():
            if owner == name:  # every seam says its name and its length
                label = f"{edge.replace('_', ' ')} {length:.1f}".removesuffix(".0") + " mm"
                assert label in texts


def label_boxes(root, ids):
    """The boxes of all texts below some groups, from base line to capitals, at 0.57 em a letter (the mean of DejaVu
    Sans)."""
    boxes = []
    for key in ids:
        for text in groups(root)[key][1].iter(SVG + "text"):
            size, x, y = (float(text.get(name)) for name in ("font-size", "x", "y"))
            wide = 0.57 * size * len(text.text)
            left = {"middle": x - wide / 2, "end": x - wide, None: x}[text.get("text-anchor")]
            shape = box(left, y - 0.7 * size, left + wide, y)
            turn = re.match(r"rotate\((\S+) ", text.get("transform", ""))
            boxes.append((text.text, shapely.affinity.rotate(shape, float(turn[1]) if turn else 0, origin=(x, y))))
    return boxes


@pytest.mark.parametrize("man", MEN)
def test_labels_overlap_nothing(sheets, man):
    root = ElementTree.parse(sheets / f"{man}-pattern.svg").getroot()
    ids = [key for key in groups(root) if key.endswith("-labels")]
    boxes = label_boxes(root, ids)
    assert len(boxes) > 60
    for i, (text, shape) in enumerate(boxes):
        for other_text, other in boxes[:i]:
            assert not shape.intersects(other), (text, other_text)
    lines = [LineString(points_of(cubics_of(path.get("d")))) for path in root.iter(SVG + "path") if path.get("d")]
    for text, shape in boxes:
        for line in lines:
            assert not shape.intersects(line), text
    page = box(0, 0, *(float(number) for number in root.get("viewBox").split()[2:]))
    assert all(page.contains(shape) for _, shape in boxes)


def test_pdf_is_one_page_of_the_whole_size(sheets):
    for man in MEN:
        for sheet in ("pattern", "fronts"):
            info = dict(re.findall(r"(?m)^([\w ]+):\s+(.*)$", run("pdfinfo", sheets / f"{man}-{sheet}.pdf")))
            size = [float(number) * MM for number in re.findall(r"[\d.]+", info["Page size"])]
            svg = ElementTree.parse(sheets / f"{man}-{sheet}.svg").getroot().get("viewBox").split()[2:]
            assert info["Pages"] == "1" and info["Title"] == TITLE
            assert "CreationDate" not in info and "ModDate" not in info
            assert all(near(a, float(b), 0.01) for a, b in zip(size, svg))


def test_pdf_text_can_be_read(sheets):
    text = " ".join(run("pdftotext", sheets / "regular-pattern.pdf", "-").split())
    for words in (TITLE, "forepart", "topsleeve", "wearer's right, face up", "cut 2, mirrored", "test square", "100 mm",
                  "3 15/16 in", "no seam allowance", "Edition 1 of the drafting rules", "break line", "hip pocket"):
        assert words in text
    text = " ".join(run("pdftotext", sheets / "regular-fronts.pdf", "-").split())
    for words in (TITLE, *FASTENINGS, "scale 1 : 8"):
        assert words in text
    fonts = run("pdffonts", sheets / "regular-pattern.pdf").splitlines()[2:]
    assert len(fonts) == 2
    for line in fonts:  # embedded, a subset, mapped to Unicode
        assert re.search(r"\byes +yes +yes\b", line)


def coverage(coat, level):
    """From the front of the scye to the break line, or to the plumb front edge below the break point."""
    stand, point, scye, _ = coat
    share = max(0, (level - point[1]) / (stand[1] - point[1]))
    return point[0] + share * (stand[0] - point[0]) - scye[0]


def in_eighths(mm):
    parts = math.floor(mm / 25.4 * 8 + 0.5)
    whole, rest = divmod(parts, 8)
    over = math.gcd(rest, 8)
    return f"{whole} in" if rest == 0 else f"{whole} {rest // over}/{8 // over} in"


@pytest.mark.parametrize("man", MEN)
def test_fronts_show_the_coverage(read, sheets, man):
    """What is written, and what poppler and librsvg measure on the dimension lines at 1 : 8."""
    root = ElementTree.parse(sheets / f"{man}-fronts.svg").getroot()
    found = groups(root)
    _, coats = facts(sheets, man)
    expected = []
    for i, (name, coat) in enumerate(zip(FASTENINGS, coats)):
        title, group = found[f"coat-{i + 1}"]
        assert title == name and name in [text.text for text in group.iter(SVG + "text")]
        both = [coverage(coat, coat[2][1]), coverage(coat, coat[3][1])]
        if coat[3][1] < coat[1][1]:  # below the break point the edge may have begun to turn away: a few mm at most
            assert name in ("three-button", "roll-by-make")
        texts = [text.text for text in found[f"coat-{i + 1}-coverage"][1].iter(SVG + "text")]
        written = [float(text.removesuffix(" mm")) for text in texts[1::2]]
        assert near(written[0], both[0], 0.5001) and near(written[1], both[1], 3)
        assert texts[0] == in_eighths(both[0])
        expected += [both[0], both[1]]
    measured = [8 * length_of(c) for weight, dashed, c in read(f"{man}-fronts")
                if near(weight, THIN, 0.01) and not dashed and len(c) == 1 and 8 * length_of(c) > 60]
    assert len(measured) == len(expected)
    for value, wanted in list(zip(measured, expected))[::2]:
        assert near(value, wanted, 0.1)
    two, three = coverage(coats[1], coats[1][3][1]), coverage(coats[2], coats[2][3][1])
    assert three > two + 15  # the higher break point covers more, visibly


def test_fronts_hide_what_is_covered(sheets):
    """Buttons seen down the front: one, two, three, three, and with the roll by cut two and a hole on the lapel."""
    root = ElementTree.parse(sheets / "regular-fronts.svg").getroot()
    found = groups(root)
    seen = []
    for i in range(5):
        paths = found[f"coat-{i + 1}-fastening"][1].findall(SVG + "path")
        holes = [path for path in paths if path.get("stroke-width") == "0.4"]
        rims = [path for path in paths if path.get("fill") == "#ffffff"]
        seen.append((len(rims), len(holes)))
    assert seen == [(1, 1), (2, 2), (3, 3), (3, 3), (2, 3)]


def png_rows(path):
    """Size of a PNG, and its pixels as rows of RGB, by the format's own description (filters 0 to 4)."""
    data = path.read_bytes()
    assert data[:8] == b"\x89PNG\r\n\x1a\n"
    at, packed = 8, b""
    while at < len(data):
        size, kind = struct.unpack(">I4s", data[at:at + 8])
        if kind == b"IHDR":
            width, height, depth, colour = struct.unpack(">IIBB", data[at + 8:at + 18])
        packed += data[at + 8:at + 8 + size] if kind == b"IDAT" else b""
        at += 12 + size
    assert (depth, colour) == (8, 2)
    return width, height, zlib.decompress(packed)


def test_png_is_for_looking(sheets):
    for man in MEN:
        for sheet in ("pattern", "fronts"):
            width, height, pixels = png_rows(sheets / f"{man}-{sheet}.png")
            box_width, box_height = (float(number) for number in ElementTree.parse(
                sheets / f"{man}-{sheet}.svg").getroot().get("viewBox").split()[2:])
            assert max(width, height) == 2400
            assert near(min(width, height) / 2400, min(box_width, box_height) / max(box_width, box_height), 1 / 2400)
            assert len(pixels) == height * (3 * width + 1)
            assert len(set(pixels)) > 10  # something is drawn
