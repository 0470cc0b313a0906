/* Making a lay and asking it. */
#include <math.h>
#include <string.h>
#include "../geom/kernel.h"
#include "../pattern/build.h"
#include "strip.h"

tailor_status tailor_lay_new(double width, double gap, double tolerance, int doubled, const tailor_allocator *allocator,
                             tailor_lay **lay, tailor_fault *fault)
{
    const struct {
        double value, least;
        const char *refused;
    } given[3] = {{width, 1e-300, "the width of the strip is above 0"},
                  {gap, 0, "the gap between pieces is 0 or more"},
                  {tolerance, 0, "the tolerance is 0 or more"}};
    if (!lay) return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "there is nowhere to put the lay");
    for (int i = 0; i < 3; i++) {
        const tailor_status status = isfinite(given[i].value) ? TAILOR_BAD_ARGUMENT : TAILOR_NOT_FINITE;
        if (!isfinite(given[i].value) || given[i].value < given[i].least)
            return tailor_in_fault(fault, status, NULL, 0, given[i].value, i ? 0 : NAN, NAN, given[i].refused);
    }
    const tailor_allocator from = tailor_in_allocator(allocator);
    tailor_lay *made = from.allocate(from.user, sizeof *made);
    if (!made) return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "there is no memory for a lay");
    memset(made, 0, sizeof *made);
    made->allocator = from;
    made->width = doubled ? width / 2 : width;
    made->gap = gap;
    made->tolerance = tolerance;
    made->doubled = doubled != 0;
    *lay = made;
    return TAILOR_OK;
}

tailor_status tailor_in_lay_refuse(tailor_fault *fault, tailor_status status, int number, double value, double high,
                                   const char *sentence)
{
    tailor_in_fault(fault, status, NULL, 0, value, NAN, high, "shape ");
    tailor_in_fault_say_number(fault, number + 1, "");
    tailor_in_fault_say(fault, sentence);
    return tailor_in_fault_at(fault, status, (size_t)number);
}

tailor_status tailor_lay_add(tailor_lay *lay, const tailor_cubic *outline, size_t count, double angle, int half_turn,
                             int copies, int mirrored, tailor_fault *fault)
{
    if (!lay || lay->begun || lay->dead)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "shapes are added to a lay before it begins");
    const int number = lay->shape_count;
    if (!outline || count == 0)
        return tailor_in_lay_refuse(fault, TAILOR_BAD_ARGUMENT, number, NAN, NAN, " has no outline");
    if (!isfinite(angle) || !tailor_in_path_finite(outline, count))
        return tailor_in_lay_refuse(fault, TAILOR_NOT_FINITE, number, NAN, NAN,
                                    " has a number that is infinite or not a number");
    if (copies < 0 || mirrored < 0 || (copies == 0 && mirrored == 0))
        return tailor_in_lay_refuse(fault, TAILOR_BAD_ARGUMENT, number, (double)copies + mirrored, NAN,
                      ": one copy or more is laid, as drawn or mirrored");
    if (lay->doubled && copies != mirrored)
        return tailor_in_lay_refuse(fault, TAILOR_BAD_ARGUMENT, number, mirrored, copies,
                      ": doubled cloth cuts pairs, so as many are mirrored as not");
    const int places = lay->doubled ? copies : copies > TAILOR_LAY_PLACES_MOST ? copies : copies + mirrored;
    if (places > TAILOR_LAY_PLACES_MOST - lay->place_count || count > 100 * TAILOR_LAY_POINTS_MOST ||
        mirrored > TAILOR_LAY_PLACES_MOST)
        return tailor_in_lay_refuse(fault, TAILOR_OUT_OF_RANGE, number, places,
                                    TAILOR_LAY_PLACES_MOST - lay->place_count,
                      " makes it more than 1000 places, or has more than 100000 curves");
    if (tailor_path_gap(outline, count, 0) > 1e-9 * tailor_in_path_size(outline, count))
        return tailor_in_lay_refuse(fault, TAILOR_BAD_ARGUMENT, number, NAN, NAN, " has a break in its outline");
    struct tailor_in_block *mark = lay->blocks;
    tailor_in_shape *shape = tailor_in_lay_memory(lay, 1, sizeof *shape);
    tailor_cubic *kept = tailor_in_lay_memory(lay, count + 1, sizeof *kept);
    if (!shape || !kept) {
        tailor_in_lay_release(lay, mark);
        return tailor_in_lay_refuse(fault, TAILOR_NO_MEMORY, number, NAN, NAN, ": there is no memory for it");
    }
    memcpy(kept, outline, count * sizeof *kept);
    if (!tailor_in_same(kept[0].p[0], kept[count - 1].p[3])) {
        kept[count] = tailor_cubic_line(kept[count - 1].p[3], kept[0].p[0]);
        count++;
    }
    *shape = (tailor_in_shape){NULL, kept, count, angle, half_turn != 0, copies, lay->doubled ? 0 : mirrored};
    if (lay->last_shape)
        lay->last_shape->next = shape;
    else
        lay->shapes = shape;
    lay->last_shape = shape;
    lay->shape_count++;
    lay->place_count += places;
    return TAILOR_OK;
}

