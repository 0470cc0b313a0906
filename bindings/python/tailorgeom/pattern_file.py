"""Pattern files: pieces and seams as JSON, as `tailorgeom draft --json` writes them.

    write_pattern(grade.apply(0.5), "half-a-step.json")
    shapes = read_pattern("half-a-step.json")

A file is {"format": "tailorgeom-pattern", "format_version": 2, "edition": 1, "style": {...},
"for_toile": false, "pieces": [...], "seams": [...]}, all of it told in cli/json_read_pattern.h. Doubles are written so
that they read back to the bit.
"""
from __future__ import annotations

import json
import os
from typing import Any, Union

import numpy as np

from .builder import Builder
from .errors import CallError
from .examine import sound
from .pattern import Shapes

__all__ = ["read_pattern", "write_pattern"]

File = Union[str, "os.PathLike[str]"]
FORMAT, VERSION = "tailorgeom-pattern", 2


def _piece(piece: Any) -> dict[str, Any]:
    edges, first = [], 0
    for edge in piece.edges.values():
        count = len(edge.path.cubics)
        edges.append({"name": edge.name, "length": edge.path.length, "first": first, "count": count})
        first += count
    return {
        "name": piece.name,
        "cut": piece.cut,
        "mirrored": piece.mirrored,
        "side": piece.side,
        "cloth": piece.cloth,
        "outline": piece.outline.cubics.tolist(),
        "edges": edges,
        "points": [{"name": name, "x": float(x), "y": float(y)} for name, (x, y) in piece.points.items()],
        "marks": [
            {"name": mark.name, "kind": mark.kind, "path": mark.path.cubics.tolist()} for mark in piece.marks.values()
        ],
    }


def _side(stretches: Any) -> list[dict[str, Any]]:
    return [{"piece": one.piece, "edge": one.edge, "from": one.start, "to": one.stop} for one in stretches]


def write_pattern(shapes: Shapes, path: File) -> None:
    """Write the pieces and seams of a pattern to a file."""
    document = {
        "format": FORMAT,
        "format_version": VERSION,
        "edition": shapes.edition,
        "style": dict(shapes.style),
        "for_toile": shapes.toile_only,
        "pieces": [_piece(piece) for piece in shapes.pieces.values()],
        "seams": [
            {"name": name, "a": _side(seam.stretches[0]), "b": _side(seam.stretches[1]), "ease": seam.ease}
            for name, seam in shapes.seams.items()
        ],
    }
    text = json.dumps(document, indent=1, allow_nan=False)
    with open(path, "w", encoding="utf-8") as file:
        file.write(text + "\n")


def _build(document: Any) -> Shapes:
    if document.get("format") != FORMAT:
        raise CallError(f'no "{FORMAT}"')
    version = document.get("format_version")
    if version != VERSION:
        older = isinstance(version, int) and version < VERSION
        mend = "draft, grade or import the pattern again" if older else "a later tailorgeom wrote this"
        raise CallError(f"only format_version {VERSION} can be read here: {mend}")
    builder = Builder()
    style = document.get("style", {})
    if not all(isinstance(choice, str) for choice in style.values()):
        raise CallError("style: a choice is told by its name")
    builder.style(style, document.get("edition", 0))
    for_toile = document.get("for_toile", False)
    if not isinstance(for_toile, bool):
        raise CallError("for_toile: a pattern is for a toile only, true, or not, false")
    builder.toile_only(for_toile)
    for piece in document["pieces"]:
        builder.piece(
            piece["name"],
            piece.get("cut", 1),
            piece.get("mirrored", False),
            piece.get("side", "both"),
            piece.get("cloth", "cloth"),
        )
        outline = np.array(piece["outline"], dtype=np.float64).reshape(-1, 4, 2)
        next_curve = 0
        for edge in piece["edges"]:
            first, count = edge["first"], edge["count"]
            if first != next_curve or not 0 < count <= len(outline) - first:
                raise CallError(f'edge {edge["name"]}: it does not go on where the one before it ends')
            builder.edge(edge["name"], outline[first : first + count])
            next_curve += count
        if next_curve != len(outline):
            raise CallError(f'piece {piece["name"]}: the edges are not the whole outline')
        for point in piece.get("points", ()):
            builder.point(point["name"], (point["x"], point["y"]))
        for mark in piece.get("marks", ()):
            builder.mark(mark["name"], mark["kind"], np.array(mark["path"], dtype=np.float64))
    for seam in document.get("seams", ()):
        builder.seam(seam["name"], seam.get("ease", 0.0))
        for side in range(2):
            for one in seam["ab"[side]]:
                builder.stretch(side, one["piece"], one["edge"], (one.get("from"), one.get("to")))
    return builder.finish()


def read_pattern(path: File) -> Shapes:
    """Read a pattern file. CallError, with the sentence, for what is no pattern; GeometryError for one that cannot be
    cut; OSError for what cannot be read. What else examine() finds is a PatternWarning."""
    with open(path, "rb") as file:
        data = file.read()
    try:
        shapes = _build(json.loads(data))
    except CallError:
        raise
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise CallError(f"{os.fspath(path)}: no pattern file: {type(error).__name__} {error}") from None
    return sound(shapes, said=f"{os.fspath(path)}: ")
