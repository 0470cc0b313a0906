/* All quantities, read off the finished pieces. */
#include <tailorgeom/fold.h>

#include "../pattern/fastening.h"
#include "view.h"

#define Q(name) q[TAILOR_QUANTITY_##name]
#define K(name) v->k[TAILOR_CONSTANT_##name]
#define F(name) v->f[TAILOR_FIELD_##name]
#define POINT(piece, name) v->point[TAILOR_IN_NET_PIECE_##piece][TAILOR_POINT_##name]
#define LENGTH(piece, name) v->length[TAILOR_IN_NET_PIECE_##piece][TAILOR_IN_NET_EDGE_##name]
#define EDGE_X(piece, name, level) tailor_in_edge_x(v, TAILOR_IN_NET_PIECE_##piece, TAILOR_IN_NET_EDGE_##name, level)

static double apart(tailor_point a, tailor_point b)
{
    return sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
}

/** Width of the front dart at a level; 0 where there is none. */
static double dart_at(const struct tailor_in_view *v, double level)
{
    struct tailor_in_run dart = v->mark[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_MARKED_DART];
    double places[4];
    size_t found = 0;
    if (!dart.count ||
        tailor_path_cross_line(dart.c, dart.count, (tailor_point){0, level}, (tailor_point){1000, level}, places, 4,
                               &found) != TAILOR_OK ||
        found < 2)
        return 0;
    return fabs(tailor_path_point(dart.c, dart.count, places[0]).x -
                tailor_path_point(dart.c, dart.count, places[1]).x);
}

/** Half the coat at a level below the scye line: back, sidebody and forepart side by side, less the dart. */
static double half_girth(const struct tailor_in_view *v, double level, double centre_front)
{
    double back = EDGE_X(BACK, BACK_SEAM, level) - EDGE_X(BACK, CENTRE_BACK, level);
    double side = EDGE_X(SIDEBODY, FRONT_SEAM, level) - EDGE_X(SIDEBODY, BACK_SEAM, level);
    double fore = centre_front - EDGE_X(FOREPART, FRONT_SEAM, level);
    return back + side + fore - dart_at(v, level);
}

/** Half the coat on the scye line. Sidebody and forepart meet a little above it, at the upper end of their seam. */
static double half_girth_on_scye_line(const struct tailor_in_view *v, double level)
{
    struct tailor_in_run fore = v->edge[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_IN_NET_EDGE_FRONT_SEAM];
    struct tailor_in_run side = v->edge[TAILOR_IN_NET_PIECE_SIDEBODY][TAILOR_IN_NET_EDGE_FRONT_SEAM];
    double back = EDGE_X(BACK, BACK_SEAM, level) - EDGE_X(BACK, CENTRE_BACK, level);
    double sidebody = side.c[side.count - 1].p[3].x - EDGE_X(SIDEBODY, BACK_SEAM, level);
    return back + sidebody + POINT(FOREPART, CENTRE_FRONT_SCYE).x - fore.c[0].p[0].x;
}

static void girths(const struct tailor_in_view *v, double *q)
{
    double scye = POINT(FOREPART, SCYE_FRONT).y, waist = POINT(FOREPART, CENTRE_FRONT_WAIST).y;
    double seat = POINT(FOREPART, CENTRE_FRONT_SEAT).y;
    Q(HALF_GIRTH_SCYE) = half_girth_on_scye_line(v, scye);
    Q(HALF_GIRTH_WAIST) = half_girth(v, waist, POINT(FOREPART, CENTRE_FRONT_WAIST).x);
    Q(HALF_GIRTH_SEAT) = half_girth(v, seat, POINT(FOREPART, CENTRE_FRONT_SEAT).x);
    Q(FINISHED_CHEST) = Q(HALF_GIRTH_SCYE); /* this side's half: the table adds both */
    Q(FINISHED_WAIST) = Q(HALF_GIRTH_WAIST);
    Q(FINISHED_SEAT) = Q(HALF_GIRTH_SEAT);
    double cross_back = POINT(BACK, CROSS_BACK).y;
    Q(CROSS_BACK_FINISHED) = 2 * (EDGE_X(BACK, SCYE, cross_back) - EDGE_X(BACK, CENTRE_BACK, cross_back));
    Q(CROSS_CHEST_FINISHED) = 2 * (POINT(FOREPART, CENTRE_FRONT_SCYE).x - POINT(FOREPART, SCYE_PLUMB).x);

    Q(FINISHED_LENGTH) = LENGTH(BACK, CENTRE_BACK);
    Q(SUPPRESSION) = Q(HALF_GIRTH_SCYE) - Q(HALF_GIRTH_WAIST);
    Q(HOLLOW) = EDGE_X(BACK, CENTRE_BACK, waist);
    Q(DART_WIDTH) = dart_at(v, waist);
    Q(BELLY_ALLOWANCE) =
        (POINT(FOREPART, CENTRE_FRONT_BELLY).x - POINT(FOREPART, CENTRE_FRONT_SCYE).x) / K(BELLY_FRONT_SHARE);
    Q(SIDEBODY_AT_WAIST) = EDGE_X(SIDEBODY, FRONT_SEAM, waist) - EDGE_X(SIDEBODY, BACK_SEAM, waist);
    Q(FRONT_HEM_BELOW_BACK) = POINT(BACK, NAPE).y - F(COAT_LENGTH) - POINT(FOREPART, HEM_FRONT).y;
    Q(SCYE_DEPTH_DRAFTED) = tailor_in_scye_sinks(v->f) - scye;
    Q(SCYE_DEEPENED) = -scye - F(SCYE_DEPTH) - F(SCYE_DROP);
}

