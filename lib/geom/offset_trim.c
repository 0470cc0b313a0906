/* Cutting an offset where it crosses itself, and leaving out what lies nearer to the path than it should.
 *
 * No winding rule decides, for a raw offset turned inside out can wind like a sound one. Each stretch between
 * crossings is measured instead: it stays if nothing of the path is nearer to its middle than that part's
 * distance, and if it lies on the right side of the path. What stays is linked end to end. */
#include "offset.h"

enum { MOST_CUTS = 256, MOST_STRETCHES = TAILOR_IN_MOST_PIECES + MOST_CUTS };

typedef struct cut_place {
    int piece;
    double t;
} cut_place;

/** A part of a piece of the raw offset. */
typedef struct stretch {
    double from, to;
    tailor_point start, end;
    short piece;
    bool stays, used;
} stretch;

typedef struct trimming {
    tailor_in_offset *w;
    cut_place cuts[MOST_CUTS];
    int cut_count;
    bool cut_in_end; /* a crossing lies in the end of a piece */
    tailor_in_box boxes[TAILOR_IN_MOST_PIECES];
    stretch all[MOST_STRETCHES];
    int count;
    short chain[MOST_STRETCHES], best[MOST_STRETCHES];
    int best_count;
    double best_size;
} trimming;

static bool cut_at(trimming *m, int piece, double t)
{
    if (t < 1e-9 || t > 1 - 1e-9) { /* an end is a cut already */
        m->cut_in_end = true;
        return true;
    }
    if (m->cut_count == MOST_CUTS) return false;
    int i = m->cut_count++;
    for (; i > 0 && (m->cuts[i - 1].piece > piece || (m->cuts[i - 1].piece == piece && m->cuts[i - 1].t > t)); i--)
        m->cuts[i] = m->cuts[i - 1];
    m->cuts[i] = (cut_place){piece, t};
    return true;
}

/** Cut all pieces where they cross. */
static bool cut_all(trimming *m)
{
    const tailor_in_offset *w = m->w;
    const double near = 0.01 * w->tolerance;
    for (int i = 0; i < w->piece_count; i++) m->boxes[i] = tailor_in_hull_box(&w->piece[i].c);
    for (int i = 0; i < w->piece_count; i++) {
        const tailor_cubic *p = &w->piece[i].c;
        for (int j = i + 1; j < w->piece_count; j++) {
            if (tailor_in_boxes_apart(&m->boxes[i], &m->boxes[j], near)) continue;
            const tailor_cubic *q = &w->piece[j].c;
            const bool follows = j == i + 1 && tailor_in_distance(p->p[3], q->p[0]) <= near;
            const bool closes =
                w->closed && i == 0 && j + 1 == w->piece_count && tailor_in_distance(q->p[3], p->p[0]) <= near;
            if ((follows && tailor_in_run_on(p, q)) || (closes && tailor_in_run_on(q, p))) continue;
            tailor_in_meeting met[TAILOR_IN_MOST_MEETINGS];
            int count;
            if (tailor_in_cubics_meet(p, q, near, met, &count) == TAILOR_NOT_CONVERGED) return false;
            for (int k = 0; k < count; k++) {
                if ((follows && met[k].p_to == 1 && met[k].q_from == 0) ||
                    (closes && met[k].p_from == 0 && met[k].q_to == 1))
                    continue;
                if (!cut_at(m, i, met[k].p_from) || !cut_at(m, i, met[k].p_to) || !cut_at(m, j, met[k].q_from) ||
                    !cut_at(m, j, met[k].q_to))
                    return false;
            }
        }
    }
    return true;
}

/** Do two sides follow one another in the path? */
static bool adjacent(const tailor_in_offset *w, int a, int b)
{
    const int away = a < b ? b - a : a - b;
    return away == 1 || (w->closed && away == w->side_count - 1);
}

