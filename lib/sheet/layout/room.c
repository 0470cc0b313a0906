#include "bits.h"

#include <math.h>

/* ---- all places of a level box of whole cells at once */

/** Cells from which such a box is looked for: its own top left cell lies within these, ends included. */
struct window {
    int left, right, top, bottom, across, down; /* the last two are the box */
};

/** A word of a row moved by so many cells to the left; beyond the last word there is nothing. */
static inline uint64_t moved(const uint64_t *row, int last, int word, int by)
{
    const int from = word + by / 64;
    const uint64_t here = from <= last ? row[from] : 0, next = from < last ? row[from + 1] : 0;
    return by % 64 ? here >> by % 64 | next << (64 - by % 64) : here;
}

/** Keep the cells of a row from which on `run` cells are set, in words first to last. */
static void keep_runs(uint64_t *row, int first, int last, int run)
{
    uint64_t any = 1;
    for (int have = 1; have < run && any;) {
        const int by = have < run - have ? have : run - have;
        any = 0;
        for (int word = first; word <= last; word++)
            any |= row[word] &= moved(row, last, word, by);
        have += by;
    }
}

/** Mark in g->fits from which cells of a window on as many cells downward are free as the box is high. Across, a row is
 *  looked at when the search comes to it. 0 when the window is empty. */
static int find_fits(struct tailor_in_ground *g, struct window *w, int where)
{
    w->left = w->left < 0 ? 0 : w->left;
    w->top = w->top < 0 ? 0 : w->top;
    w->right = w->right < g->columns - w->across ? w->right : g->columns - w->across;
    w->bottom = w->bottom < g->rows - w->down ? w->bottom : g->rows - w->down;
    if (w->left > w->right || w->top > w->bottom)
        return 0;
    const int first = w->left / 64, last = (w->right + w->across - 1) / 64, height = w->bottom + w->down - w->top;
    const size_t words = (size_t)g->words, top = (size_t)w->top * words;
    for (int i = 0; i < height; i++) {
        const size_t row = top + (size_t)i * words;
        for (int word = first; word <= last; word++)
            g->fits[row + (size_t)word] = ~tailor_in_bar(g, row + (size_t)word, where);
    }
    for (int have = 1; have < w->down;) { /* as in keep_runs() */
        const int by = have < w->down - have ? have : w->down - have;
        for (int i = 0; i + by < height; i++) {
            uint64_t *row = g->fits + top + (size_t)i * words;
            const uint64_t *below = row + (size_t)by * words;
            for (int word = first; word <= last; word++)
                row[word] &= below[word];
        }
        have += by;
    }
    return 1;
}

static void look_across(struct tailor_in_ground *g, const struct window *w, int row)
{
    keep_runs(g->fits + (size_t)row * (size_t)g->words, w->left / 64, (w->right + w->across - 1) / 64, w->across);
}

static int lowest(uint64_t bits)
{
    int n = 0;
    for (int half = 32; half; half /= 2)
        if (!(bits & tailor_in_bits(0, half - 1))) {
            bits >>= half;
            n += half;
        }
    return n;
}

static int highest(uint64_t bits)
{
    int n = 0;
    for (int half = 32; half; half /= 2)
        if (bits >> half) {
            bits >>= half;
            n += half;
        }
    return n;
}

static int fits_at(const struct tailor_in_ground *g, const struct window *w, int row, int column)
{
    return row >= w->top && row <= w->bottom && column >= w->left && column <= w->right &&
           g->fits[(size_t)row * (size_t)g->words + (size_t)column / 64] >> column % 64 & 1;
}

/** The next fitting column of a row from `column` on toward `sense`, -1 when there is none within the window. */
static int next_fit(const struct tailor_in_ground *g, const struct window *w, int row, int column, int sense)
{
    const uint64_t *fits = g->fits + (size_t)row * (size_t)g->words;
    column = sense > 0 && column < w->left ? w->left : sense < 0 && column > w->right ? w->right : column;
    while (column >= w->left && column <= w->right) {
        const int word = column / 64;
        const uint64_t bits =
            fits[word] & (sense > 0 ? tailor_in_bits(column % 64, 63) : tailor_in_bits(0, column % 64));
        if (bits) {
            column = 64 * word + (sense > 0 ? lowest(bits) : highest(bits));
            break;
        }
        column = sense > 0 ? 64 * (word + 1) : 64 * word - 1;
    }
    return column >= w->left && column <= w->right ? column : -1;
}

