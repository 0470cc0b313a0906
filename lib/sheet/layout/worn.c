#include "worn.h"

#include <tailorgeom/fold.h>
#include <math.h>
#include <string.h>

static const char *const needed_points[] = {"stand_point", "break_point", "scye_front", "centre_front_waist",
                                            "top_button_level"};
enum { MOST_OF_A_LEAF = 16 };

/* The outline of what is not turned, in order; the way from break point to gorge is the fold. */
static const char *const lower_edges[] = {"front_seam", "hem", "front_edge"}, *const upper_edges[] = {"shoulder",
                                                                                                      "scye"};

static tailor_point point_named(const tailor_pattern *pattern, int piece, const char *name)
{
    return tailor_point_place(pattern, piece, tailor_piece_find_point(pattern, piece, name));
}

static const tailor_cubic *edge_named(const tailor_pattern *pattern, int piece, const char *name, size_t *count)
{
    return tailor_edge_path(pattern, piece, tailor_piece_find_edge(pattern, piece, name), count);
}

static const tailor_cubic *mark_named(const struct tailor_in_front *front, const char *name, size_t *count)
{
    return tailor_mark_path(front->pattern, front->piece, tailor_piece_find_mark(front->pattern, front->piece, name),
                            count);
}

/** The forepart that both halves are drawn from: where the sides differ, the right one, which is drawn as it lies. */
static int forepart_of(const tailor_pattern *pattern)
{
    const int piece = tailor_pattern_find_piece(pattern, "forepart");
    return piece >= 0 ? piece : tailor_pattern_find_piece(pattern, "forepart_right");
}

int tailor_in_front_can_be_read(const tailor_pattern *pattern)
{
    const int piece = forepart_of(pattern);
    size_t count;
    for (int i = 0; i < 5; i++)
        if (!isfinite(point_named(pattern, piece, needed_points[i]).x))
            return 0;
    for (int i = 0; i < 3; i++)
        if (!edge_named(pattern, piece, lower_edges[i], &count))
            return 0;
    for (int i = 0; i < 2; i++)
        if (!edge_named(pattern, piece, upper_edges[i], &count))
            return 0;
    return edge_named(pattern, piece, "gorge", &count) != NULL;
}

static void append(struct tailor_in_front *front, const tailor_cubic *path, size_t count)
{
    memcpy(front->silhouette + front->silhouette_count, path, count * sizeof *path);
    front->silhouette_count += count;
}

static void append_edge(struct tailor_in_front *front, const char *name)
{
    size_t count;
    const tailor_cubic *path = edge_named(front->pattern, front->piece, name, &count);
    append(front, path, count);
}

/** The fold and the gorge behind it: from the break point to the neck point. */
static void append_neck(struct tailor_in_front *front, size_t room)
{
    size_t count, found, taken = 0;
    const tailor_cubic *gorge = edge_named(front->pattern, front->piece, "gorge", &count);
    double places[8], from = 0;
    if (tailor_path_cross_line(gorge, count, front->stand_point, front->break_point, places, 8, &found) == TAILOR_OK &&
        found)
        from = places[(found < 8 ? found : 8) - 1];
    front->crossing = tailor_path_point(gorge, count, from);
    const tailor_cubic fold = tailor_cubic_line(front->break_point, front->crossing);
    append(front, &fold, 1);
    if (tailor_path_part(gorge, count, from, (double)count, front->silhouette + front->silhouette_count,
                         room - front->silhouette_count, &taken) == TAILOR_OK)
        front->silhouette_count += taken;
}

static void grow(double box[4], const tailor_cubic *path, size_t count)
{
    double more[4];
    if (!count)
        return;
    tailor_path_bounds(path, count, more);
    for (int i = 0; i < 2; i++) {
        box[i] = fmin(box[i], more[i]);
        box[i + 2] = fmax(box[i + 2], more[i + 2]);
    }
}

int tailor_in_front_begin(struct tailor_in_front *front, const tailor_pattern *pattern,
                          const tailor_allocator *allocator)
{
    size_t count;
    *front = (struct tailor_in_front){.pattern = pattern, .piece = forepart_of(pattern)};
    tailor_piece_outline(pattern, front->piece, &count);
    const size_t room = count + 2;
    front->silhouette = allocator->allocate(allocator->user, room * sizeof *front->silhouette);
    if (!front->silhouette)
        return 0;
    front->stand_point = point_named(pattern, front->piece, "stand_point");
    front->break_point = point_named(pattern, front->piece, "break_point");
    front->scye_front = point_named(pattern, front->piece, "scye_front");
    front->centre_front = point_named(pattern, front->piece, "centre_front_waist").x;
    front->top_button_level = point_named(pattern, front->piece, "top_button_level").y;
    for (int i = 0; i < 3; i++)
        append_edge(front, lower_edges[i]);
    append_neck(front, room);
    for (int i = 0; i < 2; i++)
        append_edge(front, upper_edges[i]);

    tailor_path_bounds(front->silhouette, front->silhouette_count, front->bounds);
    const char *const turned[] = {"lapel_turned", "collar_turned"};
    for (int i = 0; i < 2; i++) {
        const tailor_cubic *path = mark_named(front, turned[i], &count);
        grow(front->bounds, path, count);
    }
    const tailor_cubic fold = tailor_cubic_line(front->break_point, front->stand_point);
    grow(front->bounds, &fold, 1);
    return 1;
}

