/* Tapes, as strips of the length that the maker cuts. The bridle holds the fold of the lapel and is shorter than it:
 * all of that is drawn in over its middle half. The edge tape runs from the collar end over the tip down lapel and
 * front and along the hem as far as the facing, at the length of the net edge. */
#include "aside.h"
#include "put.h"

/** A strip standing on its lower end, origin there. */
static void add_strip(tailor_pattern *p, const tailor_in_draft *d, int number, double length)
{
    double width = d->k[TAILOR_CONSTANT_TAPE_WIDTH];
    tailor_point corner[4] = {{0, 0}, {width, 0}, {width, length}, {0, length}};
    static const int edge[4] = {TAILOR_EDGE_REAR_END, TAILOR_EDGE_BREAK_EDGE, TAILOR_EDGE_FRONT_END,
                                TAILOR_EDGE_LONG_EDGE};
    tailor_in_add_piece(p, number, 2, 1, TAILOR_SIDE_RIGHT, "tape");
    for (int i = 0; i < 4; i++) {
        tailor_cubic side = tailor_in_line(corner[i], corner[(i + 1) % 4]);
        tailor_in_add_edge(p, edge[i], &side, 1);
    }
    tailor_in_add_line(p, TAILOR_MARKED_GRAIN, TAILOR_MARK_GRAIN, at(width / 2, 0.2 * length),
                       at(width / 2, 0.8 * length));
}

void tailor_in_add_stays(tailor_pattern *p, const tailor_in_draft *d)
{
    tailor_cubic line = tailor_in_line(d->bridle[0], d->bridle[1]);
    double held = distance(line.p[0], line.p[3]);
    double bridle = held * (1 - d->f[TAILOR_FIELD_BRIDLE_DRAWN_IN] / 100);
    add_strip(p, d, TAILOR_PIECE_BRIDLE, bridle);
    /* A quarter at each end lies plain; between the notches the canvas is drawn in. */
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_DRAWN_FROM, TAILOR_EDGE_BREAK_EDGE, held / 4 / bridle);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_DRAWN_TO, TAILOR_EDGE_BREAK_EDGE, 1 - held / 4 / bridle);

    double hem = tailor_in_edge_length(p, TAILOR_PIECE_FACING, TAILOR_EDGE_HEM, 0);
    double front = tailor_in_length(&d->front_edge), lapel = tailor_cubic_length(&d->worn_edge),
           step = distance(d->tip, d->root), length = hem + front + lapel + step;
    add_strip(p, d, TAILOR_PIECE_EDGE_TAPE, length);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_HEM_FRONT, TAILOR_EDGE_BREAK_EDGE, hem / length);
    tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_BREAK, TAILOR_EDGE_BREAK_EDGE, (hem + front) / length);
    if (step > 0)
        tailor_in_add_notch(p, d, TAILOR_MARKED_NOTCH_TIP, TAILOR_EDGE_BREAK_EDGE, 1 - step / length);
}
