/* A polygon as a union of convex parts: ears are cut off, then parts that share a diagonal are joined while they stay
 * convex (Hertel and Mehlhorn 1983). Corners are the polygon's own, so everything stays whole. Several ways of cutting
 * are tried, the one with the fewest parts is kept. */
#include <string.h>
#include "strip.h"

enum { WAYS = 6, FEW = 150 };

/** Parts under work: corner numbers of all parts, each in `stride` places. */
typedef struct parts {
    int stride, count;
    int *corners, *sizes;
} parts;

static bool in_triangle(tailor_in_spot a, tailor_in_spot b, tailor_in_spot c, tailor_in_spot p)
{
    return tailor_in_lay_turn_of(a, b, p) >= 0 && tailor_in_lay_turn_of(b, c, p) >= 0 &&
           tailor_in_lay_turn_of(c, a, p) >= 0;
}

/** Is the corner at place i of the ring an ear? */
static bool ear(const tailor_in_spot *p, const int *ring, int n, int i)
{
    const int before = ring[(i + n - 1) % n], at = ring[i], after = ring[(i + 1) % n];
    if (tailor_in_lay_turn_of(p[before], p[at], p[after]) <= 0) return false;
    for (int j = 0; j < n; j++)
        if (ring[j] != before && ring[j] != at && ring[j] != after &&
            in_triangle(p[before], p[at], p[after], p[ring[j]]))
            return false;
    return true;
}

static double span2(tailor_in_spot a, tailor_in_spot b)
{
    const double x = (double)(b.x - a.x), y = (double)(b.y - a.y);
    return x * x + y * y;
}

/** The ear to cut: by the shortest diagonal, or the first from a corner on, as the way says. -1: none. */
static int choose(const tailor_in_spot *p, const int *ring, int n, int way)
{
    int best = -1;
    double least = 0;
    for (int k = 0; k < n; k++) {
        const int i = way == 0 ? k : (k + way * n / WAYS) % n;
        if (!ear(p, ring, n, i)) continue;
        const double d = span2(p[ring[(i + n - 1) % n]], p[ring[(i + 1) % n]]);
        if (best < 0 || d < least) {
            best = i;
            least = d;
        }
        if (way != 0) break;
    }
    return best;
}

static bool cut_ears(const tailor_in_spot *p, int n, int way, int *ring, parts *out)
{
    out->count = 0;
    for (int i = 0; i < n; i++) ring[i] = i;
    while (n >= 3) {
        int at = -1;
        /* a corner that became straight is left out: it lies on the diagonal of a part that is already there */
        for (int i = 0; i < n && at < 0; i++)
            if (tailor_in_lay_turn_of(p[ring[(i + n - 1) % n]], p[ring[i]], p[ring[(i + 1) % n]]) == 0) at = i;
        if (at < 0) {
            at = choose(p, ring, n, way);
            if (at < 0) return false;
            int *part = out->corners + out->count * out->stride;
            part[0] = ring[(at + n - 1) % n];
            part[1] = ring[at];
            part[2] = ring[(at + 1) % n];
            out->sizes[out->count++] = 3;
        }
        memmove(ring + at, ring + at + 1, (size_t)(n - 1 - at) * sizeof *ring);
        n--;
    }
    return true;
}

/** Join part b to part a along the edge i of a, if b has it in the other direction and the union is convex. */
static bool join(const tailor_in_spot *p, parts *all, int a, int b, int *room)
{
    int *pa = all->corners + a * all->stride, *pb = all->corners + b * all->stride;
    const int na = all->sizes[a], nb = all->sizes[b];
    for (int i = 0; i < na; i++) {
        const int from = pa[i], to = pa[(i + 1) % na];
        for (int j = 0; j < nb; j++) {
            if (pb[j] != to || pb[(j + 1) % nb] != from) continue;
            const int before = pa[(i + na - 1) % na], after = pa[(i + 2) % na];
            const int inner_first = pb[(j + 2) % nb], inner_last = pb[(j + nb - 1) % nb];
            if (tailor_in_lay_turn_of(p[before], p[from], p[inner_first]) < 0 ||
                tailor_in_lay_turn_of(p[inner_last], p[to], p[after]) < 0)
                return false;
            int n = 0;
            for (int k = 0; k < na; k++) room[n++] = pa[(i + 1 + k) % na]; /* to ... from */
            for (int k = 2; k < nb; k++) room[n++] = pb[(j + k) % nb];     /* between from and to, along b */
            memcpy(pa, room, (size_t)n * sizeof *pa);
            all->sizes[a] = n;
            all->count--;
            memcpy(pb, all->corners + all->count * all->stride, (size_t)all->stride * sizeof *pb);
            all->sizes[b] = all->sizes[all->count];
            return true;
        }
    }
    return false;
}

tailor_status tailor_in_lay_convex(tailor_lay *lay, tailor_in_kind *k)
{
    const int n = k->count;
    struct tailor_in_block *keep;
    k->part_first = tailor_in_lay_memory(lay, (size_t)n, sizeof *k->part_first);
    k->part_points = tailor_in_lay_memory(lay, 3 * (size_t)n, sizeof *k->part_points);
    keep = lay->blocks;
    int *ring = tailor_in_lay_memory(lay, (size_t)n, sizeof *ring);
    int *room = tailor_in_lay_memory(lay, (size_t)n, sizeof *room);
    parts now = {n, 0, tailor_in_lay_memory(lay, (size_t)n * (size_t)n, sizeof(int)),
                 tailor_in_lay_memory(lay, (size_t)n, sizeof(int))};
    if (!k->part_first || !k->part_points || !ring || !room || !now.corners || !now.sizes) return TAILOR_NO_MEMORY;
    k->part_count = 0;
    for (int way = n <= FEW ? 0 : WAYS - 2; way < WAYS; way++) { /* the careful way takes the cube of the corners */
        if (!cut_ears(k->points, n, way, ring, &now)) continue;
        bool joined = true;
        while (joined) {
            joined = false;
            for (int a = 0; a < now.count; a++)
                for (int b = 0; b < now.count; b++)
                    if (a != b && join(k->points, &now, a, b, room)) {
                        joined = true;
                        b = -1; /* the parts have moved up: look at all of them again */
                        if (a >= now.count) break;
                    }
        }
        if (k->part_count > 0 && now.count >= k->part_count) continue;
        int at = 0;
        k->part_count = now.count;
        for (int part = 0; part < now.count; part++) {
            k->part_first[part] = at;
            for (int i = 0; i < now.sizes[part]; i++)
                k->part_points[at++] = k->points[now.corners[part * now.stride + i]];
        }
        k->part_first[now.count] = at;
    }
    tailor_in_lay_release(lay, keep);
    return k->part_count > 0 ? TAILOR_OK : TAILOR_INTERNAL;
}
