#!/usr/bin/python3
"""What three ways of grading make of one coat over the whole range of a size table: by proportion, by rule, and drafted
anew at every size, which is what the others are held against.

    /usr/bin/python3 examples/grading_study.py [--out DIRECTORY] [--table CSV] [--fit NAME] [--steps N]

* proportion: the base, its widths with the chest and its heights with the stature, as a copying machine would do
* points: what ends of edges and named points do from the base to the next size, as a workroom's rules, repeated
* curves: the same for every control point of every curve (a grade found from two sizes)
* redraft: the size's measures, drafted

Of each it prints how far seams, the crown in the scye, girths and named points are off at their worst and on the
average, writes a table (CSV) and a plot (PNG) into DIRECTORY, and says what is found in a paragraph made from the
numbers.

Needs the Python package tailorgeom, and matplotlib for the plot.
"""
import argparse
import csv
import pathlib

import numpy as np

import tailorgeom as tg

SIZES = pathlib.Path(__file__).resolve().parents[1] / "shared/sizes/merrow_and_vane.csv"
METHODS = ("proportion", "points", "curves")
#: What is compared, each in mm: how far a graded coat is off the redraft.
ERRORS = {
    "seams": "longest miss of a seam's sides, by intended ease",
    "crown": "crown less scye",
    "chest": "girth on the scye line",
    "waist": "girth at the waist",
    "seat": "girth at the seat",
    "points": "farthest named point",
}
CROWN = ("crown_front", "crown_back")
#: Girths that a table may let grow other than straight.
BENDS = ("waist_girth", "seat_girth")
#: Body pieces and where their girths end in front: the points that tell a level, and the front of the forepart.
LEVELS = {
    "chest": (("sidebody", "scye_bottom"), "centre_front_scye"),
    "waist": (("sidebody", "waist"), "centre_front_waist"),
    "seat": (("sidebody", "seat"), "centre_front_seat"),
}


