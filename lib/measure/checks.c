/* Checks of fit and of the front: what a cutter looks over before he chalks. Each fills its value, and its limit where
 * the table of checks has none. */
#include "../pattern/fastening.h"
#include "view.h"

#define Q(name) q[TAILOR_QUANTITY_##name]
#define K(name) v->k[TAILOR_CONSTANT_##name]
#define F(name) v->f[TAILOR_FIELD_##name]
#define POINT(piece, name) v->point[TAILOR_IN_NET_PIECE_##piece][TAILOR_POINT_##name]
#define VALUE(name) value[TAILOR_CHECK_##name]
#define LIMIT(name) limit[TAILOR_CHECK_##name]

static tailor_point minus(tailor_point a, tailor_point b) { return (tailor_point){a.x - b.x, a.y - b.y}; }
static double across(tailor_point a, tailor_point b) { return a.x * b.y - a.y * b.x; }
static double size(tailor_point a) { return sqrt(a.x * a.x + a.y * a.y); }

static void girths(const struct tailor_in_view *v, const double *q, double *value)
{
    VALUE(HALF_GIRTH_SCYE_ERROR) = fabs(Q(HALF_GIRTH_SCYE) - (F(CHEST_GIRTH) + F(CHEST_EASE)) / 2);
    VALUE(HALF_GIRTH_WAIST_ERROR) =
        fabs(Q(HALF_GIRTH_WAIST) - (F(WAIST_GIRTH) + F(WAIST_EASE)) / 2 - 2 * F(SIDE_LET_OUT));
    VALUE(HALF_GIRTH_SEAT_ERROR) = fabs(Q(HALF_GIRTH_SEAT) - (F(SEAT_GIRTH) + F(SEAT_EASE)) / 2 - 2 * F(SIDE_LET_OUT));
    VALUE(CROSS_BACK_ERROR) = fabs(Q(CROSS_BACK_FINISHED) - F(BACK_WIDTH) - K(EASE_SHARE_BACK) * F(CHEST_EASE));
    double front_share = 1 - K(EASE_SHARE_BACK) - K(EASE_SHARE_SCYE);
    VALUE(CROSS_CHEST_ERROR) = fabs(Q(CROSS_CHEST_FINISHED) - F(CROSS_CHEST) - front_share * F(CHEST_EASE));
    VALUE(FRONT_SHOULDER_ERROR) = fabs(Q(FRONT_SHOULDER_DRAFTED) - F(FRONT_SHOULDER) - K(FRONT_SHOULDER_EASE));
    VALUE(OVER_SHOULDER_ERROR) = fabs(Q(OVER_SHOULDER_DRAFTED) - F(OVER_SHOULDER) - K(OVER_SHOULDER_EASE));
    double waist =
        POINT(FOREPART, NECK_POINT).y - POINT(FOREPART, CENTRE_FRONT_WAIST).y + size(POINT(BACK, NECK_POINT));
    VALUE(FRONT_WAIST_LENGTH_ERROR) = fabs(waist - F(FRONT_WAIST_LENGTH) - K(FRONT_SHOULDER_EASE));
}

/** Greatest distance of the sleeve's underscye from the body's, from front pitch to back seam, laid on one another. */
static double undersleeve_follows(const struct tailor_in_view *v)
{
    struct tailor_in_run under = v->edge[TAILOR_IN_NET_PIECE_UNDERSLEEVE][TAILOR_IN_NET_EDGE_CROWN];
    struct tailor_in_run side = v->edge[TAILOR_IN_NET_PIECE_SIDEBODY][TAILOR_IN_NET_EDGE_SCYE];
    tailor_point pitch = POINT(FOREPART, FRONT_PITCH);
    double level = POINT(FOREPART, SCYE_FRONT).y - tailor_in_scye_sinks(v->f), worst = 0;
    for (size_t i = 0; i < side.count; i++)
        for (int j = 0; j <= 3; j++) {
            tailor_point body = tailor_in_point(&side.c[i], j / 3.0), moved = {pitch.x - body.x, body.y - level};
            double off;
            if (moved.x <
                under.c[under.count - 1].p[3].x) /* that part lies on the topsleeve, beyond the forearm seam */
                continue;
            tailor_path_nearest(under.c, under.count, moved, &off);
            worst = fmax(worst, off);
        }
    return worst;
}

