#include "style.h"

/* Round caps lengthen each dash by the weight: a dash of 0 is a dot. */
const struct tailor_in_style tailor_in_styles[TAILOR_IN_STYLES] = {
    /*                      weight  ink   fill  dashes */
    [TAILOR_IN_OUTLINE] = {0.90, 0.0, -1.0, 0, {0}},
    [TAILOR_IN_MARKED] = {0.45, 0.0, -1.0, 0, {0}},
    [TAILOR_IN_FOLD] = {0.45, 0.0, -1.0, 2, {9.0, 4.5}},
    [TAILOR_IN_DART] = {0.45, 0.0, -1.0, 4, {9.0, 2.5, 1.0, 2.5}},
    [TAILOR_IN_LEVEL] = {0.60, 0.00, -1.0, 2, {0.0, 3.0}},
    [TAILOR_IN_GRAIN] = {0.35, 0.0, -1.0, 0, {0}},
    [TAILOR_IN_NOTCH] = {0.80, 0.0, -1.0, 0, {0}},
    [TAILOR_IN_BUTTON] = {0.45, 0.0, 1.0, 0, {0}},
    [TAILOR_IN_HOLE] = {0.80, 0.0, -1.0, 0, {0}},
    [TAILOR_IN_TURNED] = {0.35, 0.35, -1.0, 2, {2.5, 2.5}},
    [TAILOR_IN_THIN] = {0.25, 0.0, -1.0, 0, {0}},
    [TAILOR_IN_INK] = {0.00, -1.0, 0.0, 0, {0}},
    [TAILOR_IN_PAPER] = {0.00, -1.0, 1.0, 0, {0}},
    [TAILOR_IN_LAPEL] = {0.00, -1.0, 0.93, 0, {0}},
    [TAILOR_IN_BENEATH] = {0.45, 0.0, 0.82, 0, {0}},
    [TAILOR_IN_NEST] = {0.40, 0.0, -1.0, 2, {10.0, 3.0}},
    [TAILOR_IN_NEST + 1] = {0.40, 0.0, -1.0, 0, {0}},
    [TAILOR_IN_NEST + 2] = {0.40, 0.0, -1.0, 4, {9.0, 2.5, 0.5, 2.5}},
    [TAILOR_IN_NEST + 3] = {0.40, 0.0, -1.0, 2, {3.5, 2.0}},
    [TAILOR_IN_NEST + 4] = {0.50, 0.0, -1.0, 2, {0.0, 2.0}},
};
