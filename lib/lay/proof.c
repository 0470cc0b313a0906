/* The proof that a lay can be cut. It asks the polygons, not the tables of the search. */
#include <math.h>
#include "strip.h"

static tailor_status sticks_out(int place, tailor_fault *fault)
{
    tailor_in_fault_plain(fault, TAILOR_OUT_OF_RANGE, "the piece at place ");
    tailor_in_fault_say_number(fault, place + 1, "");
    tailor_in_fault_say(fault, " sticks out of the strip");
    return tailor_in_fault_at(fault, TAILOR_OUT_OF_RANGE, (size_t)place);
}

static tailor_status too_near(int a, int b, tailor_fault *fault)
{
    tailor_in_fault_plain(fault, TAILOR_OVERLAP, "the pieces at places ");
    tailor_in_fault_say_number(fault, a + 1, "");
    tailor_in_fault_say(fault, " and ");
    tailor_in_fault_say_number(fault, b + 1, "");
    tailor_in_fault_say(fault, " overlap, or are nearer to each other than the gap");
    return tailor_in_fault_at(fault, TAILOR_OVERLAP, (size_t)a);
}

/** Box of a kind's polygon from the middle, turned or not. */
static void box_of(const tailor_in_kind *k, int turned, int64_t box[4])
{
    box[0] = box[1] = INT64_MAX;
    box[2] = box[3] = INT64_MIN;
    for (int i = 0; i < k->count; i++) {
        const int64_t x = turned ? -k->points[i].x : k->points[i].x, y = turned ? -k->points[i].y : k->points[i].y;
        box[0] = x < box[0] ? x : box[0];
        box[1] = y < box[1] ? y : box[1];
        box[2] = x > box[2] ? x : box[2];
        box[3] = y > box[3] ? y : box[3];
    }
}

/** Places as the search holds them, or as a caller tells them. */
typedef struct places {
    const tailor_lay *lay;
    const tailor_in_lie *lies;
    const tailor_point *at;
    const int *turned;
} places;

static tailor_in_lie lie_of(const places *p, int i)
{
    if (p->lies) return p->lies[i];
    const tailor_in_spot middle = p->lay->kinds[p->lay->kind_of[i]].middle;
    const double sign = p->turned[i] ? -1 : 1;
    return (tailor_in_lie){p->at[i].x / p->lay->step + sign * (double)middle.x,
                           p->at[i].y / p->lay->step + sign * (double)middle.y, p->turned[i]};
}

static tailor_status prove(const places *p, int64_t length, tailor_fault *fault)
{
    const tailor_lay *lay = p->lay;
    for (int i = 0; i < lay->place_count; i++) {
        const tailor_in_kind *a = &lay->kinds[lay->kind_of[i]];
        const tailor_in_lie first = lie_of(p, i);
        const int turned = first.turned;
        const int64_t x = (int64_t)first.x, y = (int64_t)first.y;
        int64_t box[4];
        if (x + (turned ? -a->high.x : a->low.x) < 0 || x + (turned ? -a->low.x : a->high.x) > length ||
            y + (turned ? -a->high.y : a->low.y) < 0 || y + (turned ? -a->low.y : a->high.y) > lay->grid_width)
            return sticks_out(i, fault);
        box_of(a, turned, box);
        for (int j = 0; j < i; j++) {
            const tailor_in_kind *b = &lay->kinds[lay->kind_of[j]];
            const tailor_in_lie second = lie_of(p, j);
            int64_t other[4];
            const int64_t dx = (int64_t)second.x - x, dy = (int64_t)second.y - y;
            box_of(b, second.turned, other);
            if (dx + other[0] - lay->apart >= box[2] || dx + other[2] + lay->apart <= box[0] ||
                dy + other[1] - lay->apart >= box[3] || dy + other[3] + lay->apart <= box[1])
                continue;
            /* in the frame in which a lies as drawn */
            const int64_t s = turned ? -1 : 1;
            if (!tailor_in_lay_apart(a->points, a->count, b->points, b->count, second.turned == turned ? 1 : -1,
                                     (tailor_in_spot){s * dx, s * dy}, lay->apart))
                return too_near(j, i, fault);
        }
    }
    return TAILOR_OK;
}

tailor_status tailor_in_lay_prove(const tailor_lay *lay, const tailor_in_lie *lies, int64_t length,
                                  tailor_fault *fault)
{
    return prove(&(places){lay, lies, NULL, NULL}, length, fault);
}

tailor_status tailor_lay_overlap_free(const tailor_lay *lay, const tailor_point *at, const int *turned, double length,
                                      tailor_fault *fault)
{
    if (!lay || !lay->begun)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is no lay that has begun");
    if ((at == NULL) != (turned == NULL))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "points and half turns are given both or not at all");
    const double strip = isnan(length) ? (double)lay->best_length : length / lay->step;
    if (!(strip >= 0 && strip < 0x1p52))
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "the length of the strip is no length");
    if (!at) return tailor_in_lay_prove(lay, lay->best, (int64_t)floor(strip), fault);
    for (int i = 0; i < lay->place_count; i++) {
        const double x = at[i].x / lay->step, y = at[i].y / lay->step;
        if (!(fabs(x) < 0x1p52 && fabs(y) < 0x1p52) || x != floor(x) || y != floor(y) ||
            (turned[i] != 0 && !(turned[i] == 1 && lay->kinds[lay->kind_of[i]].half_turn))) {
            tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "place ");
            tailor_in_fault_say_number(fault, i + 1, "");
            tailor_in_fault_say(fault, " is no point of the grid, or a half turn that is not allowed");
            return tailor_in_fault_at(fault, TAILOR_BAD_ARGUMENT, (size_t)i);
        }
    }
    return prove(&(places){lay, NULL, at, turned}, (int64_t)floor(strip), fault);
}
