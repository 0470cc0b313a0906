#!/usr/bin/python3
"""What Python costs: one draft() above the C call, rows() above the C call and on two threads, and the peer.

    TAILOR_BUILD=build-tests/gcc /usr/bin/python3 tests/bench/bench_python.py [ROWS [PEER_ROWS]]

The peer is given the curves of the finished pieces as NumPy arrays, and computes with Shapely 19 of the
quantities: no drafting, no checks. Its answers are compared with the library's first.
"""
import math
import pathlib
import sys
import time

import numpy as np
from shapely.geometry import LineString, Point, Polygon

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "python"))
from built import tg  # noqa: E402
from population import columns, orders  # noqa: E402

ffi, lib = tg._link.ffi, tg._link.lib
KEYWORDS = {
    "chest_girth": 1016.0, "stature": 1800.0, "waist_girth": 900.0, "seat_girth": 1000.0, "neck_girth": 390.0,
    "back_waist_length": 445.0, "coat_length": 760.0, "lapel_width": 90.0, "buttoning": 2, "cuff_width": 145.0,
    "collar_fall": 45.0, "gorge_depth": 60.0,
}  # fmt: skip


def timed(call, times=1):
    begin = time.perf_counter()
    for _ in range(times):
        call()
    return (time.perf_counter() - begin) / times


def best(*calls, rounds, times=1):
    """The least seconds of each call; they take turns, so that a busy machine is busy for all of them."""
    found = [math.inf] * len(calls)
    for _ in range(rounds):
        found = [min(before, timed(call, times)) for before, call in zip(found, calls)]
    return found


def scalar(rounds):
    client, made = tg.draft(**KEYWORDS)._client, ffi.new("tailor_coat **")
    count = len(client)

    def one():
        lib.tailor_coat_new(ffi.NULL, client, count, lib.TAILOR_EXTENT_SECTION, made, ffi.NULL)
        lib.tailor_coat_free(made[0])

    c, many = best(one, lambda: tg.draft(**KEYWORDS), rounds=rounds, times=50)
    c, many = 1e6 * c, 1e6 * many
    print(f"one coat: the C calls {c:.2f} us, draft() with 12 keywords {many:.2f} us: {many - c:.2f} above")


def c_rows(table, want):
    """The C call alone, on arrays that are ready."""
    matrix = np.column_stack(list(table.values()))
    count, width = matrix.shape
    numbers = ffi.new("int32_t[]", [tg.fields()[name].number for name in table])
    wanted = ffi.new("int32_t[]", [tg.quantities()[name].number for name in want])
    values = np.empty((count, max(len(want), 1)))
    plan, worker = ffi.new("tailor_rows **"), ffi.new("tailor_rows_worker **")
    given, into = ffi.from_buffer("double[]", matrix), ffi.from_buffer("double[]", values)
    assert not lib.tailor_rows_new(ffi.NULL, numbers, width, wanted, len(want), plan, ffi.NULL)
    assert not lib.tailor_rows_worker_new(plan[0], 0, 0, worker, ffi.NULL)

    def call():
        assert not lib.tailor_rows_run(worker[0], given, count, into, ffi.NULL, ffi.NULL)

    return call


def many_rows(count, rounds):
    table = columns(orders(min(count, 2000)))
    table = {name: np.resize(column, count) for name, column in table.items()}
    every = list(tg.quantities())
    for want, what in (([], "none wanted"), (every, f"all {len(every)} quantities")):
        one, two, c = best(
            lambda: tg.rows(table, want, on_error="keep"),
            lambda: tg.rows(table, want, on_error="keep", threads=2),
            c_rows(table, want),
            rounds=rounds,
        )
        print(f"{count} rows, {what}: C {count / c:.0f} a second, rows() {count / one:.0f}")
        print(f"      rows() on two threads {count / two:.0f}: {one / two:.2f} times one")
    return one / count


STEPS = np.linspace(0, 1, 33)[:, None]
BERNSTEIN = np.hstack([(1 - STEPS) ** 3, 3 * STEPS * (1 - STEPS) ** 2, 3 * STEPS**2 * (1 - STEPS), STEPS**3])


def polyline(cubics):
    """33 points a cubic: chords within 0.05 mm on a coat."""
    return (BERNSTEIN @ cubics).reshape(-1, 2)


