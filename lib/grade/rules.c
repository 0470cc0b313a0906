/* A grade from rules: named points and ends of edges move so and so, all else is carried along. */
#include "inside.h"

#include <string.h>

#include "../base/fault.h"

static const double ON_OUTLINE = 1e-3, AT_JOINT = 1e-7;

/** A rule found in the base: a point off the outline, or a place on it. */
struct found {
    int piece, point; /* point: index in the pattern if off the outline, else -1 */
    double place;     /* on the outline */
    int edge;         /* its edge, if it lies within a curve and a joint has to be made; else -1 */
    double on_edge;
};

static tailor_status refuse(tailor_fault *fault, tailor_status status, size_t rule, const char *what)
{
    tailor_in_fault(fault, status, NULL, 0, (double)(rule + 1), (double)NAN, (double)NAN, "rule %v: ");
    tailor_in_fault_say(fault, what);
    return tailor_in_fault_at(fault, status, rule);
}

static void find_on_outline(const tailor_pattern *p, tailor_point at, struct found *f)
{
    const struct tailor_in_piece *piece = TAILOR_IN_PIECE(p, f->piece);
    double off, t;
    f->place = tailor_path_nearest(TAILOR_IN_CUBIC(p, piece->first_cubic), (size_t)piece->cubic_count, at, &off);
    f->edge = -1;
    if (off > ON_OUTLINE)
        return;
    f->point = -1;
    int cubic = (int)tailor_in_place_split((size_t)piece->cubic_count, f->place, &t);
    if (t <= AT_JOINT || t >= 1 - AT_JOINT) {
        f->place = (cubic + (t > 0.5)) % piece->cubic_count;
        return;
    }
    for (int i = piece->first_edge; i < piece->first_edge + piece->edge_count; i++) {
        const struct tailor_in_edge *edge = TAILOR_IN_EDGE(p, i);
        if (piece->first_cubic + cubic < edge->first_cubic + edge->cubic_count) {
            f->edge = i;
            f->on_edge = f->place - (edge->first_cubic - piece->first_cubic);
            return;
        }
    }
}

static tailor_status find_rule(const tailor_pattern *p, const char *piece, const char *point, size_t rule,
                               struct found *f, tailor_fault *fault)
{
    int cubic, corner;
    f->piece = tailor_pattern_find_piece(p, piece);
    if (f->piece < 0)
        return refuse(fault, TAILOR_BAD_ARGUMENT, rule, "there is no piece of that name");
    if (!tailor_in_locate(p, f->piece, point, &f->point, &cubic, &corner))
        return refuse(fault, TAILOR_BAD_ARGUMENT, rule,
                      "its piece has no point of that name, and no edge for a name that ends in .start or .end");
    if (f->point >= 0) {
        find_on_outline(p, TAILOR_IN_POINT(p, f->point)->at, f);
        return TAILOR_OK;
    }
    const struct tailor_in_piece *of = TAILOR_IN_PIECE(p, f->piece);
    f->edge = -1;
    f->place = (cubic - of->first_cubic + (corner == 3)) % of->cubic_count;
    return TAILOR_OK;
}

/** Cuts for the rules that lie within a curve, in order, none twice; returns how many. */
static size_t cuts_of(const struct found *f, size_t count, struct tailor_in_cut *cuts)
{
    size_t made = 0;
    for (size_t i = 0; i < count; i++) {
        if (f[i].point >= 0 || f[i].edge < 0)
            continue;
        struct tailor_in_cut cut = {f[i].edge, f[i].on_edge};
        size_t k = made;
        while (k && (cuts[k - 1].edge > cut.edge || (cuts[k - 1].edge == cut.edge && cuts[k - 1].place > cut.place)))
            k--;
        int before = k > 0 && cuts[k - 1].edge == cut.edge && cut.place - cuts[k - 1].place < AT_JOINT;
        int after = k < made && cuts[k].edge == cut.edge && cuts[k].place - cut.place < AT_JOINT;
        if (before || after)
            continue;
        memmove(cuts + k + 1, cuts + k, (made - k) * sizeof *cuts);
        cuts[k] = cut;
        made++;
    }
    return made;
}

/** Put a control among those of a piece, in the order of joints. Two rules for one joint must agree. */
static tailor_status add_control(struct tailor_in_control *control, int *count, int joint, const tailor_point *moves,
                                 int axes, size_t rule, tailor_fault *fault)
{
    int k = *count;
    while (k && control[k - 1].joint > joint)
        k--;
    if (k && control[k - 1].joint == joint) {
        for (int a = 0; a < axes; a++)
            if (!(tailor_in_distance(control[k - 1].move[a], moves[a]) <= 1e-9))
                return refuse(fault, TAILOR_CONTRADICTION, rule, "an earlier rule moves the same place another way");
        return TAILOR_OK;
    }
    memmove(control + k + 1, control + k, (size_t)(*count - k) * sizeof *control);
    control[k].joint = joint;
    for (int a = 0; a < axes; a++)
        control[k].move[a] = moves[a];
    ++*count;
    return TAILOR_OK;
}