void tailor_in_front_end(struct tailor_in_front *front, const tailor_allocator *allocator)
{
    if (front->silhouette)
        allocator->release(allocator->user, front->silhouette);
    front->silhouette = NULL;
}

double tailor_in_front_coverage(const struct tailor_in_front *front, double level)
{
    size_t count;
    double coverage;
    const tailor_cubic *edge = edge_named(front->pattern, front->piece, "front_edge", &count);
    if (tailor_fold_coverage(front->stand_point, front->break_point, front->scye_front.x, edge, count, level,
                             &coverage) != TAILOR_OK)
        return NAN;
    return coverage;
}

/** Distance from the break line, positive on the side that is turned. */
static double beyond_fold(const struct tailor_in_front *front, tailor_point p)
{
    const double x = front->stand_point.x - front->break_point.x, y = front->stand_point.y - front->break_point.y;
    return ((p.x - front->break_point.x) * y - (p.y - front->break_point.y) * x) / hypot(x, y);
}

static int on_fold(const struct tailor_in_front *front, const tailor_cubic *c)
{
    for (int k = 0; k < 4; k++)
        if (fabs(beyond_fold(front, c->p[k])) > 0.25)
            return 0;
    return 1;
}

/** Fill a closed path and draw its edge, but not where it lies on the fold. */
static void draw_cloth(struct tailor_in_drawing *d, const struct tailor_in_front *front, int fill, int edge,
                       const tailor_cubic *path, size_t count)
{
    size_t from = 0, to = 0;
    if (!count)
        return;
    tailor_in_drawing_path(d, fill, path, count, 1);
    for (; from < count; from = to + 1) {
        for (to = from; to < count && !on_fold(front, &path[to]); to++)
            ;
        tailor_in_drawing_path(d, edge, path + from, to - from, 0);
    }
}

/** The collar's leaf from its end in the step to the shoulder, where it goes on behind the neck. It is closed over the
 *  shoulder with a little roundness, and by the crease, which is the break line run on upward. */
static void draw_collar(struct tailor_in_drawing *d, const struct tailor_in_front *front)
{
    size_t count;
    const tailor_cubic *leaf = mark_named(front, "collar_turned", &count);
    tailor_cubic closed[MOST_OF_A_LEAF + 3];
    if (!count || count > MOST_OF_A_LEAF)
        return;
    const tailor_point end = leaf[0].p[0], behind = leaf[count - 1].p[3], top = front->stand_point;
    const double x = top.x - behind.x, y = top.y - behind.y, round = 0.12;
    memcpy(closed, leaf, count * sizeof *leaf);
    closed[count] = (tailor_cubic){{behind,
                                    {behind.x + 0.3 * x - round * y, behind.y + 0.3 * y + round * x},
                                    {behind.x + 0.7 * x - round * y, behind.y + 0.7 * y + round * x},
                                    top}};
    closed[count + 1] = tailor_cubic_line(top, front->crossing);
    closed[count + 2] = tailor_cubic_line(front->crossing, end);
    tailor_in_drawing_path(d, TAILOR_IN_LAPEL, closed, count + 3, 1);
    tailor_in_drawing_path(d, TAILOR_IN_OUTLINE, closed, count + 1, 0);
    tailor_in_drawing_line(d, TAILOR_IN_OUTLINE, front->crossing, end);
}

/** A hole is seen where it lies on the part that is not turned, or its reverse on the lapel where it lies beyond the
 *  fold. */
