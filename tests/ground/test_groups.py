"""One test program a floor: every test_<subject>.c is a group in it, and a group that breaks off hides no other."""
import json
import subprocess

import pytest

import ground

FILES = sorted((ground.ROOT / "tests").glob("*/test_*.c"))


def test_every_file_is_run():
    told = json.loads((ground.BUILD / "meson-info/intro-tests.json").read_text())
    run = {(test["cmd"][0].rsplit("/", 1)[1], *test["cmd"][1:]) for test in told}
    assert run == {(f"test_{file.parent.name}", file.stem.removeprefix("test_")) for file in FILES}


@pytest.fixture(scope="module")
def program(tmp_path_factory):
    """A floor of four groups: one passes, one fails, one breaks off, one passes again."""
    directory = tmp_path_factory.mktemp("groups")
    groups = {"first": "return 0", "bad": "return 256", "gone": "abort()", "last": "return 0"}
    subjects = " ".join(f"X({subject})" for subject in groups)
    main = (ground.ROOT / "tests/support/main.c.in").read_text().replace("@subjects@", subjects)
    for subject, body in groups.items():
        main += f'int test_{subject}(void) {{ puts("in {subject}"); fflush(stdout); {body}; }}\n'
    (directory / "main.c").write_text(main)
    ground.run(["gcc", "-std=c11", "-D_POSIX_C_SOURCE=200809L", *ground.STRICT, directory / "main.c",
                "-o", directory / "test_floor"])
    return directory / "test_floor"


@pytest.mark.parametrize("words,status,ran", [
    ([], 1, ["first", "bad", "gone", "last"]), (["last", "first"], 0, ["last", "first"]), (["first"], 0, ["first"]),
    (["bad"], 1, ["bad"]), (["gone"], -6, ["gone"]), (["first", "gone", "last"], 1, ["first", "gone", "last"]),
    (["other"], 2, []), (["first", "other"], 2, []),
])
def test_groups_are_run_and_fail(program, words, status, ran):
    done = subprocess.run([program, *words], capture_output=True, text=True)
    assert done.returncode == status, done.stderr
    assert [line[3:] for line in done.stdout.splitlines() if line.startswith("in ")] == ran
    if "other" in words:
        assert "no such subject; there are: first bad gone last" in done.stderr
    if len(words) != 1 and "gone" in ran:
        assert "gone: ended by signal 6" in done.stderr