static void scye_and_sleeve(const struct tailor_in_view *v, double *q)
{
    tailor_point crown = POINT(TOPSLEEVE, CROWN_NOTCH), cuff = POINT(TOPSLEEVE, CUFF_MIDDLE);
    Q(SCYE_LENGTH) = LENGTH(BACK, SCYE) + LENGTH(SIDEBODY, SCYE) + LENGTH(FOREPART, SCYE);
    Q(SCYE_WIDTH) = POINT(FOREPART, SCYE_FRONT).x - POINT(BACK, CROSS_BACK).x;
    Q(BACK_SHOULDER_LENGTH) = LENGTH(BACK, SHOULDER);
    Q(FRONT_SHOULDER_LENGTH) = LENGTH(FOREPART, SHOULDER);
    Q(CROWN_LENGTH) = LENGTH(TOPSLEEVE, CROWN) + LENGTH(UNDERSLEEVE, CROWN);
    Q(CROWN_HEIGHT) = crown.y;
    Q(CROWN_FULLNESS) = Q(CROWN_LENGTH) - Q(SCYE_LENGTH);
    /* The hindarm seams lie as far outside and inside the fold: the fold is midway. */
    Q(SLEEVE_HALF_WIDTH) = (POINT(UNDERSLEEVE, BACK_PITCH).x - POINT(TOPSLEEVE, BACK_PITCH).x) / 2;
    Q(SLEEVE_LENGTH) = crown.y - cuff.y;
    Q(SLEEVE_HANG) = cuff.x - crown.x;
}

static void neck_and_collar(const struct tailor_in_view *v, double *q)
{
    tailor_point leave =
        tailor_in_edge_start(v, TAILOR_IN_NET_PIECE_BACK, TAILOR_IN_NET_EDGE_NECK); /* neck point to nape */
    struct tailor_in_run neck = v->edge[TAILOR_IN_NET_PIECE_UNDER_COLLAR][TAILOR_IN_NET_EDGE_NECK];
    Q(BACK_NECK_LENGTH) = LENGTH(BACK, NECK);
    Q(GORGE_LENGTH) = LENGTH(FOREPART, GORGE);
    Q(NECK_SEAM_LENGTH) = Q(BACK_NECK_LENGTH) + Q(GORGE_LENGTH);
    Q(COLLAR_TURN) = tailor_in_angle((tailor_point){-1, 0}, leave) + K(COLLAR_TURN_MORE);
    Q(COLLAR_LAY_OVER) = tailor_in_angle(tailor_cubic_direction(&neck.c[0], 0), tailor_cubic_direction(&neck.c[0], 1));
    Q(COLLAR_LEAF_LENGTH) = LENGTH(UNDER_COLLAR, LEAF);
    struct tailor_in_run crease = v->mark[TAILOR_IN_NET_PIECE_UNDER_COLLAR][TAILOR_MARKED_CREASE];
    double behind = tailor_path_length(crease.c + 1, crease.count - 1);
    Q(CREASE_DRAWN_IN) = fmax(behind - Q(BACK_NECK_LENGTH) - K(CREASE_EXCESS), 0);
}

/** x of the break line at a level. */
static double break_x(tailor_point stand, tailor_point at_break, double level)
{
    return at_break.x + (stand.x - at_break.x) * (level - at_break.y) / (stand.y - at_break.y);
}

static void coverage(const struct tailor_in_view *v, tailor_point at_break, double *at_scye, double *at_button)
{
    struct tailor_in_run edge = v->edge[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_IN_NET_EDGE_FRONT_EDGE];
    tailor_point stand = POINT(FOREPART, STAND_POINT), scye = POINT(FOREPART, SCYE_FRONT);
    if (tailor_fold_coverage(stand, at_break, scye.x, edge.c, edge.count, scye.y, at_scye) != TAILOR_OK)
        *at_scye = NAN;
    if (tailor_fold_coverage(stand, at_break, scye.x, edge.c, edge.count, POINT(FOREPART, TOP_BUTTON_LEVEL).y,
                             at_button) != TAILOR_OK)
        *at_button = NAN;
}

