/* The sleeve on the real pitches of the joined scye. The undersleeve's crown is the underscye itself as far as the back
 * seam; from there to the hindarm its length is solved by the place of the hindarm seam. The topsleeve's crown is
 * solved for its two parts, in front of and behind the shoulder, by height and place of its top. */
#include "draft.h"

/** From body to sleeve: x from the front pitch backwards, y from the scye line. */
static tailor_in_path to_sleeve(const tailor_in_path *body, double pitch_x, double scye_line)
{
    tailor_in_path moved = {body->count, {{{{0, 0}}}}};
    double matrix[6] = {-1, 0, 0, 1, pitch_x, -scye_line};
    tailor_path_affine(body->c, body->count, matrix, moved.c);
    return moved;
}

static void append_path(tailor_in_path *to, const tailor_in_path *from)
{
    for (size_t i = 0; i < from->count; i++)
        tailor_in_append(to, from->c[i]);
}

/** The back pitch above the bottom of the scye as the figure has it without notes that raise it. */
static double plain_back_pitch(const tailor_in_draft *d)
{
    double height = d->back_shoulder_end.y - d->scye_low;
    return d->back_pitch_share * (height - fmax(d->f[TAILOR_FIELD_FORWARD_SHOULDER], 0));
}

/** And with them, but so that there is a crown above it to begin with. */
static double noted_back_pitch(const tailor_in_draft *d)
{
    double height = d->back_shoulder_end.y - d->scye_low;
    double crown = d->k[TAILOR_CONSTANT_CROWN_SHARE_LOW] * (height + d->front_shoulder_end.y - d->scye_low) / 2;
    return fmin(d->k[TAILOR_CONSTANT_BACK_PITCH_SHARE] * height, fmax(crown - 28, plain_back_pitch(d)));
}

/** Pitches, and the three parts of the scye that the sleeve has to meet. */
static tailor_status find_pitches(tailor_in_draft *d, double back_pitch)
{
    const double *k = d->k;
    double front_level = d->scye_low + k[TAILOR_CONSTANT_FRONT_PITCH];
    double back_level = d->scye_low + back_pitch;
    double front = tailor_in_place_at_level(&d->scye_fore, front_level);
    double back = tailor_in_place_at_level(&d->scye_back, back_level);
    if (front < 0 || back < 0 || back_level - tailor_in_path_end(&d->scye_back).y < 8)
        return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_SCYE_DEPTH,
                                "%n %v%u gives a scye so shallow that the sleeve's pitches have no place on it");
    d->front_pitch_place = front;
    d->back_pitch_place = back;
    d->front_pitch = tailor_path_point(d->scye_fore.c, d->scye_fore.count, front);
    d->back_pitch = tailor_path_point(d->scye_back.c, d->scye_back.count, back);

    double fore = tailor_path_length_to(d->scye_fore.c, d->scye_fore.count, front);
    double behind = tailor_path_length_to(d->scye_back.c, d->scye_back.count, back);
    d->scye_upper_front = fore;
    d->scye_upper_back = behind;
    d->underscye = d->scye_length - fore - behind;

    tailor_in_path under = tailor_in_part(&d->scye_fore, front, (double)d->scye_fore.count);
    tailor_in_path side = tailor_in_reversed(&d->scye_side);
    append_path(&under, &side);
    d->under_crown = to_sleeve(&under, d->front_pitch.x, d->scye_low);
    /* The joined back lies lower by the blade ease: its top meets the sidebody's. */
    d->back_pitch_height =
        d->back_pitch.y - tailor_in_path_end(&d->scye_back).y + tailor_in_path_end(&d->under_crown).y;
    return TAILOR_OK;
}

/** Last piece of the undersleeve's crown, from the top of the back seam to the hindarm `across` behind it. */
static tailor_cubic under_last(const tailor_in_draft *d, double across)
{
    tailor_point from = tailor_in_path_end(&d->under_crown), to = at(from.x + across, d->back_pitch_height);
    double reach = distance(from, to);
    tailor_point leave = tailor_in_direction_end(&d->under_crown), arrive = unit(at(0.30, 1));
    return tailor_in_hermite(from, times(leave, 0.33 * reach), to, times(arrive, 0.33 * reach));
}

struct under_goal {
    const tailor_in_draft *d;
    double length;
};

static double under_missed(const void *with, double across)
{
    const struct under_goal *goal = with;
    tailor_cubic last = under_last(goal->d, across);
    return tailor_cubic_length(&last) - goal->length;
}

