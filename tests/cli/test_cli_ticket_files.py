"""Where the ticket is written, and what is refused."""
import resource
import subprocess

import pytest

from client_card import CARD
from test_cli_files import bound_by_permissions
from test_cli_ticket import styled


@pytest.mark.parametrize("name, magic", [("t.svg", b"<?xml"), ("t.PDF", b"%PDF-"), ("t.png", b"\x89PNG")])
def test_the_ending_says_how(cli, card, name, magic):
    assert cli.good("ticket", card, "-o", name).endswith(f"\nwrote {name}\n")
    assert (cli.directory / name).read_bytes().startswith(magic)
    assert cli.files() == sorted([card, name])


def test_a_directory_is_made(cli, card):
    assert cli.good("ticket", card, "-o", "for/today").endswith("\nwrote for/today/ticket.pdf\n")
    assert cli.files("for/today") == ["ticket.pdf"]


def test_json_writes_no_page_unless_asked(cli, card):
    document = cli.good("ticket", card, "--json")
    assert cli.files() == [card]
    assert cli.good("ticket", card, "--json", "-o", "x") == document and cli.files("x") == ["ticket.pdf"]


def test_a_coat_of_which_a_check_fails_gets_no_ticket(cli, failing_check):
    card = cli.card(CARD.replace("two-button", "three-button"))
    for more in ([], ["--json"], ["-o", "sheets"]):
        done = cli("ticket", card, *more, env=failing_check)
        assert (done.returncode, done.out) == (1, "")
        assert done.err == "tailorgeom: card.ini: the first check does not hold\n"
    assert cli.files() == [card]


@pytest.mark.parametrize("text, sentence", [
    ("[measures]\nchest_girth = 40\n", "did you mean 40 in"),
    ("[measures]\nwaist_girth = 900\n", "chest_girth"),
    (styled(buttoning="two-button", hole_face_3="in"), "hole_face_3"),
    ("chest_girth = 1016\n", "card.ini:1:"),
])
def test_orders_that_are_refused(cli, text, sentence):
    done = cli("ticket", cli.card(text), "-o", "sheets")
    assert (done.returncode, done.out) == (1, "") and sentence in done.err and done.err.count("\n") == 1
    assert cli.files() == ["card.ini"]


@pytest.mark.parametrize("arguments", [["ticket"], ["ticket", "a", "b"], ["ticket", "card.ini", "--by", "lapel=step"],
                                       ["ticket", "card.ini", "--print", "cm"]])
def test_wrong_usage(cli, card, arguments):
    done = cli(*arguments)
    assert (done.returncode, done.out) == (2, "") and "see `tailorgeom help ticket`" in done.err
    assert cli.files() == [card]


def test_a_directory_that_cannot_be_written(cli, card):
    (cli.directory / "shut").mkdir(mode=0o555)
    for where, path in (("shut", "shut/ticket.pdf"), ("shut/sheets", "shut/sheets"), ("shut/t.svg", "shut/t.svg")):
        done = cli("ticket", card, "-o", where, preexec_fn=bound_by_permissions)
        assert (done.returncode, done.out) == (1, "")
        assert done.err.startswith(f"tailorgeom: {path}: cannot be ") and done.err.endswith(": Permission denied\n")
    assert cli.files("shut") == []


def test_disks_that_are_full(cli, card, interposed):
    cli.good("ticket", card)
    before = (cli.directory / "ticket.pdf").read_bytes()
    cli.card(CARD.replace("890", "900"))
    done = cli("ticket", card, env=interposed(1))
    assert (done.returncode, done.out) == (1, "")
    assert done.err == "tailorgeom: ticket.pdf: cannot be written: No space left on device\n"
    done = cli("ticket", card, preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000)))
    assert done.returncode == 1 and done.err.endswith("ticket.pdf: cannot be written: File too large\n")
    assert cli.files() == [card, "ticket.pdf"] and (cli.directory / "ticket.pdf").read_bytes() == before


@pytest.mark.parametrize("more", [[], ["--json"]])
def test_standard_output_that_is_full(cli, card, more):
    with open("/dev/full", "wb") as full:
        done = cli("ticket", card, *more, capture_output=False, stdout=full, stderr=subprocess.PIPE)
    assert done.returncode == 1
    assert done.err == "tailorgeom: standard output: cannot be written: No space left on device\n"