/** Hollow of the crown inside its chord over the lowest quarter of its front. */
static double crown_hollow(const struct tailor_in_view *v)
{
    struct tailor_in_run crown = v->edge[TAILOR_IN_NET_PIECE_TOPSLEEVE][TAILOR_IN_NET_EDGE_CROWN];
    tailor_point pitch = POINT(TOPSLEEVE, FRONT_PITCH), top = POINT(TOPSLEEVE, CROWN_NOTCH);
    double off, from = tailor_path_nearest(crown.c, crown.count, pitch, &off), level = pitch.y + (top.y - pitch.y) / 4;
    double places[6];
    size_t found = 0;
    tailor_path_cross_line(crown.c, crown.count, (tailor_point){0, level}, (tailor_point){1, level}, places, 6, &found);
    if (!found)
        return NAN;
    double to = places[0];
    tailor_point begin = tailor_path_point(crown.c, crown.count, from),
                 end = tailor_path_point(crown.c, crown.count, to);
    tailor_point chord = minus(end, begin);
    double worst = 0;
    for (int i = 1; i < 12; i++) { /* inside is to the left: the outline runs counter-clockwise */
        tailor_point p = tailor_path_point(crown.c, crown.count, from + (to - from) * i / 12);
        worst = fmax(worst, across(chord, minus(p, begin)) / size(chord));
    }
    return worst;
}

/** The longest sound scye: 0.53 of the chest (common practice) and a hundredth for crook and square shoulders, on a
 * regular figure of 1780; on a small chest, where stature counts more, as much of 950; longer by what the order's depth
 * and ease go beyond that figure's. */
static double greatest_scye(const struct tailor_in_view *v, const double *q)
{
    double chest = fmax(F(CHEST_GIRTH), 950);
    double deeper = fmax(F(SCYE_DEPTH) + F(SCYE_DROP) - (0.1 * chest + 30 + 0.05 * 1780 + 22), 0);
    double wider = fmax(K(EASE_SHARE_SCYE) * (F(CHEST_EASE) / 2 - 55), 0);
    double square =
        21 - F(SHOULDER_SLOPE) + K(PAD_LIFT) * (F(SHOULDER_PAD) - 9); /* deg; some 5 mm each, both shoulders */
    double raised = fmax(F(BALANCE), 0) + K(BELLY_NECK_SHARE) * Q(BELLY_ALLOWANCE) + 5 * fmax(square, 0);
    return 0.54 * chest + 2 * deeper + fmax(wider, Q(SCYE_WIDTH) - (chest / 8 - 5 + 30)) + raised;
}

