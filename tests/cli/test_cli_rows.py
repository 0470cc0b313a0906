"""`tailorgeom rows`: a table of orders in, a table of quantities out."""
import csv
import io
import json
import os
import random
import re
import subprocess
from decimal import Decimal

import pytest

from table_of_orders import cells, table
from watched import Terminal

WANT = ["--want", "coverage_scye,break_length"]
OWN = ["cautions", "status", "message"]  # the last columns of the output


def rows(cli, text, *arguments, code=0, refused=None, **options):
    """Runs on a table and gives the rows of the output. `refused` of how many are told on standard error."""
    (cli.directory / "in.csv").write_bytes(text if isinstance(text, bytes) else text.encode())
    done = cli("rows", "in.csv", *arguments, **options)
    said = f"tailorgeom: in.csv: {refused} orders refused: the columns status and message say why\n" if refused else ""
    assert (done.returncode, done.err) == (1 if refused else code, said)
    return cells(done.out)


def quantities_by_card(cli, fields, house=None):
    """The same order by `draft --json`: what it measures, or why it was refused."""
    sections = json.loads(cli.good("list", "fields", "--json"))["rows"]
    home = {row["name"]: {"ease": "style"}.get(row["group"], row["group"]) for row in sections}
    lines = [f"[{home[name]}]\n{name} = {value}" for name, value in fields.items() if value]
    merged = {}
    for line in lines:
        head, key = line.split("\n")
        merged.setdefault(head, []).append(key)
    card = cli.card("\n".join("\n".join([head, *keys]) for head, keys in merged.items()) or "[style]", "one.ini")
    done = cli("draft", card, "--json", *(["--house", house] if house else []))
    if done.returncode:
        assert done.returncode == 1
        return None, done.err
    return json.loads(done.out)["quantities"], ""


def test_rows_are_what_draft_gives_to_the_bit(cli):
    """Scalar = rows = CLI: the numbers of the JSON of each card are the cells of its row, and every digit of theirs."""
    dice = random.Random(5)
    head = ["chest_girth", "waist_girth", "seat_girth", "stature", "buttoning", "lapel_width", "balance", "lapel"]
    orders = [
        [
            f"{dice.uniform(880, 1250):.2f}",
            f"{dice.uniform(780, 1100):.1f}",
            "",
            f"{dice.uniform(1600, 1950):.0f} mm",
            dice.choice(["two-button", "Three-Button", "one-button", ""]),
            dice.choice(["", "88", "3 1/2 in"]),
            dice.choice(["", "10", "-5"]),
            dice.choice(["", "peak", "step"]),
        ]
        for _ in range(30)
    ]
    orders[7][0] = "40"
    orders[11][0] = "2000"
    text = "\n".join(",".join(line) for line in [head, *orders]) + "\n"
    found = {True: 0, False: 0}
    done = cli("rows", cli.card(text, "in.csv"))
    for order, row in zip(orders, cells(done.out), strict=True):
        expected, why = quantities_by_card(cli, dict(zip(head, order)))
        found[expected is None] += 1
        if expected is None:
            assert row["status"].startswith("TAILOR_") and row["status"] != "TAILOR_OK"
            assert why.startswith("tailorgeom: one.ini:") and why.endswith(f": {row['message']}\n")
            assert all(not row[name] for name in row if name not in OWN[1:])
            continue
        assert [row[name] for name in OWN] == ["toile_only", "TAILOR_OK", ""]
        assert list(expected) == [name for name in row if name not in OWN]
        for name, value in expected.items():
            assert (float(row[name]) if row[name] else None) == value, name
    assert found[False] > 20 and found[True] >= 2


def test_numbers_are_the_shortest_that_read_back(cli):
    """As Python's own repr writes them, which is proven to be the shortest."""
    text = table(400, bad=0)
    many = [
        row[name] for row in rows(cli, text) for name in row if name not in ("client", "order", *OWN)
    ]
    numbers = [cell for cell in many if cell]
    assert len(numbers) > 15000
    for cell in numbers:
        assert Decimal(cell) == Decimal(repr(float(cell)))
        assert re.fullmatch(r"-?\d+(\.\d*[1-9])?|-?\d\.?\d*e[-+]\d+", cell)
    assert len({len(cell) for cell in numbers}) > 5


