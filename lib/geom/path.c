/* Paths: arrays of cubics, each beginning where the one before it ends. A place is index + parameter. */
#include <string.h>
#include "kernel.h"

bool tailor_in_path_finite(const tailor_cubic *path, size_t count)
{
    double sum = 0; /* 0 * x is NaN for an infinity or a NaN, and stays so */
    for (size_t i = 0; i < count; i++)
        for (int k = 0; k < 4; k++) sum += 0 * path[i].p[k].x + 0 * path[i].p[k].y;
    return sum == 0;
}

size_t tailor_in_run_boxes(const tailor_cubic *path, size_t count, tailor_in_box boxes[TAILOR_IN_RUNS])
{
    const size_t run = (count + TAILOR_IN_RUNS - 1) / TAILOR_IN_RUNS;
    for (size_t i = 0; i < count; i++) {
        const tailor_in_box box = tailor_in_hull_box(&path[i]);
        tailor_in_box *of = &boxes[i / run];
        *of = i % run ? (tailor_in_box){tailor_in_min(of->x0, box.x0), tailor_in_min(of->y0, box.y0),
                                        tailor_in_max(of->x1, box.x1), tailor_in_max(of->y1, box.y1)}
                      : box;
    }
    return run;
}

double tailor_in_path_size(const tailor_cubic *path, size_t count)
{
    if (count == 0) return 0;
    tailor_in_box all = tailor_in_hull_box(&path[0]);
    for (size_t i = 1; i < count; i++) {
        const tailor_in_box b = tailor_in_hull_box(&path[i]);
        all = (tailor_in_box){tailor_in_min(all.x0, b.x0), tailor_in_min(all.y0, b.y0), tailor_in_max(all.x1, b.x1),
                              tailor_in_max(all.y1, b.y1)};
    }
    return tailor_in_max(all.x1 - all.x0, all.y1 - all.y0);
}

size_t tailor_in_place_split(size_t count, double place, double *t)
{
    if (!(place > 0)) {
        *t = isnan(place) ? NAN : 0;
        return 0;
    }
    if (place >= (double)count) {
        *t = 1;
        return count - 1;
    }
    const size_t i = (size_t)place;
    *t = place - (double)i;
    return i;
}

double tailor_path_length(const tailor_cubic *path, size_t count)
{
    double total = 0;
    for (size_t i = 0; i < count; i++) total += tailor_cubic_length(&path[i]);
    return total;
}

double tailor_path_lengths(const tailor_cubic *path, size_t count, double *lengths)
{
    double total = 0;
    for (size_t i = 0; i < count; i++) {
        lengths[i] = tailor_cubic_length(&path[i]);
        total += lengths[i];
    }
    return total;
}

void tailor_path_bounds(const tailor_cubic *path, size_t count, double box[4])
{
    box[0] = box[1] = box[2] = box[3] = NAN;
    for (size_t i = 0; i < count; i++) {
        double b[4];
        tailor_cubic_bounds(&path[i], b);
        if (i == 0 || isnan(b[0])) {
            memcpy(box, b, sizeof b);
            if (isnan(b[0])) return;
            continue;
        }
        box[0] = tailor_in_min(box[0], b[0]);
        box[1] = tailor_in_min(box[1], b[1]);
        box[2] = tailor_in_max(box[2], b[2]);
        box[3] = tailor_in_max(box[3], b[3]);
    }
}

tailor_point tailor_path_point(const tailor_cubic *path, size_t count, double place)
{
    if (count == 0) return (tailor_point){NAN, NAN};
    double t;
    const size_t i = tailor_in_place_split(count, place, &t);
    return tailor_in_point(&path[i], t);
}

void tailor_path_points(const tailor_cubic *path, size_t count, const double *places, size_t place_count,
                        tailor_point *points)
{
    for (size_t k = 0; k < place_count; k++) points[k] = tailor_path_point(path, count, places[k]);
}

tailor_point tailor_path_direction(const tailor_cubic *path, size_t count, double place)
{
    if (count == 0) return (tailor_point){NAN, NAN};
    double t;
    const size_t i = tailor_in_place_split(count, place, &t);
    return tailor_cubic_direction(&path[i], t);
}

double tailor_path_at_length(const tailor_cubic *path, size_t count, double length)
{
    double place = NAN;
    tailor_path_at_lengths(path, count, &length, 1, &place);
    return place;
}

void tailor_path_at_lengths(const tailor_cubic *path, size_t count, const double *lengths, size_t length_count,
                            double *places)
{
    size_t i = 0; /* the cubic we stand on, where it begins along the path, and its own length */
    double begin = 0, own = count ? tailor_cubic_length(&path[0]) : NAN;
    for (size_t k = 0; k < length_count; k++) {
        const double wanted = lengths[k];
        if (count == 0 || isnan(wanted)) {
            places[k] = NAN;
            continue;
        }
        if (wanted < begin) { /* lengths need not ascend, but are cheaper so */
            i = 0;
            begin = 0;
            own = tailor_cubic_length(&path[0]);
        }
        while (i + 1 < count && wanted >= begin + own) {
            begin += own;
            own = tailor_cubic_length(&path[++i]);
        }
        places[k] = (double)i + tailor_cubic_at_length(&path[i], wanted - begin);
    }
}

