"""The workroom ticket: its text, its page read back by poppler, its numbers against those of `draft --json`."""
import collections
import json
import os
import re
import subprocess
import unicodedata

import pytest
from shapely.geometry import LinearRing, LineString, Point

from client_card import CARD

BUTTONINGS = ["one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut", "double-four", "double-six"]
HEADINGS = ["Style", "Finished measures", "Pieces", "Buttons and holes", "Canvas and roll", "Pads", "Ease and iron",
            "Inlays and turn-ups", "Assumed, not given (mm)"]
SIDED = """
[figure]
stoop = 4
neck_length = 2
low_shoulder_left = 12
low_shoulder_right = 3
forward_shoulder_left = 4
prominent_blades_right = 3
chest_fullness = 3
belly = 2
sway_back = 3
low_hip_left = 6
arm_pitch_left = 5
"""
BY_MM = 25.4 / 72


def styled(**style):
    """The card with other choices of style, and a figure whose sides differ when asked."""
    figure = SIDED if style.pop("sided", False) else ""
    text = CARD.replace("buttoning = two-button\n", "")
    return text + "".join(f"{key} = {value}\n" for key, value in {"buttoning": "two-button", **style}.items()) + figure


def longest():
    """Everything that can make a ticket long: sides that differ, six buttons, texts as long as a card takes, a client
    who was not measured, and fittings that do not count."""
    texts = {key: f"{key} " + "of Ägir & wide words " * 8 for key in ("name", "order", "note")}
    fittings = "".join(f"\n[fitting {i}]\ndate = 2026-11-{i % 28 + 1:02}\nleft_out = yes\nlapel_width = +1 mm\n"
                       for i in range(1, 15))
    return ("[client]\ndate = some day in the spring\n" + "".join(f"{k} = {v}\n" for k, v in texts.items())
            + "[measures]\nchest_girth = 1016\narm_length_left = 600\narm_length_right = 590\n[style]\n"
            "buttoning = double-six\nclosing = right-over-left\npocket_slant = 25\n"
            "hole_face_1 = both\nhole_face_2 = in\n"
            + SIDED + fittings)


def sections_of(text):
    """{heading: {label: value}} of the printed ticket; wrapped values are joined, groups are labels too."""
    found, label = {}, None
    for block in text.split("\n\n")[1:]:
        lines = block.splitlines()
        rows = found.setdefault(lines[0], collections.OrderedDict())
        for line in lines[1:]:
            row = re.match(r" {1,2}(\S.*?)(?: {2,}| (?=\d))(\S.*)$", line)
            if line.startswith(" " * 20):
                rows[label] += " " + line.strip()
            elif row:
                label = row[1]
                rows[label] = row[2]
            else:
                rows.setdefault("", []).append(line.strip())
    return found


def lines_of(document):
    return [line for section in document["sections"] for line in section["lines"]]


def line(document, heading, label):
    found = [one for section in document["sections"] if section["heading"] == heading
             for one in section["lines"] if one.get("label") == label]
    assert len(found) == 1, (heading, label, found)
    return found[0]


def ticket(cli, card, *more, **options):
    return json.loads(cli.good("ticket", card, "--json", *more, **options))


def cautions(document):
    return [one["sentence"] for one in document["cautions"]]


def words_of(text):
    return unicodedata.normalize("NFC", text).replace("\u00a0", " ").split()


# ---- text


def test_what_is_printed(cli, card):
    out = cli.good("ticket", card)
    assert out.splitlines()[0] == "Mr Orrin Fallowell, order 77"
    assert "Edition 1 of the drafting rules, tailorgeom " in out and out.endswith("\n\nwrote ticket.pdf\n")
    assert all(len(one) <= 80 for one in out.splitlines()), max(out.splitlines(), key=len)
    told = sections_of(out.removesuffix("\nwrote ticket.pdf\n"))
    assert list(told) == HEADINGS
    assert told["Style"]["buttoning"] == "two-button" and told["Style"]["vents"] == "side, overlap 40 mm"
    measures = told["Finished measures"]
    assert measures["chest"] == "1126 mm round" and measures["cuff"] == "142.8 mm laid flat"  # 1016 + 110; 92 + 50.8
    assert measures["collar"] == "stand 30 mm, fall 45 mm"
    assert told["Pieces"]["forepart"] == "2, mirrored" and told["Pieces"]["breast welt"] == "1 left"
    assert told["Pieces"]["top collar"] == "1, on the fold" and told["Pieces"]["under collar"] == "2, mirrored"
    assert told["Buttons and holes"]["front buttons"] == "2, 20.3 mm (32 ligne)"
    assert told["Buttons and holes"]["cuff buttons"].startswith("four each, 15.2 mm (24 ligne); first 38 mm above ")
    inlays = told["Inlays and turn-ups"]
    assert inlays["back seam"] == "25 mm" and inlays["hem turned up"] == "45 mm"
    assert "for toile only" not in out.lower() and "! " not in out


