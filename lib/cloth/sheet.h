/* What the files of cloth share. Inside, stiffness, bending and weight are SI: N/m, N m, kg/m2, m; rows are converted
 * at the door. */
#ifndef TAILOR_IN_CLOTH_SHEET_H
#define TAILOR_IN_CLOTH_SHEET_H

#include <math.h>
#include <tailorgeom/cloth.h>

#define TAILOR_IN_GRAVITY 9.80665                    /* m/s2, standard */
#define TAILOR_IN_DEGREE 0.017453292519943295769     /* rad */
#define TAILOR_IN_RIGHT_ANGLE 1.57079632679489661923 /* rad */

/** Symmetric 3 by 3 stiffness of plane stretch or of bending, engineering shear: what a turned sheet needs. */
typedef struct tailor_in_stiffness {
    double m11, m22, m12, m16, m26, m66;
} tailor_in_stiffness;

/** A sheet, whole. */
typedef struct tailor_in_sheet {
    tailor_in_stiffness stretch, bending;
    double weight, thickness;
} tailor_in_sheet;

/** Check a row and convert it; `layer` is 0 or, for the sentence, the number of the layer from 1. */
tailor_status tailor_in_sheet_of(const double *cloth, size_t count, int layer, tailor_in_sheet *sheet,
                                 tailor_fault *fault);

/** Check a row of joined layers and convert it. */
tailor_status tailor_in_layers_read(const double *layers, size_t count, tailor_in_sheet *sheet, tailor_fault *fault);

/** The stiffness of the same sheet turned counter-clockwise by an angle (its cosine and sine), in the same frame. */
tailor_in_stiffness tailor_in_turned(const tailor_in_stiffness *m, double c, double s);

/** Inverse; the determinant must not be 0. */
tailor_in_stiffness tailor_in_inverse(const tailor_in_stiffness *m);

/** Stiffness against a pure stretch (or cylinder) along the direction (c, s); of a compliance, by the second one. */
static inline double tailor_in_along_stiffness(const tailor_in_stiffness *m, double c, double s)
{
    const double a = c * c, b = s * s, d = 2 * c * s;
    return m->m11 * a * a + m->m22 * b * b + m->m66 * d * d + 2 * (m->m12 * a * b + m->m16 * a * d + m->m26 * b * d);
}
static inline double tailor_in_along_compliance(const tailor_in_stiffness *m, double c, double s)
{
    const double a = c * c, b = s * s, d = c * s;
    return m->m11 * a * a + m->m22 * b * b + m->m66 * d * d + 2 * (m->m12 * a * b + m->m16 * a * d + m->m26 * b * d);
}

/** A sheet along the direction (c, s), as a row in public units. */
void tailor_in_along_row(const tailor_in_sheet *sheet, double c, double s, double *along, size_t count);
/** The same at an angle in degrees off the warp; refused when that is not finite or `along` is missing. */
tailor_status tailor_in_along_line(const tailor_in_sheet *sheet, double angle, double *along, size_t along_count,
                                   tailor_fault *fault);

/** Copy the first min(count, known) of `known` results, NaN the rest. */
void tailor_in_row_out(const double *from, size_t known, double *to, size_t count);

static inline tailor_in_stiffness tailor_in_stiffness_sum(const tailor_in_stiffness *a, const tailor_in_stiffness *b,
                                                          double k)
{
    return (tailor_in_stiffness){a->m11 + k * b->m11, a->m22 + k * b->m22, a->m12 + k * b->m12,
                                 a->m16 + k * b->m16, a->m26 + k * b->m26, a->m66 + k * b->m66};
}

#endif