static tailor_status solve_under_crown(tailor_in_draft *d)
{
    double goal = d->underscye + d->k[TAILOR_CONSTANT_UNDER_FULLNESS] - tailor_in_length(&d->under_crown);
    double across = tailor_in_root(under_missed, &(struct under_goal){d, goal}, 4, 60, 1e-10);
    double from = tailor_in_path_end(&d->under_crown).x;
    d->hindarm_inset = d->sleeve_width - from - across;
    if (!isfinite(across))
        return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_BACK_WIDTH,
                                "%n %v%u with this scye_depth gives a scye behind that no undersleeve follows");
    if (d->hindarm_inset < 2 || d->hindarm_inset > 0.46 * d->sleeve_width)
        return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_UPPER_ARM_GIRTH,
                                "%n %v%u leaves no place for the hindarm seam on this scye: "
                                "check upper_arm_girth, back_width and cross_chest");
    tailor_in_append(&d->under_crown, under_last(d, across));
    return TAILOR_OK;
}

/** A crown to be tried: place of its top, and how round it is there (1 is the usual). */
struct crown_try {
    tailor_point top;
    double roundness;
};

/** The topsleeve's crown: hindarm seam to top, top to front pitch. */
static void draw_crown(const tailor_in_draft *d, struct crown_try try, tailor_in_path *crown)
{
    double width = d->sleeve_width, pitch = d->k[TAILOR_CONSTANT_FRONT_PITCH];
    tailor_point hind = at(width + d->hindarm_inset, d->back_pitch_height), fore = at(0, pitch);
    tailor_point meet = tailor_in_direction_end(&d->under_crown), leave = at(-meet.x, meet.y);
    tailor_point tail = tailor_in_direction_start(&d->under_crown), arrive = at(-tail.x, tail.y);
    tailor_point top = try.top;
    double back_height = top.y - hind.y, front_height = top.y - pitch;
    tailor_point between = at(0.115 * width, pitch + 0.40 * front_height), slope = at(-0.36, -1);
    crown->count = 0;
    tailor_in_append(crown, tailor_in_hermite(hind, times(leave, 0.42 * back_height), top,
                                              at(-0.38 * try.roundness * (hind.x - top.x), 0)));
    tailor_in_append(crown, tailor_in_hermite(top, at(-0.46 * try.roundness * top.x, 0), between,
                                              times(slope, 0.26 * front_height)));
    tailor_in_append(crown,
                     tailor_in_hermite(between, times(slope, 0.16 * front_height), fore, times(arrive, 0.9 * pitch)));
}

static void crown_lengths(const tailor_in_draft *d, struct crown_try try, double *behind, double *before)
{
    tailor_in_path crown;
    draw_crown(d, try, &crown);
    *behind = tailor_cubic_length(&crown.c[0]);
    *before = tailor_cubic_length(&crown.c[1]) + tailor_cubic_length(&crown.c[2]);
}

/** A crown by its two unknowns: place of the top, and either its height (with the usual roundness) or its roundness
 * (with the height given). */
static struct crown_try crown_of(const double unknown[2], double height)
{
    if (isnan(height))
        return (struct crown_try){at(unknown[0], unknown[1]), 1};
    return (struct crown_try){at(unknown[0], height), unknown[1]};
}

/** Both parts of a crown against the length and fullness they must have. */
static void crown_missed(const tailor_in_draft *d, struct crown_try try, double missed[2])
{
    double fullness = d->f[TAILOR_FIELD_CROWN_FULLNESS] - d->k[TAILOR_CONSTANT_UNDER_FULLNESS];
    double share = d->k[TAILOR_CONSTANT_FRONT_FULLNESS_SHARE];
    crown_lengths(d, try, &missed[0], &missed[1]);
    missed[0] -= d->scye_upper_back + (1 - share) * fullness;
    missed[1] -= d->scye_upper_front + share * fullness;
}

/** Newton's method with Broyden's updates for the two unknowns of a crown, from a start; `step` is the unit in which
 * each is tried. The top comes out as NaN when no crown has the lengths. */
static struct crown_try solve_top(const tailor_in_draft *d, double unknown[2], const double step[2], double height)
{
    double j[2][2], missed[2], moved[2];
    crown_missed(d, crown_of(unknown, height), missed);
    for (int k = 0; k < 2; k++) {
        double tried[2] = {unknown[0], unknown[1]};
        tried[k] += step[k];
        crown_missed(d, crown_of(tried, height), moved);
        j[0][k] = (moved[0] - missed[0]) / step[k];
        j[1][k] = (moved[1] - missed[1]) / step[k];
    }
    for (int i = 0; i < 40; i++) {
        if (fabs(missed[0]) + fabs(missed[1]) < 1e-9)
            return crown_of(unknown, height);
        double det = j[0][0] * j[1][1] - j[0][1] * j[1][0];
        double by[2] = {-(missed[0] * j[1][1] - missed[1] * j[0][1]) / det,
                        -(j[0][0] * missed[1] - j[1][0] * missed[0]) / det};
        if (!isfinite(by[0]) || !isfinite(by[1]))
            break;
        for (int k = 0; k < 2; k++) {
            by[k] = clamp(by[k], -25 * step[k], 25 * step[k]);
            unknown[k] += by[k];
        }
        crown_missed(d, crown_of(unknown, height), moved);
        double size = (by[0] / step[0]) * (by[0] / step[0]) + (by[1] / step[1]) * (by[1] / step[1]);
        for (int r = 0; r < 2; r++) {
            double surprise = moved[r] - missed[r] - j[r][0] * by[0] - j[r][1] * by[1];
            for (int k = 0; k < 2; k++)
                j[r][k] += surprise * by[k] / (step[k] * step[k]) / size;
            missed[r] = moved[r];
        }
    }
    return (struct crown_try){at(NAN, NAN), NAN};
}

