"""Tables that are refused: with line and column, before anything is written."""
import csv
import io
import random
import subprocess

import pytest

from watched import NET

QUOTE = (
    "a quote stands inside a cell: write 40 3/8 in for an inch mark, or the whole cell in quotes and each of its "
    "marks twice"
)
AFTER = "something follows the quote that ends a cell: within a cell in quotes each mark stands twice"

MALFORMED = {
    "inch mark": (b'chest_girth,client\n1016,a\n40 3/8",b\n', f"3: column 7: {QUOTE}"),
    "inch mark in a letter's second place": ('client,chest_girth\nÅÅ"x,1016\n'.encode(), f"2: column 3: {QUOTE}"),
    "single inch mark in quotes": (
        b'chest_girth,client\n"40 3/8"",b\n',
        "2: column 1: a quote is opened here and never closed",
    ),
    "text after a quote": (b'client,chest_girth\n"a"b,1016\n', f"2: column 4: {AFTER}"),
    "blank after a quote": (b'client,chest_girth\n"a" ,1016\n', f"2: column 4: {AFTER}"),
    "open quote": (
        b'client,chest_girth\na,1016\nb,"1016\nc,1016\n',
        "3: column 3: a quote is opened here and never closed",
    ),
    "on a later line of its record": (b'client,chest_girth,note\n"a\nb"c,1016,\n', f"3: column 3: {AFTER}"),
    "too few cells": (b"client,chest_girth\na,1016\nb\n", "3: 1 cell, but the header has 2"),
    "too many cells": (b"chest_girth,client\n1016,a\n88,5 cm,b\n", "3: 3 cells, but the header has 2"),
    "lines counted within cells": (b'client,chest_girth\n"a\n\nb",1016\nc\n', "5: 1 cell, but the header has 2"),
    "empty line": (
        b"client,chest_girth\na,1016\n\nb,1016\n",
        "3: an empty line: write every cell, or leave the line out",
    ),
    "empty line first": (
        b"\nclient,chest_girth\na,1016\n",
        "1: an empty line: write every cell, or leave the line out",
    ),
    "carriage return": (
        b"client,chest_girth\ra,1016\r",
        "1: column 19: a carriage return stands alone: lines end with a line feed",
    ),
    "NUL": (b"client,chest_girth\na\0b,1016\n", "2: column 2: a NUL byte: this is not text"),
    "NUL in quotes": (b'client,chest_girth\n"a\0b",1016\n', "2: column 3: a NUL byte: this is not text"),
    "sixteen-bit text": ("chest_girth\n1016\n".encode("utf-16"), "1: column 4: a NUL byte: this is not text"),
    "semicolons": (
        b"client;chest_girth\na;1016\n",
        "1: the columns are separated by semicolons: save the table with commas "
        "between them, and points in its numbers",
    ),
    "tabs": (
        b"client\tchest_girth\na\t1016\n",
        "1: the columns are separated by tabs: save the table with commas between " "them, and points in its numbers",
    ),
    "no field": (
        b"client,order\na,1\n",
        "1: no column is a field: the first line names them, as `tailorgeom list fields` " "shows",
    ),
    "field twice": (
        b"chest_girth,client,chest_girth\n1,2,3\n",
        "1: column 3, chest_girth: this field has a column already",
    ),
    "otherwise written": (b"client,Chest Girth\na,1016\n", "1: column 2, Chest Girth: a field is written chest_girth"),
    "house constant": (
        b"chest_girth,blade_ease\n1016,6\n",
        "1: column 2, blade_ease: this is a constant of the house, the same "
        "for all orders: give it in a file with --house",
    ),
    "status": (
        b"chest_girth,status\n1016,new\n",
        "1: column 2, status: the output has a column of this name: rename this one",
    ),
    "quantity": (
        b"chest_girth,coverage_scye\n1016,1\n",
        "1: column 2, coverage_scye: the output has a column of this name: " "rename this one",
    ),
    "nothing": (b"", " holds nothing: its first line is to name the columns"),
    "only empty lines": (b"\n\n", " holds nothing: its first line is to name the columns"),
    "endless cell": (
        b'client,chest_girth\n"' + b"x" * (3 << 20),
        "2: a line of more than 1048576 bytes: is a quote not closed?",
    ),
    "endless line": (
        b"client,chest_girth\n" + b"x" * (3 << 20),
        "2: a line of more than 1048576 bytes: is a quote not closed?",
    ),
}


@pytest.mark.parametrize("name", MALFORMED)
@pytest.mark.parametrize("into", ["standard output", "out.csv"])
def test_refused_before_anything_is_written(cli, name, into):
    text, sentence = MALFORMED[name]
    cli.card(text, "in.csv")
    done = cli("rows", "in.csv", *(["-o", into] if "." in into else []))
    said = f"tailorgeom: in.csv:{sentence}\n"
    assert (done.returncode, done.out, done.err) == (1, "", said)
    assert cli.files() == ["in.csv"]


@pytest.mark.parametrize("name", MALFORMED)
def test_from_a_pipe(cli, name):
    """What is read once only is refused when it comes to that, and leaves no file."""
    text, sentence = MALFORMED[name]
    done = cli("rows", "-", "-o", "out.csv", input=text)
    said = f"tailorgeom: standard input:{sentence}\n"
    assert (done.returncode, done.out, done.err) == (1, "", said)
    assert cli.files() == []


