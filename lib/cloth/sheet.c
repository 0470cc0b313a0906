/* A row as a sheet: its check, its stiffness, and what it is along a line. */
#include "sheet.h"

#include "../base/fault.h"
#include "../base/table.h"

static tailor_status missing(tailor_fault *fault, int layer, int property)
{
    tailor_status status = tailor_in_fault(fault, TAILOR_MISSING, tailor_cloth_table(), property, NAN, NAN, NAN,
                                           "%n of a cloth is not given");
    if (layer && fault) {
        tailor_in_fault_say(fault, ", layer ");
        tailor_in_fault_say_number(fault, layer, "");
    }
    return status;
}

static tailor_status refused(tailor_fault *fault, tailor_status status, int layer, int property, double value,
                             const char *sentence)
{
    const tailor_table *table = tailor_cloth_table();
    tailor_in_fault(fault, status, table, property, value, tailor_table_low(table, property),
                    tailor_table_high(table, property), sentence);
    if (layer && fault) {
        tailor_in_fault_say(fault, ", layer ");
        tailor_in_fault_say_number(fault, layer, "");
    }
    return status;
}

/** Each property in its range. */
static tailor_status check_values(const double *cloth, size_t count, int layer, tailor_fault *fault)
{
    const tailor_table *table = tailor_cloth_table();
    if (!cloth)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the cloth is NULL");
    for (int i = 1; i < TAILOR_CLOTH_COUNT; i++) {
        if ((size_t)i >= count || isnan(cloth[i]))
            return missing(fault, layer, i);
        if (isinf(cloth[i]))
            return refused(fault, TAILOR_NOT_FINITE, layer, i, cloth[i], "%n of a cloth is infinite");
        const tailor_in_row *row = tailor_in_table_row(table, i);
        if (!(cloth[i] >= row->low && cloth[i] <= row->high))
            return refused(fault, TAILOR_OUT_OF_RANGE, layer, i, cloth[i],
                           "%n of a cloth is %v%u: %l to %h%u is allowed");
    }
    for (size_t i = TAILOR_CLOTH_COUNT; i < count; i++)
        if (!isnan(cloth[i]))
            return tailor_in_fault_plain(fault, TAILOR_UNKNOWN_FIELD,
                                         "a cloth has a property that this library does not know");
    return TAILOR_OK;
}

tailor_status tailor_in_sheet_of(const double *cloth, size_t count, int layer, tailor_in_sheet *sheet,
                                 tailor_fault *fault)
{
    const tailor_status status = check_values(cloth, count, layer, fault);
    if (status != TAILOR_OK)
        return status;
    const double warp = cloth[TAILOR_CLOTH_STRETCH_WARP], weft = cloth[TAILOR_CLOTH_STRETCH_WEFT];
    const double v = cloth[TAILOR_CLOTH_CONTRACTION], twin = v * weft / warp, left = 1 - v * twin;
    if (!(left > 0))
        return refused(fault, TAILOR_CONTRADICTION, layer, TAILOR_CLOTH_CONTRACTION, v,
                       "%n of a cloth is %v: times itself, stretch_weft and 1/stretch_warp it must stay below 1");
    *sheet = (tailor_in_sheet){
        {warp / left, weft / left, twin * warp / left, 0, 0, cloth[TAILOR_CLOTH_SHEAR]},
        {cloth[TAILOR_CLOTH_BENDING_WARP] * 1e-6, cloth[TAILOR_CLOTH_BENDING_WEFT] * 1e-6, 0, 0, 0,
         cloth[TAILOR_CLOTH_TWIST] * 1e-6},
        cloth[TAILOR_CLOTH_WEIGHT] * 1e-3,
        cloth[TAILOR_CLOTH_THICKNESS] * 1e-3,
    };
    return TAILOR_OK;
}

tailor_status tailor_cloth_check(const double *cloth, size_t count, tailor_fault *fault)
{
    tailor_in_sheet sheet;
    return tailor_in_sheet_of(cloth, count, 0, &sheet, fault);
}

tailor_in_stiffness tailor_in_inverse(const tailor_in_stiffness *m)
{
    const double a = m->m22 * m->m66 - m->m26 * m->m26, b = m->m26 * m->m16 - m->m12 * m->m66,
                 c = m->m12 * m->m26 - m->m22 * m->m16;
    const double k = 1 / (m->m11 * a + m->m12 * b + m->m16 * c);
    return (tailor_in_stiffness){
        a * k, (m->m11 * m->m66 - m->m16 * m->m16) * k, b * k,
        c * k, (m->m12 * m->m16 - m->m11 * m->m26) * k, (m->m11 * m->m22 - m->m12 * m->m12) * k};
}

