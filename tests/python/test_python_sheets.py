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
    assert ">Mr Example, order 12 - for toile only</text>" in drawn.to_svg(client="Mr Example", title="order 12")
    left = drawn.to_svg(client="Mr Example", title="order 12", anonymous=True)
    assert ">order 12 - for toile only</text>" in left and "Example" not in left
    assert b"order 12" in drawn.to_pdf(client="Mr Example", title="order 12", anonymous=True)


MEASURED = {"chest_girth": 1016, "waist_girth": 890, "seat_girth": 1010, "back_waist_length": 445, "arm_length": 602,
            "back_width": 400, "shoulder_slope": 21}
SHEETS = {
    "pattern": lambda coat: coat,
    "fronts": lambda coat: tg.compare(coat),
    "overlay": lambda coat: tg.Overlay(tg.draft(**MEASURED), coat),
    "canvas": lambda coat: tg.canvas(tg.draft(**coat.given, make=True), iterations=1),
    "section": lambda coat: coat.roll_section,
}


@pytest.mark.parametrize("sheet", SHEETS)
def test_for_toile_only(coat, sheet):
    """By itself, anonymous or not; and not on the sheets of a man who is measured."""
    assert " - for toile only</text>" in SHEETS[sheet](coat).to_svg()
    assert ">order 12 - for toile only</text>" in SHEETS[sheet](coat).to_svg(
        title="order 12", client="Mr Example", anonymous=True
    ).replace("Section of the roll: ", "")
    assert "toile" not in SHEETS[sheet](tg.draft(**MEASURED)).to_svg(title="order 12")


def test_cautions_of_the_coat():
    coat = tg.draft(chest_girth=1100, upper_arm_girth=420)
    sentences = [caution.sentence for caution in coat.cautions.values()]
    assert len(sentences) == 2
    for drawn in (coat, coat.roll_section):
        assert all(drawn.to_svg().count(f">{sentence}</text>") == 1 for sentence in sentences)


def test_a_coat_that_fails_is_not_drawn(coat):
    failing = tg.measure(coat, like=tg.draft(chest_girth=1100))
    for draw in (failing.to_svg, failing.to_pdf, failing.to_png):
        with pytest.raises(tg.CheckError) as refused:
            draw()
        assert refused.value.pattern is failing
    assert failing._repr_svg_() is None and "fails" in repr(failing)
    with pytest.raises(tg.CheckError):
        failing.roll_section.to_svg()


def test_what_is_graded_or_read_from_a_toile_is_one(coat, tmp_path):
    measured = tg.draft(**MEASURED)
    for shapes in (coat, measured):
        tg.write_pattern(shapes, tmp_path / "pattern.json")
        again = tg.read_pattern(tmp_path / "pattern.json")
        assert again.toile_only is shapes.toile_only is (shapes is coat)
        assert (" - for toile only</text>" in again.to_svg()) is (shapes is coat)
    document = (tmp_path / "pattern.json").read_text()
    (tmp_path / "bad.json").write_text(document.replace('"for_toile": false', '"for_toile": 0'))
    with pytest.raises(tg.CallError, match="for_toile"):
        tg.read_pattern(tmp_path / "bad.json")


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
