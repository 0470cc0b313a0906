/* Orders drawn by dice, made to agree with themselves where a style or note is refused on the wrong coat. */
#ifndef TESTS_SUPPORT_AGREE_H
#define TESTS_SUPPORT_AGREE_H

#include <math.h>
#include <stddef.h>
#include <tailorgeom/order_tables.h>

/* What choices of an order contradict one another: the number of holes follows the buttoning, a double-breasted coat is
 * not cut round, a belly is at home on a figure that may have one. */
static inline void agree_with_itself(double *client)
{
    static const int holes[] = {2, 1, 2, 3, 3, 3, 2, 2}; /* entry 0: buttoning not given */
    const double given = client[TAILOR_FIELD_BUTTONING];
    const int buttoning = given >= 1 && given <= 7 && given == floor(given) ? (int)given : 0;
    if (!isnan(client[TAILOR_FIELD_HOLES]))
        client[TAILOR_FIELD_HOLES] = holes[buttoning];
    for (int i = holes[buttoning]; i < 6; i++)
        client[TAILOR_FIELD_HOLE_FACE_1 + i] = NAN;
    if (buttoning >= TAILOR_BUTTONING_DOUBLE_FOUR && client[TAILOR_FIELD_FRONT_CUT] == TAILOR_FRONT_CUT_ROUND)
        client[TAILOR_FIELD_FRONT_CUT] = NAN;
    double waist = client[TAILOR_FIELD_WAIST_GIRTH], chest = client[TAILOR_FIELD_CHEST_GIRTH];
    if (isnan(waist))
        waist = -257.8 + 1.132 * chest;
    if (client[TAILOR_FIELD_BELLY_GIRTH] > waist)
        waist = client[TAILOR_FIELD_BELLY_GIRTH];
    const double most = 0.3 * (200 - (chest - waist));
    if (client[TAILOR_FIELD_BELLY] > most)
        client[TAILOR_FIELD_BELLY] = most > 0 ? 0.99 * most : NAN;
}

/* Nothing that the two sides could differ in: for tests that look at one piece of each kind. */
static inline void both_sides_alike(double *client)
{
    static const int own[] = {
#define OWN(name) TAILOR_FIELD_##name##_LEFT, TAILOR_FIELD_##name##_RIGHT
        OWN(LOW_SHOULDER), OWN(FORWARD_SHOULDER), OWN(PROMINENT_BLADES), OWN(LOW_HIP),
        OWN(ARM_PITCH),    OWN(ARM_LENGTH),       OWN(SIDE_LET_OUT)};
#undef OWN
    for (size_t i = 0; i < sizeof own / sizeof *own; i++)
        client[own[i]] = NAN;
}

#endif
