"""An order book into folders: what stands in them, what is refused, runs that are broken off."""
import csv
import io
import json
import os
import pathlib
import resource
import signal
import subprocess
import time

import pytest

from table_of_orders import table
from watched import ended, halted

LONG = bool(os.environ.get("TAILOR_LONG"))
SLOW = "sanitized" in os.environ.get("TAILOR_BUILD", "")
SIZES = pathlib.Path(__file__).parents[2] / "shared" / "sizes"
MAIN = "finished_chest,finished_waist,finished_seat,finished_length,cross_back_finished,cross_chest_finished"
MAIN += ",break_length,coverage_scye"
OWN_FILES = {"summary.csv", "manifest.sha256", "book.json"}


def tree(root):
    """Every file below, by its path, with its bytes."""
    return {str(path.relative_to(root)): path.read_bytes() for path in sorted(root.rglob("*")) if path.is_file()}


def lines(root):
    return list(csv.DictReader(io.StringIO((root / "summary.csv").read_text(), newline=""), strict=True))


def hashes_agree(root):
    """By another program; and no file is left out."""
    done = subprocess.run(["sha256sum", "--strict", "-c", "manifest.sha256"], cwd=root, capture_output=True, text=True)
    assert done.returncode == 0, done.stdout[-500:] + done.stderr
    told = [line[66:] for line in (root / "manifest.sha256").read_text().splitlines()]
    assert sorted(told) == sorted(name for name in tree(root) if name not in ("manifest.sha256", "book.json"))
    return told


def refused(name, bad, count, directory="out"):
    return (
        f"tailorgeom: {name}: {bad} of {count} orders refused: the columns status and message of "
        f"{directory}/summary.csv say why\n"
    )


# ---- what comes of it

SMALL = (
    'order,name,chest_girth,waist_girth,remark\r\n0077,"Fallowell, O.",40 in,890,"a ""word"""\r\n'
    '2026/18, Pennywick ,"40 3/8""",,x\r\n'
)


def test_a_small_book(cli):
    cli.card(SMALL, "orders.csv")
    assert cli.good("book", "orders.csv", "-o", "deep/out", "--sheets", "svg,pdf,png,dxf,ticket") == ""
    root = cli.directory / "deep" / "out"
    sheets = {"pattern.json", "pattern.svg", "pattern.pdf", "pattern.png", "pattern.dxf", "ticket.pdf"}
    assert {p.name for p in root.iterdir()} == OWN_FILES | {"0077", "2026-18"}
    for folder in ("0077", "2026-18"):
        assert {p.name for p in (root / folder).iterdir()} >= sheets
    assert hashes_agree(root)[0] == "0077/pattern.json"
    text = (root / "summary.csv").read_bytes().decode()
    head, first, second, end = text.split("\n")
    assert head == f"order,name,chest_girth,waist_girth,remark,folder,{MAIN},cautions,status,message" and end == ""
    assert first.startswith('0077,"Fallowell, O.",40 in,890,"a ""word""",0077,1126,')
    assert second.startswith('2026/18, Pennywick ,"40 3/8""",,x,2026-18,') and second.endswith(",toile_only,TAILOR_OK,")


def test_what_stands_in_a_folder_is_what_draft_says(cli):
    cli.card(SMALL, "orders.csv")
    cli.good("book", "orders.csv", "-o", "out", "--sheets", "svg")
    card = "[client]\nname = Fallowell, O.\norder = 0077\n[measures]\nchest_girth = 40 in\nwaist_girth = 890\n"
    drafted = json.loads(cli.good("draft", "--json", cli.card(card)))
    document = json.loads((cli.directory / "out/0077/pattern.json").read_text())
    assert list(document) == list(drafted)
    for member in set(drafted) - {"pieces", "seams", "checks"}:
        assert document[member] == drafted[member], member
    made = {check["name"]: check for check in document["checks"]}
    for check in drafted["checks"]:  # those that a draft without all its pieces has, too
        assert made[check["name"]]["pass"] is not False
        assert check["pass"] is None or made[check["name"]]["pass"] is True, check
    pieces = {piece["name"]: piece for piece in document["pieces"]}
    assert len(pieces) > 20 and all(pieces[piece["name"]] == piece for piece in drafted["pieces"])
    row = lines(cli.directory / "out")[0]
    for name in MAIN.split(","):
        assert float(row[name]) == document["quantities"][name]
    svg = (cli.directory / "out/0077/pattern.svg").read_text()
    assert "Fallowell, O., order 0077" in svg and "for toile only" in svg