static void sleeve(const struct tailor_in_view *v, const double *q, double *value, double *limit)
{
    tailor_point shoulder_back = POINT(BACK, SHOULDER_END), shoulder_front = POINT(FOREPART, SHOULDER_END);
    double level = POINT(FOREPART, SCYE_FRONT).y - tailor_in_scye_sinks(v->f),
           height = (shoulder_back.y + shoulder_front.y) / 2 - level;
    VALUE(FULLNESS_ERROR) = fabs(Q(CROWN_FULLNESS) - F(CROWN_FULLNESS));
    double front = fabs(POINT(TOPSLEEVE, FRONT_PITCH).y - (POINT(FOREPART, FRONT_PITCH).y - level));
    /* The joined back lies lower by the blade ease: its top meets the sidebody's. */
    double back = fabs(POINT(UNDERSLEEVE, BACK_PITCH).y - (POINT(BACK, BACK_PITCH).y - K(BLADE_EASE) - level));
    VALUE(PITCH_ERROR) = fmax(front, back);
    VALUE(UNDERSLEEVE_FOLLOWS) = undersleeve_follows(v);
    double box[4];
    struct tailor_in_run crown = v->edge[TAILOR_IN_NET_PIECE_TOPSLEEVE][TAILOR_IN_NET_EDGE_CROWN];
    tailor_path_bounds(crown.c, crown.count, box);
    /* The crown is so flat on top that 5 mm beside it is about 0.2 mm lower; the drop is what can be measured sharply.
     */
    VALUE(CROWN_NOTCH_ERROR) = 5 * sqrt(fmax(box[3] - POINT(TOPSLEEVE, CROWN_NOTCH).y, 0) / 0.2);
    VALUE(HANG_ERROR) = fabs(Q(SLEEVE_HANG) - K(HANG));

    VALUE(SCYE_SHARE_LEAST) = VALUE(SCYE_SHARE_MOST) = Q(SCYE_LENGTH) / F(CHEST_GIRTH);
    double arm = F(UPPER_ARM_GIRTH) / 2 + K(ARM_ALLOWANCE);
    LIMIT(SCYE_SHARE_MOST) = fmax(greatest_scye(v, q), arm / K(SLEEVE_SHARE_MOST) + 0.1) / F(CHEST_GIRTH);
    VALUE(CROWN_SHARE_LEAST) = VALUE(CROWN_SHARE_MOST) = Q(CROWN_HEIGHT) / height;
    /* 0.74 (common practice) for the usual sleeve; a strong arm makes the sleeve wider, and so the crown lower. */
    LIMIT(CROWN_SHARE_LEAST) = 0.74 - 3 * fmax(Q(SLEEVE_HALF_WIDTH) / Q(SCYE_LENGTH) - K(SLEEVE_SHARE), 0) -
                               0.001 * fmax(F(STOOP), 0); /* its back shoulder stands higher */
    VALUE(CROWN_HOLLOW) = crown_hollow(v);
    VALUE(SLEEVE_SHARE_MOST) = Q(SLEEVE_HALF_WIDTH) / Q(SCYE_LENGTH);
    LIMIT(SLEEVE_SHARE_MOST) = K(SLEEVE_SHARE_MOST) + 1e-6;
    VALUE(ARM_EASE_LEAST) = Q(SLEEVE_HALF_WIDTH) - F(UPPER_ARM_GIRTH) / 2;
    LIMIT(ARM_EASE_LEAST) = K(ARM_ALLOWANCE) - 1e-6;
    double hindarm = v->length[TAILOR_IN_NET_PIECE_TOPSLEEVE][TAILOR_IN_NET_EDGE_HINDARM_SEAM] -
                     v->length[TAILOR_IN_NET_PIECE_UNDERSLEEVE][TAILOR_IN_NET_EDGE_HINDARM_SEAM];
    VALUE(HINDARM_EASE_LEAST) = VALUE(HINDARM_EASE_MOST) = hindarm;

    VALUE(SCYE_BOTTOM_ERROR) = fabs(POINT(SIDEBODY, SCYE_BOTTOM).y - level);
    VALUE(SCYE_LOW_LEAST) = VALUE(SCYE_LOW_MOST) =
        (POINT(SIDEBODY, SCYE_BOTTOM).x - POINT(BACK, CROSS_BACK).x) / Q(SCYE_WIDTH);
    tailor_point plumb = POINT(FOREPART, SCYE_PLUMB), lean = minus(shoulder_front, plumb);
    VALUE(SCYE_FRONT_LEAN) = tailor_in_angle(lean, (tailor_point){0, 1});
}

static void collar(const struct tailor_in_view *v, const double *q, double *value, double *limit)
{
    int piece = TAILOR_IN_NET_PIECE_UNDER_COLLAR;
    struct tailor_in_run neck = v->edge[piece][TAILOR_IN_NET_EDGE_NECK];
    struct tailor_in_run crease = v->mark[piece][TAILOR_MARKED_CREASE];
    VALUE(COLLAR_NECK_ERROR) = fabs(v->length[piece][TAILOR_IN_NET_EDGE_NECK] - Q(NECK_SEAM_LENGTH));

    /* A strip bent by the lay-over has an outer edge longer by its width for each radian; that and the iron, which
     * gives up to leaf_stretch, must be what the leaf turns round. */
    static const double radians = 3.14159265358979323846 / 180;
    double cut = v->length[piece][TAILOR_IN_NET_EDGE_CENTRE_BACK] * Q(COLLAR_LAY_OVER) * radians;
    double outside = F(COLLAR_FALL) - F(COLLAR_STAND) + K(COLLAR_LAYERS) * F(CLOTH_THICKNESS);
    double worked = outside * Q(COLLAR_TURN) * radians - cut;
    VALUE(LEAF_CONDITION_ERROR) = fmax(fmax(worked - K(LEAF_STRETCH), -worked), 0);

    tailor_point stand = POINT(FOREPART, STAND_POINT), line = minus(stand, POINT(FOREPART, BREAK_POINT));
    VALUE(CREASE_TANGENT) = tailor_in_angle(tailor_cubic_direction(&crease.c[1], 0), line);
    VALUE(CREASE_MEETS) = size(minus(crease.c[1].p[0], stand));
    /* The neck edge runs from the centre back down: behind the neck, then along the gorge. */
    VALUE(NECK_EDGE_TANGENT) =
        tailor_in_angle(tailor_cubic_direction(&neck.c[0], 1), tailor_cubic_direction(&neck.c[1], 0));
    VALUE(CREASE_DRAWN_IN) = Q(CREASE_DRAWN_IN);
    LIMIT(CREASE_DRAWN_IN) = K(CREASE_DRAWN_IN_MOST);
}

