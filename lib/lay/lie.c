/* How pieces lie to one another and on the strip, as the search sees it. */
#include "strip.h"

tailor_in_box4 tailor_in_lay_room(const tailor_lay *lay, int kind, int turned, double length)
{
    const tailor_in_kind *k = &lay->kinds[kind];
    const double width = (double)lay->grid_width;
    const double x0 = (double)k->low.x, y0 = (double)k->low.y, x1 = (double)k->high.x, y1 = (double)k->high.y;
    return turned ? (tailor_in_box4){x1, y1, length + x0, width + y0}
                  : (tailor_in_box4){-x0, -y0, length - x1, width - y1};
}

const tailor_in_forbidden *tailor_in_lay_table(const tailor_lay *lay, int a, int turned_a, int b, int turned_b,
                                               double *sign)
{
    /* b against a is a against b with the move reversed; both turned is the whole picture turned */
    const int relative = turned_a != turned_b;
    if (a <= b) {
        *sign = turned_a ? -1 : 1;
        return &lay->forbidden[2 * (a * lay->kind_count + b) + relative];
    }
    *sign = turned_b ? 1 : -1;
    return &lay->forbidden[2 * (b * lay->kind_count + a) + relative];
}

double tailor_in_lay_depth(const tailor_in_forbidden *f, double x, double y)
{
    double deepest = 0;
    if (x <= f->box.x0 || x >= f->box.x1 || y <= f->box.y0 || y >= f->box.y1) return 0;
    for (int part = 0; part < f->part_count; part++) {
        const tailor_in_box4 *box = &f->boxes[part];
        if (x <= box->x0 + deepest || x >= box->x1 - deepest || y <= box->y0 + deepest || y >= box->y1 - deepest)
            continue;
        double least = 1e300;
        const tailor_in_side *side = f->sides + f->first[part], *end = f->sides + f->first[part + 1];
        for (; side < end; side++) {
            const double inside = (side->c - side->nx * x - side->ny * y) * side->scale;
            if (inside <= deepest) break;
            least = inside < least ? inside : least;
        }
        if (side == end) deepest = least;
    }
    return deepest;
}

double tailor_in_lay_way_out(const tailor_in_forbidden *f, double x, double y, double out[2])
{
    double deepest = 0;
    for (int part = 0; part < f->part_count; part++) {
        const tailor_in_box4 *box = &f->boxes[part];
        if (x <= box->x0 || x >= box->x1 || y <= box->y0 || y >= box->y1) continue;
        double least = 1e300;
        const tailor_in_side *nearest = NULL;
        for (int s = f->first[part]; s < f->first[part + 1]; s++) {
            const tailor_in_side *side = &f->sides[s];
            const double inside = (side->c - side->nx * x - side->ny * y) * side->scale;
            if (inside < least) {
                least = inside;
                nearest = side;
            }
        }
        if (least > deepest) {
            deepest = least;
            out[0] = nearest->nx * nearest->scale;
            out[1] = nearest->ny * nearest->scale;
        }
    }
    return deepest;
}

int64_t tailor_in_lay_used(const tailor_lay *lay, const tailor_in_lie *lies)
{
    int64_t used = 0;
    for (int i = 0; i < lay->place_count; i++) {
        const tailor_in_kind *k = &lay->kinds[lay->kind_of[i]];
        const int64_t end = (int64_t)lies[i].x + (lies[i].turned ? -k->low.x : k->high.x);
        used = end > used ? end : used;
    }
    return used;
}