/** Is x within the mitred or straight-cut corner after side j, by more than the tolerance? */
static bool in_corner(const tailor_in_offset *w, int j, tailor_point x)
{
    const tailor_in_side *a = &w->side[j], *b = &w->side[j + 1 < w->side_count ? j + 1 : 0];
    const tailor_point v = a->c->p[3], away = tailor_in_sub(x, v);
    if (a->made == 0 || tailor_in_dot(away, away) > a->reach2) return false;
    const tailor_point end = tailor_in_along(v, tailor_in_right(a->out), a->d);
    const tailor_point start = tailor_in_along(b->c->p[0], tailor_in_right(b->in), b->d);
    const bool mitre = a->made == TAILOR_CORNER_MITRE;
    const tailor_point zone[5] = {v, end, mitre ? a->tip : start, mitre ? start : v, v};
    const double left = a->d + b->d >= 0 ? 1 : -1;
    for (int k = 0; k < (mitre ? 4 : 3); k++) {
        const tailor_point edge = tailor_in_sub(zone[k + 1], zone[k]);
        const double inside = left * tailor_in_cross(edge, tailor_in_sub(x, zone[k]));
        const bool outer = k > 0 && k < (mitre ? 3 : 2);
        if (!(inside > (outer ? 2 * w->tolerance * tailor_in_norm(edge) : 0))) return false;
    }
    return true;
}

/** Does a joint's own corner decide about what is near it, not the distance from the joint? */
static bool corner_decides(const tailor_in_offset *w, int j, bool at_end)
{
    return w->side[at_end ? j : j > 0 ? j - 1 : w->side_count - 1].made != 0;
}

/** Is nothing of the path nearer to x, which belongs to this piece, than its distance, less or (strictly) and the
 *  fit's tolerance? */
static bool keeps_distance(const tailor_in_offset *w, const tailor_in_piece *piece, tailor_point x, bool strictly)
{
    for (int j = 0; j < w->side_count; j++) {
        const tailor_in_side *s = &w->side[j];
        const bool own = j == piece->side || j == piece->other;
        const bool near = own || adjacent(w, j, piece->side) || (piece->other >= 0 && adjacent(w, j, piece->other));
        const double least = fabs(s->d) + (strictly && !near ? 2 : -2) * w->tolerance;
        if (!(least > 0) || tailor_in_box_distance2(&s->box, x) >= least * least) continue;
        if (own && (piece->other >= 0 || s->plain)) continue; /* a corner is as near as its kind makes it */
        double distance;
        const double t = tailor_cubic_nearest(s->c, x, &distance);
        if (distance >= least) continue;
        /* neighbours with another distance may be nearer about the joint itself */
        const bool in_end = t < 1e-6 || t > 1 - 1e-6;
        if (in_end && near) continue;
        if (in_end && corner_decides(w, j, t > 0.5)) continue;
        return false;
    }
    for (int j = 0; j < w->side_count; j++)
        if (!(j == piece->side && piece->other >= 0) && in_corner(w, j, x)) return false;
    return true;
}

static bool right_side(const tailor_in_offset *w, const tailor_in_piece *piece, tailor_point x)
{
    if (w->winding == 0) return true;
    /* where no distance is less, what keeps its distance cannot have crossed the path; but a mitre's tip can */
    const bool mitre = piece->other >= 0 && w->side[piece->side].made == TAILOR_CORNER_MITRE;
    if (fabs(w->side[piece->side].d) <= w->least && !mitre) return true;
    const double d = w->side[piece->side].d * w->winding;
    if (d == 0 || (piece->other >= 0 && !(w->side[piece->other].d * d > 0))) return true;
    return tailor_path_winding(w->path, w->count, x) == (d > 0 ? 0 : w->winding);
}

