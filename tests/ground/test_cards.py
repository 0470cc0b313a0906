"""Cards torn apart at random: the CLI answers each with a sheet or with a sentence, never with a crash. Runs on the
plain build and on the sanitized one; `tests/run long` tears many more."""
import random
import subprocess

import pytest

import ground

CARDS = sorted((ground.ROOT / "examples/cards").glob("*.ini"))
ROUNDS = 5
EACH = 400 if ground.LONG else 40
SCRAPS = [b"\n", b"=", b"[", b"]", b";", b"#", b"\"", b"nan", b"inf", b"1e9", b"-1", b"0", b"40", b"102,5", b"7/0",
          b" in", b"\x00", b"\xff", b"\xef\xbb\xbf", b"[house]\n", b"chest_girth = 1016\n", b"  ", b"x" * 300]


def torn(dice, text):
    """A card with up to four of its pieces cut out, doubled, swapped for another or overwritten."""
    text = bytearray(text)
    for _ in range(dice.randint(1, 4)):
        start = dice.randrange(len(text) + 1)
        end = min(len(text), start + dice.choice([0, 1, 3, 20, 120]))
        patch = dice.choice([b"", bytes(text[start:end]) * 2, dice.choice(SCRAPS), bytes([dice.randrange(256)])])
        text[start:end] = patch
    return bytes(text)


@pytest.mark.parametrize("number", range(ROUNDS))
@pytest.mark.parametrize("card", CARDS, ids=lambda path: path.stem)
def test_torn_card(card, number, tmp_path):
    dice = random.Random(f"{card.name} {number}")
    ends = set()
    for _ in range(EACH):
        text = torn(dice, card.read_bytes())
        (tmp_path / "card.ini").write_bytes(text)
        words = dice.choice([["check", "card.ini"], ["compare", "card.ini"], ["draft", "card.ini", "--json"]])
        done = subprocess.run([ground.CLI, *words], capture_output=True, cwd=tmp_path, timeout=900)
        said = done.stderr.decode()  # what the program says is always UTF-8
        assert done.returncode in (0, 1), f"exit {done.returncode} from {words} on {text!r}\n{said}"
        assert done.stdout if done.returncode == 0 else said.strip(), f"not a word from {words} on {text!r}"
        ends.add(done.returncode)
    assert ends == {0, 1}