/** How much of the welt's upper edge the turned lapel covers: from the lapel edge to the welt's front end. */
static double welt_covered(const struct tailor_in_view *v)
{
    struct tailor_in_run lapel = v->mark[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_MARKED_LAPEL_TURNED];
    struct tailor_in_run welt = v->mark[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_MARKED_BREAST_WELT];
    tailor_point rear = welt.c[3].p[0], front = welt.c[2].p[0];
    double places[8], covered = 0;
    size_t found = 0;
    if (tailor_path_cross_line(lapel.c + 1, 2, rear, front, places, 8, &found) != TAILOR_OK)
        return NAN;
    for (size_t i = 0; i < found; i++) {
        tailor_point edge = tailor_path_point(lapel.c + 1, 2, places[i]);
        if (edge.x < front.x)
            covered = fmax(covered, size(minus(front, edge)));
    }
    return covered;
}

/** Width of the turned lapel, square to the break line: at its tip, and of a shawl where it is widest. */
static double lapel_width(const struct tailor_in_view *v, tailor_point at_break, tailor_point line, tailor_point tip)
{
    if ((int)F(LAPEL) != TAILOR_LAPEL_SHAWL)
        return across(line, minus(tip, at_break)) / size(line);
    const tailor_cubic *edge = v->edge[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_IN_NET_EDGE_LAPEL_EDGE].c;
    double c = line.y / size(line), s = line.x / size(line), box[4];
    double upright[6] = {c, s, -s, c, 0, 0}; /* turns the break line upright */
    tailor_cubic turned;
    tailor_path_affine(edge, 1, upright, &turned);
    tailor_path_bounds(&turned, 1, box);
    return box[2] - (c * at_break.x - s * at_break.y);
}

/** How far the buttons of a double-breasted front are from mirroring its holes about the centre front; NaN for a
 *  single-breasted one. */
static double show_button_mirror(const struct tailor_in_view *v)
{
    if (!tailor_in_double_breasted(v->f))
        return NAN;
    const struct tailor_in_run *mark = v->mark[TAILOR_IN_NET_PIECE_FOREPART];
    double worst = 0;
    int rows = 0, holes = 0;
    while (rows < TAILOR_IN_FASTENINGS && mark[tailor_in_button_marks[rows]].count)
        rows++;
    while (holes < TAILOR_IN_FASTENINGS && mark[tailor_in_hole_marks[holes]].count)
        holes++;
    if (holes > rows)
        return (double)INFINITY;
    for (int i = 0; i < holes; i++) { /* both are counted from the top; the topmost row may have no holes */
        const tailor_cubic *rim = mark[tailor_in_button_marks[rows - holes + i]].c;
        tailor_point button = {(rim[0].p[0].x + rim[2].p[0].x) / 2, (rim[0].p[0].y + rim[2].p[0].y) / 2};
        tailor_point eye = mark[tailor_in_hole_marks[i]].c[0].p[0];
        /* The centre front at that level: as far behind the front edge as the wrap is wide. */
        double edge = tailor_in_edge_x(v, TAILOR_IN_NET_PIECE_FOREPART, TAILOR_IN_NET_EDGE_FRONT_EDGE, eye.y);
        if (isnan(edge))
            edge = eye.x + F(BUTTON_STAND);
        double centre = edge - F(WRAP);
        worst = fmax(worst, fmax(fabs(eye.x - centre - (centre - button.x)), fabs(eye.y - button.y)));
    }
    return worst;
}

