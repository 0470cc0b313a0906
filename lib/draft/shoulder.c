/* Neck points, shoulders and crook. The back neck curve comes last, in fold.c, since it runs on from the gorge. */
#include "draft.h"

/** A shoulder seam from neck to shoulder end, slightly hollow toward the cloth (`below`, a unit vector). */
static tailor_cubic shoulder_seam(tailor_point neck, tailor_point end, tailor_point below, double hollow)
{
    tailor_point whole = sub(end, neck);
    double depth = hollow * norm(whole) * 4 / 3; /* handles so deep give a curve three quarters as deep */
    return (tailor_cubic){{neck, along(along(neck, whole, 1 / 3.0), below, depth),
                           along(along(neck, whole, 2 / 3.0), below, depth), end}};
}

/** The back shoulder, ending `beyond` the back-width line; its length along the curve. */
static double draw_back_shoulder(tailor_in_draft *d, double slope, double beyond)
{
    double a = slope * TAILOR_IN_RADIANS, run = d->back_width_line + beyond - d->back_neck_point.x;
    tailor_point u = at(cos(a), -sin(a));
    d->back_shoulder_end = along(d->back_neck_point, u, run / u.x);
    d->back_shoulder =
        shoulder_seam(d->back_neck_point, d->back_shoulder_end, right_of(u), d->k[TAILOR_CONSTANT_SHOULDER_HOLLOW]);
    return tailor_cubic_length(&d->back_shoulder);
}

/** Crook is a swing of the whole upper front about the front of scye: where a point comes to. */
static tailor_point swung(const tailor_in_draft *d, tailor_point p, double angle)
{
    tailor_point pivot = at(d->scye_front, d->scye_line), arm = sub(p, pivot);
    double c = cos(angle), s = sin(angle);
    return add(pivot, at(c * arm.x - s * arm.y, s * arm.x + c * arm.y));
}

/** How much higher the neck point has to be than tried, for the client's front_shoulder or, without it, his
 *  front_waist_length; 0 when neither is given. */
static double neck_lacks(const tailor_in_draft *d, tailor_point neck)
{
    const double *f = d->f;
    double to_neck = d->k[TAILOR_CONSTANT_FRONT_SHOULDER_EASE] - norm(d->back_neck_point);
    if (f[TAILOR_FIELD_FRONT_SHOULDER] > 0)
        return f[TAILOR_FIELD_FRONT_SHOULDER] + to_neck - distance(neck, at(d->scye_front, d->scye_line_measured));
    if (f[TAILOR_FIELD_FRONT_WAIST_LENGTH] > 0)
        return f[TAILOR_FIELD_FRONT_WAIST_LENGTH] + to_neck - (neck.y - d->waist);
    return 0;
}

/** How far behind the front of scye the front shoulder may end, so that the scye does not lean too much after the
 * swing, for a neck point at that level. */
static double behind_most(const tailor_in_draft *d, double chord, double crook, double neck_y)
{
    double b = d->front_slope * TAILOR_IN_RADIANS;
    double tangent = tan(d->k[TAILOR_CONSTANT_SCYE_LEAN] * TAILOR_IN_RADIANS);
    double height = neck_y - chord * sin(b) - d->scye_line, swing = crook / (neck_y - d->scye_line);
    return (tangent *
                (height + (d->scye_line - d->scye_low) - d->k[TAILOR_CONSTANT_SCYE_FRONT_SHARE] * -d->scye_line) -
            swing * height) /
           (1 + tangent * swing);
}

/** The neck point before the swing, for a front shoulder of that chord. The shoulder end lies within its bounds behind
 * the front of scye, and no farther than the scye may lean after the swing; the neck point moves with it. The crook
 * that the draft has of itself is bounded too, and that comes first. */
static void place_neck_point(const tailor_in_draft *d, double chord, double crook, tailor_point *neck)
{
    const double *k = d->k;
    double own = d->centre_front - (d->front_width / 2 + k[TAILOR_CONSTANT_NECK_POINT_ALLOWANCE]);
    double b = d->front_slope * TAILOR_IN_RADIANS, lean = behind_most(d, chord, crook, neck->y);
    double most = fmin(k[TAILOR_CONSTANT_SHOULDER_END_MOST], lean),
           least = fmin(k[TAILOR_CONSTANT_SHOULDER_END_LEAST], most);
    double behind = clamp(d->scye_front - own + chord * cos(b), least, most);
    double crooked = d->centre_front - d->back_neck_point.x; /* where the neck point would have no crook at all */
    neck->x = clamp(d->scye_front - behind + chord * cos(b), crooked - k[TAILOR_CONSTANT_CROOK_MOST],
                    crooked - k[TAILOR_CONSTANT_CROOK_LEAST] + fmax(crook, 0));
}