def test_json_has_the_same_lines(cli, card):
    text, document = cli.good("ticket", card), ticket(cli, card)
    assert [section["heading"] for section in document["sections"]] == HEADINGS
    assert (document["format"], document["format_version"], document["edition"]) == ("tailorgeom-ticket", 2, 1)
    flat = words_of(text)
    for one in lines_of(document):
        words = words_of(one.get("label", "") + " " + one["text"])
        assert any(flat[i:i + len(words)] == words for i in range(len(flat))), one


WRITTEN_FROM = {
    "Style": {"making": "making", "buttoning": "buttoning", "closing": "closing", "lapel": "lapel",
              "front cut": "front_cut", "vents": "vents side_vent_overlap", "hip pockets": "hip_pockets pocket_slant",
              "breast pocket": "welt_height", "sleeve vent": "sleeve_vent", "cuff buttons": "cuff_buttons"},
    "Finished measures": {"chest": "finished_chest", "waist": "finished_waist", "seat": "finished_seat",
                          "length": "finished_length", "front hem": "front_hem_below_back front_hem_below_back_right",
                          "sleeve": "sleeve_length sleeve_length_right", "cuff": "cuff_width",
                          "cross-back": "cross_back_finished", "cross-chest": "cross_chest_finished",
                          "front shoulder": "front_shoulder_length front_shoulder_length_right",
                          "lapel width": "lapel_width", "collar": "collar_stand collar_fall"},
    "Canvas and roll": {"break line": "break_length", "bridle": "bridle_length bridle_taken_in bridle_drawn_in",
                        "angle of the canvas": "canvas_angle",
                        "turn of the facing": "facing_turn", "turn of the top collar": "top_collar_turn"},
    "Pads": {"shoulder pad": "shoulder_pad", "extra pad": "extra_pad extra_pad_right"},
    "Ease and iron": {"back shoulder": "shoulder_ease", "back seam": "blade_ease", "crown": "crown_fullness",
                      "forearm": "forearm_stretch", "crease of the collar": "crease_drawn_in",
                      "leaf of the collar": "leaf_stretch", "facing": "facing_lapel_long"},
    "Inlays and turn-ups": {"centre back": "inlay_centre_back", "back neck": "inlay_back_neck",
                            "back shoulder": "inlay_back_shoulder", "back seam": "inlay_back_seam",
                            "sidebody": "inlay_sidebody", "front shoulder": "inlay_front_shoulder",
                            "back of scye": "inlay_scye_back", "gorge": "inlay_gorge",
                            "front edge": "inlay_front_edge", "hindarm": "inlay_hindarm",
                            "forearm": "inlay_forearm", "hem turned up": "hem_turn_up",
                            "cuff turned up": "cuff_turn_up"},
}


def test_each_line_is_written_from_what_it_names(cli):
    document = ticket(cli, cli.card(styled(sided=True, pocket_slant="25", buttoning="double-six")))
    known = {row["name"] for row in json.loads(cli.good("list", "fields", "--json"))["rows"]}
    for heading, rows in WRITTEN_FROM.items():
        section = next(one["lines"] for one in document["sections"] if one["heading"] == heading)
        found = {one["label"]: " ".join(name for table in ("fields", "constants", "quantities")
                                        for name in one.get(table, {})) for one in section}
        expected = {label: names for label, names in rows.items() if names != "canvas_angle" or names in known}
        assert {label: set(names.split()) for label, names in found.items()} == {
            label: set(names.split()) for label, names in expected.items()}


