/* Checks of the pieces that only the make has: facing and top collar against their turns, linings against cloth. */
#include "../pattern/block.h"
#include "view.h"

#define K(name) v->k[TAILOR_CONSTANT_##name]
#define F(name) v->f[TAILOR_FIELD_##name]
#define VALUE(name) value[TAILOR_CHECK_##name]

static const double half_turn = 3.14159265358979323846;

/** Index of the piece of that number that serves the view's side, -1 if there is none. */
static int made_piece(const struct tailor_in_view *v, int number)
{
    for (int i = 0; i < tailor_pattern_piece_count(v->pattern); i++)
        if (tailor_piece_number(v->pattern, i) == number && tailor_in_serves(v, i))
            return i;
    return -1;
}

static double made_length(const struct tailor_in_view *v, int number, int edge)
{
    int piece = made_piece(v, number);
    for (int i = 0; i < tailor_piece_edge_count(v->pattern, piece); i++)
        if (tailor_edge_number(v->pattern, piece, i) == edge) {
            size_t count;
            const tailor_cubic *path = tailor_edge_path(v->pattern, piece, i, &count);
            return tailor_path_length(path, count);
        }
    return NAN;
}

static tailor_point made_point(const struct tailor_in_view *v, int number, int point)
{
    int piece = made_piece(v, number);
    for (int i = 0; i < tailor_piece_point_count(v->pattern, piece); i++)
        if (tailor_point_number(v->pattern, piece, i) == point) {
            tailor_point p = tailor_point_place(v->pattern, piece, i);
            if (tailor_piece_side(v->pattern, piece) == TAILOR_SIDE_LEFT)
                p.x = -p.x;
            return p;
        }
    return (tailor_point){NAN, NAN};
}

/** How much wider facing and top collar are than what they cover, against the turn and what the house adds. A shawl's
 *  facing has the top collar grown on. */
static void turns(const struct tailor_in_view *v, double *value)
{
    const tailor_point *fore = v->point[TAILOR_IN_NET_PIECE_FOREPART];
    double turn = half_turn * (F(CLOTH_THICKNESS) + F(CANVAS_THICKNESS) + K(PADDING_THICKNESS));
    tailor_point stand = fore[TAILOR_POINT_STAND_POINT], low = fore[TAILOR_POINT_BREAK_POINT];
    tailor_point tip = made_point(v, TAILOR_PIECE_FACING, TAILOR_POINT_TIP);
    double x = stand.x - low.x, y = stand.y - low.y;
    double out =
        ((tip.x - fore[TAILOR_POINT_TIP].x) * y - (tip.y - fore[TAILOR_POINT_TIP].y) * x) / sqrt(x * x + y * y);
    VALUE(FACING_TURN_ERROR) = fabs(out - turn - K(FACING_EDGE_MORE));
    int top = made_piece(v, TAILOR_PIECE_TOP_COLLAR) < 0 ? TAILOR_PIECE_FACING : TAILOR_PIECE_TOP_COLLAR;
    VALUE(TOP_COLLAR_TURN_ERROR) =
        fabs(made_length(v, top, TAILOR_EDGE_CENTRE_BACK) -
             v->length[TAILOR_IN_NET_PIECE_UNDER_COLLAR][TAILOR_IN_NET_EDGE_CENTRE_BACK] - turn - K(TOP_COLLAR_EDGE));
}

/** How far the lining's net edge lies above the cloth's, for a turn-up: its fold of ease hangs 17.5 above the edge. */
static double lining_above(const struct tailor_in_view *v, double turn_up)
{
    return fmax(fmin(17.5 + K(LINING_LONG) / 2, turn_up - 5) - K(LINING_LONG), 0);
}

static double cloth_length(const struct tailor_in_view *v, int number, int edge)
{
    return v->length[tailor_in_net_piece[number]][tailor_in_net_edge[edge]];
}

/** Edges of the linings against the cloth's: longer by the ease, shorter by what they end above hem or cuff, and those
 *  of the body longer by what they rise beyond the scye, which is the same on all and read off the back seam. */
static double lining_error(const struct tailor_in_view *v)
{
    static const int body[][3] = {{TAILOR_PIECE_LINING_SIDEBODY, TAILOR_PIECE_SIDEBODY, TAILOR_EDGE_BACK_SEAM},
                                  {TAILOR_PIECE_LINING_SIDEBODY, TAILOR_PIECE_SIDEBODY, TAILOR_EDGE_FRONT_SEAM},
                                  {TAILOR_PIECE_LINING_FOREPART, TAILOR_PIECE_FOREPART, TAILOR_EDGE_FRONT_SEAM}};
    static const int sleeve[][2] = {{TAILOR_PIECE_LINING_TOPSLEEVE, TAILOR_PIECE_TOPSLEEVE},
                                    {TAILOR_PIECE_LINING_UNDERSLEEVE, TAILOR_PIECE_UNDERSLEEVE}};
    double ease = K(LINING_SEAM_EASE), hem = lining_above(v, K(HEM_TURN_UP)), cuff = lining_above(v, K(CUFF_TURN_UP));
    double rises = made_length(v, TAILOR_PIECE_LINING_BACK, TAILOR_EDGE_BACK_SEAM) -
                   cloth_length(v, TAILOR_PIECE_BACK, TAILOR_EDGE_BACK_SEAM) - ease + hem;
    double worst = fmax(fmax(-rises, rises - K(LINING_SCYE_MORE)), 0);
    for (size_t i = 0; i < sizeof body / sizeof *body; i++)
        worst = fmax(worst, fabs(made_length(v, body[i][0], body[i][2]) - cloth_length(v, body[i][1], body[i][2]) -
                                 ease - rises + hem));
    for (size_t i = 0; i < sizeof sleeve / sizeof *sleeve; i++)
        worst = fmax(worst, fabs(made_length(v, sleeve[i][0], TAILOR_EDGE_HINDARM_SEAM) -
                                 cloth_length(v, sleeve[i][1], TAILOR_EDGE_HINDARM_SEAM) - ease + cuff));
    double inner = made_length(v, TAILOR_PIECE_LINING_FOREPART, TAILOR_EDGE_INNER_EDGE) -
                   made_length(v, TAILOR_PIECE_FACING, TAILOR_EDGE_INNER_EDGE) - ease + hem;
    return fmax(worst, fabs(inner));
}

void tailor_in_measure_making(const struct tailor_in_view *v, double *value)
{
    if (made_piece(v, TAILOR_PIECE_FACING) >= 0)
        turns(v, value);
    if (made_piece(v, TAILOR_PIECE_LINING_BACK) >= 0)
        VALUE(LINING_ERROR) = lining_error(v);
}
