/* Layers joined to one sheet, and what that is along a line. */
#include "sheet.h"

#include "../base/fault.h"

/** A symmetric stiffness as a plain matrix, for the few products that are no longer symmetric on the way. */
static void matrix_of(const tailor_in_stiffness *m, double w[3][3])
{
    const double rows[3][3] = {{m->m11, m->m12, m->m16}, {m->m12, m->m22, m->m26}, {m->m16, m->m26, m->m66}};
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            w[i][j] = rows[i][j];
}

/** b a^-1 b, which is symmetric. */
static tailor_in_stiffness sandwiched(const tailor_in_stiffness *b, const tailor_in_stiffness *a)
{
    const tailor_in_stiffness inverse = tailor_in_inverse(a);
    double f[3][3], k[3][3], half[3][3], whole[3][3];
    matrix_of(b, f);
    matrix_of(&inverse, k);
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            half[i][j] = f[i][0] * k[0][j] + f[i][1] * k[1][j] + f[i][2] * k[2][j];
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            whole[i][j] = half[i][0] * f[0][j] + half[i][1] * f[1][j] + half[i][2] * f[2][j];
    return (tailor_in_stiffness){whole[0][0], whole[1][1], whole[0][1], whole[0][2], whole[1][2], whole[2][2]};
}

static void layers_write(const tailor_in_sheet *sheet, double *layers, size_t count)
{
    const tailor_in_stiffness *c = &sheet->stretch, *d = &sheet->bending;
    const double row[TAILOR_LAYERS_COUNT] = {
        0,
        c->m11,
        c->m22,
        c->m12,
        c->m16,
        c->m26,
        c->m66,
        d->m11 * 1e6,
        d->m22 * 1e6,
        d->m12 * 1e6,
        d->m16 * 1e6,
        d->m26 * 1e6,
        d->m66 * 1e6,
        sheet->weight * 1e3,
        sheet->thickness * 1e3,
    };
    tailor_in_row_out(row, TAILOR_LAYERS_COUNT, layers, count);
}

/** Positive: no way to stretch it without force. */
static int resists(const tailor_in_stiffness *m)
{
    const double minor = m->m11 * m->m22 - m->m12 * m->m12;
    const double whole =
        minor * m->m66 - m->m11 * m->m26 * m->m26 - m->m22 * m->m16 * m->m16 + 2 * m->m12 * m->m16 * m->m26;
    return m->m11 > 0 && minor > 0 && whole > 0 && isfinite(whole);
}

tailor_status tailor_in_layers_read(const double *layers, size_t count, tailor_in_sheet *sheet, tailor_fault *fault)
{
    if (!layers)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the layers are NULL");
    for (size_t i = 1; i < TAILOR_LAYERS_COUNT; i++) {
        if (i >= count || isnan(layers[i]))
            return tailor_in_fault_plain(fault, TAILOR_MISSING, "an entry of the layers is not given");
        if (isinf(layers[i]))
            return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "an entry of the layers is infinite");
    }
    const double *c = layers + TAILOR_LAYERS_STRETCH_11, *d = layers + TAILOR_LAYERS_BENDING_11;
    *sheet = (tailor_in_sheet){
        {c[0], c[1], c[2], c[3], c[4], c[5]},
        {d[0] * 1e-6, d[1] * 1e-6, d[2] * 1e-6, d[3] * 1e-6, d[4] * 1e-6, d[5] * 1e-6},
        layers[TAILOR_LAYERS_WEIGHT] * 1e-3,
        layers[TAILOR_LAYERS_THICKNESS] * 1e-3,
    };
    /* A twist of 0 is allowed of one cloth, so of bending only the two directions are asked for. */
    if (!(resists(&sheet->stretch) && sheet->bending.m11 > 0 && sheet->bending.m22 > 0 && sheet->weight > 0))
        return tailor_in_fault_plain(fault, TAILOR_OUT_OF_RANGE, "these layers would give way without force");
    return TAILOR_OK;
}