@pytest.mark.parametrize("buttoning", BUTTONINGS)
@pytest.mark.parametrize("sided", [False, True])
def test_numbers_are_those_of_the_draft(cli, buttoning, sided):
    """Each value on the ticket is in the draft's JSON, bit for bit; and it is what its line says."""
    card = cli.card(styled(buttoning=buttoning, sided=sided))
    document, draft = ticket(cli, card), json.loads(cli.good("draft", card, "--json"))
    rows = {**draft, "fields": {name: field["value"] for name, field in draft["fields"].items()}}
    seen = 0
    for one in lines_of(document):
        for table in ("fields", "constants", "quantities"):
            for name, value in one.get(table, {}).items():
                seen += 1
                assert value == rows[table][name] and value is not None, (one, name)
                unsigned = f"{abs(value):.2f}" if isinstance(value, float) else value
                numbers = [float(number) for number in re.findall(r"\d+(?:\.\d+)?", one["text"])]
                if isinstance(value, float):
                    assert any(abs(float(unsigned) - number) < 0.06 for number in numbers), (one, name)
                else:
                    assert value in one["text"]
    assert seen > 60


@pytest.mark.parametrize("sided", [False, True])
def test_pieces_are_those_of_the_pattern(cli, sided):
    card = cli.card(styled(sided=sided))
    document, draft = ticket(cli, card), json.loads(cli.good("draft", card, "--json"))
    pieces = {piece["name"]: piece for piece in document["pieces"]}
    for piece in draft["pieces"]:
        mine = pieces[piece["name"]]
        assert (mine["cloth"], mine["cut"], mine["mirrored"]) == (piece["cloth"], piece["cut"], piece["mirrored"])
    cut = collections.Counter()
    for piece in document["pieces"]:
        cut[piece["cloth"].replace("_", " ")] += piece["cut"]
    section = next(one["lines"] for one in document["sections"] if one["heading"] == "Pieces")
    told, cloth = collections.Counter(), None
    for one in section:
        if one["text"].endswith(" in all"):
            cloth = one["label"]
            assert one["text"] == f"{cut[cloth]} in all"
        else:
            told[cloth] += sum(map(int, re.findall(r"\d+", one["text"])))
    assert told == cut and {"cloth", "lining", "canvas", "melton"} <= set(cut)
    alike = [one["label"] for one in section if one["text"] == "1 right, 1 left: not alike"]
    assert ("forepart" in alike) == sided
    assert ("Left and right are not alike" in " ".join(cautions(document))) == sided
    assert {piece["side"] for piece in document["pieces"] if piece["mirrored"]} == {"both"}


def test_sides_that_differ(cli):
    card = cli.card(CARD.replace("arm_length = 602", "arm_length_left = 602\narm_length_right = 590")
                    + "[figure]\nlow_shoulder_left = 12\nstoop = 5\nbelly = 0\n")
    document = ticket(cli, card)
    assert re.fullmatch(r"left ([\d.]+) mm, right ([\d.]+) mm", line(document, "Finished measures", "sleeve")["text"])
    sleeve = line(document, "Finished measures", "sleeve")["quantities"]
    assert sleeve["sleeve_length"] - sleeve["sleeve_length_right"] == pytest.approx(12, abs=0.01)
    assert line(document, "Figure", "low shoulder")["text"] == "left 12 mm, right 0 mm"
    assert line(document, "Figure", "stoop")["text"] == "5 mm"
    assert line(document, "Pads", "extra pad")["text"] == "left 6 mm, right 0 mm"
    assumed = document["sections"][-1]["lines"]
    assert "low shoulder 0" in assumed[1]["text"]  # it holds for the right side
    both = ticket(cli, cli.card(CARD + "[figure]\nlow_shoulder_left = 12\nlow_shoulder_right = 2\n"))
    assert not re.search(r"low shoulder \d", both["sections"][-1]["lines"][1]["text"])
    figure = [one["label"] for section in document["sections"] if section["heading"] == "Figure"
              for one in section["lines"]]
    assert figure == ["stoop", "low shoulder"]


# ---- holes


