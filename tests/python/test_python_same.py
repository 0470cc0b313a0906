"""draft(), rows() and a C program give the same bits, on any number of threads; and the interpreter is free
meanwhile."""
import threading
import time

import numpy as np
import pandas
import pytest

import built
from built import tg
from population import columns, orders

COUNT = 600
NAMES = list(tg.quantities())


@pytest.fixture(scope="module")
def found():
    return orders(COUNT, bad=0.1)


@pytest.fixture(scope="module")
def by_c(found, tmp_path_factory):
    """Statuses and quantities, columns in the order of NAMES, from a program compiled here."""
    directory = tmp_path_factory.mktemp("c")
    lib = built.BUILD / "lib"
    built.run(
        [
            "gcc",
            "-I",
            built.ROOT / "include",
            built.ROOT / "tests/python/reference.c",
            "-o",
            directory / "reference",
            "-L",
            lib,
            "-ltailorgeom",
            f"-Wl,-rpath,{lib}",
        ]
    )
    given = np.full((COUNT, 1 + max(field.number for field in tg.fields().values())), np.nan)
    for row, order in enumerate(found):
        for name, value in order.items():
            given[row, tg.fields()[name].number] = value
    (directory / "in").write_bytes(given.tobytes())
    with open(directory / "in") as source, open(directory / "out", "wb") as out:
        built.subprocess.run([directory / "reference"], stdin=source, stdout=out, check=True)
    answer = np.fromfile(directory / "out").reshape(COUNT, -1)
    return answer[:, 0].astype(int), answer[:, [1 + tg.quantities()[name].number for name in NAMES]]


def by_draft(order):
    try:
        coat = tg.draft(**order)
    except tg.TailorError as error:
        return error.status, [np.nan] * len(NAMES)
    return 0, [coat.quantities[name] for name in NAMES]


def test_draft_is_c(found, by_c):
    ours = [by_draft(order) for order in found]
    assert [status for status, _ in ours] == by_c[0].tolist()
    assert np.array([values for _, values in ours]).tobytes() == by_c[1].tobytes()
    assert 30 < np.count_nonzero(by_c[0]) < COUNT / 2


@pytest.mark.parametrize("threads", [1, 2, 3])
def test_rows_is_c(found, by_c, threads):
    answer = tg.rows(columns(found * 3), on_error="keep", threads=threads)
    assert answer["status"].tolist() == by_c[0].tolist() * 3
    assert np.column_stack([answer[name] for name in NAMES]).tobytes() == np.tile(by_c[1], (3, 1)).tobytes()


def test_the_command_line_is_c(found, by_c, tmp_path):
    """`tailorgeom rows` on the same orders, written so that a double is read back as itself."""

    def cell(order, name):
        choices = {choice.number: choice.name for choice in tg.choices(name).values()}
        return "" if name not in order else choices[order[name]] if choices else repr(order[name])

    names = list(columns(found))
    lines = [",".join(names)] + [",".join(cell(order, name) for name in names) for order in found]
    sound = [place for place, order in enumerate(found) if np.isfinite(list(order.values())).all()]
    (tmp_path / "orders.csv").write_text("\n".join([lines[0], *(lines[1 + place] for place in sound)]) + "\n")
    built.run([built.CLI, "rows", "orders.csv", "--want", "all", "-o", "out.csv"], expect=1, cwd=tmp_path)
    answer = pandas.read_csv(tmp_path / "out.csv", float_precision="round_trip")
    statuses = {tg._link.text(tg._link.lib.tailor_status_name(status)): status for status in range(1000)}
    assert [statuses.get(status, status) for status in answer["status"]] == by_c[0][sound].tolist()
    assert np.array_equal(answer[NAMES].to_numpy(), by_c[1][sound], equal_nan=True)


def test_a_row_depends_on_no_other(found, by_c):
    for part in (slice(0, 1), slice(7, 50), slice(580, 600)):
        answer = tg.rows(columns(found[part]), on_error="keep")
        assert np.column_stack([answer[name] for name in NAMES]).tobytes() == by_c[1][part].tobytes()


def test_one_pattern_read_by_many_threads():
    coat, answers = tg.draft(chest_girth=1016), []
    read = [
        threading.Thread(
            target=lambda: answers.append(
                (coat.pieces["forepart"].outline.area, coat.quantities["lapel_area"], len(coat.to_svg()))
            )
        )
        for _ in range(8)
    ]
    for thread in read:
        thread.start()
    for thread in read:
        thread.join()
    assert len(answers) == 8 and len(set(answers)) == 1


def test_the_interpreter_is_free():
    """While one thread is in the C library, this one goes on: it gets its share of the processors, however busy."""
    table, used = {"chest_girth": np.linspace(900, 1100, 40000)}, []

    def measure():
        begin = time.thread_time()
        tg.rows(table, "lapel_area", on_error="keep")
        used.append(time.thread_time() - begin)

    work = threading.Thread(target=measure)
    begin = time.thread_time()
    work.start()
    while work.is_alive():
        pass
    here = time.thread_time() - begin
    work.join()
    assert used[0] > 0.05 and here > used[0] / 8  # held, there would be next to nothing left for this thread