static bool stretches(trimming *m)
{
    const tailor_in_offset *w = m->w;
    int next = 0;
    for (int i = 0; i < w->piece_count; i++) {
        const tailor_in_piece *piece = &w->piece[i];
        double from = 0;
        for (bool more = true; more;) {
            more = next < m->cut_count && m->cuts[next].piece == i;
            const double to = more ? m->cuts[next++].t : 1;
            if (to - from < 1e-9) continue;
            if (m->count == MOST_STRETCHES) return false;
            const tailor_point middle = tailor_cubic_point(&piece->c, 0.5 * (from + to));
            const bool stays = keeps_distance(w, piece, middle, false) && right_side(w, piece, middle);
            m->all[m->count++] =
                (stretch){from,  to,   tailor_cubic_point(&piece->c, from), tailor_cubic_point(&piece->c, to), (short)i,
                          stays, false};
            from = to;
        }
    }
    return true;
}

static tailor_point direction_at(const trimming *m, const stretch *s, double t)
{
    return tailor_cubic_direction(&m->w->piece[s->piece].c, t);
}

static bool follows(const stretch *s, const stretch *n, double link)
{
    return n->stays && fabs(n->start.x - s->end.x) <= link && fabs(n->start.y - s->end.y) <= link;
}

/** How far a stretch turns away from the free side; straight back is the last choice. */
static double turn_to(const trimming *m, tailor_point way, const stretch *s, double free_side)
{
    const tailor_point u = direction_at(m, s, s->from);
    const double turn = free_side * atan2(tailor_in_cross(way, u), tailor_in_dot(way, u));
    return turn < -0.999 * TAILOR_IN_PI ? turn + 2 * TAILOR_IN_PI : turn;
}

/** What follows a stretch: of those that begin where it ends the one farthest to the free side. -1 if none. */
static int follower(const trimming *m, int at, double link, double free_side)
{
    const stretch *s = &m->all[at];
    const int natural = at + 1 < m->count ? at + 1 : 0;
    const bool open_end = natural == 0 && !m->w->closed;
    if (s->to == 1 && !m->cut_in_end && !open_end && follows(s, &m->all[natural], link)) return natural;
    tailor_point way = {0, 0};
    int best = -1;
    double best_turn = INFINITY;
    for (int i = 0; i < m->count; i++) {
        const stretch *n = &m->all[i];
        if (i == at || !follows(s, n, link)) continue;
        if (best < 0) {
            best = i; /* mostly the only one */
            continue;
        }
        if (best_turn == INFINITY) {
            way = direction_at(m, s, s->to);
            best_turn = turn_to(m, way, &m->all[best], free_side);
        }
        const double turn = turn_to(m, way, n, free_side);
        if (turn < best_turn) {
            best_turn = turn;
            best = i;
        }
    }
    /* where the parallel turns back by less than the tolerance, its two sides may miss one another by as much */
    if (best < 0 && s->to == 1 && !open_end && follows(s, &m->all[natural], 1.2 * m->w->tolerance)) return natural;
    return best;
}

static tailor_cubic cubic_of(const trimming *m, const stretch *s)
{
    const tailor_cubic *c = &m->w->piece[s->piece].c;
    return s->from == 0 && s->to == 1 ? *c : tailor_cubic_part(c, s->from, s->to);
}

