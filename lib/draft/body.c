/* The draft from beginning to end. */
#include "assemble.h"
#include "figure.h"

#include "../base/fault.h"
#include "../order/validate.h"

/** Frame to scye, with the scye cut deeper by `deepened`. */
static tailor_status draft_to_scye(tailor_in_draft *d, double deepened)
{
    static tailor_status (*const steps[])(tailor_in_draft *) = {tailor_in_draft_frame, tailor_in_draft_suppression,
                                                                tailor_in_draft_seams, tailor_in_draft_shoulder,
                                                                tailor_in_draft_scye};
    tailor_status status = TAILOR_OK;
    d->deepened = deepened;
    for (size_t i = 0; i < sizeof steps / sizeof *steps && status == TAILOR_OK; i++)
        status = steps[i](d);
    return status;
}

/** What a strong arm lacks on the scye, mm of half sleeve; positive when the scye must be cut deeper. */
static double arm_lacks(const tailor_in_draft *d)
{
    return d->f[TAILOR_FIELD_UPPER_ARM_GIRTH] / 2 + d->k[TAILOR_CONSTANT_ARM_ALLOWANCE] -
           d->k[TAILOR_CONSTANT_SLEEVE_SHARE_MOST] * d->scye_length;
}

/** A strong arm: the scye is cut deeper until the sleeve is no more than its greatest share of it (secant method: the
 * scye grows nearly in proportion to its depth). */
static tailor_status deepen_for_arm(tailor_in_draft *d)
{
    double before = d->deepened, lacks_before = arm_lacks(d);
    double now = before + lacks_before / (2 * d->k[TAILOR_CONSTANT_SLEEVE_SHARE_MOST]);
    for (int i = 0; i < 12; i++) {
        if (now > 90)
            return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_UPPER_ARM_GIRTH,
                                    "%n %v%u needs a scye cut more than 90 mm deeper: measure the arm again");
        tailor_status status = draft_to_scye(d, now);
        if (status != TAILOR_OK)
            return status;
        double lacks = arm_lacks(d);
        if (fabs(lacks) < 1e-9)
            break;
        double next = now - lacks * (now - before) / (lacks - lacks_before);
        before = now;
        lacks_before = lacks;
        now = next;
        if (!isfinite(now))
            break;
    }
    return TAILOR_OK;
}

/** All steps, with the scye cut deeper by `deepened` at least. */
static tailor_status draft(tailor_in_draft *d, double deepened)
{
    static tailor_status (*const steps[])(tailor_in_draft *) = {tailor_in_draft_fold,   tailor_in_draft_edge,
                                                                tailor_in_draft_hem,    tailor_in_draft_pockets,
                                                                tailor_in_draft_sleeve, tailor_in_draft_collar};
    tailor_status status = draft_to_scye(d, deepened);
    if (status == TAILOR_OK && arm_lacks(d) > 1e-9)
        status = deepen_for_arm(d);
    for (size_t i = 0; i < sizeof steps / sizeof *steps && status == TAILOR_OK; i++)
        status = steps[i](d);
    return status;
}

/** One side. The scye of both sides is cut equally deep, so that their centre back is the same: `deepened` is what the
 * other side needs. */
static tailor_status draft_side(tailor_in_draft *d, const tailor_in_figure *figure, double deepened,
                                tailor_fault *fault)
{
    d->f = figure->f;
    d->k = figure->k;
    d->blades_width = figure->blades_width;
    d->blades_ease = figure->blades_ease;
    d->back_pitch_share = figure->back_pitch_share;
    d->fault = fault;
    return draft(d, deepened);
}

tailor_status tailor_in_draft_coat(const double *f, const double *k, int extent, void *block, tailor_allocator memory,
                                   tailor_pattern **pattern, tailor_fault *fault)
{
    tailor_in_figure right_figure, left_figure;
    tailor_in_draft right, left;
    int differ = tailor_in_figure_differs(f);
    tailor_in_figure_of(f, k, TAILOR_SIDE_RIGHT, &right_figure);
    tailor_status status = draft_side(&right, &right_figure, 0, fault);
    if (status == TAILOR_OK && differ) {
        tailor_in_figure_of(f, k, TAILOR_SIDE_LEFT, &left_figure);
        status = draft_side(&left, &left_figure, right.deepened, fault);
        if (status == TAILOR_OK && left.deepened > right.deepened)
            status = draft_side(&right, &right_figure, left.deepened, fault);
    }
    if (status != TAILOR_OK)
        return status;
    tailor_pattern *made = tailor_in_draft_assemble(&right, differ ? &left : NULL, extent, block, memory);
    if (!made)
        return tailor_in_fault_plain(fault, TAILOR_INTERNAL, "the pattern block is too small for this coat");
    tailor_in_pattern_remember(made, tailor_edition(), f);
    *pattern = made;
    return TAILOR_OK;
}
