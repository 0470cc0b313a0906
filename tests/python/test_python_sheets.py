"""Sheets from Python: the bytes of the command line, into memory, files and streams; what a notebook shows."""
import io
import re
import xml.etree.ElementTree

import pytest

import built
from built import tg


@pytest.fixture(scope="module")
def coat():
    return tg.draft(chest_girth=1016)


def test_kinds(coat):
    svg, pdf, png = coat.to_svg(), coat.to_pdf(), coat.to_png()
    assert isinstance(svg, str) and pdf.startswith(b"%PDF") and png.startswith(b"\x89PNG")
    root = xml.etree.ElementTree.fromstring(svg)
    assert root.get("width").endswith("mm")
    assert {"forepart", "topsleeve"} <= {text.text for text in root.iter("{http://www.w3.org/2000/svg}title")}
    assert coat.to_svg() == svg and coat.to_pdf() == pdf


def test_as_the_command_line(coat, tmp_path):
    (tmp_path / "card.ini").write_text("[measures]\nchest_girth = 1016\n")
    built.run([built.BUILD / "cli/tailorgeom", "compare", "card.ini", "-o", "fronts.svg"], cwd=tmp_path)
    ours, theirs = tg.compare({"chest_girth": 1016}).to_svg(), (tmp_path / "fronts.svg").read_text()
    drawn = [re.findall(r'<path [^>]*d="([^"]*)"', text) for text in (ours, theirs)]
    assert drawn[0] == drawn[1] and len(drawn[0]) > 50


def test_files(coat, tmp_path):
    assert coat.to_svg(tmp_path / "a.svg", title="Mr Example <&>") is None
    assert "Mr Example &lt;&amp;&gt;" in (tmp_path / "a.svg").read_text()
    stream = io.BytesIO()
    assert coat.to_png(stream) is None and stream.getvalue() == coat.to_png()
    coat.to_pdf(str(tmp_path / "a.pdf"), title="na\u00efve \ud800")
    assert (tmp_path / "a.pdf").read_bytes().startswith(b"%PDF")
    with pytest.raises(OSError):
        coat.to_svg(tmp_path / "no" / "a.svg")


@pytest.mark.parametrize(
    "make", [lambda coat: coat, lambda coat: tg.compare(coat), lambda coat: tg.Overlay(coat, coat)]
)
def test_client_and_title(coat, make):
    drawn = make(coat)
    assert ">Mr Example, order 12</text>" in drawn.to_svg(client="Mr Example", title="order 12")
    left = drawn.to_svg(client="Mr Example", title="order 12", anonymous=True)
    assert ">order 12</text>" in left and "Example" not in left
    assert b"order 12" in drawn.to_pdf(client="Mr Example", title="order 12", anonymous=True)


def test_units(coat):
    assert " in" in coat.to_svg(unit="in8") and coat.to_svg(unit="in8") != coat.to_svg()
    with pytest.raises(ValueError, match="in8"):
        coat.to_svg(unit="furlong")


@pytest.mark.parametrize("make", [lambda coat: coat, lambda coat: tg.compare(coat)])
def test_notebook(coat, make):
    svg = make(coat)._repr_svg_()
    root = xml.etree.ElementTree.fromstring(svg)
    assert root.get("width") == "100%" and root.get("height") is None and root.get("viewBox")


def test_the_fronts_refuse_too_many(coat):
    many = tg.compare({"chest_girth": 1016}, by={"lapel_width": [80 + 0.1 * i for i in range(101)]})
    with pytest.raises(tg.CallError):
        many.to_svg()
