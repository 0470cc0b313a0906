"""Typed lengths against exact rational arithmetic: Python's fractions, and its own rounding of them to a double."""
import ctypes
import os
import pathlib
import random
from fractions import Fraction

import pytest

BUILD = pathlib.Path(os.environ["TAILOR_BUILD"])
SIZES = {"": Fraction(1), " mm": Fraction(1), "mm": Fraction(1), " cm": Fraction(10),
         " in": Fraction(254, 10), '"': Fraction(254, 10)}
COUNT = 200_000 if "TAILOR_LONG" in os.environ else 20_000


@pytest.fixture(scope="module")
def read():
    library = ctypes.CDLL(str(BUILD / "lib/libtailorgeom.so"))
    value = ctypes.c_double()

    def call(text):
        value.value = float("nan")
        assert library.tailor_length_read(text.encode(), ctypes.byref(value), None) == 0, text
        return value.value
    return call


def test_decimals_are_rounded_once(read):
    dice = random.Random(1)
    for _ in range(COUNT):
        figures, decimals = dice.randint(1, 17), dice.randint(0, 30)
        digits = str(dice.randrange(10 ** figures)).zfill(decimals + 1)
        text = digits[:-decimals] + "." + digits[-decimals:] if decimals else digits
        unit = dice.choice(list(SIZES))
        sign = dice.choice(["", "-", "+"])
        exact = Fraction(text) * SIZES[unit] * (-1 if sign == "-" else 1)
        assert read(sign + text + unit) == float(exact), sign + text + unit


def test_halfway_cases(read):
    """Numbers in the middle between two doubles go to the even one."""
    dice = random.Random(2)
    for _ in range(COUNT // 10):
        middle = 4 * dice.randrange(2 ** 52, 2 ** 53) + 2  # 55 bits, of which a double holds 53
        for text in (str(middle), str(middle - 1), str(middle + 1)):
            assert read(text) == float(Fraction(text)), text


def test_fractions_are_rounded_once(read):
    dice = random.Random(3)
    for _ in range(COUNT):
        under = dice.choice([2, 4, 8, 16, 32, 64, 3, dice.randint(2, 9999)])
        over, whole = dice.randrange(under), dice.choice([0, dice.randrange(100), dice.randrange(10 ** 9)])
        unit = dice.choice([" in", '"', " cm", "mm"])
        text = f"{whole} {over}/{under}" if whole else f"{over}/{under}"
        assert read(text + unit) == float((whole + Fraction(over, under)) * SIZES.get(unit, Fraction(1))), text + unit