/** A box turned to an angle, and how many cells off its middle a square at either end of it stands. */
struct turned {
    struct tailor_in_shape shape;
    double angle;
    int across, down;
};

/* A search among what fits, from the wished place outward. */
struct search {
    tailor_point wish, origin;   /* of the middle of a box; where it is in column 0 of row 0 */
    double width, height, reach; /* for the nearness of a box; 0 for that of its middle */
    const struct turned *turned; /* any one of `count` must be free there; none: what fits is free */
    int count;
    double best; /* cost of what was found, infinite for nothing */
    tailor_point found;
    int which; /* of the turned ones */
};

/** Grows with either distance from the wished place. */
static double cost_of(const struct search *s, double x, double y)
{
    if (!(s->width > 0))
        return x * x + y * y;
    const double across = fabs(x) - s->width / 2, down = fabs(y) - s->height / 2;
    const double off_x = across > 0 ? across : 0, off_y = down > 0 ? down : 0;
    const double off = sqrt(off_x * off_x + off_y * off_y); /* of its nearest point; a little of its middle */
    return off > s->reach ? INFINITY : off + 0.1 * sqrt(x * x + y * y);
}

/** Whether a box turned to one of the angles is free there. */
static int holds(const struct tailor_in_ground *g, const struct window *w, struct search *s, tailor_point at, int row,
                 int column)
{
    for (int i = 0; i < s->count; i++) {
        const struct turned *turned = &s->turned[i];
        if (fits_at(g, w, row + turned->down, column + turned->across) &&
            fits_at(g, w, row - turned->down, column - turned->across) &&
            tailor_in_shape_is_free(g, &turned->shape, at, TAILOR_IN_INSIDE)) {
            s->which = i;
            return 1;
        }
    }
    return s->count == 0;
}

static void search_row(struct tailor_in_ground *g, const struct window *w, struct search *s, int row)
{
    const double y = s->origin.y + row * g->cell;
    const int start = tailor_in_cell_of(g, s->wish.x - s->origin.x);
    if (cost_of(s, 0, y - s->wish.y) >= s->best)
        return;
    if (s->count == 0)
        look_across(g, w, row);
    for (int sense = -1; sense <= 1; sense += 2) {
        int column = sense < 0 ? start : start + 1;
        while ((column = next_fit(g, w, row, column, sense)) >= 0) {
            const tailor_point at = {s->origin.x + column * g->cell, y};
            const double cost = cost_of(s, at.x - s->wish.x, at.y - s->wish.y);
            if (cost >= s->best)
                break;
            if (holds(g, w, s, at, row, column)) {
                s->best = cost;
                s->found = at;
                break;
            }
            column += sense;
            if (column < 0)
                break;
        }
    }
}

/** 1 when something was found. */
static int search(struct tailor_in_ground *g, const struct window *w, struct search *s)
{
    const int start = tailor_in_cell_of(g, s->wish.y - s->origin.y);
    s->best = INFINITY;
    for (int i = 0; start - i >= w->top || start + 1 + i <= w->bottom; i++) {
        if (start - i >= w->top && start - i <= w->bottom)
            search_row(g, w, s, start - i);
        if (start + 1 + i <= w->bottom && start + 1 + i >= w->top)
            search_row(g, w, s, start + 1 + i);
    }
    return isfinite(s->best);
}

