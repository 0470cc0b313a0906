#!/usr/bin/python3
"""What the five single-breasted fastenings make of a coat, over the whole range of chests and statures: some 100,000
orders in seconds.

    /usr/bin/python3 examples/fastening_study.py [--out DIRECTORY] [--chests N] [--statures N] [--threads N]

Every order is an average figure of its chest and stature, the rest by the rules of the table of fields. Prints a table
of coverage, lapel area, open area and break angle with their sensitivities, and what is found in a paragraph made from
the numbers; writes the table (CSV) and three plots (PNG) into DIRECTORY.

Needs the Python package tailorgeom, and matplotlib for the plots.
"""
import argparse
import csv
import pathlib
import time

import numpy as np

import tailorgeom as tg

WANT = {
    "coverage_scye": "chest covered on the scye line",
    "coverage_top_button": "chest covered at the top button of three",
    "lapel_area": "area of one lapel",
    "vee_area": "open area between the lapels",
    "break_angle": "lean of the break line",
}
ROLLED = "coverage_scye_rolled"
#: The single-breasted ones.
FASTENINGS = ("one-button", "two-button", "three-button", "roll-by-make", "roll-by-cut")
#: Fields whose effect is measured beside chest and stature, with a step to either side, in their units.
STEPS = {"lapel_width": 1.0, "waist_button_rise": 1.0, "collar_stand": 1.0, "shoulder_slope": 0.5}
#: The man whom the table is about.
MIDDLE = {"chest_girth": 1016.0, "stature": 1750.0}


def axis(name, count):
    field = tg.fields()[name]
    return np.linspace(field.low, field.high, count)


def survey(chests, statures, threads):
    """Quantities by name, each an array (fastening, stature, chest), NaN for an order that is refused."""
    shape = (len(FASTENINGS), len(statures), len(chests))
    kind, stature, chest = np.meshgrid(np.arange(len(FASTENINGS)) + 1, statures, chests, indexing="ij")
    table = {"buttoning": kind.ravel(), "stature": stature.ravel(), "chest_girth": chest.ravel()}
    answer = tg.rows(table, [*WANT, ROLLED], on_error="keep", threads=threads)
    return {name: answer[name].reshape(shape) for name in [*WANT, ROLLED]}, answer["status"].reshape(shape)


def slopes(found, chests, statures):
    """How much each quantity gains for 10 mm of chest and of stature: medians over the range, by quantity and field."""
    return {
        (name, field): np.nanmedian(np.gradient(found[name], places, axis=along), axis=(1, 2)) * 10
        for name in WANT
        for field, places, along in (("chest_girth", chests, 2), ("stature", statures, 1))
    }


def differences(threads):
    """How much each quantity gains for one unit of other fields: central differences over a coarse grid, medians."""
    gains, orders = {}, 0
    chest, stature = (values.ravel() for values in np.meshgrid(np.linspace(850, 1300, 19), np.linspace(1600, 2000, 9)))
    for field, step in STEPS.items():
        ruled = [tg.draft(chest_girth=c, stature=s, checks="keep").fields[field] for c, s in zip(chest, stature)]
        for place, fastening in enumerate(FASTENINGS):
            ends = [
                tg.rows(
                    {"chest_girth": chest, "stature": stature, "buttoning": fastening, field: np.add(ruled, change)},
                    WANT,
                    on_error="keep",
                    threads=threads,
                )
                for change in (-step, step)
            ]
            orders += 2 * len(chest)
            for name in WANT:
                gain = np.nanmedian(ends[1][name] - ends[0][name]) / (2 * step)
                gains.setdefault((name, field), np.empty(len(FASTENINGS)))[place] = gain
    return gains, orders