double tailor_path_length_to(const tailor_cubic *path, size_t count, double place)
{
    if (count == 0) return isnan(place) ? NAN : 0;
    double t;
    const size_t i = tailor_in_place_split(count, place, &t);
    return tailor_path_length(path, i) + tailor_cubic_length_to(&path[i], t);
}

void tailor_path_reverse(const tailor_cubic *path, size_t count, tailor_cubic *reversed)
{
    for (size_t i = 0, j = count; i < j--; i++) {
        const tailor_cubic a = tailor_cubic_reverse(&path[i]), b = tailor_cubic_reverse(&path[j]);
        reversed[i] = b;
        reversed[j] = a;
    }
}

double tailor_path_gap(const tailor_cubic *path, size_t count, int closed)
{
    double widest = 0;
    for (size_t i = 0; i < count; i++) {
        if (i + 1 == count && !closed) break;
        const double gap = tailor_in_distance(path[i].p[3], path[i + 1 < count ? i + 1 : 0].p[0]);
        if (!(gap <= widest)) widest = gap;
        if (isnan(gap)) return NAN;
    }
    return widest;
}

void tailor_in_weld(tailor_cubic *before, tailor_cubic *after)
{
    const tailor_point middle = tailor_in_mix(before->p[3], after->p[0], 0.5);
    if (tailor_in_same(before->p[3], after->p[0])) return;
    before->p[2] = tailor_in_add(before->p[2], tailor_in_sub(middle, before->p[3]));
    after->p[1] = tailor_in_add(after->p[1], tailor_in_sub(middle, after->p[0]));
    before->p[3] = after->p[0] = middle;
}

tailor_status tailor_path_join(const tailor_cubic *first, size_t first_count, const tailor_cubic *second,
                               size_t second_count, double tolerance, tailor_cubic *joined, size_t capacity)
{
    if ((!first && first_count) || (!second && second_count) || !joined || !(tolerance >= 0))
        return TAILOR_BAD_ARGUMENT;
    if (capacity < first_count + second_count) return TAILOR_TOO_SMALL;
    if (!tailor_in_path_finite(first, first_count) || !tailor_in_path_finite(second, second_count))
        return TAILOR_NOT_FINITE;
    if (first_count && second_count && tailor_in_distance(first[first_count - 1].p[3], second[0].p[0]) > tolerance)
        return TAILOR_NO_SOLUTION;
    if (second_count)
        memmove(joined + first_count, second, second_count * sizeof *joined); /* second may lie in joined */
    if (first_count) memmove(joined, first, first_count * sizeof *joined);
    if (first_count && second_count) tailor_in_weld(&joined[first_count - 1], &joined[first_count]);
    return TAILOR_OK;
}

tailor_status tailor_path_close(tailor_cubic *path, size_t count, double tolerance, size_t capacity,
                                size_t *closed_count)
{
    if (!path || !closed_count || count == 0 || !(tolerance >= 0)) return TAILOR_BAD_ARGUMENT;
    if (!tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    const tailor_point start = path[0].p[0], end = path[count - 1].p[3];
    if (tailor_in_distance(start, end) > tolerance) {
        *closed_count = count + 1;
        if (capacity < count + 1) return TAILOR_TOO_SMALL;
        path[count] = tailor_in_line(end, start);
    } else {
        *closed_count = count;
        if (count > 1)
            tailor_in_weld(&path[count - 1], &path[0]);
        else
            path[0].p[3] = start;
    }
    return TAILOR_OK;
}

tailor_status tailor_path_part(const tailor_cubic *path, size_t count, double from, double to, tailor_cubic *part,
                               size_t capacity, size_t *part_count)
{
    if (!path || !part_count || count == 0 || (!part && capacity)) return TAILOR_BAD_ARGUMENT;
    if (isnan(from) || isnan(to) || !tailor_in_path_finite(path, count)) return TAILOR_NOT_FINITE;
    const double end = (double)count;
    from = tailor_in_max(0, tailor_in_min(from, end));
    to = tailor_in_max(0, tailor_in_min(to, end));
    if (from > to) { /* through the closing joint */
        if (tailor_in_distance(path[count - 1].p[3], path[0].p[0]) > 1e-9 * tailor_in_path_size(path, count))
            return TAILOR_BAD_ARGUMENT;
        if (from == end) from = 0;
        if (to == 0) to = end;
        if (from == 0 && to == end) return TAILOR_DEGENERATE;
    }
    if (from == to) return TAILOR_DEGENERATE;
    double t0, t1;
    const size_t i = tailor_in_place_split(count, from, &t0);
    size_t j = tailor_in_place_split(count, to, &t1);
    if (t1 == 0) { /* a joint ends the cubic before it */
        j--;
        t1 = 1;
    }
    const size_t needed = from < to ? j - i + 1 : count - i + j + 1;
    *part_count = needed;
    if (!part) return TAILOR_OK;
    if (capacity < needed) return TAILOR_TOO_SMALL;
    for (size_t k = 0; k < needed; k++) {
        const double a = k == 0 ? t0 : 0, b = k + 1 == needed ? t1 : 1;
        const tailor_cubic *c = &path[(i + k) % count];
        part[k] = a == 0 && b == 1 ? *c : tailor_cubic_part(c, a, b);
    }
    return TAILOR_OK;
}