def test_the_book_says_what_it_is_made_from(cli):
    cli.card(SMALL, "orders.csv")
    cli.good("book", "orders.csv", "-o", "out", "--sheets", "svg", "--want", "lapel_area")
    document = json.loads((cli.directory / "out/book.json").read_text())
    by_others = subprocess.run(["sha256sum", "orders.csv"], cwd=cli.directory, capture_output=True, check=True)
    assert document["format"] == "tailorgeom-book" and document["input_sha256"] == by_others.stdout.split()[0].decode()
    assert (document["sheets"], document["want"], document["rows_done"]) == ("svg", "lapel_area", 2)
    assert float(lines(cli.directory / "out")[0]["lapel_area"]) > 1000


def test_sizes(cli):
    """A size's measures stand where the client gives none, and are no measures of the client."""
    cli.card(
        "order,size,fit,waist_girth\n1,40,regular,\n2,40,regular,900\n3,40,,\n4,,,900\n5,41,regular,\n6,40,tall,\n",
        "orders.csv",
    )
    done = cli("book", "orders.csv", "-o", "out", "--sheets", "svg", "--sizes", SIZES / "merrow_and_vane.csv")
    assert (done.returncode, done.err) == (1, refused("orders.csv", 3, 6))
    with open(SIZES / "merrow_and_vane.csv") as file:
        row = next(r for r in csv.DictReader(file) if (r["size"], r["fit"]) == ("40", "regular"))
    said = {line["order"]: (line["status"], line["message"]) for line in lines(cli.directory / "out")}
    for order, own in [("1", {}), ("2", {"waist_girth": 900}), ("3", {})]:
        document = json.loads((cli.directory / f"out/{order}/pattern.json").read_text())
        for field, value in row.items():
            if field not in ("size", "fit"):
                expected = (own[field], "client") if field in own else (float(value), "house")
                assert (document["fields"][field]["value"], document["fields"][field]["origin"]) == expected
        assert "chest_girth" in document["toile_only"]
    assert said["4"][0] == "TAILOR_MISSING" and "chest_girth" in said["4"][1]
    assert said["5"] == ("TAILOR_NOT_A_CHOICE", "line 6: the size table has no such size (typed: 41)")
    assert said["6"][1].startswith("line 7: the size table has no such fit")


@pytest.mark.parametrize(
    "text, said",
    [
        ("size,chest_girth\n40,1000\n40,x\n", "sizes.csv:3: "),
        ("size,colour\n40,1\n", "sizes.csv:1: unknown column colour: "),
        ("size,chest_girth,chest_girth\n40,1,1\n", "sizes.csv:1: the column chest_girth is there twice"),
        ("size,chest_girth\n40,1000\n42,990\n", "sizes.csv:3: sizes go backwards: "),
        ("size,chest_girth\n", "there are no sizes in it"),
        ("", "the table is empty"),
    ],
)
def test_bad_size_tables(cli, text, said):
    cli.card(text, "sizes.csv")
    cli.card("order,size\n1,40\n", "orders.csv")
    done = cli("book", "orders.csv", "-o", "out", "--sizes", "sizes.csv")
    assert done.returncode == 1 and said in done.err and "out" not in cli.files(), done.err


# ---- what is refused


