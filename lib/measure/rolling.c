/* How the lapel rolls: stretch and bending of the front along the break line, the section of the roll, and the estimate
 * of where it turns. The first two are mechanics of the numbers ordered; the third is a law fitted to a simulation,
 * that no real coat has confirmed (tailorgeom/roll.h tells what it is worth). */
#include <tailorgeom/roll.h>

#include "view.h"

#define Q(name) q[TAILOR_QUANTITY_##name]
#define F(name) v->f[TAILOR_FIELD_##name]
#define K(name) v->k[TAILOR_CONSTANT_##name]

enum { CLOTH, CANVAS, FACING, LAYERS };

/** A cloth's row from the fields that begin with its name. */
#define SHEET(name)                                                                                                    \
    {                                                                                                                  \
        [TAILOR_CLOTH_WEIGHT] = F(name##_WEIGHT), [TAILOR_CLOTH_STRETCH_WARP] = F(name##_STRETCH_WARP),                \
        [TAILOR_CLOTH_STRETCH_WEFT] = F(name##_STRETCH_WEFT), [TAILOR_CLOTH_SHEAR] = F(name##_SHEAR),                  \
        [TAILOR_CLOTH_CONTRACTION] = F(name##_CONTRACTION), [TAILOR_CLOTH_BENDING_WARP] = F(name##_BENDING_WARP),      \
        [TAILOR_CLOTH_BENDING_WEFT] = F(name##_BENDING_WEFT), [TAILOR_CLOTH_TWIST] = F(name##_TWIST),                  \
        [TAILOR_CLOTH_THICKNESS] = F(name##_THICKNESS)                                                                 \
    }

/** The front, cloth and canvas padded together, or with the facing laid on loose the lapel; `count` layers. */
static int join(const struct tailor_in_view *v, size_t count, double *layers)
{
    const double sheets[LAYERS][TAILOR_CLOTH_COUNT] = {SHEET(CLOTH), SHEET(CANVAS), SHEET(CLOTH)};
    const double angles[LAYERS] = {0, F(CANVAS_ANGLE), 0}, holds[LAYERS] = {1, F(PADDING_HOLD), 0};
    static const int joints[LAYERS] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED};
    return tailor_layers_join(sheets[0], count, TAILOR_CLOTH_COUNT, angles, joints, holds, layers, TAILOR_LAYERS_COUNT,
                              NULL) == TAILOR_OK;
}

static void section(const struct tailor_in_view *v, double *q, struct tailor_in_section *line)
{
    enum { LINKS = 40 }; /* within 2 %, at a fifth of the cost */
    double layers[TAILOR_LAYERS_COUNT], along[TAILOR_ALONG_COUNT], rolled[TAILOR_ROLLED_COUNT];
    if (!join(v, LAYERS, layers) ||
        tailor_layers_along(layers, TAILOR_LAYERS_COUNT, Q(BREAK_ANGLE), along, TAILOR_ALONG_COUNT, NULL) != TAILOR_OK)
        return;
    const double made[TAILOR_SECTION_COUNT] = {
        [0] = NAN,
        [TAILOR_SECTION_BENDING_LENGTH] = along[TAILOR_ALONG_BENDING_LENGTH_ACROSS],
        [TAILOR_SECTION_LAPEL_WIDTH] = F(LAPEL_WIDTH),
        [TAILOR_SECTION_SET] = F(LAPEL_SET),
        [TAILOR_SECTION_SET_BAND] = K(LAPEL_SET_BAND),
        [TAILOR_SECTION_CURL] = F(LAPEL_CURL),
        [TAILOR_SECTION_CHEST_LEAN] = F(CHEST_LEAN),
        [TAILOR_SECTION_BREAK_ANGLE] = Q(BREAK_ANGLE),
        [TAILOR_SECTION_FREE] = NAN,
        [TAILOR_SECTION_LINKS] = LINKS,
    };
    if (tailor_roll_section(made, TAILOR_SECTION_COUNT, rolled, TAILOR_ROLLED_COUNT, line->points, line->room, NULL) !=
        TAILOR_OK)
        return;
    line->count = line->room ? LINKS + 1 : 0;
    Q(ROLL_HEIGHT) = rolled[TAILOR_ROLLED_CREST_HEIGHT];
    Q(ROLL_RADIUS) = rolled[TAILOR_ROLLED_CREST_RADIUS];
    Q(LAPEL_LIES) = rolled[TAILOR_ROLLED_LIES] > 0 ? 1 : 2;
}

/** Only a front that breaks above its fastened button has anything to roll through. */
static void estimate(const struct tailor_in_view *v, double *q, const double *front)
{
    double waist = v->point[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_POINT_WAIST_BUTTON].y;
    if (!tailor_in_breaks_high(v->f))
        return;
    const double made[TAILOR_ROLLING_COUNT] = {
        [0] = NAN,
        [TAILOR_ROLLING_LAPEL_WIDTH] = F(LAPEL_WIDTH),
        [TAILOR_ROLLING_BUTTON_SPACING] = F(BUTTON_SPACING),
        [TAILOR_ROLLING_BREAK_ABOVE] = -Q(BREAK_LEVEL) - waist,
        [TAILOR_ROLLING_BREAK_LENGTH] = Q(BREAK_LENGTH),
        [TAILOR_ROLLING_BREAK_ANGLE] = Q(BREAK_ANGLE),
        [TAILOR_ROLLING_BRIDLE_STIFFNESS] = F(BRIDLE_STIFFNESS),
        [TAILOR_ROLLING_BRIDLE_DRAWN_IN] = Q(BRIDLE_TAKEN_IN),
        [TAILOR_ROLLING_BUTTONHOLE_BAR] = F(HOLE_STIFFNESS),
        [TAILOR_ROLLING_BUTTONHOLE_SIDES] = Q(HOLE_1_FACE) == (double)TAILOR_HOLE_FACE_1_BOTH ? 2 : 1,
        [TAILOR_ROLLING_HANG_LOAD] = K(HANG_LOAD),
    };
    double roll[TAILOR_ROLL_COUNT];
    if (tailor_roll_estimate(made, TAILOR_ROLLING_COUNT, front, TAILOR_LAYERS_COUNT, roll, TAILOR_ROLL_COUNT, NULL) !=
        TAILOR_OK)
        return;
    Q(BRIDLE_TENSION) = roll[TAILOR_ROLL_BRIDLE_TENSION];
    Q(BUTTONHOLE_RATIO) = roll[TAILOR_ROLL_BUTTONHOLE_RATIO];
    Q(ROLL_CLASS) = roll[TAILOR_ROLL_CLASS];
    Q(ROLL_DISTANCE) = roll[TAILOR_ROLL_DISTANCE];
    Q(ROLL_BAND) = roll[TAILOR_ROLL_BAND];
}

void tailor_in_measure_rolling(const struct tailor_in_view *v, double *q, struct tailor_in_section *line)
{
    double front[TAILOR_LAYERS_COUNT], along[TAILOR_ALONG_COUNT];
    if (!join(v, FACING, front) ||
        tailor_layers_along(front, TAILOR_LAYERS_COUNT, Q(BREAK_ANGLE), along, TAILOR_ALONG_COUNT, NULL) != TAILOR_OK)
        return;
    Q(BREAK_STRETCH) = 100 * 100 / along[TAILOR_ALONG_STRETCH]; /* 1 N/cm is 100 N/m */
    Q(BREAK_BENDING) = along[TAILOR_ALONG_BENDING_ACROSS];
    estimate(v, q, front);
    if (line)
        section(v, q, line);
}
