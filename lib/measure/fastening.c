/* Buttons, holes and what of them shows; what the make adds to the lapel: bridle, turns of facing and top collar. */
#include "../order/hole_faces.h"
#include "../pattern/fastening.h"
#include "view.h"

#define Q(name) q[TAILOR_QUANTITY_##name]
#define K(name) v->k[TAILOR_CONSTANT_##name]
#define F(name) v->f[TAILOR_FIELD_##name]
#define POINT(name) v->point[TAILOR_IN_NET_PIECE_FOREPART][TAILOR_POINT_##name]

/* The quantities of the holes that are told of, from the top. */
static const struct shown_hole {
    int face, shows, shows_rolled;
} shown_holes[] = {
#define SHOWN(name)                                                                                                    \
    {                                                                                                                  \
        TAILOR_QUANTITY_##name##_FACE, TAILOR_QUANTITY_##name##_SHOWS, TAILOR_QUANTITY_##name##_SHOWS_ROLLED           \
    }
    SHOWN(HOLE_1),
    SHOWN(HOLE_2),
    SHOWN(HOLE_3),
#undef SHOWN
};
enum { SHOWN_HOLES = sizeof shown_holes / sizeof *shown_holes };

/** A break line: from its break point to the stand point. */
typedef struct fold {
    tailor_point low, stand;
} fold;

/** How far in front of a break line a point lies, square to it; negative behind it. */
static double before(fold line, tailor_point p)
{
    double dx = line.stand.x - line.low.x, dy = line.stand.y - line.low.y;
    return (dy * (p.x - line.low.x) - dx * (p.y - line.low.y)) / sqrt(dx * dx + dy * dy);
}

/** Side on which a hole is worked when the order does not say: out; but in for the top hole of a front that is to roll
 *  through or already lies on the lapel, so that the turned lapel shows the good side (common practice). */
static int usual_face(const struct tailor_in_view *v, int hole)
{
    int rolls = tailor_in_buttoning(v->f, TAILOR_IN_TRAIT_ROLLS);
    return rolls != TAILOR_IN_ROLLS_NO && hole == 0 ? TAILOR_HOLE_FACE_1_IN : TAILOR_HOLE_FACE_1_OUT;
}

/** 1 when a hole shows its worked face, 2 when it shows its reverse. On the turned lapel one sees the inside. */
static int shows(int face, int on_lapel)
{
    int seen = on_lapel ? TAILOR_HOLE_FACE_1_IN : TAILOR_HOLE_FACE_1_OUT;
    return face == TAILOR_HOLE_FACE_1_BOTH || face == seen ? 1 : 2;
}

/** Is a hole on the lapel that turns over a break line? */
static int on_lapel(fold line, tailor_point eye) { return eye.y > line.low.y && before(line, eye) > 0; }

static void holes(const struct tailor_in_view *v, double *q, fold drawn, fold rolled)
{
    const struct tailor_in_run *mark = v->mark[TAILOR_IN_NET_PIECE_FOREPART];
    int count = 0, rolls = tailor_in_rolls(v->f);
    for (int i = 0; i < TAILOR_IN_FASTENINGS; i++) {
        struct tailor_in_run slit = mark[tailor_in_hole_marks[i]];
        if (!slit.count)
            continue;
        count++;
        tailor_point eye = slit.c[0].p[0], inner = slit.c[0].p[3];
        double given = v->f[tailor_in_hole_faces[i]];
        int face = isnan(given) ? usual_face(v, i) : (int)given;
        if (i < SHOWN_HOLES) {
            q[shown_holes[i].face] = face;
            q[shown_holes[i].shows] = shows(face, on_lapel(drawn, eye));
            q[shown_holes[i].shows_rolled] = rolls ? shows(face, on_lapel(rolled, eye)) : (double)NAN;
        }
        if (rolls && face == TAILOR_HOLE_FACE_1_BOTH && on_lapel(rolled, eye)) {
            double dx = rolled.stand.x - rolled.low.x, dy = rolled.stand.y - rolled.low.y,
                   run = sqrt(dx * dx + dy * dy);
            Q(HOLE_BAR) = fabs((eye.x - inner.x) * dx + (eye.y - inner.y) * dy) / run;
            Q(HOLE_BAR_FROM_BREAK) = before(drawn, (tailor_point){(eye.x + inner.x) / 2, (eye.y + inner.y) / 2});
        }
    }
    Q(HOLE_COUNT) = count;
}

void tailor_in_measure_fastening(const struct tailor_in_view *v, double *q)
{
    const struct tailor_in_run *mark = v->mark[TAILOR_IN_NET_PIECE_FOREPART];
    tailor_point stand = POINT(STAND_POINT), at_break = POINT(BREAK_POINT), waist = POINT(WAIST_BUTTON);
    double level = waist.y + F(BREAK_RISE);
    fold drawn = {at_break, stand}, rolled = drawn;
    if (level < at_break.y)
        rolled.low = (tailor_point){
            tailor_in_edge_x(v, TAILOR_IN_NET_PIECE_FOREPART, TAILOR_IN_NET_EDGE_FRONT_EDGE, level), level};
    holes(v, q, drawn, rolled);
    struct tailor_in_run slit = mark[TAILOR_MARKED_HOLE_1];
    Q(HOLE_LENGTH) = slit.count ? slit.c[0].p[0].x - slit.c[0].p[3].x : NAN;
    double edge = tailor_in_edge_x(v, TAILOR_IN_NET_PIECE_FOREPART, TAILOR_IN_NET_EDGE_FRONT_EDGE, waist.y);
    for (int i = 0; i < TAILOR_IN_FASTENINGS; i++) {
        struct tailor_in_run hole = mark[tailor_in_hole_marks[i]];
        if (hole.count && fabs(hole.c[0].p[0].y - waist.y) < 1e-6)
            Q(HOLE_FROM_EDGE) = edge - hole.c[0].p[0].x;
    }
    Q(FRONTS_OVERLAP) = 2 * (edge - waist.x);
    Q(EXTRA_PAD) = v->extra_pad;

    struct tailor_in_run bridle = mark[TAILOR_MARKED_BRIDLE_LINE];
    double whole = bridle.count ? tailor_path_length(bridle.c, bridle.count) : (double)NAN;
    Q(BRIDLE_TAKEN_IN) = whole * F(BRIDLE_DRAWN_IN) / 100;
    Q(BRIDLE_LENGTH) = whole - Q(BRIDLE_TAKEN_IN);
    /* Middles of the layers lie half of each and what is between them apart; folded flat they turn half round. */
    static const double half_turn = 3.14159265358979323846;
    Q(FACING_TURN) = Q(TOP_COLLAR_TURN) = half_turn * (F(CLOTH_THICKNESS) + F(CANVAS_THICKNESS) + K(PADDING_THICKNESS));
}
