"""What can be drawn as a sheet: the methods that Pattern and Comparison share."""
from __future__ import annotations

import os
import re
from typing import IO, Any, NamedTuple, Optional, Union

from .order import print_of

__all__ = ["Drawn", "Page"]

File = Union[None, str, "os.PathLike[str]", IO[bytes]]


class Page(NamedTuple):
    """How a sheet is set, and whose it is."""

    title: str = ""
    client: str = ""
    anonymous: bool = False
    unit: str = "mm"

    @property
    def print(self) -> int:
        """The C library's number for the unit. ValueError for a unit that is none."""
        return print_of(self.unit)


class Drawn:
    """Sheets as SVG, PDF and PNG by the companion library libtailorgeom-sheet, which is loaded when it is first
    needed."""

    def _draw(self, page: Page, format: str) -> bytes:
        raise NotImplementedError

    def to_svg(
        self, file: File = None, *, title: str = "", client: str = "", anonymous: bool = False, unit: str = "mm"
    ) -> Optional[str]:
        """The sheet as SVG, true to size in mm: returned as text, or written to `file` (a path, or something with
        `write`).
        client, title: whose it is ("Mr O. Fallowell") and which ("order 12"): they head the sheet and stand on every
        piece. anonymous: leave the client off, for a sheet that goes out of the house. unit: how lengths are printed:
        "mm", "in8" or "in16" (inches to the eighth or sixteenth)."""
        svg = self._draw(Page(title, client, anonymous, unit), "svg")
        return svg.decode() if file is None else _save(svg, file)

    def to_pdf(
        self, file: File = None, *, title: str = "", client: str = "", anonymous: bool = False, unit: str = "mm"
    ) -> Optional[bytes]:
        """The sheet as PDF, one page, true to size; as to_svg."""
        pdf = self._draw(Page(title, client, anonymous, unit), "pdf")
        return pdf if file is None else _save(pdf, file)

    def to_png(
        self, file: File = None, *, title: str = "", client: str = "", anonymous: bool = False, unit: str = "mm"
    ) -> Optional[bytes]:
        """The sheet as PNG, 2400 pixels along the longer side, for looking; as to_svg."""
        png = self._draw(Page(title, client, anonymous, unit), "png")
        return png if file is None else _save(png, file)

    def _repr_svg_(self) -> str:
        """For notebooks: the sheet as wide as the page instead of at true size."""
        svg = self._draw(Page(), "svg").decode()
        begin = svg.index("<svg")
        end = svg.index(">", begin)
        head = re.sub(r'\s(width|height)="[^"]*"', "", svg[begin:end])
        return svg[begin:begin] + head + ' width="100%"' + svg[end:]


def _save(data: bytes, file: Any) -> Any:
    if hasattr(file, "write"):
        file.write(data)
        return
    with open(file, "wb") as out:
        out.write(data)