class Scaled:
    """A pattern with its widths and heights multiplied: enough of one to be measured as the others are."""

    def __init__(self, base, wide, high):
        self.base, self.by = base, np.array([wide, high])

    def points(self):
        return {name: place * self.by for name, place in points_of(self.base).items()}

    def outline(self, piece):
        return flat(self.base.pieces[piece].outline.cubics * self.by)

    def sewn(self, seam):
        """Lengths of both sides of a seam: the same stretches of the same curves."""
        return [sum(map(self.length, side)) for side in seam.stretches]

    def length(self, stretch):
        path = self.base.pieces[stretch.piece].edges[stretch.edge].path.cubics
        along, grown = (np.concatenate([[0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
                        for line in (flat(path, 256), flat(path * self.by, 256)))
        return abs(np.subtract(*np.interp([stretch.stop, stretch.start], along, grown)))


class Whole:
    """A pattern that the library gave, drafted or graded."""

    def __init__(self, shapes):
        self.base = shapes

    def points(self):
        return points_of(self.base)

    def outline(self, piece):
        return flat(self.base.pieces[piece].outline.cubics)

    def sewn(self, seam):
        return seam.lengths


def flat(cubics, each=48):
    t = np.linspace(0, 1, each, endpoint=False)[:, None]
    c = np.asarray(cubics)[:, :, None, :]
    points = (1 - t) ** 3 * c[:, 0] + 3 * t * (1 - t) ** 2 * c[:, 1] + 3 * t * t * (1 - t) * c[:, 2] + t**3 * c[:, 3]
    return np.vstack([points.reshape(-1, 2), cubics[-1][3]])


def points_of(shapes):
    """Named points and beginnings of edges, which are what a workroom grades, by (piece, name)."""
    found = {}
    for piece in shapes.pieces.values():
        found.update({(piece.name, name): np.asarray(place) for name, place in piece.points.items()})
        found.update({(piece.name, f"{e.name}.start"): e.path.cubics[0][0] for e in piece.edges.values()})
    return found


def width(outline, level):
    """From the leftmost to the rightmost crossing of an outline with a level."""
    a, b = outline[:-1], outline[1:]
    cross = (a[:, 1] <= level) != (b[:, 1] <= level)
    share = (level - a[cross, 1]) / (b[cross, 1] - a[cross, 1])
    return a[cross, 0] + share * (b[cross, 0] - a[cross, 0])


def girths(coat):
    """Whole girths over back, sidebody and forepart at each level, without what the darts take."""
    points, found = coat.points(), {}
    for name, (level, front) in LEVELS.items():
        height = points[level][1]
        if name == "chest":  # a little below the bottom of the scye, where all three are whole
            height -= 2
        x = [width(coat.outline(piece), height) for piece in ("back", "sidebody", "forepart")]
        found[name] = 2 * (np.ptp(x[0]) + np.ptp(x[1]) + points["forepart", front][0] - x[2].min())
    return found


def eases(coat):
    """How much longer the first side of each seam is than the second."""
    return {name: first - second for name, seam in coat.base.seams.items() for first, second in [coat.sewn(seam)]}


def errors(coat, redraft):
    eased, wanted, round_it, right = eases(coat), eases(redraft), girths(coat), girths(redraft)
    points, places = coat.points(), redraft.points()
    off = {name: eased[name] - wanted[name] for name in wanted}
    crown = sum(off[name] for name in CROWN)
    seams = max((value for name, value in off.items() if name not in CROWN), key=abs)
    far = max(np.hypot(*(points[name] - place)) for name, place in places.items() if name in points)
    return [seams, crown, *(round_it[name] - right[name] for name in LEVELS), far]


def survey(table, fit, steps):
    """Chests from end to end of the table; the errors, an array (method, chest, error); the base, its chest; and how
    far the table's girths lie off the line through the base and the next size."""
    low, high, _, _ = table.range(fit)
    rows = [i for i, name in enumerate(table.row_fits) if name == fit]
    middle = rows[(len(rows) - 1) // 2]
    base, following = (table.size(table.sizes[i], fit) for i in (middle, middle + 1))
    coats = base.draft(), following.draft()
    step = following["chest_girth"] - base["chest_girth"]
    curves = tg.Grade.from_sizes(coats, [0, 1])
    points = tg.Grade.from_rules(coats[0], {name: rule.move for name, rule in curves.rules().items()})
    chests = np.unique(np.append(np.linspace(low, high, steps), base["chest_girth"]))
    bend = 0.0
    found = np.empty((len(METHODS), len(chests), len(ERRORS)))
    for at, chest in enumerate(chests):
        size = table.at(chest_girth=float(chest), fit=fit)
        redraft, by = Whole(size.draft()), (chest - base["chest_girth"]) / step
        ways = (
            Scaled(coats[0], chest / base["chest_girth"], size["stature"] / base["stature"]),
            Whole(points.apply(by)),
            Whole(curves.apply(by)),
        )
        straight = (base[name] + by * (following[name] - base[name]) - size[name] for name in BENDS if name in size)
        bend = max(bend, *map(abs, straight), 0.0)
        for method, coat in enumerate(ways):
            found[method, at] = errors(coat, redraft)
    return chests, found, table.sizes[middle], base["chest_girth"], bend


def table_of(found):
    yield ["error", "what", *(f"{method}, {how}" for method in METHODS for how in ("worst", "mean"))]
    for place, (name, what) in enumerate(ERRORS.items()):
        size = np.abs(found[:, :, place])
        yield [name, what, *(f"{value:.2f}" for pair in zip(size.max(axis=1), size.mean(axis=1)) for value in pair)]


def print_table(lines):
    widths = [max(map(len, column)) for column in zip(*lines)]
    for line in lines:
        print("  ".join(cell.ljust(w) if i < 2 else cell.rjust(w) for i, (cell, w) in enumerate(zip(line, widths))))


def finding(chests, found, base, base_chest, bend):
    """What the numbers say."""
    seams, crown, chest, waist, seat, points = (np.abs(found[:, :, i]) for i in range(len(ERRORS)))
    girth = np.maximum(np.maximum(chest, waist), seat)
    near = np.abs(chests - base_chest) <= 51
    closes = np.abs(found[2, :, :2]).max(axis=1)
    return (
        f"From the base, size {base}, graded over chests of {chests[0]:.0f} to {chests[-1]:.0f} mm, a coat enlarged by "
        f"proportion misses the redraft of the same measures by up to {seams[0].max():.1f} mm in a seam, "
        f"{crown[0].max():.1f} mm in the crown against its scye and {girth[0].max():.1f} mm in a girth, and its points "
        f"lie up to {points[0].max():.1f} mm astray. Rules for ends and named points, read off two sizes, bring that "
        f"to {seams[1].max():.1f}, {crown[1].max():.1f}, {girth[1].max():.1f} and {points[1].max():.1f} mm; the waist "
        f"is their weak place ({waist[1].max():.1f} mm), for not every seam has a named point there. Rules for every "
        f"control point close to {seams[2].max():.2f} mm in a seam and {crown[2].max():.2f} mm in the crown, but miss "
        f"{girth[2].max():.1f} mm of girth, and their points are {points[2].max():.1f} mm off. That is not the "
        f"method's: it is straight, and neither table nor draft is. The table alone bends away by "
        f"{bend:.1f} mm in waist or seat from the line through the two sizes. One size from "
        f"the base (51 mm of chest) they close to {closes[near].max():.2f} mm with girths "
        f"{girth[2, near].max():.1f} mm off; farther out to {closes[~near].max():.2f} mm and "
        f"{girth[2, ~near].max():.1f} mm. A rule is good for a step or two; beyond, and wherever the table bends, the "
        f"size wants to be drafted."
    )


def draw(chests, found, base_chest, directory):
    import matplotlib

    matplotlib.use("agg")
    from matplotlib import pyplot

    figure, axes = pyplot.subplots(2, 3, figsize=(12, 6.5), constrained_layout=True)
    for place, (ax, (name, what)) in enumerate(zip(axes.flat, ERRORS.items())):
        for method, label in enumerate(METHODS):
            look = {"linestyle": tg.plots.DASHES[method], "marker": tg.plots.MARKERS[method]}
            every = (method * 2, max(1, len(chests) // 6))
            ax.plot(chests, found[method, :, place], color="black", linewidth=1, markevery=every,
                    markerfacecolor="white", label=label, **look)
        ax.set_yscale("symlog", linthresh=1)
        ax.axvline(base_chest, color="black", linewidth=0.5)
        ax.axhline(0, color="black", linewidth=0.5)
        ax.set(title=f"{name}: {what}", xlabel="chest girth, mm", ylabel="off the redraft, mm")
        ax.title.set_fontsize(9)
        ax.spines[["top", "right"]].set_visible(False)
    axes[0, 0].legend(frameon=False, handlelength=4)
    figure.suptitle("Three ways of grading against drafting anew; straight between -1 and 1 mm, else logarithmic")
    figure.savefig(directory / "grading.png", dpi=110)


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--out", type=pathlib.Path, default=pathlib.Path("grading-study"))
    options.add_argument("--table", type=pathlib.Path, default=SIZES)
    options.add_argument("--fit", default="regular")
    options.add_argument("--steps", type=int, default=49, help="chests over the range of the table")
    given = options.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    chests, found, base, base_chest, bend = survey(tg.read_sizes(given.table), given.fit, given.steps)
    lines = list(table_of(found))
    print_table(lines)
    print(f"\nmm; {len(chests)} chests of the fit {given.fit}.\n")
    print(finding(chests, found, base, base_chest, bend))
    with open(given.out / "grading.csv", "w", newline="") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(["method", "chest_girth", *ERRORS])
        for method, name in enumerate(METHODS):
            writer.writerows([name, f"{chest:.3f}", *(f"{value:.4f}" for value in row)]
                             for chest, row in zip(chests, found[method]))
    draw(chests, found, base_chest, given.out)
    print(f"\nwritten to {given.out}: " + ", ".join(sorted(path.name for path in given.out.iterdir())))


if __name__ == "__main__":
    main()
