/* What an offset does at the corners of its path. */
#include "offset.h"

void tailor_in_offset_add(tailor_in_offset *w, tailor_cubic c, int side, int other)
{
    if (w->piece_count == TAILOR_IN_MOST_PIECES)
        w->full = true;
    else
        w->piece[w->piece_count++] = (tailor_in_piece){c, side, other};
}

void tailor_in_offset_arc(tailor_in_offset *w, tailor_point centre, tailor_point from, tailor_point to, bool left,
                          int side, int other)
{
    double angle = atan2(tailor_in_cross(from, to), tailor_in_dot(from, to));
    /* a half turn may come out with either sign: `left` says which way round */
    if (left && angle < -1e-6) angle += 2 * TAILOR_IN_PI;
    if (!left && angle > 1e-6) angle -= 2 * TAILOR_IN_PI;
    /* an arc of 90 degrees as a cubic is off by 2.8e-4 radii, and by the sixth power of the angle */
    const double radius = tailor_in_norm(from);
    const double share = pow(0.5 * w->tolerance / (2.8e-4 * radius), 1.0 / 6);
    const double step = TAILOR_IN_PI / 2 * tailor_in_max(1e-3, tailor_in_min(1, share));
    const double n = tailor_in_max(1, ceil(fabs(angle) / step - 1e-9));
    if (!(n < TAILOR_IN_MOST_PIECES)) { /* or not a number, beyond all sizes */
        w->full = true;
        return;
    }
    const double each = angle / n, handle = 4.0 / 3 * tan(each / 4), cosine = cos(each), sine = sin(each);
    tailor_point a = from;
    for (int i = 0; i < (int)n; i++) {
        const tailor_point b =
            i + 1 == (int)n ? to : (tailor_point){a.x * cosine - a.y * sine, a.x * sine + a.y * cosine};
        const tailor_cubic arc = {{
            tailor_in_add(centre, a),
            tailor_in_add(centre, (tailor_point){a.x - a.y * handle, a.y + a.x * handle}),
            tailor_in_add(centre, (tailor_point){b.x + b.y * handle, b.y - b.x * handle}),
            tailor_in_add(centre, b),
        }};
        tailor_in_offset_add(w, arc, side, other);
        a = b;
    }
}

void tailor_in_offset_corner(tailor_in_offset *w, int side, int next)
{
    const tailor_in_side *a = &w->side[side], *b = &w->side[next];
    const tailor_point corner = a->c->p[3], u = a->out, v = b->in;
    const double turn = tailor_in_cross(u, v), ahead = tailor_in_dot(u, v);
    const tailor_point from = tailor_in_scale(tailor_in_right(u), a->d), to = tailor_in_scale(tailor_in_right(v), b->d);
    const tailor_point end = tailor_in_add(corner, from), start = tailor_in_add(b->c->p[0], to);
    if (tailor_in_distance(end, start) <= 0.01 * w->tolerance) return; /* smooth, the distances alike */
    const double wider = tailor_in_max(fabs(a->d), fabs(b->d)), sign = a->d + b->d;
    const bool smooth = fabs(turn) < 1e-3 && ahead > 0;
    const bool opens = turn * sign > 0 || (turn == 0 && ahead < 0); /* the parallels end before they meet */
    if (!opens && !smooth) return;
    if (w->corner == TAILOR_CORNER_ROUND && a->d == b->d) {
        tailor_in_offset_arc(w, corner, from, to, sign > 0, side, next);
        return;
    }
    if (w->corner != TAILOR_CORNER_BEVEL && !(smooth && a->d != b->d) && turn != 0) {
        const tailor_point gap = tailor_in_sub(start, end);
        const double x = tailor_in_cross(gap, v) / turn, y = tailor_in_cross(gap, u) / turn;
        const tailor_point tip = tailor_in_along(end, u, x);
        /* end + x u = start + y v; both sides must run on forward to it */
        if (x >= -1e-9 * wider && y <= 1e-9 * wider && tailor_in_distance(tip, corner) <= w->mitre_limit * wider) {
            w->side[side].made = TAILOR_CORNER_MITRE;
            w->side[side].tip = tip;
            w->side[side].reach2 = tailor_in_dot(tailor_in_sub(tip, corner), tailor_in_sub(tip, corner));
            if (x > 0) tailor_in_offset_add(w, tailor_cubic_line(end, tip), side, next);
            if (y < 0) tailor_in_offset_add(w, tailor_cubic_line(tip, start), side, next);
            return;
        }
    }
    w->side[side].made = TAILOR_CORNER_BEVEL;
    w->side[side].reach2 = wider * wider;
    tailor_in_offset_add(w, tailor_cubic_line(end, start), side, next);
}