/** The back shoulder, the neck point and its crook, for a front shoulder as long as the back less the ease along the
 * curves; the front's chord. `before_swing` is the neck point before the swing: NaN, or given. */
static double settle_neck(tailor_in_draft *d, double ease, tailor_point *before_swing)
{
    const double *f = d->f, *k = d->k;
    double crook = f[TAILOR_FIELD_CROOK] + k[TAILOR_CONSTANT_BELLY_CROOK_SHARE] * d->belly;
    double beyond = k[TAILOR_CONSTANT_SHOULDER_END_BEYOND], chord = 0;
    int given = isfinite(before_swing->x);
    tailor_point plain =
        at(d->centre_front - d->front_width / 2,
           clamp(k[TAILOR_CONSTANT_NECK_POINT_LEVEL] + 0.03 * (f[TAILOR_FIELD_CHEST_GIRTH] - 1000), 2, 18) +
               f[TAILOR_FIELD_BALANCE] + k[TAILOR_CONSTANT_BELLY_NECK_SHARE] * d->belly);
    for (int i = 0; i < 40; i++) { /* place and level of the neck point depend on each other a little */
        double back = draw_back_shoulder(d, d->back_slope, beyond), before = plain.x;
        /* The front seam has the same shape as the back's: its chord is in proportion. */
        chord = (back - ease) * distance(d->back_neck_point, d->back_shoulder_end) / back;
        if (given)
            plain = *before_swing;
        else
            place_neck_point(d, chord, crook, &plain);
        double long_by = d->scye_front - plain.x + chord * cos(d->front_slope * TAILOR_IN_RADIANS) -
                         behind_most(d, chord, crook, plain.y);
        if (long_by > 1e-6 &&
            beyond > k[TAILOR_CONSTANT_SHOULDER_END_NEAREST]) { /* a wide back: its shoulder end comes in */
            beyond = fmax(beyond - long_by, k[TAILOR_CONSTANT_SHOULDER_END_NEAREST]);
            continue;
        }
        d->crook_angle = crook / (plain.y - d->scye_line);
        d->neck_point = swung(d, plain, d->crook_angle);
        *before_swing = plain;
        if (given)
            break;
        double lacks = neck_lacks(d, d->neck_point);
        plain.y = clamp(plain.y + lacks, -200, 200);
        if (fabs(plain.x - before) + fabs(lacks) < 1e-11)
            break;
    }
    return chord;
}

/** Both shoulders for one slope. Blades that stand out are no matter of the neck: it is that of the figure without
 * them, so that one blade alone leaves the collar whole. */
static void draw_shoulders(tailor_in_draft *d, double slope)
{
    const double *f = d->f, *k = d->k;
    d->back_slope = slope - k[TAILOR_CONSTANT_SHOULDER_SPLIT];
    d->front_slope = slope + k[TAILOR_CONSTANT_SHOULDER_SPLIT];
    tailor_point neck = at(NAN, NAN);
    if (d->blades_width > 0) {
        tailor_in_draft without = *d;
        without.back_width_line -= d->blades_width;
        settle_neck(&without, f[TAILOR_FIELD_SHOULDER_EASE] - d->blades_ease, &neck);
    }
    double chord = settle_neck(d, f[TAILOR_FIELD_SHOULDER_EASE], &neck);
    double b = d->front_slope * TAILOR_IN_RADIANS + d->crook_angle;
    tailor_point v = at(-cos(b), -sin(b));
    d->front_shoulder_end = along(d->neck_point, v, chord);
    d->front_shoulder =
        shoulder_seam(d->neck_point, d->front_shoulder_end, left_of(v), k[TAILOR_CONSTANT_SHOULDER_HOLLOW]);
}

/** A shoulder seam whose outer end is moved and whose beginning at the neck stays, direction and all: in between it
 * moves by the square of the parameter. */
static tailor_cubic bent(const tailor_cubic *seam, tailor_point by)
{
    tailor_cubic moved = *seam;
    moved.p[2] = along(moved.p[2], by, 1 / 3.0);
    moved.p[3] = add(moved.p[3], by);
    return moved;
}

struct bend {
    const tailor_cubic *seam;
    double down;
};

static tailor_cubic bent_so_far(const struct bend *bend, double outward)
{
    return bent(bend->seam, along(at(0, -bend->down), tailor_cubic_direction(bend->seam, 1), outward));
}