def edge_beyond(draft, number):
    """How far the edge of the forepart lies beyond a hole's eye, level: by GEOS, on the outline in short chords."""
    piece = next(one for one in draft["pieces"] if one["name"] == "forepart")
    weights = [((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t * t * (1 - t), t ** 3) for t in (i / 200 for i in range(200))]
    points = [[sum(w * point[axis] for w, point in zip(weight, cubic)) for axis in (0, 1)]
              for cubic in piece["outline"] for weight in weights]
    mark = next(one for one in piece["marks"] if one["name"] == f"hole_{number}")
    eye, inner = mark["path"][0][0], mark["path"][-1][3]
    beyond = LineString([eye, [eye[0] + 500, eye[1]]])
    return Point(eye).distance(beyond.intersection(LinearRing(points))), eye[0] - inner[0]


@pytest.mark.parametrize("buttoning", BUTTONINGS)
def test_holes(cli, buttoning):
    card = cli.card(styled(buttoning=buttoning))
    document, draft = ticket(cli, card), json.loads(cli.good("draft", card, "--json"))
    quantities = draft["quantities"]
    assert len(document["holes"]) == quantities["hole_count"]
    assert any(abs(hole["from_edge"] - quantities["hole_from_edge"]) < 1e-6 for hole in document["holes"])
    faces, shows = [None, "out", "in", "both"], [None, "good", "reverse"]
    for hole in document["holes"]:
        n = hole["number"]
        from_edge, length = edge_beyond(draft, n)
        assert hole["from_edge"] == pytest.approx(from_edge, abs=0.01)
        assert hole["length"] == pytest.approx(length, abs=1e-9)
        assert hole["face"] == faces[int(quantities[f"hole_{n}_face"])] and hole["face_given"] is False
        assert hole["shows"] == shows[int(quantities[f"hole_{n}_shows"])]
        rolled = quantities[f"hole_{n}_shows_rolled"]
        assert hole["shows_rolled"] == (None if rolled is None else shows[int(rolled)])
        label = f"hole {n}" + (", top" if n == 1 and len(document["holes"]) > 1 else "")
        text = line(document, "Buttons and holes", label)["text"]
        assert f"worked face {hole['face']} (by buttoning)" in text and f"eye {from_edge:.1f}".rstrip("0") in text
        assert ("rolled through" in text) == (rolled is not None)
    buttons = line(document, "Buttons and holes", "front buttons")["text"]
    show = {"double-four": "4: 2 to fasten, 2 for show", "double-six": "6: 2 to fasten, 4 for show"}.get(buttoning)
    assert buttons.startswith(show or f"{len(document['holes'])}, 20.3 mm (32 ligne)")


def test_a_face_that_was_given(cli):
    document = ticket(cli, cli.card(styled(buttoning="roll-by-make", hole_face_2="in")))
    assert [hole["face_given"] for hole in document["holes"]] == [False, True, False]
    assert "worked face in (given)" in line(document, "Buttons and holes", "hole 2")["text"]


@pytest.mark.parametrize("closing", ["left-over-right", "right-over-left"])
def test_holes_are_in_the_front_that_lies_on_top(cli, closing):
    """Where the sides differ there are two foreparts, the left a mirror image: either is read from its own edge."""
    card = cli.card(styled(sided=True, closing=closing, front_cut="square"))
    document = ticket(cli, card)
    from_edge = json.loads(cli.good("draft", card, "--json"))["quantities"]["hole_from_edge"]
    assert [hole["from_edge"] for hole in document["holes"]] == pytest.approx([from_edge, from_edge], abs=0.01)
    told = "Closes right over left: the holes are in the right front." in cautions(document)
    assert told == (closing == "right-over-left")


# ---- cautions


def test_cautions_of_the_roll(cli):
    plain = cautions(ticket(cli, cli.card(styled(buttoning="roll-by-make"))))
    assert len(plain) == 1 and "depends on the make" in plain[0]
    document = ticket(cli, cli.card(styled(buttoning="roll-by-make", hole_face_1="both")))
    quantities = json.loads(cli.good("draft", "card.ini", "--json"))["quantities"]
    assert cautions(document)[0] == plain[0]
    told = re.fullmatch(r"A hole worked on both sides lies in the roll: a stiff bar of ([\d.]+) mm along the break "
                        r"line, its middle ([\d.]+) mm (behind|in front of) the line as drawn\.",
                        cautions(document)[1])
    assert float(told[1]) == pytest.approx(quantities["hole_bar"], abs=0.06)
    signed = float(told[2]) * (-1 if told[3] == "behind" else 1)
    assert signed == pytest.approx(quantities["hole_bar_from_break"], abs=0.06)
    assert ticket(cli, cli.card(styled(buttoning="roll-by-cut")))["cautions"] == []


def test_for_toile_only(cli):
    card = cli.card(CARD.replace("waist_girth = 890\n", ""))
    out = cli.good("ticket", card)
    assert out.startswith("Mr Orrin Fallowell, order 77 - for toile only\n")
    assert "! For toile only. Not measured: waist girth\n" in out
    document = ticket(cli, card)
    assert document["toile_only"] == ["waist_girth"]
    assumed = next(one["lines"] for one in document["sections"] if one["heading"].startswith("Assumed"))
    assert ["(for toile only)" in one["text"] for one in assumed] == [True, False, False, False, False]
    assert re.search(r"waist girth [\d.]+ \(for toile only\)", assumed[0]["text"])


def test_every_assumed_value_is_there(cli):
    card = cli.card("[measures]\nchest_girth = 1016\n")
    fields = json.loads(cli.good("draft", card, "--json"))["fields"]
    terms = {row["name"]: row["term"] for row in json.loads(cli.good("list", "fields", "--json"))["rows"]}
    text = " ".join(one["text"] for section in ticket(cli, card)["sections"]
                    if section["heading"].startswith("Assumed") for one in section["lines"])
    assumed = [name for name, field in fields.items() if field["origin"] == "rule"]
    assert len(assumed) > 50
    for name in assumed:
        value = fields[name]["value"]
        found = re.search(rf"[:,] {re.escape(terms[name])} ([^ ,]+)", text)
        assert found, name
        assert found[1] == value if isinstance(value, str) else abs(float(found[1]) - value) < 0.06, name
    assert text.count(", ") + 5 == len(assumed)  # five groups, nothing else


def test_edition_and_fittings(cli):
    card = cli.card(CARD + "\n[card]\nedition = 2\n[fitting 1]\ndate = 2026-11-20\nlapel_width = +2 mm\n"
                    "[fitting 2]\ndate = 2026-11-25\nleft_out = yes\nlapel_width = +4 mm\n")
    done = cli("ticket", card, "--json")
    document = json.loads(done.out)
    assert done.returncode == 0 and "edition 2" in done.err
    assert document["title"].endswith(", fitting 1")
    assert any("filled in by edition 2" in caution for caution in cautions(document))
    assert "Fittings left out: 2 of 2026-11-25" in cautions(document)
    assert line(document, "Finished measures", "lapel width")["text"] == "90 mm"


def test_made_to_measure_has_seams_in_place_of_inlays(cli):
    document = ticket(cli, cli.card(styled(making="made-to-measure")))
    assert [section["heading"] for section in document["sections"]][-2] == "Seams and turn-ups"
    assert [one["label"] for one in document["sections"][-2]["lines"]] == ["seams", "hem turned up", "cuff turned up"]
    assert line(document, "Seams and turn-ups", "seams")["text"] == "10 mm"


def test_what_a_coat_lacks_is_left_out(cli):
    document = ticket(cli, cli.card(styled(buttoning="one-button", hip_pockets="none", cuff_buttons="none",
                                           sleeve_vent="plain", vents="none", bridle_drawn_in="0")))
    labels = [one.get("label") for one in lines_of(document)]
    assert "spacing" not in labels and "hole 2" not in labels and labels.count("cuff buttons") == 1
    assert line(document, "Style", "vents")["text"] == "none"
    assert line(document, "Style", "hip pockets")["text"] == "none"
    assert "null" not in json.dumps(document["sections"]) and "nan" not in json.dumps(document["sections"]).lower()


def test_house_and_inches(cli, card):
    (cli.directory / "house.ini").write_text("[house]\ninlay_back_seam = 30\nlapel_width = 92\n")
    document = ticket(cli, card, "--house", "house.ini", "--print", "in")
    assert line(document, "Inlays and turn-ups", "back seam")["text"] == "1 1/8 in"  # 30 mm = 1.18 in
    assert line(document, "Finished measures", "lapel width")["text"] == "3 5/8 in"
    assert line(document, "Inlays and turn-ups", "back seam")["constants"] == {"inlay_back_seam": 30}
    assert line(document, "Buttons and holes", "front buttons")["text"] == "2, 20.3 mm (32 ligne)"
    assert line(document, "Finished measures", "chest")["text"] == "44 3/8 in round"  # 1126 mm = 44.33 in
    assert "lapel width" not in document["sections"][-1]["lines"][-1]["text"]
    assert not re.search(r"\d mm", re.sub(r"\S+ mm \(\d", "", cli.good("ticket", card, "--print", "in")))


# ---- the page


def pdf_of(cli, text, *more):
    cli.good("ticket", cli.card(text), "-o", "page.pdf", *more)
    return cli.directory / "page.pdf"


def run(*command):
    done = subprocess.run([str(word) for word in command], capture_output=True, check=False)
    assert done.returncode == 0 and not done.stderr, (command, done.stderr)
    return done.stdout


def boxes(pdf):
    found = re.findall(r'<line xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)">',
                       run("pdftotext", "-bbox-layout", pdf, "-").decode())
    return [tuple(float(number) * BY_MM for number in one) for one in found]


def test_the_longest_is_no_wider_than_a_terminal(cli):
    out = cli.good("ticket", cli.card(longest()))
    assert all(len(one) <= 80 for one in out.splitlines())
    assert words_of(out)[:2] == ["name", "of"]


@pytest.mark.parametrize("text", [CARD, styled(sided=True, buttoning="double-six"), longest()],
                         ids=["usual", "sided", "longest"])
def test_the_page_says_what_the_ticket_says(cli, text):
    pdf = pdf_of(cli, text)
    info = run("pdfinfo", pdf).decode()
    assert re.search(r"^Pages: +1$", info, re.M) and "(A4)" in info and "CreationDate" not in info
    fonts = run("pdffonts", pdf).decode().splitlines()[2:]
    assert fonts and all(re.search(r" yes yes yes +\d+ +\d+$", font) for font in fonts)  # embedded, readable back
    document = ticket(cli, "card.ini")
    told = [document["title"], *document["notes"]]
    told += [one["sentence"] for one in document["cautions"]]  # as the core says it, on every sheet
    for section in document["sections"]:
        told += [section["heading"], *(one.get("label", "") + " " + one["text"] for one in section["lines"])]
    expected = collections.Counter(words_of(" ".join(told)))
    found = collections.Counter(words_of(run("pdftotext", pdf, "-").decode()))
    again = found - expected
    assert not expected - found
    assert not again or (again.pop("\u2026") == 1 and set(again) <= set(words_of(" ".join(HEADINGS))))


@pytest.mark.parametrize("text", [CARD, styled(sided=True, buttoning="double-six"), longest()],
                         ids=["usual", "sided", "longest"])
def test_nothing_on_the_page_overlaps(cli, text):
    pdf = pdf_of(cli, text)
    lines = boxes(pdf)
    assert len(lines) > 80
    for left, top, right, bottom in lines:
        assert left > 12.5 and right < 197.5 and top > 10 and bottom < 287
    letters = [(left, top + 0.1 * (bottom - top), right, bottom) for left, top, right, bottom in lines]
    for i, a in enumerate(letters):  # a line's box reaches a little above its letters
        for b in letters[:i]:
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1], (a, b)
    pixels = run("pdftoppm", "-r", "60", pdf)
    width, height = map(int, pixels.split(b"\n")[1].split())
    body = pixels[-3 * width * height:]
    assert body[0::3] == body[1::3] == body[2::3]  # grey only


def test_letters_can_be_read(cli):
    """Height of a line of the usual ticket, ascent to descent, is some 1.16 of the letters' size."""
    size = {name: sorted(bottom - top for _, top, _, bottom in boxes(pdf_of(cli, text)))[40]
            for name, text in {"usual": CARD, "longest": longest()}.items()}
    assert size["usual"] / 1.164 > 2.4 and size["longest"] / 1.164 > 1.7, size


def test_same_bytes_each_time(cli, card):
    for name in ("a", "b/"):
        cli.good("ticket", card, "-o", name, env={**os.environ, "TZ": "Pacific/Auckland" if name == "a" else "UTC"})
    assert (cli.directory / "a/ticket.pdf").read_bytes() == (cli.directory / "b/ticket.pdf").read_bytes()
    assert cli.good("ticket", card, "--json") == cli.good("ticket", card, "--json")