static void front(const struct tailor_in_view *v, const double *q, double *value, double *limit)
{
    tailor_point stand = POINT(FOREPART, STAND_POINT), at_break = POINT(FOREPART, BREAK_POINT),
                 line = minus(stand, at_break);
    tailor_point tip = tailor_point_reflect(POINT(FOREPART, TIP), stand, at_break);
    tailor_point root = tailor_point_reflect(POINT(FOREPART, COLLAR_END), stand, at_break);
    tailor_point gorge = minus(root, POINT(FOREPART, GORGE_CROSSING));
    VALUE(LAPEL_EDGE_TANGENT) =
        tailor_in_angle(tailor_in_edge_start(v, TAILOR_IN_NET_PIECE_FOREPART, TAILOR_IN_NET_EDGE_LAPEL_EDGE),
                        tailor_in_edge_end(v, TAILOR_IN_NET_PIECE_FOREPART, TAILOR_IN_NET_EDGE_FRONT_EDGE));
    VALUE(LAPEL_WIDTH_ERROR) = fabs(lapel_width(v, at_break, line, tip) - F(LAPEL_WIDTH));
    VALUE(GORGE_SLOPE_ERROR) = fabs(tailor_in_angle(gorge, (tailor_point){-1, 0}) - F(GORGE_SLOPE));
    VALUE(SHOW_BUTTON_MIRROR) = show_button_mirror(v);

    /* Plumb: the front edge just below the break point; a stout front from the belly down to where it parts or ends. */
    if (Q(BELLY_ALLOWANCE) > 0.01) {
        tailor_point belly = POINT(FOREPART, CENTRE_FRONT_BELLY), seat = POINT(FOREPART, CENTRE_FRONT_SEAT);
        VALUE(FRONT_PLUMB) = tailor_in_angle(minus(belly, seat), (tailor_point){0, 1});
        LIMIT(FRONT_PLUMB) = 1;
        VALUE(BELLY_LENGTH_LEAST) =
            (Q(FRONT_HEM_BELOW_BACK) - K(FRONT_HEM_DROP)) / Q(BELLY_ALLOWANCE) + K(BELLY_NECK_SHARE);
        LIMIT(BELLY_LENGTH_LEAST) = K(BELLY_NECK_SHARE) + fmin(K(BELLY_HEM_SHARE), 0.1) - 1e-9;
    } else {
        VALUE(FRONT_PLUMB) = tailor_in_angle(
            tailor_in_edge_end(v, TAILOR_IN_NET_PIECE_FOREPART, TAILOR_IN_NET_EDGE_FRONT_EDGE), (tailor_point){0, 1});
        LIMIT(FRONT_PLUMB) = 0.5;
        VALUE(BELLY_LENGTH_LEAST) = NAN;
    }
    VALUE(TOTAL_CROOK_LEAST) = VALUE(TOTAL_CROOK_MOST) = Q(TOTAL_CROOK);
    LIMIT(TOTAL_CROOK_MOST) = 70 + K(BELLY_CROOK_SHARE) * Q(BELLY_ALLOWANCE) +
                              0.5 * (fmax(F(CHEST_FULLNESS), 0) + fmax(-F(STOOP), 0)); /* as these notes crook it */
    LIMIT(TOTAL_CROOK_LEAST) -= fmin(0.5 * (fmax(F(STOOP), 0) + fmax(-F(CHEST_FULLNESS), 0)), 5);
    VALUE(TIP_CLEAR_LEAST) = Q(LAPEL_TIP_TO_SCYE);
    VALUE(FRONTS_PART_LEAST) = (int)F(FRONT_CUT) == TAILOR_FRONT_CUT_ROUND ? Q(FRONTS_PART_ABOVE_HEM) : NAN;
    VALUE(WELT_COVERED_MOST) = welt_covered(v);
    if (tailor_in_shawl(v->f)) /* it is widest just there */
        LIMIT(WELT_COVERED_MOST) += 20;

    struct tailor_in_run on_side = v->mark[TAILOR_IN_NET_PIECE_SIDEBODY][TAILOR_MARKED_HIP_POCKET];
    struct tailor_in_run on_fore = v->mark[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_MARKED_HIP_POCKET];
    tailor_point rear = on_side.count ? on_side.c[0].p[3] : on_fore.c[0].p[3];
    double seam = tailor_in_edge_x(v, TAILOR_IN_NET_PIECE_SIDEBODY, TAILOR_IN_NET_EDGE_BACK_SEAM, rear.y);
    VALUE(POCKET_FROM_SIDE_LEAST) = rear.x - seam;
    LIMIT(POCKET_FROM_SIDE_LEAST) = K(POCKET_FROM_SIDE) - 1e-6;

    VALUE(SIDEBODY_LEAST) = Q(SIDEBODY_AT_WAIST);
    LIMIT(SIDEBODY_LEAST) = K(SIDEBODY_LEAST) * fmin(F(CHEST_GIRTH) / 900, 1) + fmin(F(SIDE_LET_OUT), 0) - 1e-6;
    VALUE(HOLLOW_MOST) = Q(HOLLOW);
    LIMIT(HOLLOW_MOST) = K(HOLLOW_LIMIT) + 1e-6;
    VALUE(DART_MOST) = Q(DART_WIDTH);
    LIMIT(DART_MOST) = K(DART_LIMIT) + 1e-6;
}

void tailor_in_measure_checks(const struct tailor_in_view *v, const double *q, double *value, double *limit)
{
    girths(v, q, value);
    sleeve(v, q, value, limit);
    collar(v, q, value, limit);
    front(v, q, value, limit);
    tailor_in_measure_joins(v, value);
    tailor_in_measure_outlines(v, value);
    tailor_in_measure_making(v, value);
}