/** Follow a chain from a stretch; keep it if it is the largest so far (in area, or in length when open). */
static void follow(trimming *m, int first, double link, double free_side)
{
    int n = 0, at = first;
    bool round = false;
    double area = 0, length = 0;
    while (at >= 0 && !m->all[at].used) {
        m->all[at].used = true;
        m->chain[n++] = (short)at;
        at = follower(m, at, link, free_side);
    }
    int begin = 0; /* a chain may run into itself later than at its start: then that is the loop */
    if (m->w->closed) {
        while (begin < n && m->chain[begin] != at) begin++;
        round = begin < n;
        n -= begin;
    }
    if (n == 0) return;
    const tailor_point o = m->all[m->chain[begin]].start;
    tailor_point last = o;
    for (int i = 0; i < n; i++) {
        m->chain[i] = m->chain[begin + i];
        tailor_cubic c = cubic_of(m, &m->all[m->chain[i]]);
        c.p[0] = last; /* as it will be written */
        last = c.p[3];
        area += tailor_path_area(&c, 1) + 0.5 * tailor_in_cross(tailor_in_sub(c.p[0], o), tailor_in_sub(c.p[3], o));
        length += tailor_in_distance(c.p[0], c.p[3]);
    }
    const double size = m->w->closed ? (round ? area * m->w->winding : 0) : length;
    if (!(size > m->best_size)) return;
    /* a sliver or a crumb within the tolerance of nothing is nothing */
    const double fit = m->w->tolerance;
    if (m->w->closed && !(size > 0.5 * fit * (length + 4 * fit))) return;
    m->best_size = size;
    m->best_count = n;
    for (int i = 0; i < n; i++) m->best[i] = m->chain[i];
}

/** Write the best chain: neighbours cut from one piece are one again, crumbs are left out, ends meet exactly. */
static tailor_status write_chain(trimming *m, tailor_cubic *offset, size_t capacity, size_t *needed)
{
    const double crumb = 0.2 * m->w->tolerance;
    size_t n = 0;
    tailor_point last = {0, 0};
    for (int i = 0; i < m->best_count; i++) {
        stretch s = m->all[m->best[i]];
        while (i + 1 < m->best_count && m->all[m->best[i + 1]].piece == s.piece && m->all[m->best[i + 1]].from == s.to)
            s.to = m->all[m->best[++i]].to;
        tailor_cubic c = cubic_of(m, &s);
        if (n > 0 && tailor_in_size(&c) <= crumb && tailor_in_distance(c.p[3], last) <= crumb) continue;
        const bool misses = n > 0 && tailor_in_distance(c.p[0], last) > crumb;
        if (n > 0 && !misses) c.p[0] = last;
        last = c.p[3];
        if (n < capacity) {
            offset[n] = c;
            if (misses) tailor_in_weld(&offset[n - 1], &offset[n]);
        }
        n++;
    }
    *needed = n;
    if (n > capacity) return offset ? TAILOR_TOO_SMALL : TAILOR_OK;
    if (m->w->closed && n > 0) {
        if (n > 1 && tailor_in_distance(last, offset[0].p[0]) > crumb) tailor_in_weld(&offset[n - 1], &offset[0]);
        else offset[n - 1].p[3] = offset[0].p[0];
    }
    return TAILOR_OK;
}

/** Is there a stretch with room beside it? At the inradius what is left has none: sides lie on one another. */
static bool something_left(const trimming *m)
{
    for (int i = 0; i < m->count; i++) {
        const stretch *s = &m->all[i];
        const tailor_in_piece *piece = &m->w->piece[s->piece];
        if (s->stays && tailor_in_distance(s->start, s->end) > 16 * m->w->tolerance &&
            keeps_distance(m->w, piece, tailor_cubic_point(&piece->c, 0.5 * (s->from + s->to)), true))
            return true;
    }
    return false;
}

tailor_status tailor_in_offset_trim(tailor_in_offset *w, tailor_cubic *offset, size_t capacity, size_t *needed)
{
    trimming m;
    m.w = w;
    m.cut_count = m.count = m.best_count = 0;
    m.cut_in_end = false;
    m.best_size = 0;
    if (!cut_all(&m) || !stretches(&m)) return TAILOR_NOT_CONVERGED;
    double sum = 0;
    for (int i = 0; i < w->side_count; i++) sum += w->side[i].d;
    const double link = 0.05 * w->tolerance, free_side = sum >= 0 ? 1 : -1;
    for (int i = 0; i < m.count; i++)
        if (m.all[i].stays && !m.all[i].used) follow(&m, i, link, free_side);
    if (m.best_count == 0 && w->closed && something_left(&m)) return TAILOR_NOT_CONVERGED;
    return write_chain(&m, offset, capacity, needed);
}
