/* Figuration: each note on the figure is a sum of displacements, each in proportion to it, of a measure or of a
 * constant of the draft. Both edges of a seam are drawn from the same measures, so they move together and seams stay
 * true. The steps of the draft read other notes themselves: low_shoulder and forward_shoulder (shoulder, scye), low_hip
 * (seams), sway_back, belly and side_let_out (suppression). */
#include "figure.h"

#include <math.h>
#include <string.h>

typedef struct displacement {
    int note, of_constant, target;
    double factor; /* of the target's unit for each mm of the note */
} displacement;

#define FIELD(note, name, factor)                                                                                      \
    {                                                                                                                  \
        TAILOR_FIELD_##note, 0, TAILOR_FIELD_##name, factor                                                            \
    }
#define CONSTANT(note, name, factor)                                                                                   \
    {                                                                                                                  \
        TAILOR_FIELD_##note, 1, TAILOR_CONSTANT_##name, factor                                                         \
    }

#define BLADES_WIDTH 0.6
#define BLADES_EASE 0.3

/* Factors are own judgement; what they displace is common practice. */
static const displacement displacements[] = {
    /* Stoop: the back gains 0.6 of it in length down to the scye line, the front loses 0.4 against the scye line.
     * Levels hang from the nape, so the whole body below goes down by 0.6 and the front neck point by all of it. The
     * centre back comes in at the nape and out over the blades: against the nape all verticals move back by 0.2. */
    FIELD(STOOP, SCYE_DEPTH, 0.6),
    FIELD(STOOP, BACK_WAIST_LENGTH, 0.6),
    FIELD(STOOP, SEAT_LEVEL, 0.6),
    FIELD(STOOP, BELLY_LEVEL, 0.6),
    FIELD(STOOP, BALANCE, -1.0),
    FIELD(STOOP, CROOK, -0.5),
    FIELD(STOOP, BACK_WIDTH, 0.6),
    FIELD(STOOP, CROSS_CHEST, -0.4),
    FIELD(STOOP, SHOULDER_EASE, 0.4),
    CONSTANT(STOOP, CENTRE_BACK_AT_BLADES, -0.35),
    CONSTANT(STOOP, CENTRE_BACK_AT_SCYE, -0.2),
    CONSTANT(STOOP, FRONT_PITCH, -0.3),
    CONSTANT(STOOP, BACK_PITCH_SHARE, 0.0014), /* of a height of some 220 */

    /* Long neck: neck points up, shoulder ends where they were: a shoulder of some 140 falls 0.4 deg more for each mm.
     */
    FIELD(NECK_LENGTH, BALANCE, 1.0),
    FIELD(NECK_LENGTH, SHOULDER_SLOPE, 0.4),
    CONSTANT(NECK_LENGTH, BACK_NECK_RISE, 1.0),

    /* Forward shoulder: the draft swings the seam forward at its end; the pitch sinks. */
    CONSTANT(FORWARD_SHOULDER, FRONT_PITCH, -0.5),

    /* Prominent blades: width, and ease in shoulder and back seam. */
    FIELD(PROMINENT_BLADES, BACK_WIDTH, BLADES_WIDTH),
    FIELD(PROMINENT_BLADES, SHOULDER_EASE, BLADES_EASE),
    CONSTANT(PROMINENT_BLADES, BLADE_EASE, 0.25),

    /* Full chest: longer over the chest, and more crook. */
    FIELD(CHEST_FULLNESS, BALANCE, 0.3),
    FIELD(CHEST_FULLNESS, CROOK, 0.5),

    /* Sway back: the back is shorter against the front. */
    FIELD(SWAY_BACK, BALANCE, 0.4),
    CONSTANT(SWAY_BACK, HOLLOW_LIMIT, 0.5),

    /* Arm pitch: the cuff hangs forward, the pitches turn with it. */
    CONSTANT(ARM_PITCH, HANG, 1.0),
    CONSTANT(ARM_PITCH, FRONT_PITCH, -0.15),
    CONSTANT(ARM_PITCH, BACK_PITCH_SHARE, 0.0007),
};