def test_orders_that_name_no_folder_of_their_own(cli):
    """Neither of two is drafted: nobody knows which of them is meant."""
    numbers = ["a7", "A7", "", "12", "12", "1/2", "1:2", "..", "Ä", "ä", "Summary.csv", "x" * 101, "good", " 12 ",
               "é"]
    text = "order,chest_girth\n" + "".join(f"{number},1016\n" for number in numbers)
    cli.card(text, "orders.csv")
    done = cli("book", "orders.csv", "-o", "out", "--sheets", "svg")
    assert (done.returncode, done.err) == (1, refused("orders.csv", 12, 15))
    found = lines(cli.directory / "out")
    assert [line["folder"] for line in found if line["status"] == "TAILOR_OK"] == ["--", "good", "é"]
    same = "the order on line {} makes the same folder, so neither is drafted"
    assert [line["message"] for line in found] == [
        "line 2: " + same.format(3),
        "line 3: " + same.format(2),
        "line 4: the order has no number",
        "line 5: " + same.format(6),
        "line 6: " + same.format(5),
        "line 7: " + same.format(8),
        "line 8: " + same.format(7),
        "",
        "line 10: " + same.format(11),
        "line 11: " + same.format(10),
        "line 12: the order's number is the name of one of the book's own files",
        "line 13: the order's number has more than 100 bytes and cannot name a folder",
        "",
        "line 15: " + same.format(5),
        "",
    ]
    assert {p.name for p in (cli.directory / "out").iterdir()} == OWN_FILES | {"--", "good", "é"}
    hashes_agree(cli.directory / "out")


def test_folder_names_bear_any_file_system(cli):
    cells = ['"a\nb"', '"c""d"', "e\\f", "g*h?", ".i.", "日本/1", b"j\xffk", "l|m<n>"]
    text = b"order,chest_girth\n"
    for cell in cells:
        text += (cell if isinstance(cell, bytes) else cell.encode()) + b",1016\n"
    cli.card(text, "orders.csv")
    done = cli("book", "orders.csv", "-o", "out", "--sheets", "svg")
    assert done.returncode == 0, done.err
    folders = {p.name for p in (cli.directory / "out").iterdir()} - OWN_FILES
    assert folders == {"a-b", "c-d", "e-f", "g-h-", "-i-", "日本-1", "j-k", "l-m-n-"}
    hashes_agree(cli.directory / "out")


def test_tables_and_directories_that_are_refused(cli):
    cli.card("number,chest_girth\n1,1016\n", "none.csv")
    cli.card("order,chest_girth\n1,1016\n2\n", "torn.csv")
    cli.card("order,chest_girth,folder\n1,1016,x\n", "taken.csv")
    cli.card("order,chest_girth,order\n1,1016,1\n", "twice.csv")
    good = cli.card("order,chest_girth\n1,1016\n", "good.csv")
    (cli.directory / "full").mkdir()
    cli.card("mine", "full/old.txt")
    for arguments, said in [
        (["none.csv", "-o", "out"], "none.csv:1: no column is named order: it names each order's folder"),
        (["torn.csv", "-o", "out"], "torn.csv:3: 1 cell, but the header has 2"),
        (["taken.csv", "-o", "out"], "the output has a column of this name"),
        (["twice.csv", "-o", "out"], "column 3, order: there is such a column already"),
        ([good, "-o", "full"], "full: is not empty: a book begins in a directory of its own"),
        ([good, "-o", "full", "--resume"], "full: is not empty"),
        ([good, "-o", "good.csv"], "good.csv: cannot be made"),
        ([good, "-o", "good.csv/x"], "cannot be made"),
        (["-", "-o", "out"], "is read twice: an order book is a file"),
        (["nowhere.csv", "-o", "out"], "nowhere.csv"),
    ]:
        done = cli("book", *arguments, stdin=subprocess.DEVNULL)
        assert done.returncode == 1 and said in done.err, (arguments, done.err)
        assert "out" not in cli.files() and cli.files("full") == ["old.txt"]
    for arguments in ([good], [good, "-o", "x", "--sheets", "svg,eps"], [good, "-o", "x", "--sheets", "svg,svg"],
                      [good, "-o", "x", "--sheets", ""]):
        done = cli("book", *arguments)
        assert done.returncode == 2 and "x" not in cli.files()
        assert done.err.endswith("tailorgeom: see `tailorgeom help book`\n")