def prepared(coat):
    """What the peer is given: the curves of the finished pieces and their named points, as arrays."""
    pieces = coat.pieces
    edges = {(name, edge.name): edge.path.cubics for name, piece in pieces.items() for edge in piece.edges.values()}
    points = {(name, point): place for name, piece in pieces.items() for point, place in piece.points.items()}
    return edges, coat.outlines, points, pieces["forepart"].marks["lapel_turned"].path.cubics


def peer(given):
    """Some of the quantities, by Shapely and NumPy."""
    edges, outlines, points, lapel = given
    lines = {key: LineString(polyline(edge)) for key, edge in edges.items()}
    polygons = {name: Polygon(polyline(outline)) for name, outline in outlines.items()}
    length = {key: line.length for key, line in lines.items()}
    front = {name: place for (piece, name), place in points.items() if piece == "forepart"}
    stand, broken, scye = front["stand_point"], front["break_point"], front["scye_front"]
    fold = LineString([broken, stand])

    def covered(level):
        across = LineString([(-1e3, level), (2e3, level)])
        found = across.intersection(fold if level > broken[1] else lines["forepart", "front_edge"])
        return np.max(np.atleast_2d(np.array(found.coords))[:, 0]) - scye[0]

    scye_length = sum(length[piece, "scye"] for piece in ("back", "sidebody", "forepart"))
    crown_length = length["topsleeve", "crown"] + length["undersleeve", "crown"]
    return {
        "cloth_area": 2 * sum(polygon.area for polygon in polygons.values()),
        "lapel_area": Polygon(polyline(lapel)).area,
        "scye_length": scye_length,
        "crown_length": crown_length,
        "crown_fullness": crown_length - scye_length,
        "back_shoulder_length": length["back", "shoulder"],
        "front_shoulder_length": length["forepart", "shoulder"],
        "back_neck_length": length["back", "neck"],
        "gorge_length": length["forepart", "gorge"],
        "lapel_edge_length": length["forepart", "lapel_edge"],
        "finished_length": length["back", "centre_back"],
        "collar_leaf_length": length["under_collar", "leaf"],
        "break_length": fold.length,
        "break_angle": math.degrees(math.atan2(broken[0] - stand[0], stand[1] - broken[1])),
        "coverage_scye": covered(scye[1]),
        "coverage_top_button": covered(front["top_button_level"][1]),
        "vee_depth": front["neck_point"][1] - broken[1],
        "break_level": -broken[1],
        "lapel_tip_to_scye": lines["forepart", "scye"].distance(Point(turned(front["tip"], stand, broken))),
    }


def turned(p, a, b):
    along = (b - a) / np.hypot(*(b - a))
    return a + 2 * along * np.dot(p - a, along) - (p - a)


def agreed(coats, given):
    """How far the peer's answers are from the library's, at most, as parts of what is allowed: 0.1 mm, areas 2e-3."""
    worst = {}
    for coat, one in zip(coats, given):
        for name, value in peer(one).items():
            allowed = 0.1 if tg.quantities()[name].unit != "mm2" else 2e-3 * coat.quantities[name]
            worst[name] = max(worst.get(name, 0.0), abs(value - coat.quantities[name]) / allowed)
    assert max(worst.values()) < 1, worst
    return worst


def against_the_peer(count, seconds_a_row):
    coats = [tg.draft(**order) for order in orders(count, seed=2) if drafts(order)]
    given = [prepared(coat) for coat in coats]
    worst = agreed(coats, given)
    begin = time.perf_counter()
    for one in given:
        peer(one)
    spent = (time.perf_counter() - begin) / len(given)
    ours, theirs = 1e6 * seconds_a_row, 1e6 * spent
    print(f"peer: {len(worst)} quantities of {len(given)} finished coats by Shapely and NumPy: {theirs:.0f} us a coat")
    print(f"      rows(), drafting and all {len(tg.quantities())}: {ours:.1f} us; ratio {theirs / ours:.0f}")
    print(f"      its answers differ by {max(worst.values()):.2f} of the allowed 0.1 mm or 0.2 % of area, at most")


def drafts(order):
    try:
        tg.draft(**order)
    except tg.TailorError:
        return False
    return True


def main(count=20000, peers=1000):
    scalar(rounds=max(5, count // 200))
    seconds = many_rows(count, rounds=3)
    against_the_peer(peers, seconds)


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
