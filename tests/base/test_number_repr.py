"""Numbers as text against Python's repr, which is proven to be the shortest decimal and of those the nearest."""
import ctypes
import math
import os
import pathlib
import random
import struct

BUILD = pathlib.Path(os.environ["TAILOR_BUILD"])
COUNT = 200_000 if "TAILOR_LONG" in os.environ else 20_000


def writer():
    write = ctypes.CDLL(str(BUILD / "lib/libtailorgeom.so")).tailor_number_write
    write.argtypes = [ctypes.c_double, ctypes.c_char_p, ctypes.c_size_t, ctypes.POINTER(ctypes.c_size_t)]
    text = ctypes.create_string_buffer(32)

    def call(value):
        assert write(value, text, 32, None) == 0
        return text.value.decode()
    return call


def figures(text):
    """Sign, digits without zeros at either end, and the power of ten of the last: what a decimal is, however set."""
    sign, text = text[0] == "-", text.lstrip("-")
    mantissa, _, exponent = text.partition("e")
    whole, _, part = mantissa.partition(".")
    digits = (whole + part).lstrip("0")
    power = int(exponent or 0) - len(part)
    stripped = digits.rstrip("0")
    return sign, stripped, power + len(digits) - len(stripped) if stripped else 0


def values():
    dice = random.Random(11)
    for exponent in range(-1074, 1024):
        power = math.ldexp(1, exponent)
        yield from (power, math.nextafter(power, 0), math.nextafter(power, math.inf))
    for exponent in range(-323, 308):
        yield from (float(f"{mantissa}e{exponent}") for mantissa in (1, 2, 5, 9.99))
    for _ in range(COUNT):
        yield dice.uniform(-2000, 2000)
        yield round(dice.uniform(-3000, 3000), dice.randrange(7))
        yield 10 ** dice.uniform(-20, 20)
        yield float(dice.getrandbits(dice.randrange(1, 64)))
        any_bits, = struct.unpack("<d", struct.pack("<Q", dice.getrandbits(64)))
        if math.isfinite(any_bits):
            yield any_bits


def test_as_repr():
    write, count = writer(), 0
    for value in values():
        text = write(value)
        assert figures(text) == figures(repr(value)), (text, value)
        size = abs(value)
        assert ("e" in text) == (value != 0 and (size < 1e-5 or size >= 1e15 and len(figures(text)[1]) < len(
            str(int(size))))), text
        count += 1
    assert count > 4 * COUNT


def test_the_comparison_can_fail():
    assert figures("1e+22") == figures("10000000000000000000000") != figures("1.0000000000000001e22")
    assert figures("0.1") == figures("1e-01") != figures("-0.1")