# ---- many orders, and runs that are broken off

ORDERS = (1_000 if SLOW else 10_000) if LONG else 40 if SLOW else 120
BAD = 0.01 if LONG else 0.05


def book_of(count, bad=BAD):
    """Every order has a number; a share of them is refused."""
    text = table(count, bad)
    assert text.startswith("client,")
    return "name," + text[len("client,"):]


@pytest.fixture(scope="module")
def orders():
    return book_of(ORDERS)


@pytest.fixture(scope="module")
def undisturbed(orders, tmp_path_factory, command_line):
    """What comes of them when nothing disturbs, from one thread."""
    cli = command_line(tmp_path_factory.mktemp("undisturbed"))
    cli.card(orders, "in.csv")
    done = cli("book", "in.csv", "-o", "out", "--sheets", "svg", "--jobs", "1", timeout=3000)
    assert done.returncode == 1
    return done, tree(cli.directory / "out")


@pytest.fixture
def begun(cli, orders, undisturbed):
    cli.card(orders, "in.csv")
    return undisturbed


def same(cli, expected, directory="out"):
    found = tree(cli.directory / directory)
    assert found.keys() == expected.keys()
    assert all(found[name] == expected[name] for name in found)
    assert not [p.name for p in (cli.directory / directory).iterdir() if p.name.startswith(".")]


def go_on(cli, begun, *arguments):
    done = cli("book", "in.csv", "-o", "out", "--sheets", "svg", "--resume", *arguments, timeout=3000)
    assert (done.returncode, done.out, done.err) == (begun[0].returncode, "", begun[0].err)
    same(cli, begun[1])


def folders(cli):
    root = cli.directory / "out"
    return [p for p in root.iterdir() if p.is_dir() and not p.name.startswith(".")] if root.is_dir() else []


def broken_off(cli, share, number=signal.SIGKILL, arguments=()):
    """Runs until a share of the folders is there, and ends the program."""
    ended([cli.path, "book", "in.csv", "-o", "out", "--sheets", "svg", *arguments],
          lambda: len(folders(cli)) >= share * ORDERS, number, [cli.directory / "out"], cwd=cli.directory)


def test_many_orders(begun):
    """One bad order in a hundred is told, and the others are there."""
    done, files = begun
    found = list(csv.DictReader(io.StringIO(files["summary.csv"].decode(), newline=""), strict=True))
    bad = [line for line in found if line["status"] != "TAILOR_OK"]
    assert len(found) == ORDERS and 0 < len(bad) < 3 * BAD * ORDERS
    assert done.err == refused("in.csv", len(bad), ORDERS)
    assert len(files) == 2 * (ORDERS - len(bad)) + 3
    for line in found:
        assert (f"{line['order']}/pattern.svg" in files) == (line["status"] == "TAILOR_OK") == (line["folder"] != "")
        assert bool(line["message"]) == (line["status"] != "TAILOR_OK") != bool(line["finished_chest"])


def test_the_same_bytes_from_two_threads(cli, begun):
    done = cli("book", "in.csv", "-o", "out", "--sheets", "svg", "--jobs", "2", timeout=3000)
    assert (done.returncode, done.err) == (1, begun[0].err)
    same(cli, begun[1])
    hashes_agree(cli.directory / "out")