static void front(const struct tailor_in_view *v, double *q)
{
    tailor_point stand = POINT(FOREPART, STAND_POINT), at_break = POINT(FOREPART, BREAK_POINT);
    tailor_point neck = POINT(FOREPART, NECK_POINT), centre = POINT(FOREPART, CENTRE_FRONT_SCYE);
    Q(TOTAL_CROOK) = centre.x - neck.x - POINT(BACK, NECK_POINT).x;
    Q(BREAK_LENGTH) = apart(stand, at_break);
    Q(BREAK_ANGLE) = tailor_fold_angle(stand, at_break);
    coverage(v, at_break, &Q(COVERAGE_SCYE), &Q(COVERAGE_TOP_BUTTON));

    if (tailor_in_rolls(v->f)) {
        double level = POINT(FOREPART, WAIST_BUTTON).y + F(BREAK_RISE);
        double x = level < at_break.y ? EDGE_X(FOREPART, FRONT_EDGE, level) : at_break.x;
        coverage(v, (tailor_point){x, level}, &Q(COVERAGE_SCYE_ROLLED), &Q(COVERAGE_TOP_BUTTON_ROLLED));
    }

    /* Open area: two triangles between centre front and break line, from neck point level to where they meet. */
    double across = centre.x - break_x(stand, at_break, neck.y);
    double slope = (at_break.x - stand.x) / (stand.y - at_break.y);
    Q(VEE_DEPTH) = neck.y - at_break.y;
    Q(VEE_AREA) = slope > 0 && across > 0 ? across * across / slope : NAN;

    struct tailor_in_run lapel = v->mark[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_MARKED_LAPEL_TURNED];
    Q(LAPEL_AREA) = fabs(tailor_path_area(lapel.c, lapel.count));
    Q(LAPEL_EDGE_LENGTH) = LENGTH(FOREPART, LAPEL_EDGE);
    struct tailor_in_run scye = v->edge[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_IN_NET_EDGE_SCYE];
    tailor_path_nearest(scye.c, scye.count, tailor_point_reflect(POINT(FOREPART, TIP), stand, at_break),
                        &Q(LAPEL_TIP_TO_SCYE));

    int buttons = 0;
    double top = NAN;
    for (int i = 0; i < TAILOR_IN_FASTENINGS; i++) {
        struct tailor_in_run button = v->mark[TAILOR_IN_NET_PIECE_FOREPART][tailor_in_button_marks[i]];
        if (!button.count)
            break;
        if (i == 0)
            top = -(button.c[0].p[0].y + button.c[2].p[0].y) / 2;
        buttons++;
    }
    Q(BUTTON_COUNT) = tailor_in_double_breasted(v->f) ? 2 * buttons : buttons;
    Q(TOP_BUTTON_LEVEL) = top;
    Q(BREAK_LEVEL) = -at_break.y;
    Q(FRONTS_PART_ABOVE_HEM) = POINT(FOREPART, FRONTS_PART).y - POINT(FOREPART, HEM_FRONT).y;
}

/** The middle of a shoulder: its curve's parameter 1/2. */
static tailor_point mid_shoulder(const struct tailor_in_view *v, int piece)
{
    return tailor_in_point(v->edge[piece][TAILOR_IN_NET_EDGE_SHOULDER].c, 0.5);
}

static void measures(const struct tailor_in_view *v, double *q)
{
    double level = -(F(SCYE_DEPTH) + F(SCYE_DROP));
    tailor_point front = {POINT(FOREPART, SCYE_FRONT).x, level}, centre = {K(CENTRE_BACK_AT_SCYE), level};
    Q(FRONT_SHOULDER_DRAFTED) =
        apart(POINT(BACK, NAPE), POINT(BACK, NECK_POINT)) + apart(POINT(FOREPART, NECK_POINT), front);
    Q(OVER_SHOULDER_DRAFTED) = apart(centre, mid_shoulder(v, TAILOR_IN_NET_PIECE_BACK)) +
                               apart(front, mid_shoulder(v, TAILOR_IN_NET_PIECE_FOREPART));
    double area = 0;
    for (int i = 0; i < tailor_pattern_piece_count(v->pattern); i++) {
        size_t count;
        if (tailor_in_net_piece[tailor_piece_number(v->pattern, i)] < 0)
            continue;
        const tailor_cubic *outline = tailor_piece_outline(v->pattern, i, &count);
        area += tailor_path_area(outline, count) * tailor_piece_copies(v->pattern, i);
    }
    Q(CLOTH_AREA) = area;
}

void tailor_in_measure_quantities(const struct tailor_in_view *v, double *q, struct tailor_in_section *section)
{
    girths(v, q);
    scye_and_sleeve(v, q);
    neck_and_collar(v, q);
    front(v, q);
    measures(v, q);
    tailor_in_measure_fastening(v, q);
    tailor_in_measure_rolling(v, q, section);
}