def test_want(cli):
    text = "chest_girth\n1016\n"
    assert list(rows(cli, text, *WANT)[0]) == ["coverage_scye", "break_length", *OWN]
    everything = rows(cli, text)[0]
    names = [row["name"] for row in json.loads(cli.good("list", "quantities", "--json"))["rows"]]
    assert list(everything) == [*names, *OWN] == list(rows(cli, text, "--want", "all")[0])
    assert rows(cli, text, *WANT)[0]["coverage_scye"] == everything["coverage_scye"]


@pytest.mark.parametrize(
    "want, sentence",
    [
        ("coverage_scy", "--want coverage_scy: no such quantity: did you mean coverage_scye?"),
        ("thread_count", "--want thread_count: no such quantity; `tailorgeom list quantities` shows them"),
        ("coverage_scye,", "--want takes names of quantities with commas between, or all"),
        ("", "--want takes names of quantities with commas between, or all"),
        ("coverage_scye,coverage_scye", "--want: coverage_scye stands twice"),
    ],
)
def test_wrong_want(cli, want, sentence):
    done = cli("rows", cli.card("chest_girth\n1016\n", "in.csv"), "--want", want)
    assert (done.returncode, done.out, done.err) == (
        2,
        "",
        f"tailorgeom: {sentence}\ntailorgeom: see `tailorgeom help rows`\n",
    )


@pytest.mark.parametrize(
    "arguments, sentence",
    [
        (["--resume"], "--resume goes on with a file: name it with -o"),
        (["--jobs", "0"], "--jobs takes a number from 1 to 256, not 0"),
        (["--jobs", "two"], "--jobs takes a number from 1 to 256, not two"),
        (["-j", "257"], "--jobs takes a number from 1 to 256, not 257"),
        (["-o", "in.csv"], "in.csv cannot be read and written at the same time: give -o another name"),
    ],
)
def test_wrong_usage(cli, arguments, sentence):
    text = "chest_girth\n1016\n"
    done = cli("rows", cli.card(text, "in.csv"), *arguments)
    assert (done.returncode, done.out) == (2, "") and done.err.startswith(f"tailorgeom: {sentence}\n")
    assert cli.files() == ["in.csv"] and (cli.directory / "in.csv").read_text() == text


def test_cells(cli):
    """Lengths with or without unit, choices by name, blanks around, nothing for not given."""
    same = ["40 in", "1016", " 1016 mm ", "101.6 cm", "101.6cm", '"40"""', '"40 0/8"""', "40″"]
    text = "chest_girth,buttoning\n" + "".join(f"{cell},\n" for cell in same)
    assert len({tuple(row.values()) for row in rows(cli, text)}) == 1
    one, two, three = rows(cli, 'chest_girth,buttoning\n1016,three-button\n1016,"THREE-button"\n1016, \n', *WANT)
    assert one == two != three
    default = rows(cli, "chest_girth\n1016\n", *WANT)[0]
    assert default == three


def test_carried_columns_are_untouched(cli):
    """Byte for byte: quotes where they stood, blanks, other alphabets and encodings, line ends within cells."""
    carried = [
        b'"Smith, J."',
        b"007",
        b'"a ""b"" c"',
        b" x ",
        b'"line\r\nend"',
        "日本".encode(),
        b"\xe9t\xe9",
        b"",
        b'""',
        b"'=1+1",
        b";",
        b"TAILOR_OK",
    ]
    text = b"client,chest_girth,note\n" + b"".join(b"%s,1016,%s\n" % (cell, cell) for cell in carried)
    (cli.directory / "in.csv").write_bytes(text)
    expected = b"client,note,half_girth_scye,cautions,status,message\n" + b"".join(
        b"%s,%s,563,toile_only,TAILOR_OK,\n" % (cell, cell) for cell in carried
    )
    for arguments in (["rows", "in.csv"], ["rows", "in.csv", "-o", "out.csv"]):
        done = subprocess.run(
            [cli.path, *arguments, "--want", "half_girth_scye"], cwd=cli.directory, capture_output=True
        )
        assert (done.returncode, done.stderr) == (0, b"")
    assert (cli.directory / "out.csv").read_bytes() == expected
    assert (
        subprocess.run(
            [cli.path, "rows", "in.csv", "--want", "half_girth_scye"], cwd=cli.directory, capture_output=True
        ).stdout
        == expected
    )


