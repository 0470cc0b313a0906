"""--anonymous: sheets that go out of the house have the order on them and not the client, whatever the file."""
import json
import subprocess

import pytest

from client_card import CARD

NAME, ORDER = "Orrin Fallowell", "order 77"
COMMANDS = {
    "draft": ["draft", "card.ini", "-o", "out"],
    "compare": ["compare", "card.ini", "-o", "out/fronts.svg"],
    "compare-pdf": ["compare", "card.ini", "-o", "out/fronts.pdf"],
    "diff": ["diff", "card.ini", "later.ini", "-o", "out"],
    "ticket": ["ticket", "card.ini", "-o", "out"],
    "ticket-svg": ["ticket", "card.ini", "-o", "out/ticket.svg"],
    "canvas": ["canvas", "card.ini", "--iterations", "2", "-o", "out"],
    "roll": ["roll", "card.ini", "--section", "-o", "out"],
    "book": ["book", "in.csv", "-o", "book", "--sheets", "svg,pdf,dxf,ticket"],
}


def words(path):
    """All that a file says, its own title included."""
    if path.suffix != ".pdf":
        return path.read_text()
    return "".join(subprocess.run(command, capture_output=True, text=True, check=True).stdout
                   for command in (["pdftotext", path, "-"], ["pdfinfo", path]))


def sheets(cli):
    folder = cli.directory / "book/0077"
    found = [*(cli.directory / "out").iterdir()] + ([*folder.iterdir()] if folder.exists() else [])
    return {path.name: words(path) for path in found if path.suffix in (".svg", ".pdf", ".dxf")}


@pytest.mark.parametrize("command", COMMANDS)
def test_the_client_is_left_off_and_the_order_stays(cli, command):
    cli.card()
    cli.card(CARD.replace("[measures]\n", "[measures]\ncoat_length = 770\n"), "later.ini")
    cli.card(f"order,name,chest_girth\n0077,{NAME},1016\n", "in.csv")
    (cli.directory / "out").mkdir()
    cli.good(*COMMANDS[command])
    named = sheets(cli)
    assert named and all(NAME in text for text in named.values())
    arguments = [word.replace("book", "book2") if word == "book" and place else word
                 for place, word in enumerate(COMMANDS[command])]
    cli.good(*arguments, "--anonymous")
    if command == "book":
        (cli.directory / "book").rename(cli.directory / "old")
        (cli.directory / "book2").rename(cli.directory / "book")
    left = sheets(cli)
    assert left.keys() == named.keys()
    for name, text in left.items():
        assert NAME not in text and "Fallowell" not in text, name
        assert ("order 0077" if command == "book" else ORDER) in text, name


def test_a_ticket_is_anonymous_in_every_form(cli):
    card = cli.card()
    assert cli.good("ticket", card, "--anonymous").startswith(f"{ORDER}\n")
    assert json.loads(cli.good("ticket", card, "--anonymous", "--json"))["title"] == ORDER


def test_two_cards_of_one_order_have_no_file_names_in_the_legend(cli):
    cli.card(name="fallowell.ini")
    cli.card(CARD.replace("890", "880"), "fallowell-2.ini")
    cli.good("diff", "fallowell.ini", "fallowell-2.ini", "-o", "out")
    assert "fallowell-2.ini" in sheets(cli)["overlay.svg"]
    cli.good("diff", "fallowell.ini", "fallowell-2.ini", "-o", "out", "--anonymous")
    assert "fallowell" not in sheets(cli)["overlay.svg"].lower()


def test_a_book_is_all_of_a_kind(cli):
    cli.card("order,name,chest_girth\n1,Fallowell,1016\n2,Pennywick,1040\n", "in.csv")
    cli.good("book", "in.csv", "-o", "book", "--sheets", "svg", "--anonymous")
    done = cli("book", "in.csv", "-o", "book", "--sheets", "svg", "--resume")
    assert done.returncode == 1 and "other --anonymous" in done.err
    done = cli("book", "in.csv", "-o", "book", "--sheets", "svg", "--anonymous", "--resume")
    assert done.returncode == 0