def table(found, gains, at):
    """Rows of text, one a quantity and fastening: the value for the man in the middle, the range, the sensitivities."""
    fields = list(dict.fromkeys(field for _, field in gains))
    yield [
        "quantity",
        "unit",
        "fastening",
        "middle",
        "least",
        "most",
        *(f"per {unit_of(field)} {field}" for field in fields),
    ]
    for name in WANT:
        for place, fastening in enumerate(FASTENINGS):
            values = found[name][place]
            effects = [f"{gains[name, field][place]:.3g}" for field in fields]
            ends = [values[at], np.nanmin(values), np.nanmax(values)]
            yield [name, tg.quantities()[name].unit, fastening, *(f"{value:.1f}" for value in ends), *effects]


def unit_of(field):
    return "10 mm" if field in MIDDLE else f"1 {tg.fields()[field].unit}"


def print_table(lines):
    widths = [max(map(len, column)) for column in zip(*lines)]
    for line in lines:
        print(
            "  ".join(
                cell.ljust(w) if i < 3 else cell.rjust(w) for i, (cell, w) in enumerate(zip(line, widths))
            ).rstrip()
        )


def finding(found, gains, at):
    """What the numbers say."""
    one, two, three, make, cut = range(5)
    cover, lapel, vee, lean = (found[name] for name in ("coverage_scye", "lapel_area", "vee_area", "break_angle"))
    more = cover[three] - cover[two]
    usual, chest = np.nanmedian(more), gains["coverage_scye", "chest_girth"][two] / 10
    less_lapel, less_vee = (100 * (1 - np.nanmedian(area[three] / area[two])) for area in (lapel, vee))
    alike = max(np.nanmax(np.abs(found[name][cut] - found[name][two])) for name in WANT)
    as_cut = max(np.nanmax(np.abs(found[name][make] - found[name][three])) for name in WANT)
    rolled = np.nanmax(np.abs(found[ROLLED][make] - cover[two]))
    width = gains["coverage_scye", "lapel_width"][two]
    figures = np.count_nonzero(~np.isnan(more))
    return (
        f"On the average man of {MIDDLE['chest_girth']:.0f} mm chest and {MIDDLE['stature']:.0f} mm stature a coat "
        f"of three buttons covers {cover[three][at]:.0f} mm of each side of the chest on the scye line, one of two "
        f"buttons {cover[two][at]:.0f} and one of one button {cover[one][at]:.0f}. Over {figures} figures that "
        f"drafted, three buttons cover {np.nanmin(more):.1f} to {np.nanmax(more):.1f} mm more than two (median "
        f"{usual:.1f}): as much as {usual / chest:.0f} mm of chest girth add to a two-button coat, which gains "
        f"{chest:.2f} mm a mm. The price is the lapel: its area falls by {less_lapel:.0f} %, the open area by "
        f"{less_vee:.0f} %, and the break line leans {np.nanmedian(lean[three] - lean[two]):.1f} deg more. A three "
        f"that is cut to roll is the two-button coat in every quantity here (largest difference {alike:.2g}); one "
        f"that rolls by its make is the three-button coat as cut (largest difference {as_cut:.2g}), and once rolled "
        f"covers what two buttons cover, to {rolled:.1g} mm. The width of the lapel does "
        f"{'nothing' if abs(width) < 0.005 else 'little'} for coverage ({width:+.2f} mm a mm): what covers the "
        "chest is where the front breaks, not how wide it turns."
    )