/** A point off the outline goes by its rule, and the ends of marks that lie on it go along, handles with them. */
static void move_point(tailor_grade *g, int piece_index, int point, const tailor_point *moves)
{
    const tailor_pattern *p = g->base;
    const struct tailor_in_piece *piece = TAILOR_IN_PIECE(p, piece_index);
    size_t cubics = (size_t)p->count[TAILOR_IN_CUBICS], points = (size_t)p->count[TAILOR_IN_POINTS];
    tailor_point at = TAILOR_IN_POINT(p, point)->at;
    for (int axis = 0; axis < g->axes; axis++) {
        g->point_move[(size_t)axis * points + (size_t)point] = moves[axis];
        for (int m = piece->first_mark; m < piece->first_mark + piece->mark_count; m++) {
            const struct tailor_in_mark *mark = TAILOR_IN_MARK(p, m);
            int whole = mark->kind >= TAILOR_MARK_NOTCH && mark->kind <= TAILOR_MARK_HOLE;
            for (int i = mark->first_cubic; i < mark->first_cubic + mark->cubic_count && !whole; i++) {
                tailor_point *u = g->move + ((size_t)axis * cubics + (size_t)i) * 4;
                for (int end = 0; end < 4; end += 3) {
                    if (tailor_in_distance(TAILOR_IN_CUBIC(p, i)->p[end], at) > ON_OUTLINE)
                        continue;
                    tailor_point more = tailor_in_sub(moves[axis], u[end]);
                    int near = end ? 2 : 1;
                    u[end] = moves[axis];
                    u[near] = tailor_in_along(u[near], more, 2 / 3.0); /* a straight mark stays straight */
                    u[3 - near] = tailor_in_along(u[3 - near], more, 1 / 3.0);
                }
            }
        }
    }
}

struct work {
    struct found *found;
    struct tailor_in_cut *cuts;
    struct tailor_in_control *control;
    double *at;
    tailor_point *scratch;
};

/** Controls piece by piece, then everything carried. */
static tailor_status carry(tailor_grade *g, const tailor_pattern *base, const tailor_point *moves, size_t count,
                           const struct work *w, tailor_fault *fault)
{
    for (int piece = 0; piece < g->base->count[TAILOR_IN_PIECES]; piece++) {
        const struct tailor_in_piece *own = TAILOR_IN_PIECE(g->base, piece);
        int controls = 0;
        for (size_t i = 0; i < count; i++) {
            if (w->found[i].piece != piece || w->found[i].point >= 0)
                continue;
            const struct tailor_in_piece *was = TAILOR_IN_PIECE(base, piece);
            tailor_point there =
                tailor_path_point(TAILOR_IN_CUBIC(base, was->first_cubic), (size_t)was->cubic_count, w->found[i].place);
            double place =
                tailor_path_nearest(TAILOR_IN_CUBIC(g->base, own->first_cubic), (size_t)own->cubic_count, there, NULL);
            tailor_status status = add_control(w->control, &controls, (int)(place + 0.5) % own->cubic_count,
                                               moves + i * (size_t)g->axes, g->axes, i, fault);
            if (status != TAILOR_OK)
                return status;
        }
        tailor_in_carry_outline(g, piece, w->control, controls, w->at, w->scratch);
    }
    if (tailor_in_carry_inside(g) != TAILOR_OK)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
    for (size_t i = 0; i < count; i++)
        if (w->found[i].point >= 0)
            move_point(g, w->found[i].piece, w->found[i].point, moves + i * (size_t)g->axes);
    return TAILOR_OK;
}

static tailor_status make(const tailor_pattern *base, int axes, const tailor_rule *rules, const tailor_point *moves,
                          size_t count, tailor_allocator memory, const struct work *w, tailor_grade **grade,
                          tailor_fault *fault)
{
    for (size_t i = 0; i < count; i++) {
        tailor_status status = find_rule(base, rules[i].piece, rules[i].point, i, &w->found[i], fault);
        for (int a = 0; a < axes && status == TAILOR_OK; a++)
            if (!tailor_in_finite(moves[i * (size_t)axes + (size_t)a]))
                status = refuse(fault, TAILOR_NOT_FINITE, i, "it moves its point by what is no number");
        if (status != TAILOR_OK)
            return status;
    }
    tailor_pattern *cut = tailor_in_recut(base, w->cuts, cuts_of(w->found, count, w->cuts), memory);
    tailor_grade *g = cut ? tailor_in_grade_new(cut, axes, memory) : NULL;
    if (!g)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
    tailor_status status = carry(g, base, moves, count, w, fault);
    if (status != TAILOR_OK)
        tailor_grade_free(g);
    else
        *grade = g;
    return status;
}

tailor_status tailor_grade_from_rules(const tailor_pattern *base, const tailor_rule *rules, const tailor_point *moves,
                                      size_t rule_count, int axis_count, const tailor_allocator *allocator,
                                      tailor_grade **grade, tailor_fault *fault)
{
    if (!base || !grade || (rule_count && (!rules || !moves)))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "base, rules or grade are NULL");
    if (axis_count < 1 || axis_count > TAILOR_IN_MOST_AXES || rule_count > 1 << 20)
        return tailor_in_fault(fault, TAILOR_BAD_ARGUMENT, NULL, 0, axis_count, 1, TAILOR_IN_MOST_AXES,
                               "%v axes: %l to %h are allowed, and 1048576 rules");
    size_t joints = (size_t)base->count[TAILOR_IN_CUBICS] + rule_count + 1;
    tailor_allocator memory = tailor_in_allocator(allocator);
    /* doubles first, so that everything is aligned */
    char *block =
        memory.allocate(memory.user, joints * (3 * sizeof(tailor_point) + sizeof(double)) +
                                         (rule_count + 1) * (sizeof(struct found) + sizeof(struct tailor_in_cut) +
                                                             sizeof(struct tailor_in_control)));
    if (!block)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "no memory for the grade");
    struct work w;
    w.scratch = (tailor_point *)(void *)block;
    w.at = (double *)(void *)(w.scratch + 3 * joints);
    w.found = (struct found *)(void *)(w.at + joints);
    w.cuts = (struct tailor_in_cut *)(void *)(w.found + rule_count + 1);
    w.control = (struct tailor_in_control *)(void *)(w.cuts + rule_count + 1);
    tailor_status status = make(base, axis_count, rules, moves, rule_count, memory, &w, grade, fault);
    memory.release(memory.user, block);
    return status;
}
