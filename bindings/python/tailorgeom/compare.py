"""One order drafted several times with some of its values exchanged, and what comes out differently."""
from __future__ import annotations

import itertools
from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from typing import Any, Optional, Union

import numpy as np

from . import frames, named, tables
from .draft import draft
from .errors import TailorError
from .order import CONSTANTS, FIELDS, House, Value, house_of, unknown, CONSTANT_TABLE, FIELD_TABLE
from .pattern import Pattern
from .sheets import Drawn, Page

__all__ = ["Comparison", "compare"]


def compare(
    order: Union[Pattern, Mapping[str, Value]],
    by: Optional[Mapping[str, Sequence[Value]]] = None,
    *,
    house: Union[None, House, Mapping[str, Value]] = None,
    on_error: str = "raise",
    cloths: named.File = None,
) -> Comparison:
    """Draft one order several times, some of its values exchanged.

        fronts = compare({"chest_girth": 1016})                          # the seven ways to fasten it
        widths = compare(coat, by={"lapel_width": [80, 90, 100], "lapel": ["step", "peak"]})
        print(fronts); fronts.table; fronts.to_svg("fronts.svg")

    order: fields by name, or a Pattern, whose client's fields and house are taken.
    by: fields or house constants, each with its values; all combinations are drafted, the last changing fastest.
        Without it the choices of buttoning.
        cloth and canvas take names of cloths(): all numbers of the cloth are exchanged.
    house: as for draft(). cloths: a table of your own, as for cloths().
    on_error: "raise" raises the first refusal; "keep" goes on, and `errors` has it."""
    if on_error not in ("raise", "keep"):
        raise ValueError(f'on_error is {on_error!r}: "raise" or "keep" will do')
    fields: dict[str, Any] = named.filled(order.given if isinstance(order, Pattern) else order, cloths)
    if house is None and isinstance(order, Pattern):
        house = order._house
    axes: dict[str, list[Any]] = {
        name: list(values) for name, values in (by if by is not None else _fastenings()).items()
    }
    for name in axes:
        if name not in FIELDS and name not in CONSTANTS and name not in named.PLACES:
            raise unknown("field", name, FIELD_TABLE, CONSTANT_TABLE)
    drafts: list[Union[Pattern, TailorError]] = []
    labels = []
    for values in itertools.product(*axes.values()):
        changed = dict(zip(axes, values))
        constants = {name: value for name, value in changed.items() if name in CONSTANTS}
        labels.append(", ".join(map(_label, values)))
        ours = {**house_of(house).values, **constants} if constants else house
        exchanged: dict[str, Any] = {name: value for name, value in changed.items() if name in FIELDS}
        try:
            whole = named.filled({name: value for name, value in changed.items() if name in named.PLACES}, cloths)
            exchanged = {**whole, **exchanged}
            drafts.append(draft(house=ours, **{**fields, **exchanged}))
        except TailorError as error:
            if on_error == "raise":
                error.args = (f"{labels[-1]}: {error}",)
                raise
            drafts.append(error)
    return Comparison(axes, labels, drafts)


def _label(value: Any) -> str:
    return f"{value:g}" if isinstance(value, float) else str(getattr(value, "name", value))


def _fastenings() -> Mapping[str, Sequence[Value]]:
    return {"buttoning": tables.fields()["buttoning"].choices}


class Comparison(Drawn):
    """Coats of one order side by side. `labels` names them ("two-button"); by label or place it gives the Pattern.

    A notebook shows the fronts; `to_svg`, `to_pdf` and `to_png` give that picture, `plot` draws it with matplotlib,
    `print` shows what differs."""

    def __init__(
        self, by: Mapping[str, Sequence[Value]], labels: list[str], drafts: Sequence[Union[Pattern, TailorError]]
    ) -> None:
        self.by, self.labels = dict(by), labels
        self._drafts = list(drafts)

    def __len__(self) -> int:
        return len(self._drafts)

    def __iter__(self) -> Iterator[Pattern]:
        return (one for one in self._drafts if isinstance(one, Pattern))

    def __getitem__(self, which: Union[int, str]) -> Pattern:
        if isinstance(which, str) and which not in self.labels:
            raise KeyError(which)
        found = self._drafts[self.labels.index(which) if isinstance(which, str) else which]
        if isinstance(found, TailorError):
            raise found
        return found

    @property
    def patterns(self) -> dict[str, Pattern]:
        """The coats that could be drafted, by label."""
        return {label: one for label, one in zip(self.labels, self._drafts) if isinstance(one, Pattern)}

    @property
    def errors(self) -> dict[str, TailorError]:
        """Why the others were refused, by label."""
        return {label: one for label, one in zip(self.labels, self._drafts) if isinstance(one, TailorError)}

    @cached_property
    def quantities(self) -> dict[str, np.ndarray]:
        """Each quantity by name, a value a coat; NaN where a coat does not have it or was refused."""
        return {
            name: np.array([one.quantities[name] if isinstance(one, Pattern) else np.nan for one in self._drafts])
            for name in tables.quantities()
        }

    def differing(self, least: float = 0.05) -> list[str]:
        """Names of the quantities that differ by more than `least` (in their units), or that not all coats have."""
        good = [place for place, one in enumerate(self._drafts) if isinstance(one, Pattern)]
        found = []
        for name, all_values in self.quantities.items():
            values = all_values[good]
            there = values[~np.isnan(values)]
            if len(there) and (len(there) < len(values) or np.ptp(there) > least):
                found.append(name)
        return found

    @property
    def table(self) -> Any:
        """A row a coat and a column a quantity: a DataFrame indexed by label if pandas is there, else `quantities`."""
        return frames.pandas().DataFrame(self.quantities, index=self.labels) if frames.there() else self.quantities

    def __str__(self) -> str:
        names = self.differing() or list(self.quantities)
        units = [tables.quantities()[name].unit for name in names]
        cells = [["", ""], *([name, unit] for name, unit in zip(names, units))]
        for place, label in enumerate(self.labels):
            good = isinstance(self._drafts[place], Pattern)
            cells[0].append(label)
            for line, name in zip(cells[1:], names):
                value = self.quantities[name][place]
                line.append("refused" if not good else "" if np.isnan(value) else f"{value:.1f}")
        widths = [max(map(len, column)) for column in zip(*cells)]
        return "\n".join(
            "  ".join(
                cell.ljust(width) if place < 2 else cell.rjust(width)
                for place, (cell, width) in enumerate(zip(line, widths))
            ).rstrip()
            for line in cells
        )

    def __repr__(self) -> str:
        return f"<Comparison by {', '.join(self.by)}: {', '.join(self.labels)}>"

    def plot(self, ax: Any = None, **options: Any) -> Any:
        """Draw the fronts side by side with matplotlib, as worn; options as plots.fronts() takes them. Returns the
        axes."""
        from . import plots

        return plots.fronts(self, ax, **options)

    def _draw(self, page: Page, format: str) -> bytes:
        from . import _sheet_link

        return _sheet_link.fronts([one._pointer for one in self], list(self.patterns), page, format)