def test_the_header_may_be_in_any_order_and_spaced(cli):
    a = rows(cli, "chest_girth,waist_girth\n1016,890\n", *WANT)
    b = rows(cli, 'waist_girth," chest_girth "\n890,1016\n', *WANT)
    assert a == b


def test_byte_order_mark_and_line_ends(cli):
    plain = "chest_girth,client\n1016,a\n1000,b\n"
    expected = rows(cli, plain, *WANT)
    for text in (
        "\ufeff" + plain,
        plain.replace("\n", "\r\n"),
        plain[:-1],
        plain + "\n\r\n\n",
        "\ufeff" + plain.replace("\n", "\r\n")[:-2],
    ):
        assert rows(cli, text, *WANT) == expected, repr(text)
    assert cli("rows", "in.csv", *WANT, "-o", "out.csv").returncode == 0
    assert (cli.directory / "out.csv").read_bytes().startswith(b"client,coverage_scye")


def test_only_a_header(cli):
    assert rows(cli, "chest_girth,client\n", *WANT) == []


def test_standard_input(cli):
    text = table(3000).encode()
    (cli.directory / "in.csv").write_bytes(text)
    done = cli("rows", "-", "-j", "2", input=text)
    assert done.returncode == 1 and done.err.startswith("tailorgeom: standard input: ")
    assert done.out == cli("rows", "in.csv").out
    done = cli("rows", "-", "-o", "out.csv", input=text)
    assert (cli.directory / "out.csv").read_text() == cli("rows", "in.csv").out
    assert cli.files() == ["in.csv", "out.csv"]
    done = cli("rows", "-", "-o", "more.csv", "--resume", input=text)
    assert (done.returncode, done.out) == (1, "") and "--resume reads the table again from its beginning" in done.err


def test_refused_rows(cli):
    """Each with its status and its sentence; none stops the run."""
    text = (
        "client,chest_girth,waist_girth,buttoning,upper_arm_girth\n"
        'a,40,,,\nb,1016,"88,5 cm",,\nc,1016,,two,\nd,,890,,\ne,1016,nan,,\nf,1016,,,\ng,1016,1700,,\nh,1000,,,490\n'
        f'i,1016,{"9" * 300},,\n'
    )
    table_ = rows(cli, text, *WANT, refused="8 of 9")
    assert [row["client"] for row in table_] == list("abcdefghi")
    assert [row["status"] for row in table_] == [
        "TAILOR_WRONG_UNIT",
        "TAILOR_BAD_LENGTH",
        "TAILOR_NOT_A_CHOICE",
        "TAILOR_MISSING",
        "TAILOR_BAD_LENGTH",
        "TAILOR_OK",
        "TAILOR_CONTRADICTION",
        "TAILOR_SLEEVE_UNSOLVED",
        "TAILOR_BAD_LENGTH",
    ]
    sentences = [row["message"] for row in table_]
    assert sentences[0].endswith("did you mean 40 in (1016 mm)?")
    assert sentences[1].startswith("waist_girth") and sentences[1].endswith("(typed: 88,5 cm)")
    assert "two-button" in sentences[2] and sentences[2].endswith("(typed: two)")
    assert "required" in sentences[3] and sentences[5] == "" and "chest_girth" in sentences[6]
    assert "upper_arm_girth" in sentences[7] and "999" not in sentences[8]
    assert all((row["coverage_scye"] == "") == (row["status"] != "TAILOR_OK") for row in table_)