static void draw_hole(struct tailor_in_drawing *d, const struct tailor_in_front *front, const tailor_cubic *path,
                      size_t count)
{
    tailor_point a = path[0].p[0], b = path[count - 1].p[3];
    double at_a = beyond_fold(front, a), at_b = beyond_fold(front, b);
    if (a.y > front->break_point.y && (at_a > 0 || at_b > 0)) {
        if (at_a < 0 || at_b < 0) { /* across the fold: the part beyond it */
            const double share = at_a / (at_a - at_b);
            const tailor_point fold = {a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
            *(at_a < 0 ? &a : &b) = fold;
        }
        a = tailor_point_reflect(a, front->stand_point, front->break_point);
        b = tailor_point_reflect(b, front->stand_point, front->break_point);
    }
    tailor_in_drawing_line(d, TAILOR_IN_HOLE, a, b);
}

static int is_seen(const struct tailor_in_front *front, tailor_point p)
{
    size_t count;
    const tailor_cubic *lapel = mark_named(front, "lapel_turned", &count);
    return tailor_path_winding(front->silhouette, front->silhouette_count, p) != 0 &&
           !(count && tailor_path_winding(lapel, count, p) != 0);
}

static void draw_inner_marks(struct tailor_in_drawing *d, const struct tailor_in_front *front, int upper)
{
    static const struct {
        const char *name;
        int style, closed, on_both;
    } inner[] = {{"dart", TAILOR_IN_DART, 0, 1},
                 {"belly_cut", TAILOR_IN_DART, 0, 1},
                 {"hip_pocket", TAILOR_IN_MARKED, 0, 1},
                 {"breast_welt", TAILOR_IN_MARKED, 1, 0}};
    for (size_t i = 0; i < sizeof inner / sizeof *inner; i++) {
        size_t count;
        const tailor_cubic *path = mark_named(front, inner[i].name, &count);
        if (upper || inner[i].on_both)
            tailor_in_drawing_path(d, inner[i].style, path, count, inner[i].closed);
    }
}

void tailor_in_draw_front(struct tailor_in_drawing *d, const struct tailor_in_front *front, int upper)
{
    size_t count;
    draw_cloth(d, front, TAILOR_IN_PAPER, TAILOR_IN_OUTLINE, front->silhouette, front->silhouette_count);
    draw_inner_marks(d, front, upper);
    const tailor_cubic *path = mark_named(front, "lapel_turned", &count);
    draw_cloth(d, front, TAILOR_IN_LAPEL, TAILOR_IN_OUTLINE, path, count);
    draw_collar(d, front);
    for (int mark = 0; mark < tailor_piece_mark_count(front->pattern, front->piece); mark++) {
        path = tailor_mark_path(front->pattern, front->piece, mark, &count);
        if (tailor_mark_kind(front->pattern, front->piece, mark) == TAILOR_MARK_FOLD &&
            tailor_mark_number(front->pattern, front->piece, mark) != TAILOR_MARKED_ROLL_LINE)
            tailor_in_drawing_path(d, TAILOR_IN_FOLD, path, count, 0);
    }
    /* Where the make lets the lapel roll through: on the upper front only, or two fronts would cross. */
    path = mark_named(front, "roll_line", &count);
    if (upper && count)
        tailor_in_drawing_path(d, TAILOR_IN_TURNED, path, count, 0);
    path = mark_named(front, "lapel_rolled", &count);
    if (upper && count)
        tailor_in_drawing_path(d, TAILOR_IN_TURNED, path, count, 0);
}

void tailor_in_draw_holes(struct tailor_in_drawing *d, const struct tailor_in_front *front)
{
    for (int mark = 0; mark < tailor_piece_mark_count(front->pattern, front->piece); mark++) {
        size_t count;
        const tailor_cubic *path = tailor_mark_path(front->pattern, front->piece, mark, &count);
        if (count && tailor_mark_kind(front->pattern, front->piece, mark) == TAILOR_MARK_HOLE)
            draw_hole(d, front, path, count);
    }
}

static void draw_button(struct tailor_in_drawing *d, tailor_point centre, double radius)
{
    tailor_in_drawing_circle(d, TAILOR_IN_BUTTON, centre, radius);
    tailor_in_drawing_circle(d, TAILOR_IN_THIN, centre, 0.6 * radius);
}

/** Buttons of a double-breasted front are sewn behind the centre front; those of the other half come through the holes,
 *  whose eyes lie as far before it. */
static void draw_fastened(struct tailor_in_drawing *d, const struct tailor_in_front *front, double radius,
                          double behind)
{
    for (int mark = 0; mark < tailor_piece_mark_count(front->pattern, front->piece); mark++) {
        size_t count;
        const tailor_cubic *path = tailor_mark_path(front->pattern, front->piece, mark, &count);
        if (!count || tailor_mark_kind(front->pattern, front->piece, mark) != TAILOR_MARK_HOLE)
            continue;
        const tailor_point eye = path[0].p[0];
        if (eye.x - front->centre_front > 0.5 * behind && is_seen(front, eye))
            draw_button(d, eye, radius);
    }
}

void tailor_in_draw_buttons(struct tailor_in_drawing *d, const struct tailor_in_front *front, int upper)
{
    double behind = 0, radius = 0;
    for (int mark = 0; mark < tailor_piece_mark_count(front->pattern, front->piece); mark++) {
        size_t count;
        double box[4];
        const tailor_cubic *path = tailor_mark_path(front->pattern, front->piece, mark, &count);
        if (tailor_mark_kind(front->pattern, front->piece, mark) != TAILOR_MARK_BUTTON)
            continue;
        tailor_path_bounds(path, count, box);
        const tailor_point centre = {(box[0] + box[2]) / 2, (box[1] + box[3]) / 2};
        if (!is_seen(front, centre))
            continue;
        tailor_in_drawing_path(d, TAILOR_IN_BUTTON, path, count, 1);
        tailor_in_drawing_circle(d, TAILOR_IN_THIN, centre, (box[2] - box[0]) * 0.3);
        behind = fmax(behind, front->centre_front - centre.x);
        radius = (box[2] - box[0]) / 2;
    }
    if (upper && behind > 2 * radius)
        draw_fastened(d, front, radius, behind);
}
