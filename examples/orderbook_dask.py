#!/usr/bin/python3
"""An order book measured on many workers: the same rows, one output, whatever the partitions and whoever is lost.

    orderbook_dask.py ORDERS.csv OUT.csv --workers 4          a cluster of processes on this machine
    orderbook_dask.py ORDERS.csv OUT.csv --scheduler HOST:PORT  a cluster that is there already
    orderbook_dask.py ORDERS.csv OUT.csv --single             one process, no Dask: the same bytes
    orderbook_dask.py --make 100000 ORDERS.csv                an order book of invented clients
    orderbook_dask.py --measure 20000,200000                  how long either takes: from which size it pays

ORDERS.csv has a header; columns named as fields are fields (numbers, lengths such as "40 3/8 in", names of choices,
empty for not given), all others (client, order number) are carried through. OUT.csv has the carried columns, the
quantities, and a status and message for each row. A cell may not hold a line break, since a partition is cut at line
ends.

Each worker reads its partition from ORDERS.csv and writes its own part beside OUT.csv, under a name of its own that is
renamed when it is whole; so a partition that was begun by a worker who is lost is simply done again by another. Workers
need to see the same files, and need the Python package tailorgeom; the client joins the parts in their order.

From which size it pays, measured on two cores with two workers: see README.md, Python.
"""
import argparse
import hashlib
import io
import os
import pathlib
import shutil
import sys
import tempfile
import time

import numpy as np
import pandas

import tailorgeom as tg

WANT = ["coverage_scye", "coverage_top_button", "lapel_area", "vee_area", "break_length", "cloth_area"]


def partitions(path, size):
    """Header line, and (first byte, bytes) of stretches of about `size` bytes that end where a line ends."""
    with open(path, "rb") as book:
        header = book.readline()
        first, end, cuts = book.tell(), os.path.getsize(path), []
        while first < end:
            book.seek(min(first + size, end))
            book.readline()
            last = min(book.tell(), end)
            cuts.append((first, last - first))
            first = last
    return header, cuts


def measure(text, threads):
    """A partition's CSV with its header, as bytes, measured: the answer as a DataFrame."""
    book = pandas.read_csv(io.BytesIO(text), dtype=str, keep_default_na=False, na_values=[""])
    fields = [name for name in book.columns if name in tg.fields()]
    orders = {name: numbers(book[name]) for name in fields}
    answer = tg.rows(pandas.DataFrame(orders), WANT, on_error="keep", threads=threads)
    return pandas.concat([book.drop(columns=fields), answer], axis=1)


def numbers(column):
    """A column of bare numbers as floats, which is quicker; any other stays text, for rows() to read."""
    plain = pandas.to_numeric(column, errors="coerce")
    return plain if plain.notna().equals(column.notna()) else column.where(column.notna(), None)


def work(book, header, first, size, part, with_header, threads=1, slow=0.0):
    """One partition, from the order book to a file of its own. Doing it again gives the same file."""
    with open(book, "rb") as source:
        source.seek(first)
        text = header + source.read(size)
    answer = measure(text, threads)
    time.sleep(slow)
    with tempfile.NamedTemporaryFile("w", dir=pathlib.Path(part).parent, delete=False, newline="") as out:
        answer.to_csv(out, index=False, header=with_header, lineterminator="\n")
    os.replace(out.name, part)
    return len(answer), int(np.count_nonzero(answer["status"]))


def jobs(book, parts, size):
    header, cuts = partitions(book, size)
    return [(str(book), header, *cut, str(parts / f"{place:06}.csv"), place == 0) for place, cut in enumerate(cuts)]


def join(parts, out):
    """The parts in their order as one file, renamed when it is whole."""
    whole = out.with_name(out.name + ".part")
    with open(whole, "wb") as joined:
        for part in sorted(parts.glob("*.csv")):
            with open(part, "rb") as source:
                shutil.copyfileobj(source, joined)
    os.replace(whole, out)


def run_single(book, parts, given):
    return [work(*job, given.threads) for job in jobs(book, parts, os.path.getsize(book) + 1)]


