"""Plots: drawn to PNG and looked at, as far as a program can look: is there ink, is it where it belongs, is it all
grey, and can lines be told apart without colour? (People looked at them too.)"""
import io

import numpy as np
import pytest
from matplotlib import pyplot
from PIL import Image

from built import tg

BUTTONINGS = tg.fields()["buttoning"].choices


def picture(ax, dpi=80):
    """The figure as an array of pixels; closes it."""
    stream = io.BytesIO()
    ax.figure.savefig(stream, format="png", dpi=dpi)
    pyplot.close(ax.figure)
    return np.asarray(Image.open(stream).convert("RGB")).astype(int)


def is_grey(pixels):
    return np.ptp(pixels, axis=2).max() <= 2


def test_pattern():
    coat = tg.draft(chest_girth=1016, buttoning="three-button")
    ax = coat.plot()
    polygons = [patch.get_xy() for patch in ax.patches]
    assert len(polygons) >= 6
    for piece, drawn in zip(coat.pieces.values(), polygons):
        low, high = piece.outline.bounds[:2], piece.outline.bounds[2:]
        assert np.ptp(drawn, axis=0) == pytest.approx(np.subtract(high, low), abs=0.5)  # true to size
    lefts = [(points[:, 0].min(), points[:, 0].max()) for points in polygons[:6]]
    assert all(a[1] < b[0] for a, b in zip(lefts, lefts[1:]))  # none over another
    texts = " ".join(text.get_text() for text in ax.texts)
    assert all(name.replace("_", " ") in texts for name in coat.pieces)
    assert ax.get_aspect() == 1
    pixels = picture(ax)
    assert is_grey(pixels) and 0.005 < (pixels < 128).mean() < 0.2


def test_pattern_in_given_axes():
    ax = pyplot.subplots()[1]
    coat = tg.draft(chest_girth=1016)
    assert tg.plots.pattern(coat, ax, pieces=["back"], marks=False, labels=False) is ax
    assert len(ax.patches) == 1 and not ax.texts and not ax.lines
    pyplot.close(ax.figure)


def test_fronts():
    seven = tg.compare({"chest_girth": 1016})
    ax = seven.plot()
    texts = [text.get_text() for text in ax.texts]
    assert [text for text in texts if text in BUTTONINGS] == list(BUTTONINGS)
    for coat in seven:
        assert f"{coat.quantities['coverage_scye']:.0f} mm" in texts
    pixels = picture(ax)
    assert is_grey(pixels) and 0.005 < (pixels < 128).mean() < 0.2
    sevenths = np.array_split((pixels < 128).any(axis=2), 7, axis=1)
    assert min(part.mean() for part in sevenths) > 0.005
    two = tg.plots.fronts(
        [tg.draft(chest_girth=950), tg.draft(chest_girth=1150, lapel="peak")], labels=["a", "b"], levels=False
    )
    assert [text.get_text() for text in two.texts] == ["a", "b"]
    pyplot.close(two.figure)


def test_hidden_buttons_are_not_drawn():
    fronts = {label: tg.plots.Front(coat) for label, coat in tg.compare({"chest_girth": 1016}).patterns.items()}
    assert {label: len(front.buttons) for label, front in fronts.items()} == {
        "one-button": 1,
        "two-button": 2,
        "three-button": 3,
        "roll-by-make": 3,
        "roll-by-cut": 2,
        "double-four": 2,
        "double-six": 3,
    }
    fastened = {label: len(front.fastened) for label, front in fronts.items()}
    assert fastened == {label: 2 * label.startswith("double") for label in fronts}


def test_sweep():
    ax = tg.plots.sweep({"chest_girth": 1016}, "lapel_width", "lapel_area", by={"buttoning": BUTTONINGS})
    assert len(ax.lines) == 7 and [text.get_text() for text in ax.get_legend().get_texts()] == list(BUTTONINGS)
    looks = {(str(line._unscaled_dash_pattern), line.get_marker()) for line in ax.lines}
    assert len(looks) == 7  # told apart without colour
    field = tg.fields()["lapel_width"]
    assert ax.get_xlabel() == "lapel width, mm" and ax.get_ylabel() == "lapel area, mm2"
    x, y = ax.lines[1].get_data()
    assert (x[0], x[-1]) == (field.low, field.high)
    good = ~np.isnan(y)
    assert (
        good.sum() > 50
        and y[good][0] == tg.draft(chest_girth=1016, buttoning=2, lapel_width=x[good][0]).quantities["lapel_area"]
    )
    pixels = picture(ax)
    assert is_grey(pixels) and (pixels < 128).mean() > 0.005


def test_sweep_of_choices_and_gaps():
    ax = tg.plots.sweep({"chest_girth": 1016}, "buttoning", "coverage_scye")
    assert [text.get_text() for text in ax.get_xticklabels()] == list(BUTTONINGS) and len(ax.lines) == 1
    assert ax.get_legend() is None
    pyplot.close(ax.figure)
    ax = tg.plots.sweep({}, "chest_girth", "lapel_area", values=[600, 1000, 1100, 1700], threads=2)
    assert np.isnan(ax.lines[0].get_ydata()).tolist() == [True, False, False, True]
    pyplot.close(ax.figure)