def test_malformed_after_thousands_of_good_lines(cli):
    lines = ["chest_girth,client"] + ["1016,a"] * 5000 + ['40",b']
    cli.card("\n".join(lines), "in.csv")
    done = cli("rows", "in.csv")
    assert (done.returncode, done.out, done.err) == (1, "", f"tailorgeom: in.csv:5002: column 3: {QUOTE}\n")
    done = cli("rows", "-", "-o", "out.csv", input="\n".join(lines).encode())
    assert done.returncode == 1 and done.err == f"tailorgeom: standard input:5002: column 3: {QUOTE}\n"
    assert cli.files() == ["in.csv"]


@pytest.mark.parametrize(
    "name, field", [("waste_girth", "waist_girth"), ("chest", "chest_girth"), ("buttonning", "buttoning")]
)
def test_a_column_that_may_have_been_meant(cli, name, field):
    """Carried through, but not without a word."""
    cli.card(f"chest_girth,{name}\n1016,890\n", "in.csv")
    done = cli("rows", "in.csv", "--want", "coverage_scye")
    assert done.returncode == 0 and done.out.startswith(f"{name},coverage_scye,cautions,status,message\n890,")
    assert done.err == (
        f"tailorgeom: in.csv:1: caution: column 2, {name}, is no field and is carried through: did you mean "
        f"{field}?\n"
    )


@pytest.mark.parametrize(
    "name",
    [
        "client",
        "order",
        "order number",
        "name",
        "note",
        "date",
        "shop",
        "telephone",
        "customer_id",
        "fitting",
        "",
        "état",
    ],
)
def test_ordinary_columns_draw_no_caution(cli, name):
    cli.card(f'chest_girth,"{name}"\n1016,1\n', "in.csv")
    assert cli.good("rows", "in.csv", "--want", "coverage_scye").startswith(f'"{name}",coverage_scye')


def test_long_cells_and_many_columns(cli):
    """As long as a line stays below a mebibyte."""
    note = "x" * 500_000
    head = ",".join(f"c{i}" for i in range(3000))
    cli.card(f"chest_girth,note,{head}\n" + f'1016,"{note}",{"," * 2999}\n' * 3, "in.csv")
    lines = cli.good("rows", "in.csv", "--want", "half_girth_scye").splitlines()
    assert lines[1:] == [f'"{note}",{"," * 2999},563,toile_only,TAILOR_OK,'] * 3


def test_what_cannot_be_read(cli):
    done = cli("rows", "nowhere.csv")
    assert (done.returncode, done.err) == (1, "tailorgeom: nowhere.csv: cannot be opened: No such file or directory\n")
    done = cli("rows", ".")
    assert (done.returncode, done.err) == (1, "tailorgeom: .: cannot be read: Is a directory\n")


def test_a_pipe_with_a_name(cli):
    """Process substitution: read once, like standard input."""
    cli.card("chest_girth\n1016\n", "in.csv")
    done = subprocess.run(
        ["bash", "-c", f"{cli.path} rows <(cat in.csv) -o out.csv"], cwd=cli.directory, capture_output=True
    )
    assert (done.returncode, done.stderr) == (0, b"")
    assert (cli.directory / "out.csv").read_text() == cli.good("rows", "in.csv")
    assert cli.files() == ["in.csv", "out.csv"]


def test_what_python_writes_is_carried_through(cli):
    """Random cells with commas, quotes and line ends, written by Python's csv module, come back as they were."""
    dice = random.Random(3)
    pieces = ["a", "Ö", ",", '"', "\n", "\r\n", " ", ";", "'", "\t", "日", '""', "x" * 50]
    lines = [["".join(dice.choices(pieces, k=dice.randrange(6))) for _ in range(4)] for _ in range(2000)]
    written = io.StringIO()
    writer = csv.writer(written)  # with carriage returns at the line ends
    writer.writerow(["a", "b", "chest_girth", "c", "d"])
    writer.writerows([*line[:2], "1016", *line[2:]] for line in lines)
    (cli.directory / "in.csv").write_bytes(written.getvalue().encode())
    done = subprocess.run(
        [cli.path, "rows", "in.csv", "--want", "half_girth_scye"], cwd=cli.directory, capture_output=True
    )
    assert (done.returncode, done.stderr) == (0, b"")
    read = list(csv.reader(io.StringIO(done.stdout.decode(), newline=""), strict=True))
    assert read[0] == ["a", "b", "c", "d", "half_girth_scye", "cautions", "status", "message"]
    assert [row[:4] for row in read[1:]] == lines and {tuple(row[4:]) for row in read[1:]} == {
        ("563", "toile_only", "TAILOR_OK", "")}


def test_any_bytes_at_all(cli):
    """Are taken or refused with a reason; nothing else happens."""
    dice = random.Random(4)
    pieces = [b"chest_girth", b"1016", b"1016\n", b"40 in\n", b"client", b",", b"\n", b'"', b"\r\n", b"\r", b"\0"]
    pieces += [b"\xff", b" ", b";", b"\xef\xbb\xbf", b"40 in", b"waist_girth", b"nan\n", b"9" * 400, b'""']
    taken = refused = 0
    for _ in range(200):
        text = b"".join(dice.choices(pieces, k=dice.randrange(12)))
        if dice.random() < 0.8:
            text = b"chest_girth\n" + text
        (cli.directory / "in.csv").write_bytes(text)
        for arguments, given in ((["in.csv"], None), (["-"], text)):
            command = [cli.path, "rows", *arguments, "--want", "break_length"]
            done = subprocess.run(command, cwd=cli.directory, input=given, capture_output=True, timeout=NET)
            said = [line for line in done.stderr.splitlines() if b"caution" not in line]
            assert done.returncode in (0, 1), (text, done)
            assert len(said) == done.returncode, (text, done)
            taken += done.stdout.count(b"TAILOR_")
            refused += done.returncode
    assert taken > 60 and refused > 60, (taken, refused)
