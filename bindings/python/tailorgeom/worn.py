"""One front as worn: what is read off a forepart once, for plots.fronts(). The sheet of the C library draws the same in
C."""
from __future__ import annotations

from typing import Any, Optional

import numpy as np

from .errors import GeometryError
from .fold import coverage
from .geometry import Path


class Front:
    """A forepart with its lapel turned over the break line, in the forepart's own axes; `place` puts it on the page."""

    def __init__(self, coat: Any) -> None:
        piece = coat.pieces.get("forepart") or coat.pieces["forepart_right"]
        self.marks = piece.marks
        self.stand, self.break_point = piece.points["stand_point"], piece.points["break_point"]
        self.scye_front = piece.points["scye_front"]
        self.centre_front = piece.points["centre_front_waist"][0]
        self.levels = (self.scye_front[1], piece.points["top_button_level"][1])
        self.edges = {name: edge.path for name, edge in piece.edges.items()}
        self.silhouette = self._silhouette()
        self.turned = {name: self.marks[name].path for name in ("lapel_turned",) if name in self.marks}
        if "collar_turned" in self.marks:
            self.turned["collar_turned"] = self._collar(self.marks["collar_turned"].path)
        left, self.low, _, _ = self.silhouette.bounds
        self.half_width = self.centre_front - left
        self.buttons = [
            mark.path for mark in piece.marks.values() if mark.kind == "button" and self._is_seen(mark.path)
        ]
        self.fastened = self._fastened(piece)

    def _fastened(self, piece: Any) -> list[Path]:
        """The other half's buttons, where they come through the holes of a double-breasted front."""
        buttons = [mark.path for mark in piece.marks.values() if mark.kind == "button"]
        holes = [mark.path for mark in piece.marks.values() if mark.kind == "hole"]
        if not buttons:
            return []
        middle = buttons[0].cubics.reshape(-1, 2).mean(axis=0)
        left, _, right, _ = buttons[0].bounds
        if self.centre_front - middle[0] <= right - left:
            return []
        moved = [buttons[0].transform((1, 0, 0, 1, *(np.asarray(hole.start) - middle))) for hole in holes]
        return [button for button in moved if self._is_seen(button)]

    def _silhouette(self) -> Path:
        """The closed edge of what is not turned; the way from break point to gorge is the fold."""
        gorge = self.edges["gorge"]
        places = gorge.cross_line(self.stand, self.break_point)
        rest = gorge.part(places[-1] if len(places) else 0.0, float(len(gorge)))
        self.crossing = rest.start
        fold = Path.line(self.break_point, rest.start)
        parts = [
            self.edges["front_seam"],
            self.edges["hem"],
            self.edges["front_edge"],
            fold,
            rest,
            self.edges["shoulder"],
            self.edges["scye"],
        ]
        return Path(np.concatenate(parts), closed=True)

    def _collar(self, leaf: Path) -> Path:
        """The collar's leaf, closed over the shoulder to the stand point and by the crease."""
        ends = [leaf.end, self.stand, self.crossing, leaf.start]
        return Path(np.concatenate([leaf, Path.polyline(ends)]), closed=True)

    def _is_seen(self, button: Path) -> bool:
        """Whether no lapel hides a button."""
        centre = button.cubics.reshape(-1, 2).mean(axis=0)
        lapel = self.turned.get("lapel_turned")
        return self.silhouette.winding(centre) != 0 and (lapel is None or lapel.winding(centre) == 0)

    def coverage(self, level: float) -> Optional[float]:
        """Coverage of the chest at a level, None where there is none."""
        try:
            return float(coverage(self.stand, self.break_point, self.scye_front[0], self.edges["front_edge"], level))
        except GeometryError:
            return None

    def x(self, x: float, centre: float, upper: bool = True) -> float:
        """An x of the forepart on the page: the wearer's left, which is on top, is seen to the right of the centre."""
        return centre + (self.centre_front - x) * (1 if upper else -1)

    def place(self, path: Path, centre: float, upper: bool) -> Path:
        """A path on the page."""
        turn = -1.0 if upper else 1.0
        return path.transform((turn, 0, 0, 1, centre - turn * self.centre_front, 0))