def draw(found, gains, chests, statures, at, directory):
    import matplotlib

    matplotlib.use("agg")
    from matplotlib import pyplot

    dashes, markers = tg.plots.DASHES, tg.plots.MARKERS
    figure, axes = pyplot.subplots(2, 2, figsize=(10, 7), constrained_layout=True)
    for ax, name in zip(axes.flat, ("coverage_scye", "lapel_area", "vee_area", "break_angle")):
        for place, fastening in enumerate(FASTENINGS):
            spaced = (place * len(chests) // 30, max(1, len(chests) // 6))
            look = {
                "linestyle": dashes[place],
                "marker": markers[place],
                "markevery": spaced,
                "markerfacecolor": "white",
            }
            ax.plot(chests, found[name][place, at[0]], color="black", linewidth=1, label=fastening, **look)
        ax.set_xlabel("chest girth, mm")
        ax.set_ylabel(f"{WANT[name]}, {tg.quantities()[name].unit}")
        ax.spines[["top", "right"]].set_visible(False)
    axes[0, 0].legend(frameon=False, handlelength=4)
    figure.suptitle(f"Five fastenings, stature {statures[at[0]]:.0f} mm")
    figure.savefig(directory / "fastenings.png", dpi=120)

    figure, ax = pyplot.subplots(figsize=(7, 5), constrained_layout=True)
    lines = ax.contour(
        chests, statures, found["coverage_scye"][2] - found["coverage_scye"][1], 10, colors="black", linewidths=0.9
    )
    ax.clabel(lines, fmt="%g mm")
    ax.contourf(chests, statures, np.isnan(found["coverage_scye"][1]), [0.5, 1.5], colors="none", hatches=["////"])
    ax.set(
        xlabel="chest girth, mm", ylabel="stature, mm", title="What three buttons cover more than two, on the scye line"
    )
    ax.annotate(
        "hatched: no coat closes", (0.99, 0.02), xycoords="axes fraction", ha="right", bbox={"facecolor": "white"}
    )
    figure.savefig(directory / "more-coverage.png", dpi=120)

    figure, axes = pyplot.subplots(2, 3, figsize=(12, 6.5), constrained_layout=True)
    hatches = ["", "////", "....", "xxxx", "\\\\\\\\"]
    for ax, field in zip(axes.flat, dict.fromkeys(field for _, field in gains)):
        for place, fastening in enumerate(FASTENINGS):
            share = [100 * gains[name, field][place] / found[name][place][at] for name in WANT]
            look = {"facecolor": "white", "edgecolor": "black", "hatch": hatches[place]}
            ax.bar(np.arange(len(WANT)) + 0.16 * (place - 2), share, 0.15, label=fastening, **look)
        ax.axhline(0, color="black", linewidth=0.8)
        ax.set_xticks(range(len(WANT)), [name.replace("_", "\n") for name in WANT], fontsize=8)
        ax.set_title(f"for {unit_of(field)} of {field.replace('_', ' ')}, %", fontsize=10)
        ax.spines[["top", "right"]].set_visible(False)
    axes[0, 0].legend(frameon=False, fontsize=8)
    figure.savefig(directory / "sensitivities.png", dpi=120)


def main():
    options = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    options.add_argument("--out", type=pathlib.Path, default=pathlib.Path("fastening-study"))
    options.add_argument("--chests", type=int, default=181, help="steps over the range of chests")
    options.add_argument("--statures", type=int, default=101, help="steps over the range of statures")
    options.add_argument("--threads", type=int, default=0, help="0: one for each processor")
    given = options.parse_args()
    given.out.mkdir(parents=True, exist_ok=True)
    chests, statures = axis("chest_girth", given.chests), axis("stature", given.statures)
    at = tuple(
        int(np.argmin(np.abs(values - MIDDLE[name])))
        for values, name in ((statures, "stature"), (chests, "chest_girth"))
    )
    MIDDLE.update(stature=float(statures[at[0]]), chest_girth=float(chests[at[1]]))

    begin = time.perf_counter()
    found, status = survey(chests, statures, given.threads)
    gains = slopes(found, chests, statures)
    more_gains, more_orders = differences(given.threads)
    gains.update(more_gains)
    spent = time.perf_counter() - begin
    lines = list(table(found, gains, at))
    print_table(lines)
    print(f"\n{status.size + more_orders} orders in {spent:.1f} s; of the {status.size} of the survey")
    print(f"{np.count_nonzero(status)} were refused, because no coat closes on them.\n")
    print(finding(found, gains, at))
    with open(given.out / "fastenings.csv", "w", newline="") as out:
        csv.writer(out, lineterminator="\n").writerows(lines)
    draw(found, gains, chests, statures, at, given.out)
    print(f"\nwritten to {given.out}: " + ", ".join(sorted(path.name for path in given.out.iterdir())))


if __name__ == "__main__":
    main()
