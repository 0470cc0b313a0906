"""tailorgeom: drafting geometry of tailored coats, on libtailorgeom.

One idea carries it: a row of fields -> a pattern -> a row of quantities. Drafting a client, comparing fastenings and
sweeping a whole range are the same call on other rows.

    import tailorgeom as tg

    coat = tg.draft(chest_girth="40 in", stature=1800, buttoning="three-button")
    coat.quantities["coverage_scye"]                    # mm of chest that the lapel leaves covered
    coat.pieces["forepart"].outline.area                # mm2, exact
    coat.to_pdf("coat.pdf")                             # the sheet at true size

    print(tg.compare({"chest_girth": 1016}))            # the seven fastenings side by side
    tg.rows({"chest_girth": range(900, 1200)}, want="lapel_area", threads=2)

One order     draft(**fields) -> Pattern; compare(order, by={...}) -> Comparison
Many orders   rows(table, want=[...]): dicts of arrays, structured arrays, DataFrames, 2-D arrays
Tables        fields(), choices(name), constants(), quantities(), checks(), cautions(): names, units, ranges, rules
Graded        measure(shapes, like=coat): graded, built or read pieces as that order's coat
Sizes         read_sizes(FILE), SizeTable: at(chest_girth=1013), nearest(...); Grade: by rules, or of a family of sizes
Building      Builder: a pattern of your own, by name; read_pattern(FILE), write_pattern(coat, FILE)
Geometry      Path (curves of your own), reflect, stand_point, fold_angle, turn, coverage
Cloth         lay(shapes, width) -> Lay: placing on a strip, step by step; canvas(coat) -> Canvas
Lengths       read_length("40 3/8 in"), format_length(1025, "in8"); read_value, format_value: of any field or quantity
Cloth         cloths(): cloths and canvases by name, for draft(canvas="hair-canvas") and the others
Cloth         tailorgeom.cloth: sheets, layers, droop; tailorgeom.roll: section of a lapel, estimate of its roll
Plots         tailorgeom.plots: pattern, fronts, sweep (matplotlib)
Errors        TailorError and its kinds, with .status .name .field .value .low .high

Units, the only ones: mm, mm2, deg, g/m2. None and NaN mean "not given"; a NaN quantity does not exist for that coat. x
runs from the centre back toward the centre front, y up; pieces are net and the wearer's right half. A draft is a
proposal: cut a toile first. A client's measures are personal data: the package stores and sends nothing; keep your
files accordingly.
"""
from . import cloth, plots, roll
from ._link import VERSION as library_version
from ._link import lib as _lib
from .builder import Builder
from .canvas import Canvas, CanvasPlace, canvas
from .compare import Comparison, compare
from .draft import draft, measure
from .errors import (
    CallError,
    CheckError,
    DraftError,
    GeometryError,
    InternalError,
    OrderError,
    OutOfMemory,
    TailorError,
)
from .examine import Finding, PatternWarning
from .fitting import Overlay, alter
from .fold import coverage, fold_angle, stand_point, turn
from .geometry import Path, reflect
from .grade import Grade, Rule, read_rules
from .lay import Lay, Place, lay
from .named import Cloths, NamedCloth, cloths
from .order import House, format_length, format_value, read_length, read_value
from .pattern import Caution, CheckResult, Edge, Mark, Pattern, Piece, Seam, Shapes, Stretch
from .pattern_file import read_pattern, write_pattern
from .rows import rows
from .sizes import Nearest, Sized, SizeTable, read_sizes
from .tables import (
    CautionRow,
    Check,
    Choice,
    Constant,
    Field,
    Quantity,
    Table,
    cautions,
    checks,
    choices,
    constants,
    fields,
    quantities,
)

__version__ = "0.3.0"
#: The edition of rules, defaults and recipe: within an edition the same order gives the same coat.
edition = _lib.tailor_edition()

__all__ = [
    "Builder",
    "CallError",
    "Canvas",
    "CanvasPlace",
    "Caution",
    "CautionRow",
    "Check",
    "CheckError",
    "CheckResult",
    "Choice",
    "Cloths",
    "Comparison",
    "Constant",
    "DraftError",
    "Edge",
    "Field",
    "Finding",
    "GeometryError",
    "Grade",
    "House",
    "InternalError",
    "Lay",
    "Mark",
    "Nearest",
    "NamedCloth",
    "OrderError",
    "OutOfMemory",
    "Overlay",
    "Path",
    "Pattern",
    "PatternWarning",
    "Piece",
    "Place",
    "Quantity",
    "Rule",
    "Seam",
    "Shapes",
    "SizeTable",
    "Sized",
    "Stretch",
    "Table",
    "TailorError",
    "alter",
    "canvas",
    "cautions",
    "checks",
    "choices",
    "cloth",
    "cloths",
    "compare",
    "constants",
    "coverage",
    "draft",
    "edition",
    "fields",
    "fold_angle",
    "format_length",
    "format_value",
    "lay",
    "library_version",
    "measure",
    "plots",
    "quantities",
    "read_length",
    "read_pattern",
    "read_rules",
    "read_sizes",
    "read_value",
    "reflect",
    "roll",
    "rows",
    "stand_point",
    "turn",
    "write_pattern",
]
