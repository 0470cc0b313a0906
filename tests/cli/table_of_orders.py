"""Tables of orders for the tests of `tailorgeom rows`; clients and numbers are invented."""
import csv
import io
import random

HEAD = ["client", "chest_girth", "waist_girth", "stature", "buttoning", "order"]
BUTTONINGS = ["two-button", "three-button", "one-button", "roll-by-cut", "roll-by-make", ""]


def table(count, bad=0.01, seed=1):
    """`count` orders of everyday size, of which a share is refused, as text."""
    dice = random.Random(seed)
    lines = [",".join(HEAD)]
    for number in range(count):
        chest = dice.uniform(900, 1200)
        cells = [
            f'"Fallowell, O. {number}"',
            f"{chest:.1f}",
            f"{chest - dice.uniform(50, 150):.1f}",
            f"{dice.uniform(1650, 1900):.0f}",
            dice.choice(BUTTONINGS),
            f"{number:07d}",
        ]
        if dice.random() < bad:
            cells[1] = dice.choice(["40", "", "nan", '"101,6 cm"', "3000"])
        lines.append(",".join(cells))
    return "\n".join(lines) + "\n"


def cells(text):
    """The rows of a table as dicts, by Python's own reader."""
    return list(csv.DictReader(io.StringIO(text, newline=""), strict=True))