/** The step: the largest of width, gap and pieces takes at most 2^22 of them. NaN when something is beyond all size. */
static double choose_step(const tailor_lay *lay)
{
    double most = tailor_in_max(tailor_in_max(lay->width, lay->gap), lay->tolerance);
    for (const tailor_in_shape *s = lay->shapes; s; s = s->next) {
        double box[4];
        tailor_path_bounds(s->outline, s->count, box);
        const double x = box[2] - box[0], y = box[3] - box[1];
        const double size = sqrt(x * x + y * y);
        if (!(size < 1e140 && most < 1e140)) return NAN;
        most = tailor_in_max(most, size);
    }
    int exponent;
    (void)frexp(most, &exponent);
    return ldexp(1, exponent - 22);
}

static tailor_status make_kinds(tailor_lay *lay, tailor_fault *fault)
{
    double deviation = 0;
    int number = 0, place = 0;
    lay->kinds = tailor_in_lay_memory(lay, 2 * (size_t)lay->shape_count, sizeof *lay->kinds);
    lay->kind_of = tailor_in_lay_memory(lay, (size_t)lay->place_count, sizeof *lay->kind_of);
    if (!lay->kinds || !lay->kind_of)
        return tailor_in_fault_plain(fault, TAILOR_NO_MEMORY, "there is no memory for the shapes' polygons");
    for (const tailor_in_shape *s = lay->shapes; s; s = s->next, number++) {
        tailor_in_kind *first = &lay->kinds[lay->kind_count];
        *first = (tailor_in_kind){.shape = number, .half_turn = s->half_turn, .copies = s->copies};
        tailor_status status = tailor_in_lay_outline(lay, s, number, first, &deviation, fault);
        if (status != TAILOR_OK) return status;
        const int64_t needed = first->high.y - first->low.y;
        if (needed > lay->grid_width) {
            tailor_in_lay_refuse(fault, TAILOR_OUT_OF_RANGE, number, (double)needed * lay->step, lay->width,
                                 " needs a strip of ");
            tailor_in_fault_say_number(fault, (double)needed * lay->step, "");
            tailor_in_fault_say(fault, " at its angle: the width is ");
            tailor_in_fault_say_number(fault, lay->width, "");
            return TAILOR_OUT_OF_RANGE;
        }
        if (s->mirrored > 0) {
            /* alone, the mirror image takes the place of what it is the image of */
            const tailor_in_kind drawn = *first;
            lay->kind_count += s->copies > 0;
            status = tailor_in_lay_mirror(lay, &drawn, &lay->kinds[lay->kind_count], fault);
        }
        if (status != TAILOR_OK) return status;
        if (s->mirrored > 0) lay->kinds[lay->kind_count].copies = s->mirrored;
        for (const tailor_in_kind *k = first; k <= &lay->kinds[lay->kind_count]; k++)
            for (int i = 0; i < k->copies; i++) lay->kind_of[place++] = (int)(k - lay->kinds);
        lay->kind_count++;
    }
    for (int i = 0; i < lay->kind_count; i++) {
        const tailor_status status = tailor_in_lay_convex(lay, &lay->kinds[i]);
        if (status != TAILOR_OK)
            return tailor_in_lay_refuse(fault, status, lay->kinds[i].shape, NAN, NAN, " could not be taken apart");
    }
    lay->apart = (int64_t)ceil(lay->gap / lay->step + 2 * deviation);
    return TAILOR_OK;
}

tailor_status tailor_lay_begin(tailor_lay *lay, uint64_t seed, tailor_fault *fault)
{
    if (!lay || lay->begun || lay->dead || lay->shape_count == 0)
        return tailor_in_fault_plain(fault, TAILOR_BAD_ARGUMENT, "a lay begins once, with one shape or more");
    lay->dead = 1; /* until all is done */
    lay->step = choose_step(lay);
    if (!(lay->step > 1e-140))
        return tailor_in_fault_plain(fault, TAILOR_OUT_OF_RANGE, "strip and shapes have sizes of 1e-130 to 1e140");
    lay->grid_width = (int64_t)floor(lay->width / lay->step + 0.5);
    tailor_status status = make_kinds(lay, fault);
    if (status != TAILOR_OK) return status;
    status = tailor_in_lay_forbid(lay);
    if (status == TAILOR_OUT_OF_RANGE)
        return tailor_in_fault_plain(fault, status, "the shapes have too many hollows: a larger tolerance would do");
    if (status == TAILOR_OK) status = tailor_in_lay_start(lay);
    if (status == TAILOR_OK) status = tailor_in_lay_search_new(lay, seed);
    if (status != TAILOR_OK) return tailor_in_fault_plain(fault, status, "there is no memory for the search");
    status = tailor_in_lay_prove(lay, lay->best, lay->best_length, fault);
    if (status != TAILOR_OK)
        return tailor_in_fault_plain(fault, TAILOR_INTERNAL, "the first lay does not pass its proof");
    lay->begun = 1;
    lay->dead = 0;
    return TAILOR_OK;
}

