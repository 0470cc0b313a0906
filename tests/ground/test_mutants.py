"""Small changes that a slip of the pen would make are seen by the tests of their floor: mutants.csv has them, with what
each would do. `tests/run long`, since each is a build."""
import csv
import shutil
import subprocess

import pytest

import ground

with open(ground.ROOT / "tests/ground/mutants.csv", encoding="utf-8", newline="") as file:
    MUTANTS = list(csv.DictReader(file))


def test_the_list_is_of_today():
    """What each would change stands in its file, once."""
    for mutant in MUTANTS:
        assert (ground.ROOT / mutant["file"]).read_text().count(mutant["before"]) == 1, mutant["name"]
        assert mutant["after"] != mutant["before"] and mutant["why"]
    assert len({mutant["name"] for mutant in MUTANTS}) == len(MUTANTS)


@pytest.fixture(scope="module")
def tree(tmp_path_factory):
    """A copy of the checkout with a build of its own."""
    directory = tmp_path_factory.mktemp("mutants")
    for name in ("bindings", "cli", "examples", "include", "lib", "shared", "tests", "meson.build"):
        source = ground.ROOT / name
        (shutil.copytree if source.is_dir() else shutil.copy)(source, directory / name)
    ground.run(["meson", "setup", directory / "build", directory])
    return directory


def killed(tree, floor):
    """Whether the tests of a floor fail, or do not even compile."""
    built = subprocess.run(["ninja", "-C", tree / "build", f"tests/test_{floor}"], capture_output=True)
    if built.returncode:
        return True
    return subprocess.run(["meson", "test", "-C", tree / "build", "--no-rebuild", "--suite", floor],
                          capture_output=True).returncode != 0


if ground.LONG:
    def test_without_a_mutant_all_pass(tree):
        assert not [floor for floor in sorted({mutant["floor"] for mutant in MUTANTS}) if killed(tree, floor)]

    @pytest.mark.parametrize("mutant", MUTANTS, ids=lambda mutant: mutant["name"])
    def test_is_seen(tree, mutant):
        path = tree / mutant["file"]
        text = path.read_text()
        path.write_text(text.replace(mutant["before"], mutant["after"]))
        try:
            assert killed(tree, mutant["floor"]), mutant["why"]
        finally:
            path.write_text(text)