/** The usual crown; where it would come out too high or too low for the scye, one that is rounder or more pointed. */
static tailor_status solve_crown(tailor_in_draft *d)
{
    double mean_height = (d->back_shoulder_end.y + d->front_shoulder_end.y) / 2 - d->scye_low;
    double unknown[2] = {0.52 * d->sleeve_width, 0.78 * mean_height};
    struct crown_try try = solve_top(d, unknown, (double[2]){1, 1}, NAN);
    double height = clamp(try.top.y, d->k[TAILOR_CONSTANT_CROWN_SHARE_LOW] * mean_height,
                          d->k[TAILOR_CONSTANT_CROWN_SHARE_HIGH] * mean_height);
    if (try.top.y != height && isfinite(height)) {
        double other[2] = {try.top.x, 1};
        struct crown_try shaped = solve_top(d, other, (double[2]){1, 0.02}, height);
        if (shaped.roundness > 0.35 && shaped.roundness < 1.8)
            try = shaped;
    }
    if (!(try.top.y > d->back_pitch_height + 8 && try.top.x > 0.2 * d->sleeve_width &&
          try.top.x < 0.85 * d->sleeve_width))
        return tailor_in_refuse(
            d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_UPPER_ARM_GIRTH,
            "%n %v%u is too wide or too narrow for this scye: no crown has the crown_fullness asked for");
    d->crown_top = try.top;
    draw_crown(d, try, &d->crown);
    return TAILOR_OK;
}

/** A sleeve seam or fold, downwards: top, elbow, cuff. It leaves the crown plumb: then the edges of a seam are mirror
 *  images there, as the two parts of the crown are, and the crown runs on. */
static tailor_in_path down_sleeve(tailor_point top, tailor_point elbow, tailor_point cuff)
{
    tailor_point points[3] = {top, elbow, cuff};
    tailor_in_path path = {2, {{{{0, 0}}}}};
    tailor_path_monotone(points, 3, path.c);
    path.c[0].p[1].x = top.x;
    return path;
}

static double cuff_level(const tailor_in_draft *d, double x)
{
    double slant = d->k[TAILOR_CONSTANT_CUFF_SLANT], width = d->f[TAILOR_FIELD_CUFF_WIDTH];
    return d->crown_top.y - d->sleeve_length + slant / 2 - slant * (x - d->cuff_x) / width;
}

struct fore_goal {
    tailor_point top, elbow;
    double cuff_x, length;
};

static double fore_missed(const void *with, double cuff_y)
{
    const struct fore_goal *goal = with;
    tailor_in_path path = down_sleeve(goal->top, goal->elbow, at(goal->cuff_x, cuff_y));
    return tailor_in_length(&path) - goal->length;
}

