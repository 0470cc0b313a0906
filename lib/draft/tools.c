/* What every step of the draft uses: paths in work, and a root finder. */
#include "draft.h"

#include "../base/fault.h"

double tailor_in_place_on_seam(const tailor_in_path *path, double level)
{
    size_t i = 0;
    while (i + 1 < path->count && path->c[i].p[3].y > level)
        i++;
    const tailor_cubic *c = &path->c[i];
    /* tailor_path_monotone puts the handles at thirds of the height, so y is linear in the parameter */
    return (double)i + (level - c->p[0].y) / (c->p[3].y - c->p[0].y);
}

double tailor_in_x_at(const tailor_in_path *path, double level)
{
    double place = tailor_in_place_on_seam(path, level);
    size_t i = place < 0 ? 0 : place >= (double)path->count ? path->count - 1 : (size_t)place;
    return tailor_in_point(&path->c[i], place - (double)i).x;
}

double tailor_in_length(const tailor_in_path *path) { return tailor_path_length(path->c, path->count); }

void tailor_in_append(tailor_in_path *path, tailor_cubic c)
{
    if (path->count < TAILOR_IN_PATH)
        path->c[path->count++] = c;
}

tailor_in_path tailor_in_reversed(const tailor_in_path *path)
{
    tailor_in_path reversed = {path->count, {{{{0, 0}}}}};
    tailor_path_reverse(path->c, path->count, reversed.c);
    return reversed;
}

tailor_in_path tailor_in_reflected(const tailor_in_path *path, tailor_point a, tailor_point b)
{
    tailor_in_path reflected = {path->count, {{{{0, 0}}}}};
    tailor_path_reflect(path->c, path->count, a, b, reflected.c);
    return reflected;
}

tailor_in_path tailor_in_part(const tailor_in_path *path, double from, double to)
{
    tailor_in_path part = {0, {{{{0, 0}}}}};
    tailor_path_part(path->c, path->count, from, to, part.c, TAILOR_IN_PATH, &part.count);
    return part;
}

double tailor_in_place_at_level(const tailor_in_path *path, double level)
{
    double places[8];
    size_t found = 0;
    tailor_status status =
        tailor_path_cross_line(path->c, path->count, at(0, level), at(1000, level), places, 8, &found);
    return status == TAILOR_OK && found ? places[0] : -1;
}

tailor_point tailor_in_path_start(const tailor_in_path *path) { return path->c[0].p[0]; }
tailor_point tailor_in_path_end(const tailor_in_path *path) { return path->c[path->count - 1].p[3]; }
tailor_point tailor_in_direction_start(const tailor_in_path *path) { return tailor_cubic_direction(&path->c[0], 0); }
tailor_point tailor_in_direction_end(const tailor_in_path *path)
{
    return tailor_cubic_direction(&path->c[path->count - 1], 1);
}

double tailor_in_root(double (*function)(const void *with, double x), const void *with, double low, double high,
                      double tolerance)
{
    double f_low = function(with, low), f_high = function(with, high);
    if (f_low == 0)
        return low;
    if (f_high == 0)
        return high;
    if (!((f_low < 0) != (f_high < 0)))
        return NAN;
    int kept = 0; /* which end stayed in the last step: twice the same halves its weight (Illinois) */
    for (int i = 0; i < 100; i++) {
        double x = (low * f_high - high * f_low) / (f_high - f_low), f = function(with, x);
        if (fabs(f) <= tolerance || fabs(high - low) <= 1e-13 * (fabs(high) + fabs(low)))
            return x;
        if ((f < 0) == (f_low < 0)) {
            low = x;
            f_low = f;
            if (kept == 1)
                f_high *= 0.5;
            kept = 1;
        } else {
            high = x;
            f_high = f;
            if (kept == -1)
                f_low *= 0.5;
            kept = -1;
        }
    }
    return NAN;
}

tailor_status tailor_in_refuse(const tailor_in_draft *d, tailor_status status, int field, const char *sentence)
{
    const tailor_table *table = tailor_field_table();
    return tailor_in_fault(d->fault, status, table, field, d->f[field], tailor_table_low(table, field),
                           tailor_table_high(table, field), sentence);
}