static double longer(const void *with, double outward)
{
    const struct bend *bend = with;
    tailor_cubic seam = bent_so_far(bend, outward);
    return tailor_cubic_length(&seam) - tailor_cubic_length(bend->seam);
}

/** Bend a shoulder seam so that its outer end comes down by `down` and somewhat in or out, and it keeps its length. */
static void bend_shoulder(tailor_cubic *seam, tailor_point *end, double down)
{
    struct bend bend = {seam, down};
    *seam = bent_so_far(&bend, tailor_in_root(longer, &bend, -30, 30, 1e-11));
    *end = seam->p[3];
}

/** Low and forward shoulders move the seam's outer end and nothing else: down on both pieces, and for a forward one up
 * on the back and down on the front, which swings the seam forward. Neck and balance stay, so that the collar is the
 * same on both sides, and so do the lengths of the seam. */
static void displace_shoulder_ends(tailor_in_draft *d)
{
    double low = d->f[TAILOR_FIELD_LOW_SHOULDER], forward = d->f[TAILOR_FIELD_FORWARD_SHOULDER];
    if (low == 0 && forward == 0)
        return;
    bend_shoulder(&d->back_shoulder, &d->back_shoulder_end, low - forward);
    bend_shoulder(&d->front_shoulder, &d->front_shoulder_end, low + forward);
}

/** The measure over the shoulder as the draft has it: centre back on the scye line to the middle of the back shoulder,
 *  and from the middle of the front shoulder to the front of scye. */
static double over_shoulder(const tailor_in_draft *d)
{
    tailor_point centre = at(d->k[TAILOR_CONSTANT_CENTRE_BACK_AT_SCYE], d->scye_line_measured);
    tailor_point front = at(d->scye_front, d->scye_line_measured);
    return distance(centre, tailor_in_point(&d->back_shoulder, 0.5)) +
           distance(front, tailor_in_point(&d->front_shoulder, 0.5));
}

static double over_shoulder_missed(const void *with, double slope)
{
    tailor_in_draft trial = *(const tailor_in_draft *)with;
    draw_shoulders(&trial, slope);
    displace_shoulder_ends(&trial);
    return over_shoulder(&trial) - trial.f[TAILOR_FIELD_OVER_SHOULDER] - trial.k[TAILOR_CONSTANT_OVER_SHOULDER_EASE];
}

tailor_status tailor_in_draft_shoulder(tailor_in_draft *d)
{
    const double *f = d->f, *k = d->k;
    d->back_neck_point =
        at(f[TAILOR_FIELD_NECK_GIRTH] / 6 + k[TAILOR_CONSTANT_BACK_NECK_ALLOWANCE], k[TAILOR_CONSTANT_BACK_NECK_RISE]);
    if (d->back_width_line - d->back_neck_point.x < 60)
        return tailor_in_refuse(d, TAILOR_SHOULDER_UNSOLVED, TAILOR_FIELD_BACK_WIDTH,
                                "%n %v%u is too narrow for the neck_girth: no shoulder is left");

    double slope = f[TAILOR_FIELD_SHOULDER_SLOPE] - k[TAILOR_CONSTANT_PAD_LIFT] * f[TAILOR_FIELD_SHOULDER_PAD];
    if (f[TAILOR_FIELD_OVER_SHOULDER] > 0) {
        slope = tailor_in_root(over_shoulder_missed, d, 4, 36, 1e-9);
        if (!(slope > 0))
            return tailor_in_refuse(d, TAILOR_SHOULDER_UNSOLVED, TAILOR_FIELD_OVER_SHOULDER,
                                    "%n %v%u cannot be met with any shoulder slope: measure it again, with scye_depth");
    }
    draw_shoulders(d, slope);
    displace_shoulder_ends(d);
    int field = f[TAILOR_FIELD_FRONT_SHOULDER] > 0       ? TAILOR_FIELD_FRONT_SHOULDER
                : f[TAILOR_FIELD_FRONT_WAIST_LENGTH] > 0 ? TAILOR_FIELD_FRONT_WAIST_LENGTH
                : d->belly > 0                           ? TAILOR_FIELD_WAIST_GIRTH
                                                         : TAILOR_FIELD_BALANCE;
    if (!(d->neck_point.y > -40 && d->neck_point.y < 55))
        return tailor_in_refuse(d, TAILOR_SHOULDER_UNSOLVED, field,
                                "%n %v%u puts the front neck point out of reach of the back: "
                                "measure it again, with scye_depth and cross_chest");
    return TAILOR_OK;
}