/** Forearm and hindarm seams of both sleeves, on either side of their folds. */
static tailor_status draw_seams(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    double width = d->sleeve_width, cuff = f[TAILOR_FIELD_CUFF_WIDTH], inset = k[TAILOR_CONSTANT_FOREARM_INSET];
    double hollow = (1 - k[TAILOR_CONSTANT_ELBOW_SHARE]) / 2 * width;
    d->cuff_x = d->crown_top.x - k[TAILOR_CONSTANT_HANG] - cuff / 2;
    double middle = d->crown_top.y - d->sleeve_length;
    d->elbow_level = (d->back_pitch_height + middle) / 2 + 12;

    /* Cut the sleeve's underscye where the forearm seam begins; the part before it belongs to the topsleeve, mirrored.
     */
    double places[4];
    size_t found = 0;
    tailor_path_cross_line(d->under_crown.c, d->under_crown.count, at(inset, 0), at(inset, 1), places, 4, &found);
    if (!found)
        return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_SCYE_DEPTH,
                                "%n %v%u gives a scye too narrow for the forearm seam");
    if (fabs(places[0] - nearbyint(places[0])) < 0.004) /* at a joint, or no cutter could sew the sliver that is left */
        places[0] = nearbyint(places[0]);
    tailor_in_path tail = tailor_in_part(&d->under_crown, 0, places[0]);
    d->crown_tail = tailor_in_reflected(&tail, at(0, 0), at(0, 1));
    d->crown_under = tailor_in_part(&d->under_crown, places[0], (double)d->under_crown.count);
    tailor_point start = tailor_in_path_end(&tail);

    double elbow = d->elbow_level, left = d->cuff_x, right = d->cuff_x + cuff;
    d->fold_fore = down_sleeve(at(0, k[TAILOR_CONSTANT_FRONT_PITCH]), at(hollow, elbow), at(left, cuff_level(d, left)));
    d->fore_under = down_sleeve(start, at(hollow + inset, elbow), at(left + inset, cuff_level(d, left + inset)));
    struct fore_goal goal = {at(-start.x, start.y), at(hollow - inset, elbow), left - inset,
                             tailor_in_length(&d->fore_under) - k[TAILOR_CONSTANT_FOREARM_STRETCH]};
    double level = tailor_in_root(fore_missed, &goal, cuff_level(d, left) - 60, cuff_level(d, left) + 60, 1e-10);
    if (!isfinite(level) || elbow > start.y - 60 || elbow < cuff_level(d, left) + 60)
        return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_ARM_LENGTH,
                                "%n %v%u is too short for this scye");
    d->fore_top = down_sleeve(goal.top, goal.elbow, at(goal.cuff_x, level));

    double at_cuff = k[TAILOR_CONSTANT_HINDARM_INSET_CUFF], at_top = d->hindarm_inset;
    double at_elbow = at_cuff + 0.5 * (at_top - at_cuff);
    d->fold_hind =
        down_sleeve(at(width, d->back_pitch_height), at(width - hollow, elbow), at(right, cuff_level(d, right)));
    d->hind_top = down_sleeve(at(width + at_top, d->back_pitch_height), at(width - hollow + at_elbow, elbow),
                              at(right + at_cuff, cuff_level(d, right + at_cuff)));
    d->hind_under = down_sleeve(at(width - at_top, d->back_pitch_height), at(width - hollow - at_elbow, elbow),
                                at(right - at_cuff, cuff_level(d, right - at_cuff)));
    return TAILOR_OK;
}

/** Pitches and both crowns. Notes that stack up would raise the back pitch until the crown is flat behind: it comes
 * down again until the crown stands 36 mm above it, but not below where it is without them (own judgement). */
static tailor_status solve_crowns(tailor_in_draft *d)
{
    double back_pitch = noted_back_pitch(d), least = plain_back_pitch(d);
    tailor_status status = TAILOR_OK;
    for (int i = 0; i < 8; i++) {
        status = find_pitches(d, back_pitch);
        if (status == TAILOR_OK)
            status = solve_under_crown(d);
        if (status == TAILOR_OK)
            status = solve_crown(d);
        double lacks = 36 - (d->crown_top.y - d->back_pitch_height);
        if (status != TAILOR_OK || lacks < 0.01 || back_pitch <= least)
            break;
        back_pitch = fmax(back_pitch - lacks, least);
    }
    return status;
}

tailor_status tailor_in_draft_sleeve(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    double arm = f[TAILOR_FIELD_UPPER_ARM_GIRTH] / 2 + k[TAILOR_CONSTANT_ARM_ALLOWANCE];
    d->sleeve_width = fmax(k[TAILOR_CONSTANT_SLEEVE_SHARE] * d->scye_length, arm);
    d->sleeve_length = f[TAILOR_FIELD_ARM_LENGTH] + k[TAILOR_CONSTANT_CUFF_PAST_WRIST];
    if (f[TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK] > 0) /* from the centre back over the bent elbow to the wrist */
        d->sleeve_length = f[TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK] + k[TAILOR_CONSTANT_CUFF_PAST_WRIST] -
                           d->back_shoulder_end.x - k[TAILOR_CONSTANT_ELBOW_BEND];
    if (d->sleeve_length < 400 || d->sleeve_length > 900)
        return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_SLEEVE_FROM_CENTRE_BACK,
                                "%n %v%u with this back_width leaves no arm of a possible length");
    if (f[TAILOR_FIELD_WRIST_GIRTH] > 2 * f[TAILOR_FIELD_CUFF_WIDTH] - 20)
        return tailor_in_refuse(d, TAILOR_SLEEVE_UNSOLVED, TAILOR_FIELD_CUFF_WIDTH,
                                "%n %v%u (half round) is too narrow for the hand: wrist_girth leaves less than 20 mm");
    tailor_status status = solve_crowns(d);
    if (status == TAILOR_OK)
        status = draw_seams(d);
    return status;
}