static tailor_status check_joint(int joint, double hold, double angle, int first, tailor_fault *fault)
{
    if (!(angle >= -180 && angle <= 180))
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, angle, -180, 180,
                               "the angle of a layer is %v deg: %l to %h deg is allowed");
    if (first)
        return TAILOR_OK;
    if (joint != TAILOR_JOINT_PADDED && joint != TAILOR_JOINT_FUSED)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "a layer is joined by nothing that is known");
    if (!(hold >= 0 && hold <= 1))
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, hold, 0, 1,
                               "the hold of a layer is %v: %l to %h is allowed");
    return TAILOR_OK;
}

tailor_status tailor_layers_join(const double *cloths, size_t layer_count, size_t property_count, const double *angles,
                                 const int *joints, const double *holds, double *layers, size_t layers_count,
                                 tailor_fault *fault)
{
    const tailor_in_stiffness none = {0, 0, 0, 0, 0, 0};
    tailor_in_sheet all = {none, none, 0, 0};
    /* Of the fused ones and the first: their stretch, its first and second moments about the lowest face. */
    tailor_in_stiffness glued = none, first = none, second = none;
    double bond = 1;
    int fused = 0;
    if (!cloths || !angles || !joints || !holds || (!layers && layers_count))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "an array of the layers is NULL");
    if (layer_count < 1 || layer_count > TAILOR_LAYERS_MOST)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "one layer to eight can be joined");
    for (size_t i = 0; i < layer_count; i++) {
        tailor_in_sheet sheet;
        const double *cloth = cloths + i * property_count;
        tailor_status status = tailor_in_sheet_of(cloth, property_count, (int)i + 1, &sheet, fault);
        if (status == TAILOR_OK)
            status = check_joint(joints[i], holds[i], angles[i], i == 0, fault);
        if (status != TAILOR_OK)
            return status;
        if (angles[i] != 0) {
            const double c = cos(angles[i] * TAILOR_IN_DEGREE), s = sin(angles[i] * TAILOR_IN_DEGREE);
            sheet.stretch = tailor_in_turned(&sheet.stretch, c, s);
            sheet.bending = tailor_in_turned(&sheet.bending, c, s);
        }
        const int glue = i > 0 && joints[i] == TAILOR_JOINT_FUSED;
        const double hold = i > 0 && !glue ? holds[i] : 1;
        const double z = all.thickness + sheet.thickness / 2;
        if (glue || i == 0) {
            glued = tailor_in_stiffness_sum(&glued, &sheet.stretch, 1);
            first = tailor_in_stiffness_sum(&first, &sheet.stretch, z);
            second = tailor_in_stiffness_sum(&second, &sheet.stretch, z * z);
        }
        if (glue && holds[i] < bond)
            bond = holds[i];
        fused |= glue;
        all.stretch = tailor_in_stiffness_sum(&all.stretch, &sheet.stretch, hold);
        all.bending = tailor_in_stiffness_sum(&all.bending, &sheet.bending, 1);
        all.weight += sheet.weight;
        all.thickness += sheet.thickness;
    }
    if (fused) {
        const tailor_in_stiffness shared = sandwiched(&first, &glued);
        second = tailor_in_stiffness_sum(&second, &shared, -1);
        all.bending = tailor_in_stiffness_sum(&all.bending, &second, bond);
    }
    layers_write(&all, layers, layers_count);
    return TAILOR_OK;
}

tailor_status tailor_layers_along(const double *layers, size_t layers_count, double angle, double *along,
                                  size_t along_count, tailor_fault *fault)
{
    tailor_in_sheet sheet;
    const tailor_status status = tailor_in_layers_read(layers, layers_count, &sheet, fault);
    if (status != TAILOR_OK)
        return status;
    return tailor_in_along_line(&sheet, angle, along, along_count, fault);
}