tailor_status tailor_lay_step(tailor_lay *lay, int64_t iterations)
{
    if (!lay || !lay->begun || iterations < 0) return TAILOR_BAD_ARGUMENT;
    for (; iterations > 0 && !lay->dead; iterations--) {
        tailor_in_lay_pass(lay);
        lay->iterations++;
    }
    return lay->dead ? TAILOR_INTERNAL : TAILOR_OK;
}

int64_t tailor_lay_iterations(const tailor_lay *lay) { return lay ? lay->iterations : 0; }
int tailor_lay_place_count(const tailor_lay *lay) { return lay && lay->begun ? lay->place_count : 0; }

static const tailor_in_kind *kind_at(const tailor_lay *lay, int place)
{
    return lay && lay->begun && place >= 0 && place < lay->place_count ? &lay->kinds[lay->kind_of[place]] : NULL;
}

/** Where the origin of the drawing comes to lie. */
static tailor_point origin_at(const tailor_lay *lay, int place)
{
    const tailor_in_lie lie = lay->best[place];
    const tailor_in_spot middle = lay->kinds[lay->kind_of[place]].middle;
    const double sign = lie.turned ? -1 : 1;
    return (tailor_point){(lie.x - sign * (double)middle.x) * lay->step, (lie.y - sign * (double)middle.y) * lay->step};
}

tailor_status tailor_lay_place(const tailor_lay *lay, int place, int *shape, int *mirrored, int *turned,
                               tailor_point *at)
{
    const tailor_in_kind *k = kind_at(lay, place);
    if (!k) return TAILOR_BAD_ARGUMENT;
    if (shape) *shape = k->shape;
    if (mirrored) *mirrored = k->mirrored;
    if (turned) *turned = lay->best[place].turned;
    if (at) *at = origin_at(lay, place);
    return TAILOR_OK;
}

tailor_status tailor_lay_matrix(const tailor_lay *lay, int place, double matrix[6])
{
    const tailor_in_kind *k = kind_at(lay, place);
    if (!k || !matrix) return TAILOR_BAD_ARGUMENT;
    const tailor_in_shape *shape = lay->shapes;
    double c, s;
    for (int i = 0; i < k->shape; i++) shape = shape->next;
    tailor_in_lay_turn(shape->angle, &c, &s);
    const tailor_point at = origin_at(lay, place);
    const double x = lay->best[place].turned ? -1 : 1, y = k->mirrored ? -x : x;
    const double m[6] = {x * c, y * s, -x * s, y * c, at.x, at.y};
    memcpy(matrix, m, sizeof m);
    return TAILOR_OK;
}

tailor_status tailor_lay_polygon(const tailor_lay *lay, int place, tailor_point *points, size_t capacity,
                                 size_t *needed)
{
    const tailor_in_kind *k = kind_at(lay, place);
    if (!k || !needed || (!points && capacity)) return TAILOR_BAD_ARGUMENT;
    *needed = (size_t)k->count;
    if (!points) return TAILOR_OK;
    if (capacity < *needed) return TAILOR_TOO_SMALL;
    const tailor_in_lie lie = lay->best[place];
    const double sign = lie.turned ? -1 : 1;
    for (int i = 0; i < k->count; i++)
        points[i] = (tailor_point){(lie.x + sign * (double)k->points[i].x) * lay->step,
                                   (lie.y + sign * (double)k->points[i].y) * lay->step};
    return TAILOR_OK;
}

double tailor_lay_length(const tailor_lay *lay)
{
    return lay && lay->begun ? (double)lay->best_length * lay->step : NAN;
}

static double area_in_steps(const tailor_lay *lay)
{
    double area = 0;
    for (int i = 0; i < lay->kind_count; i++) area += lay->kinds[i].area * lay->kinds[i].copies;
    return area;
}

double tailor_lay_area(const tailor_lay *lay)
{
    return lay && lay->begun ? area_in_steps(lay) * lay->step * lay->step : NAN;
}

double tailor_lay_yield(const tailor_lay *lay)
{
    return lay && lay->begun ? area_in_steps(lay) / ((double)lay->grid_width * (double)lay->best_length) : NAN;
}

double tailor_lay_length_bound(const tailor_lay *lay)
{
    if (!lay || !lay->begun) return NAN;
    double bound = area_in_steps(lay) / (double)lay->grid_width;
    for (int i = 0; i < lay->kind_count; i++)
        bound = tailor_in_max(bound, (double)(lay->kinds[i].high.x - lay->kinds[i].low.x));
    return bound * lay->step;
}

double tailor_lay_step_of_grid(const tailor_lay *lay) { return lay && lay->begun ? lay->step : NAN; }