int tailor_in_ground_near(struct tailor_in_ground *g, struct tailor_in_box *box, double reach, int where)
{
    const double width = box->width / 2, height = box->height / 2;
    const tailor_point at = box->middle;
    if (!(fabs(at.x) < 1e7 && fabs(at.y) < 1e7))
        return 0;
    const int left = tailor_in_cell_of(g, at.x - width), top = tailor_in_cell_of(g, at.y - height);
    const int aside = (int)((reach + width) / g->cell), off = (int)((reach + height) / g->cell);
    struct window w = {left - aside,
                       left + aside,
                       top - off,
                       top + off,
                       tailor_in_cell_of(g, at.x + width) - left + 1,
                       tailor_in_cell_of(g, at.y + height) - top + 1};
    struct search s = {.wish = at,
                       .origin = {at.x - left * g->cell, at.y - top * g->cell},
                       .width = box->width,
                       .height = box->height,
                       .reach = reach};
    if (!find_fits(g, &w, where) || !search(g, &w, &s))
        return 0;
    box->middle = s.found;
    return 1;
}

/** The cells within [low, high], as a window for a box of whole cells. */
static struct window window_on(const struct tailor_in_ground *g, tailor_point low, tailor_point high, int across,
                               int down)
{
    return (struct window){tailor_in_cell_of(g, low.x),
                           tailor_in_cell_of(g, high.x) - across,
                           tailor_in_cell_of(g, low.y),
                           tailor_in_cell_of(g, high.y) - down,
                           across,
                           down};
}

int tailor_in_ground_roomiest(struct tailor_in_ground *g, struct tailor_in_box *box, tailor_point low,
                              tailor_point high)
{
    enum { MOST = 8 }; /* cells of free ground all around that are worth looking for */
    const int upright = box->angle < 0;
    const double width = upright ? box->height : box->width, height = upright ? box->width : box->height;
    const tailor_point wish = box->middle;
    int none = MOST + 1, some = -1; /* so much room there is nowhere, so much there is */
    for (int room = MOST; some + 1 < none; room = (some + none) / 2) {
        const int across = (int)ceil(width / g->cell) + 2 * room, down = (int)ceil(height / g->cell) + 2 * room;
        struct window w = window_on(g, low, high, across, down);
        struct search s = {.wish = wish, .origin = {across * g->cell / 2, down * g->cell / 2}};
        if (find_fits(g, &w, TAILOR_IN_INSIDE) && search(g, &w, &s)) {
            box->middle = s.found;
            some = room;
        } else {
            none = room;
        }
    }
    return some >= 0;
}

int tailor_in_ground_slanting(struct tailor_in_ground *g, struct tailor_in_box *box, tailor_point low,
                              tailor_point high)
{
    static const double angles[] = {-90, -75, -60, -45, 45, 60, 75};
    enum { ANGLES = sizeof angles / sizeof *angles };
    struct turned turned[ANGLES];
    /* Whatever its angle, a square fits in the middle of the box and, moved by whole cells, near both ends. Where that
     * does not, nothing more is asked. */
    const double least = box->width < box->height ? box->width : box->height, along = (box->width - least) / 2;
    const int cells = (int)fmax(floor(least / sqrt(2) / g->cell) - 1, 1);
    struct window w = window_on(g, low, high, cells, cells);
    struct search s = {.wish = box->middle, .origin = {cells * g->cell / 2, cells * g->cell / 2}, .turned = turned};
    for (int i = 0; i < ANGLES; i++) {
        const double c = cos(angles[i] * acos(-1) / 180), sine = sin(angles[i] * acos(-1) / 180);
        const struct tailor_in_shape shape = tailor_in_shape_along(c, sine, box->width, box->height);
        if (2 * shape.reach < high.x - low.x && -2 * shape.top < high.y - low.y)
            turned[s.count++] =
                (struct turned){shape, angles[i], (int)(along * c / g->cell), (int)(along * sine / g->cell)};
    }
    if (s.count == 0 || !find_fits(g, &w, TAILOR_IN_INSIDE))
        return 0;
    for (int row = w.top; row <= w.bottom; row++)
        look_across(g, &w, row);
    if (!search(g, &w, &s))
        return 0;
    box->middle = s.found;
    box->angle = turned[s.which].angle;
    return 1;
}
