"""Plots with matplotlib: a pattern, a comparison of fronts, a quantity swept over a field.

    import tailorgeom as tg
    tg.plots.pattern(coat)
    tg.plots.fronts(tg.compare({"chest_girth": 1016}))
    tg.plots.sweep({"chest_girth": 1016}, "lapel_width", "lapel_area", by={"buttoning": ["one-button", "two-button"]})

Each draws into the axes given, or into new ones, and returns the axes. Lines differ by dash and weight and never by
colour alone, so a black and white print says the same. matplotlib is imported when the first plot is drawn.
"""
from __future__ import annotations

import itertools
from collections.abc import Iterable, Mapping, Sequence
from typing import Any, Optional, Union

import numpy as np

from . import tables
from .geometry import Path
from .order import House, Value
from .rows import rows
from .worn import Front

__all__ = ["fronts", "pattern", "sweep"]

INK, PALE = "black", "0.9"
MARKS: dict[str, dict[str, Any]] = {
    "notch": {"linewidth": 1.4},
    "grain": {"linewidth": 0.7},
    "button": {"linewidth": 0.9},
    "hole": {"linewidth": 1.2},
    "dart": {"linewidth": 0.8, "linestyle": (0, (8, 2, 2, 2))},
    "line": {"linewidth": 0.6, "linestyle": (0, (1, 2))},
    "fold": {"linewidth": 0.9, "linestyle": (0, (7, 3))},
}
#: Dashes, and markers, by which the lines of one plot are told apart.
DASHES: list[Any] = ["-", (0, (6, 2)), (0, (6, 2, 1, 2)), (0, (1, 1.5)), (0, (12, 2, 1, 2, 1, 2))]
MARKERS = ["o", "s", "^", "x", "D", "+", "v"]


def _axes(ax: Any, width: float, height: float) -> Any:
    if ax is not None:
        return ax
    try:
        from matplotlib import pyplot
    except ImportError as error:
        raise ImportError("plots need matplotlib (Debian: python3-matplotlib)") from error
    return pyplot.subplots(figsize=(width, height), constrained_layout=True)[1]


def _line(ax: Any, points: np.ndarray, **how: Any) -> None:
    ax.plot(points[:, 0], points[:, 1], **{"color": INK, "solid_capstyle": "round", **how})


def pattern(
    coat: Any,
    ax: Any = None,
    *,
    pieces: Optional[Iterable[str]] = None,
    marks: bool = True,
    labels: bool = True,
    tolerance: float = 0.2,
) -> Any:
    """The pieces of a pattern side by side, the body's at their common levels, others on the level of the hem; mm.

    pieces: names of those to draw, all without; marks: grain, folds, notches, buttons, darts; labels: names of the
        pieces.
    """
    names = list(coat.pieces if pieces is None else pieces)
    left, gap, low, top = 0.0, 50.0, 0.0, 0.0
    ax = _axes(ax, 2.2 * max(len(names), 2), 6)
    body = [coat.pieces[name].outline.bounds for name in names if name in ("back", "sidebody", "forepart")]
    hem = min((box[1] for box in body), default=0.0)
    for name in names:
        piece = coat.pieces[name]
        box = piece.outline.bounds
        shift = np.array((left - box[0], 0.0 if name in ("back", "sidebody", "forepart") else hem - box[1]))
        outline = piece.outline.flatten(tolerance) + shift
        ax.fill(outline[:, 0], outline[:, 1], facecolor="white", edgecolor=INK, linewidth=1.6, joinstyle="round")
        for mark in piece.marks.values() if marks else ():
            _line(ax, mark.path.flatten(tolerance) + shift, **MARKS[mark.kind])
        if marks and "grain" in piece.marks:
            grain = piece.marks["grain"].path
            ax.annotate(
                "",
                grain.end + shift,
                grain.start + shift,
                arrowprops={"arrowstyle": "-|>", "linewidth": 0.7, "facecolor": INK, "shrinkB": 0},
            )
        if labels:
            text = f"{name.replace('_', ' ')}\ncut {piece.cut}{', mirrored' if piece.mirrored else ''}"
            ax.annotate(
                text,
                (left + (box[2] - box[0]) / 2, box[1] + shift[1]),
                xytext=(0, -6),
                textcoords="offset points",
                ha="center",
                va="top",
                fontsize=8,
            )
        low, top = min(low, box[1] + shift[1]), max(top, box[3] + shift[1])
        left += box[2] - box[0] + gap
    ax.set_aspect("equal")
    ax.set_xlim(-gap, left)
    ax.set_ylim(low - 2.4 * gap, top + gap)
    ax.set_xlabel("mm")
    ax.set_ylabel("above the nape, mm")
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def fronts(
    coats: Any, ax: Any = None, *, labels: Optional[Sequence[str]] = None, levels: bool = True, tolerance: float = 0.2
) -> Any:
    """The fronts of a Comparison, or of several Patterns, side by side as worn: the wearer's left over the right,
    lapels turned. levels: write how much of the chest is covered on the scye line and at the top button of three, in
    mm."""
    if labels is None:
        labels = list(coats.patterns) if hasattr(coats, "patterns") else [""] * len(list(coats))
    worn = [Front(coat) for coat in coats]
    ax = _axes(ax, 2.9 * len(worn), 4.6)
    centre = 0.0
    for front, label in zip(worn, labels):
        half = front.half_width
        centre += half
        for upper in (False, True):
            _half(ax, front, centre, upper, tolerance)
            for button in front.buttons + (front.fastened if upper else []):
                _filled(ax, front.place(button, centre, upper), tolerance, 20 if upper else 9, facecolor="white")
        if levels:
            for level in front.levels:
                _coverage(ax, front, centre, level)
        ax.annotate(
            label, (centre, front.low), xytext=(0, -6), textcoords="offset points", ha="center", va="top", fontsize=9
        )
        centre += half + 110 * bool(levels) + 30
    ax.set_aspect("equal")
    ax.set_axis_off()
    return ax