def test_a_line_that_cannot_be_read_is_not_drafted_by_the_house(cli):
    """The house gives a chest: what the client's cell was meant to be is not known for all that."""
    cli.card("[house]\nchest_girth = 1016\n", "house.ini")
    table_ = rows(cli, "chest_girth,waist_girth\n,890\nx,890\n,8x\n", *WANT, "--house", "house.ini", refused="2 of 3")
    assert [row["status"] for row in table_] == ["TAILOR_OK", "TAILOR_BAD_LENGTH", "TAILOR_BAD_LENGTH"]
    assert [bool(row["break_length"]) for row in table_] == [True, False, False]


def test_the_house(cli):
    cli.card("[house]\nblade_ease = 5\nlapel_width = 80\n[style]\nbuttoning = three-button\n", "house.ini")
    with_house = rows(cli, "chest_girth,lapel_width\n1016,\n1016,95\n", "--house", "house.ini")
    for row, lapel in zip(with_house, ("", "95")):
        expected, _ = quantities_by_card(cli, {"chest_girth": "1016", "lapel_width": lapel}, house="house.ini")
        assert {name: float(row[name]) for name in expected if row[name]} == {
            n: v for n, v in expected.items() if v is not None
        }
    cli.card("[house]\nlapel_width = 900\n", "house.ini")
    done = cli("rows", "in.csv", "--house", "house.ini")
    assert (done.returncode, done.out) == (1, "")
    assert re.fullmatch(r"tailorgeom: house.ini:2: lapel_width 900 mm is too large: \d+ to \d+ mm is allowed "
                        r"\(in the house's values\)\n", done.err)


def test_jobs_do_not_matter(cli):
    text = table(5000)
    (cli.directory / "in.csv").write_text(text)
    outputs = {cli("rows", "in.csv", *(["--jobs", str(jobs)] if jobs else [])).out for jobs in (None, 1, 2, 3, 16)}
    assert len(outputs) == 1
    assert [row["order"] for row in cells(outputs.pop())] == [f"{number:07d}" for number in range(5000)]


def test_one_line_is_its_own_row_whatever_stands_beside_it(cli):
    """A row's cells are the same alone as in the middle of others."""
    text = table(1500).splitlines(keepends=True)
    (cli.directory / "in.csv").write_text("".join(text))
    together = cli("rows", "in.csv").out.splitlines()
    for at in (1, 700, 1024, 1025, 1500):
        (cli.directory / "one.csv").write_text(text[0] + text[at])
        assert cli("rows", "one.csv").out.splitlines()[1] == together[at]


def test_a_comma_locale_changes_nothing(cli):
    (cli.directory / "in.csv").write_text(table(50))
    plain = cli("rows", "in.csv")
    assert cli("rows", "in.csv", env={**os.environ, "LC_ALL": "de_DE.UTF-8"}).out == plain.out


def test_progress_only_on_a_terminal(cli, fast_clock):
    (cli.directory / "in.csv").write_text(table(3000, bad=0))
    terminal = Terminal()
    process = terminal.start([cli.path, "rows", "in.csv", "-o", "out.csv"], cwd=cli.directory, env=fast_clock)
    lines = terminal.rest().decode().split("\r")
    assert process.wait() == 0 and len(lines) > 3
    for line in lines[1:-1]:
        assert re.fullmatch(r"\d+ orders of 3000, \d+ a second, \d+ s left\x1b\[K", line)
    assert lines[0] == "" and lines[-1] == "\x1b[K"
    assert cli("rows", "in.csv", "-o", "out.csv", env=fast_clock).err == ""


def test_written_as_others_read_it(cli):
    """Python's strict reader takes every output, and finds the sentence of every row."""
    text = cli("rows", cli.card(table(3000, bad=0.3), "in.csv")).out
    read = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    assert len(read) == 3001 and len({len(row) for row in read}) == 1
    assert sum(row[-2] != "TAILOR_OK" for row in read[1:]) > 600
    assert all((row[-2] == "TAILOR_OK") == (row[-1] == "") for row in read[1:])