def test_every_sheet_is_the_same_again(cli):
    cli.card(book_of(8, 0), "in.csv")
    for directory, jobs in (("one", 1), ("two", 2)):
        if jobs == 2:
            time.sleep(1.1)  # a date in a file would show
        cli("book", "in.csv", "-o", directory, "--sheets", "pdf,dxf,png,svg,ticket", "--jobs", jobs)
    same(cli, tree(cli.directory / "one"), "two")


@pytest.mark.parametrize("share", [0, 0.2, 0.6])
def test_killed_and_gone_on_with(cli, begun, share):
    """What is finished is not done again; what is half-written is not left."""
    broken_off(cli, share)
    whole = {path: [(f.name, f.stat().st_ino, f.stat().st_mtime_ns) for f in sorted(path.iterdir())]
             for path in folders(cli)}
    assert all([name for name, *_ in files] == ["pattern.json", "pattern.svg"] for files in whole.values())
    assert share == 0 or not OWN_FILES & set(cli.files("out"))
    go_on(cli, begun, "--jobs", "2")
    for path, files in whole.items():
        assert files == [(f.name, f.stat().st_ino, f.stat().st_mtime_ns) for f in sorted(path.iterdir())]


def test_killed_again_and_again(cli, begun):
    for time_, number in enumerate([signal.SIGKILL, signal.SIGTERM, signal.SIGINT, signal.SIGKILL], 1):
        broken_off(cli, time_ / 6, number, ["--resume"])
    go_on(cli, begun)
    go_on(cli, begun)  # nor after all was done


def test_killed_between_its_last_steps(cli, begun):
    """Whichever of the three last names is not yet in its place."""
    root = cli.directory / "out"
    go_on(cli, begun)
    ends = [("book.json", "summary.csv.state"), ("summary.csv", "summary.csv.part"),
            ("manifest.sha256", "manifest.sha256.part")]
    for steps in (1, 2, 3):
        for final, before in ends[:steps]:
            (root / final).rename(root / before)
        go_on(cli, begun)


def test_a_book_is_not_begun_twice(cli, begun):
    broken_off(cli, 0.3)
    done = cli("book", "in.csv", "-o", "out", "--sheets", "svg")
    assert (done.returncode, done.err) == (
        1, "tailorgeom: out: holds a book already: go on with --resume, or take another directory\n")
    cli.card("[house]\nlapel_width = 80\n", "house.ini")
    for arguments, why in [(["--sheets", "svg,pdf"], "other --sheets"), (["--want", "lapel_area"], "another --want"),
                           (["--house", "house.ini"], "other values of the house, or other cloths")]:
        arguments = ["--sheets", "svg", *arguments]
        done = cli("book", "in.csv", "-o", "out", "--resume", *arguments)
        assert done.returncode == 1 and f"was begun with {why}: it cannot be gone on with" in done.err
    cli.card(begun_text := (cli.directory / "in.csv").read_text() + "A,1,1,1,,z\n", "other.csv")
    assert begun_text
    done = cli("book", "other.csv", "-o", "out", "--sheets", "svg", "--resume")
    assert done.returncode == 1 and "a table of orders that was another" in done.err
    go_on(cli, begun)