/* Fields that may differ by side, and where their left and right values stand. */
static const struct sided {
    int both, left, right;
} sided[] = {
#define SIDED(name)                                                                                                    \
    {                                                                                                                  \
        TAILOR_FIELD_##name, TAILOR_FIELD_##name##_LEFT, TAILOR_FIELD_##name##_RIGHT                                   \
    }
    SIDED(LOW_SHOULDER), SIDED(FORWARD_SHOULDER), SIDED(PROMINENT_BLADES), SIDED(LOW_HIP),
    SIDED(ARM_PITCH),    SIDED(ARM_LENGTH),       SIDED(SIDE_LET_OUT),
};

enum { SIDED_COUNT = sizeof sided / sizeof *sided };

static double value_of(const double *f, const struct sided *one, int side)
{
    double own = f[side == TAILOR_SIDE_LEFT ? one->left : one->right];
    return isnan(own) ? f[one->both] : own;
}

int tailor_in_figure_differs(const double *f)
{
    /* One arm measured by itself, the other from the centre back. */
    if (!isnan(f[TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK]) &&
        isnan(f[TAILOR_FIELD_ARM_LENGTH_LEFT]) != isnan(f[TAILOR_FIELD_ARM_LENGTH_RIGHT]))
        return 1;
    for (int i = 0; i < SIDED_COUNT; i++)
        if (value_of(f, &sided[i], TAILOR_SIDE_LEFT) != value_of(f, &sided[i], TAILOR_SIDE_RIGHT))
            return 1;
    return 0;
}

static double within(double value, double low, double high) { return value < low ? low : value > high ? high : value; }

void tailor_in_figure_of(const double *f, const double *k, int side, tailor_in_figure *figure)
{
    memcpy(figure->f, f, sizeof figure->f);
    memcpy(figure->k, k, sizeof figure->k);
    for (int i = 0; i < SIDED_COUNT; i++)
        figure->f[sided[i].both] = value_of(f, &sided[i], side);
    /* An arm measured by itself is that arm's length, however the other was taken. */
    if (!isnan(f[side == TAILOR_SIDE_LEFT ? TAILOR_FIELD_ARM_LENGTH_LEFT : TAILOR_FIELD_ARM_LENGTH_RIGHT]))
        figure->f[TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK] = NAN;

    double left = value_of(f, &sided[0], TAILOR_SIDE_LEFT), right = value_of(f, &sided[0], TAILOR_SIDE_RIGHT);
    double low = figure->f[TAILOR_FIELD_LOW_SHOULDER], other = left < right ? left : right;
    /* Padded against a level shoulder at most: one that is high leaves the other as it is. */
    figure->extra_pad = within(low - fmax(other, 0), 0, k[TAILOR_CONSTANT_SHOULDER_PADDED]);
    figure->f[TAILOR_FIELD_LOW_SHOULDER] = low - figure->extra_pad;

    for (size_t i = 0; i < sizeof displacements / sizeof *displacements; i++) {
        const displacement *one = &displacements[i];
        double note = figure->f[one->note];
        if (note == 0)
            continue;
        double *row = one->of_constant ? figure->k : figure->f;
        row[one->target] += one->factor * note;
    }
    /* What cloth and needle bear, however much the figure asks for. */
    double *ease = &figure->f[TAILOR_FIELD_SHOULDER_EASE], least = fmin(f[TAILOR_FIELD_SHOULDER_EASE], 0);
    double blades = figure->f[TAILOR_FIELD_PROMINENT_BLADES];
    double ease_without = within(*ease - BLADES_EASE * blades, least, 15);
    *ease = within(*ease, least, 15);
    figure->blades_width = BLADES_WIDTH * blades / 2;
    figure->blades_ease = *ease - ease_without;
    double *crook = &figure->f[TAILOR_FIELD_CROOK];
    *crook = within(*crook, fmin(f[TAILOR_FIELD_CROOK], -5), 45);
    double *pitch = &figure->k[TAILOR_CONSTANT_FRONT_PITCH];
    *pitch = within(*pitch, fmin(k[TAILOR_CONSTANT_FRONT_PITCH], 9), 30);
    figure->back_pitch_share = k[TAILOR_CONSTANT_BACK_PITCH_SHARE];
}
