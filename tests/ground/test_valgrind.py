"""The CLI under valgrind: no memory error, nothing lost, whether the order is drafted or refused."""
import pytest

import ground

CARD = ground.ROOT / "examples/cards/regular.ini"
REFUSED = "[measures]\nchest_girth = 40\n"
WORKS = {
    "draft": ["draft", CARD, "-o", "OUT"],
    "draft json": ["draft", CARD, "--json"],
    "compare": ["compare", CARD],
    "compare drawn": ["compare", CARD, "-o", "OUT/fronts.svg"],
    "check": ["check", CARD, "--resolved"],
    "list": ["list", "fields", "--json"],
    "refused": ["check", "-"],
    "wrong usage": ["compare", "--nonsense"],
}
EXITS = {"refused": 1, "wrong usage": 2}


@pytest.mark.parametrize("name", WORKS)
def test_clean(name, tmp_path):
    (tmp_path / "out").mkdir()
    arguments = [str(word).replace("OUT", str(tmp_path / "out")) for word in WORKS[name]]
    log = tmp_path / "valgrind.log"
    text = ground.run(["valgrind", "--error-exitcode=99", "--leak-check=full", "--errors-for-leak-kinds=definite",
                       f"--log-file={log}", ground.CLI, *arguments], expect=EXITS.get(name, 0), input=REFUSED)
    assert "ERROR SUMMARY: 0 errors" in log.read_text()
    if name == "refused":
        assert "1016" in text