def _filled(ax: Any, path: Path, tolerance: float, order: int, **how: Any) -> None:
    points = path.flatten(tolerance)
    ax.fill(
        points[:, 0], points[:, 1], **{"edgecolor": INK, "linewidth": 1.0, "joinstyle": "round", "zorder": order, **how}
    )


def _half(ax: Any, front: Front, centre: float, upper: bool, tolerance: float) -> None:
    order = 10 if upper else 2
    _filled(ax, front.place(front.silhouette, centre, upper), tolerance, order, facecolor="white", linewidth=1.3)
    for name in ("dart", "hip_pocket", *(["breast_welt"] if upper else [])):
        if name in front.marks:
            _line(
                ax,
                front.place(front.marks[name].path, centre, upper).flatten(tolerance),
                zorder=order + 1,
                linewidth=0.7,
                **({"linestyle": (0, (8, 2, 2, 2))} if name == "dart" else {}),
            )
    for turned in front.turned.values():
        _filled(ax, front.place(turned, centre, upper), tolerance, order + 2, facecolor=PALE)
    if upper and "lapel_rolled" in front.marks:
        _line(
            ax,
            front.place(front.marks["lapel_rolled"].path, centre, upper).flatten(tolerance),
            zorder=order + 3,
            linewidth=0.6,
            linestyle=(0, (4, 3)),
        )


def _coverage(ax: Any, front: Front, centre: float, level: float) -> None:
    covered = front.coverage(level)
    if covered is None:
        return
    foot, reach = front.x(front.scye_front[0], centre), front.x(front.scye_front[0] + covered, centre)
    ax.annotate(
        "",
        (foot, level),
        (reach, level),
        arrowprops={"arrowstyle": "|-|, widthA=0.2, widthB=0.2", "linewidth": 0.7, "shrinkA": 0, "shrinkB": 0},
        zorder=30,
    )
    ax.annotate(
        f"{covered:.0f} mm",
        (centre + front.half_width, level),
        xytext=(3, 0),
        textcoords="offset points",
        va="center",
        fontsize=8,
    )


def sweep(
    order: Mapping[str, Value],
    field: str,
    quantity: str,
    values: Any = None,
    *,
    by: Optional[Mapping[str, Sequence[Value]]] = None,
    house: Union[None, House, Mapping[str, Value]] = None,
    ax: Any = None,
    threads: int = 1,
) -> Any:
    """One quantity over the values of one field, a line for each combination of `by`. Refused orders leave a gap.

    values: the field's values; without them 101 over its whole range, or all its choices."""
    row = tables.fields()[field]
    if values is None:
        values = row.choices or np.linspace(row.low or 0, row.high or 1, 101)
    steps = list(values)
    combinations = [dict(zip(by, each)) for each in itertools.product(*by.values())] if by else [{}]
    ax = _axes(ax, 7, 4.5)
    for place, changed in enumerate(combinations):
        answer = rows({**order, **changed, field: steps}, [quantity], house=house, on_error="keep", threads=threads)
        line = ax.plot(
            range(len(steps)) if row.choices else np.asarray(steps, dtype=float),
            answer[quantity],
            color=INK,
            linestyle=DASHES[place % len(DASHES)],
            linewidth=1.2,
            markersize=5,
            markerfacecolor="white",
            marker=MARKERS[place % len(MARKERS)] if by else "",
            markevery=_every(place, len(combinations), len(steps)),
        )
        line[0].set_label(", ".join(map(str, changed.values())))
    if row.choices:
        ax.set_xticks(range(len(steps)), steps)
    ax.set_xlabel(f"{row.term}, {row.unit}")
    ax.set_ylabel(f"{tables.quantities()[quantity].term}, {tables.quantities()[quantity].unit}")
    if by:
        ax.legend(frameon=False, handlelength=4)
    ax.spines[["top", "right"]].set_visible(False)
    return ax


def _every(place: int, lines: int, steps: int) -> tuple[int, int]:
    """Which steps of a line get its marker: others than those of the other lines, so that lines which coincide show."""
    apart = max(1, steps // (6 * lines))
    return (place * apart) % steps, apart * lines