tailor_status tailor_layers_stretch(const double *layers, size_t layers_count, double angle, double tension,
                                    double *percent, int *beyond, tailor_fault *fault)
{
    double along[TAILOR_ALONG_COUNT];
    const tailor_status status = tailor_layers_along(layers, layers_count, angle, along, TAILOR_ALONG_COUNT, fault);
    if (status != TAILOR_OK)
        return status;
    if (!percent)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is nowhere to write to");
    if (!isfinite(tension))
        return tailor_in_fault_plain(fault, TAILOR_NOT_FINITE, "the tension is not finite");
    if (tension < 0)
        return tailor_in_fault(fault, TAILOR_OUT_OF_RANGE, NULL, 0, tension, 0, NAN,
                               "the tension is %v N/cm: cloth is not pushed");
    *percent = 100 * (100 * tension) / along[TAILOR_ALONG_STRETCH];
    if (beyond)
        *beyond = *percent > 5;
    return TAILOR_OK;
}

/** First and second derivative of the compliance along a line with respect to its angle. */
static void slopes(const tailor_in_stiffness *k, double angle, double *first, double *second)
{
    /* compliance = p0 + p2 cos 2a + q2 sin 2a + p4 cos 4a + q4 sin 4a */
    const double p2 = (k->m11 - k->m22) / 2, q2 = (k->m16 + k->m26) / 2;
    const double p4 = (k->m11 + k->m22 - 2 * k->m12 - k->m66) / 8, q4 = (k->m16 - k->m26) / 4;
    const double c2 = cos(2 * angle), s2 = sin(2 * angle), c4 = c2 * c2 - s2 * s2, s4 = 2 * c2 * s2;
    *first = 2 * (q2 * c2 - p2 * s2) + 4 * (q4 * c4 - p4 * s4);
    *second = -4 * (p2 * c2 + q2 * s2) - 16 * (p4 * c4 + q4 * s4);
}

/** The crest next to an angle, by Newton where the slope falls. */
static double crest_near(const tailor_in_stiffness *k, double angle)
{
    for (int i = 0; i < 8; i++) {
        double first, second;
        slopes(k, angle, &first, &second);
        if (!(second < 0))
            break;
        angle -= first / second;
    }
    return angle;
}

tailor_status tailor_layers_greatest_stretch(const double *layers, size_t layers_count, double *angle,
                                             double *stiffness, tailor_fault *fault)
{
    enum { STEPS = 60 }; /* of 3 deg: a wave that comes four times a turn has 15 between its crests */
    tailor_in_sheet sheet;
    const tailor_status status = tailor_in_layers_read(layers, layers_count, &sheet, fault);
    if (status != TAILOR_OK)
        return status;
    const tailor_in_stiffness k = tailor_in_inverse(&sheet.stretch);
    const double step = 2 * TAILOR_IN_RIGHT_ANGLE / STEPS;
    double value[STEPS], most = 0, least = INFINITY, best = 0;
    for (int i = 0; i < STEPS; i++) {
        value[i] = tailor_in_along_compliance(&k, cos(i * step), sin(i * step));
        most = fmax(most, value[i]);
        least = fmin(least, value[i]);
    }
    if (most - least > 1e-11 * most) {
        most = 0;
        for (int i = 1; i <= STEPS; i++) { /* 3 to 90 and then -87 to 0: of two equal ones the positive is kept */
            if (value[i % STEPS] < value[(i + 1) % STEPS] || value[i % STEPS] < value[i - 1])
                continue;
            const double at = crest_near(&k, (i > STEPS / 2 ? i - STEPS : i) * step);
            const double there = tailor_in_along_compliance(&k, cos(at), sin(at));
            if (there > most * (1 + 1e-12)) {
                most = there;
                best = at;
            }
        }
        if (best > TAILOR_IN_RIGHT_ANGLE * (1 + 1e-12))
            best -= 2 * TAILOR_IN_RIGHT_ANGLE;
        else if (best <= -TAILOR_IN_RIGHT_ANGLE * (1 - 1e-12))
            best += 2 * TAILOR_IN_RIGHT_ANGLE;
        best = fmin(best, TAILOR_IN_RIGHT_ANGLE);
    }
    if (angle)
        *angle = best / TAILOR_IN_DEGREE;
    if (stiffness)
        *stiffness = 1 / tailor_in_along_compliance(&k, cos(best), sin(best));
    return TAILOR_OK;
}