@pytest.mark.parametrize("more", [b"", b"X,1000,900,1700,,new\n"])
def test_a_table_that_changes_meanwhile(cli, begun, more):
    process = halted([cli.path, "book", "in.csv", "-o", "out", "--sheets", "svg", "-j", "1"], lambda: folders(cli),
                     lambda process: len(folders(cli)) < ORDERS // 3, [cli.directory / "out"], cwd=cli.directory)
    with open(cli.directory / "in.csv", "r+b") as file:
        file.seek(0 if more else -3, os.SEEK_END)
        file.write(more or b"xx")
    process.send_signal(signal.SIGCONT)
    said = process.communicate()[1].decode()
    if more or ORDERS > 5000:  # longer than what is read at once
        assert process.returncode == 1
        assert said.startswith("tailorgeom: in.csv: has changed while it was read: begin anew\n")
        assert "summary.csv" not in cli.files("out") and "manifest.sha256" not in cli.files("out")
    else:  # it had been read already; going on then looks again
        assert (process.returncode, said) == (1, begun[0].err)
        done = cli("book", "in.csv", "-o", "out", "--sheets", "svg", "--resume")
        assert done.returncode == 1 and "a table of orders that was another" in done.err


def test_full_disk(cli, begun):
    """A real one where mounting is allowed, else a limit of file size; nothing half-written, and it goes on."""
    disk = cli.directory / "disk"
    disk.mkdir()
    (cli.directory / "out").symlink_to(disk / "out")
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=3m", "tmpfs", disk], capture_output=True).returncode
    limit = None if mounted == 0 else lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000))
    try:
        done = cli("book", "in.csv", "-o", "disk/out", "--sheets", "svg", preexec_fn=limit)
        first, second = done.err.splitlines()
        assert done.returncode == 1 and first.startswith("tailorgeom: disk/out/")
        assert first.endswith("No space left on device" if limit is None else "File too large")
        assert second.endswith(" orders are done and stay there: --resume goes on")
        assert "summary.csv" not in cli.files("disk/out")
        assert not [name for name in cli.files("disk/out") if name.startswith(".")]
        for path in (disk / "out").iterdir():
            assert not path.is_dir() or cli.files(path) == ["pattern.json", "pattern.svg"]
        if mounted == 0:
            subprocess.run(["mount", "-o", "remount,size=4g", disk], check=True)
        done = cli("book", "in.csv", "-o", "disk/out", "--sheets", "svg", "--resume", timeout=3000)
        assert done.err == begun[0].err.replace("of out/", "of disk/out/")
        same(cli, begun[1], "disk/out")
    finally:
        if mounted == 0:
            subprocess.run(["umount", disk], check=True)


def test_a_file_that_may_grow_no_further(cli, begun):
    done = cli("book", "in.csv", "-o", "out", "--sheets", "svg",
               preexec_fn=lambda: resource.setrlimit(resource.RLIMIT_FSIZE, (50_000, 50_000)))
    assert done.returncode == 1
    assert "/pattern.json: cannot be written: File too large\n" in done.err
    assert cli.files("out") == ["manifest.sha256.part", "summary.csv.part", "summary.csv.state"]
    go_on(cli, begun)


def test_a_disk_that_tells_late(cli, interposed):
    """At each of the program's fsyncs in turn: nothing has its name too early, and it goes on."""
    cli.card(book_of(3, 0), "in.csv")
    for nth in range(1, 5):
        out = f"out{nth}"
        done = cli("book", "in.csv", "-o", out, "--sheets", "svg", env=interposed(nth))
        assert done.returncode == 1 and "No space left on device" in done.err, nth
        assert "book.json" not in cli.files(out)
        done = cli("book", "in.csv", "-o", out, "--sheets", "svg", "--resume")
        assert (done.returncode, done.err) == (0, "")
        hashes_agree(cli.directory / out)
        same(cli, tree(cli.directory / "out1"), out)


def test_memory_does_not_grow_with_the_book(cli, begun):
    watch = ("import resource, subprocess, sys; done = subprocess.run(sys.argv[1:], stderr=subprocess.DEVNULL); "
             "print(done.returncode, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss)")
    done = subprocess.run(["/usr/bin/python3", "-c", watch, cli.path, "book", "in.csv", "-o", "out", "--sheets", "svg",
                           "--jobs", "2"], cwd=cli.directory, capture_output=True, check=True)
    code, most = map(int, done.stdout.split())  # KiB, of the program, or of the watching Python if that is more
    assert code == 1
    assert 1000 < most and (cli.sanitized or most < 24 << 10), f"{most} KiB"  # 10 MiB for 100 or 10,000 orders
    same(cli, begun[1])
