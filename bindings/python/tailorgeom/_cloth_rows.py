"""Written by cli/generate_cloths.py from shared/cloths.csv: edit that."""

# name, use, source, and
# weight, stretch_warp, stretch_weft, shear, contraction, bending_warp, bending_weft, twist, thickness
ROWS = (
    (
        "light-worsted",
        "cloth",
        "range: SiroFAST manual (bending 5 to 14, shear 30 to 80); near a student laboratory's report of a "
        "168 g/m2 suiting (bending 5.6 and 5.0); contraction judgement",
        (210, 3300, 2000, 35, 0.15, 7, 5, 1.3, 0.45),
    ),
    (
        "medium-worsted",
        "cloth",
        "range: SiroFAST manual (stretch 2 to 4 % at 100 gf/cm, bending 5 to 14, shear 30 to 80); contraction "
        "judgement",
        (280, 4900, 3300, 50, 0.15, 12, 8, 2.2, 0.60),
    ),
    (
        "heavy-coating",
        "cloth",
        "judgement: scaled from medium-worsted",
        (400, 6500, 4000, 60, 0.15, 28, 20, 5.3, 0.95),
    ),
    (
        "soft-flannel",
        "cloth",
        "judgement: between medium-worsted and heavy-coating, softer in stretch and shear",
        (320, 3600, 2600, 42, 0.15, 14, 11, 2.8, 0.90),
    ),
    (
        "open-tweed",
        "cloth",
        "judgement: heavier and more open than heavy-coating",
        (450, 4200, 3000, 38, 0.15, 34, 26, 6.7, 1.30),
    ),
    (
        "hair-canvas",
        "canvas",
        "judgement: hair in the weft; no measured hair canvas was found; twist judgement",
        (200, 8000, 12000, 100, 0.05, 30, 250, 8, 0.50),
    ),
    (
        "soft-canvas",
        "canvas",
        "judgement: no measured canvas was found; twist judgement",
        (170, 6000, 5000, 60, 0.10, 20, 30, 4.5, 0.45),
    ),
    (
        "linen-canvas",
        "canvas",
        "judgement: no measured canvas was found; twist judgement",
        (220, 10000, 10000, 120, 0.05, 90, 90, 15, 0.50),
    ),
    (
        "chest-haircloth",
        "canvas",
        "judgement: stiffer in the weft than hair-canvas; twist judgement",
        (180, 9000, 14000, 110, 0.05, 25, 400, 10, 0.45),
    ),
    (
        "collar-melton",
        "collar",
        "judgement: felted, so shear and twist are high for its bending",
        (350, 3000, 2500, 150, 0.20, 35, 30, 14, 1.10),
    ),
    (
        "collar-linen",
        "collar",
        "judgement: a dressed linen-canvas; twist judgement",
        (240, 11000, 11000, 140, 0.05, 110, 110, 20, 0.55),
    ),
    (
        "light-fusible",
        "fusible",
        "judgement: before it is fused; twist judgement",
        (65, 1500, 1200, 30, 0.20, 2, 4, 0.5, 0.30),
    ),
)