def run_dask(book, parts, given):
    from dask.distributed import Client, LocalCluster, as_completed

    cluster = None
    if not given.scheduler:
        cluster = LocalCluster(n_workers=given.workers, threads_per_worker=1, dashboard_address=None)
    with Client(given.scheduler or cluster) as client:
        tasks = [client.submit(work, *job, 1, given.slow, pure=False) for job in jobs(book, parts, given.partition)]
        found = []
        for task, answer in as_completed(tasks, with_results=True):
            if given.lose_a_worker and cluster and not found:
                lost = next(iter(cluster.workers.values()))
                print(f"killing the worker of process {lost.pid}", file=sys.stderr)
                os.kill(lost.pid, 9)
            found.append(answer)
    if cluster:
        cluster.close()
    return found


def measured(book, out, given):
    """Order book in, one file out; rows and how many were refused."""
    parts = out.with_name(out.name + ".parts")
    shutil.rmtree(parts, ignore_errors=True)
    parts.mkdir()
    found = (run_single if given.single else run_dask)(book, parts, given)
    join(parts, out)
    shutil.rmtree(parts)
    return sum(count for count, _ in found), sum(refused for _, refused in found)


def make(count, path):
    """Invented clients: order numbers, names from a list of ten, one row in a hundred with a slip of the pen."""
    chance = np.random.default_rng(1)
    names = ["Ashdown", "Birkett", "Carrow", "Denholm", "Elsworth", "Fairlie", "Garth", "Holloway", "Ingram", "Jessop"]
    chest = chance.uniform(850, 1250, count).round(1)
    book = pandas.DataFrame({
        "order": np.arange(1, count + 1),
        "client": chance.choice(names, count),
        "chest_girth": [f"{value / 25.4:.2f} in" if inch else f"{value}" for value, inch in
                        zip(chest, chance.random(count) < 0.05)],
        "stature": chance.uniform(1600, 2000, count).round(),
        "buttoning": chance.choice(tg.fields()["buttoning"].choices, count),
        "lapel_width": np.where(chance.random(count) < 0.5, "", chance.uniform(78, 98, count).round(1).astype(str)),
    })  # fmt: skip
    slips = chance.random(count) < 0.01
    book.loc[slips, "chest_girth"] = chance.choice(["40", "nan", "104,5 cm", "-1"], slips.sum())
    book.to_csv(path, index=False, lineterminator="\n")


def sha256(path):
    with open(path, "rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def compare_sizes(sizes, given):
    """For each size: one process with one thread, with as many as there would be workers, and a cluster with the time
    that it takes to start; and whether all give the same bytes."""
    print(f"{'rows':>9}  one process  {given.workers} threads  {given.workers} workers  same bytes")
    with tempfile.TemporaryDirectory() as directory:
        book = pathlib.Path(directory) / "orders.csv"
        for size in sizes:
            make(size, book)
            spent, hashes = [], set()
            for given.single, given.threads in ((True, 1), (True, given.workers), (False, 1)):
                out = book.with_name("out.csv")
                begin = time.perf_counter()
                measured(book, out, given)
                spent.append(time.perf_counter() - begin)
                hashes.add(sha256(out))
            same = "yes" if len(hashes) == 1 else "NO"
            print(f"{size:9}  {spent[0]:9.1f} s  {spent[1]:7.1f} s  {spent[2]:7.1f} s  {same}", flush=True)


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("orders", type=pathlib.Path, nargs="?")
    options.add_argument("out", type=pathlib.Path, nargs="?")
    options.add_argument("--workers", type=int, default=os.cpu_count())
    options.add_argument("--scheduler", help="address of a cluster that is there already")
    options.add_argument("--single", action="store_true", help="one process, without Dask")
    options.add_argument("--threads", type=int, default=1, help="of the one process")
    options.add_argument("--partition", type=int, default=1_000_000, help="bytes of a partition, about")
    options.add_argument("--make", type=int, metavar="ROWS", help="write an invented order book")
    options.add_argument("--measure", metavar="SIZES", help="measure order books of these sizes")
    options.add_argument("--lose-a-worker", action="store_true", help="kill a worker after the first partition, to see")
    options.add_argument(
        "--slow", type=float, default=0.0, help="seconds that each partition waits, for the same purpose"
    )
    given = options.parse_args()
    if given.measure:
        compare_sizes([int(size) for size in given.measure.split(",")], given)
    elif given.make and given.orders:
        make(given.make, given.orders)
    elif given.orders and given.out:
        begin = time.perf_counter()
        count, refused = measured(given.orders, given.out, given)
        print(f"{count} rows, {refused} refused, {time.perf_counter() - begin:.1f} s, sha256 {sha256(given.out)}")
    else:
        options.error("ORDERS.csv and OUT.csv are needed")


if __name__ == "__main__":
    main()