/** T' M T with T = [[c2, s2, cs], [s2, c2, -cs], [-2cs, 2cs, c2 - s2]] (Jones). */
tailor_in_stiffness tailor_in_turned(const tailor_in_stiffness *m, double c, double s)
{
    const double cc = c * c, ss = s * s, cs = c * s;
    const double t[3][3] = {{cc, ss, cs}, {ss, cc, -cs}, {-2 * cs, 2 * cs, cc - ss}};
    const double w[3][3] = {{m->m11, m->m12, m->m16}, {m->m12, m->m22, m->m26}, {m->m16, m->m26, m->m66}};
    double wt[3][3];
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            wt[i][j] = w[i][0] * t[0][j] + w[i][1] * t[1][j] + w[i][2] * t[2][j];
#define TURNED(i, j) (t[0][i] * wt[0][j] + t[1][i] * wt[1][j] + t[2][i] * wt[2][j])
    return (tailor_in_stiffness){TURNED(0, 0), TURNED(1, 1), TURNED(0, 1), TURNED(0, 2), TURNED(1, 2), TURNED(2, 2)};
#undef TURNED
}

void tailor_in_row_out(const double *from, size_t known, double *to, size_t count)
{
    for (size_t i = 0; i < count; i++)
        to[i] = i > 0 && i < known ? from[i] : NAN;
}

/** Narrow strip: the moment is along the line only. NaN for turned layers that do not resist twist. */
static double bending_narrow(const tailor_in_stiffness *m, double c, double s)
{
    if (m->m16 == 0 && m->m26 == 0 && m->m12 == 0) { /* one cloth: the closed form, which bears a twist of 0 */
        const double twisting = s * s * c * c;
        return 1 / (c * c * c * c / m->m11 + s * s * s * s / m->m22 + (twisting > 0 ? twisting / m->m66 : 0));
    }
    const double size = m->m11 + m->m22 + m->m66;
    const double whole = m->m11 * (m->m22 * m->m66 - m->m26 * m->m26) + m->m12 * (m->m26 * m->m16 - m->m12 * m->m66) +
                         m->m16 * (m->m12 * m->m26 - m->m22 * m->m16);
    if (!(whole > 1e-12 * size * size * size))
        return NAN;
    const tailor_in_stiffness inverse = tailor_in_inverse(m);
    return 1 / tailor_in_along_compliance(&inverse, c, s);
}

static double length_of(double bending, double weight) { return cbrt(bending / (weight * TAILOR_IN_GRAVITY)); }

void tailor_in_along_row(const tailor_in_sheet *sheet, double c, double s, double *along, size_t count)
{
    const tailor_in_stiffness *d = &sheet->bending, inverse = tailor_in_inverse(&sheet->stretch);
    const double bending = tailor_in_along_stiffness(d, c, s), across = tailor_in_along_stiffness(d, -s, c);
    const double mean = (3 * (d->m11 + d->m22) + 2 * d->m12 + 4 * d->m66) / 8; /* over all directions */
    const double row[TAILOR_ALONG_COUNT] = {
        [TAILOR_ALONG_STRETCH] = 1 / tailor_in_along_compliance(&inverse, c, s),
        [TAILOR_ALONG_BENDING] = bending * 1e6,
        [TAILOR_ALONG_BENDING_NARROW] = bending_narrow(d, c, s) * 1e6,
        [TAILOR_ALONG_BENDING_ACROSS] = across * 1e6,
        [TAILOR_ALONG_BENDING_LENGTH] = length_of(bending, sheet->weight) * 1e3,
        [TAILOR_ALONG_BENDING_LENGTH_ACROSS] = length_of(across, sheet->weight) * 1e3,
        [TAILOR_ALONG_WEIGHT] = sheet->weight * 1e3,
        [TAILOR_ALONG_DRAPE_LENGTH] = length_of(mean, sheet->weight) * 1e3,
    };
    tailor_in_row_out(row, TAILOR_ALONG_COUNT, along, count);
}

tailor_status tailor_in_along_line(const tailor_in_sheet *sheet, double angle, double *along, size_t along_count,
                                   tailor_fault *fault)
{
    if (!along && along_count)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is nowhere to write to");
    if (!isfinite(angle))
        return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "the angle of the line is not finite");
    const double turn = fmod(angle, 360) * TAILOR_IN_DEGREE;
    tailor_in_along_row(sheet, cos(turn), sin(turn), along, along_count);
    return TAILOR_OK;
}

tailor_status tailor_cloth_along(const double *cloth, size_t count, double angle, double *along, size_t along_count,
                                 tailor_fault *fault)
{
    tailor_in_sheet sheet;
    const tailor_status status = tailor_in_sheet_of(cloth, count, 0, &sheet, fault);
    if (status != TAILOR_OK)
        return status;
    return tailor_in_along_line(&sheet, angle, along, along_count, fault);
}
