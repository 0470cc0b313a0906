/* Lays of anybody's shapes: whatever is taken is laid without overlap, whatever is refused leaves nothing behind. */
#include <tailorgeom/lay.h>
#include "bytes.h"

static void look_at(const tailor_lay *lay)
{
    const int places = tailor_lay_place_count(lay);
    for (int i = 0; i < places && i < 4; i++) {
        tailor_point at, points[8];
        int shape, mirrored, turned;
        size_t needed = 0;
        double matrix[6];
        check(tailor_lay_place(lay, i, &shape, &mirrored, &turned, &at) == TAILOR_OK);
        check(tailor_lay_matrix(lay, i, matrix) == TAILOR_OK && matrix[4] == at.x);
        check(tailor_lay_polygon(lay, i, NULL, 0, &needed) == TAILOR_OK && needed >= 3);
        (void)tailor_lay_polygon(lay, i, points, 8, &needed);
    }
    check(tailor_lay_overlap_free(lay, NULL, NULL, NAN, NULL) == TAILOR_OK);
    check(tailor_lay_length(lay) > 0 && tailor_lay_area(lay) > 0 && tailor_lay_yield(lay) < 1.001);
    check(tailor_lay_length_bound(lay) < 1.001 * tailor_lay_length(lay) && tailor_lay_step_of_grid(lay) > 0);
}

/* A polygon with a corner on each of a few rays, which crosses itself nowhere; radii down to nothing make slivers. */
static size_t star(bytes *b, tailor_cubic *path, size_t room)
{
    const size_t count = 3 + bytes_small(b) % (room - 2);
    tailor_point first = { 0, 0 }, from = { 0, 0 };
    for (size_t i = 0; i <= count; i++) {
        const double angle = 6.28 * (double)i / (double)count, radius = 300.0 / (1 + bytes_small(b) % 64);
        const tailor_point to = i == count ? first : (tailor_point){ radius * cos(angle), radius * sin(angle) };
        if (i == 0)
            first = to;
        else
            path[i - 1] = tailor_cubic_line(from, to);
        from = to;
    }
    if (bytes_small(b) % 2)
        path[0].p[1] = path[1].p[3]; /* and a curve */
    return count;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = { data, size };
    tailor_lay *lay = NULL;
    tailor_fault fault;
    static const double tolerances[4] = { 0, 0.25, 2, 50 };
    const double width = bytes_small(&b) % 4 ? 500 : fabs(bytes_number(&b));
    const double gap = bytes_small(&b) % 4 ? 0 : bytes_number(&b);
    if (tailor_lay_new(width, gap, tolerances[bytes_small(&b) % 4], bytes_small(&b) % 2, NULL, &lay, &fault)
        != TAILOR_OK) {
        check(lay == NULL);
        return 0;
    }
    for (int shapes = (int)(bytes_small(&b) % 3); shapes >= 0; shapes--) {
        tailor_cubic path[8];
        const int rays = bytes_small(&b) % 4 != 0;
        const size_t count = rays ? star(&b, path, 8) : bytes_path(&b, path, 8);
        if (!rays && bytes_small(&b) % 2)
            for (size_t i = 0; i < count; i++)
                path[i] = tailor_cubic_line(path[i].p[0], path[i].p[3]);
        const unsigned how = bytes_small(&b);
        (void)tailor_lay_add(lay, path, count, how % 3 ? bytes_number(&b) : 45, how % 5 != 0, (int)(how % 4),
                             (int)(how / 4 % 4), &fault);
    }
    if (tailor_lay_begin(lay, size, &fault) == TAILOR_OK) {
        look_at(lay);
        check(tailor_lay_step(lay, 3) == TAILOR_OK && tailor_lay_iterations(lay) == 3);
        look_at(lay);
    } else {
        check(tailor_lay_place_count(lay) == 0 && fault.sentence[0] != 0);
    }
    tailor_lay_free(lay);
    return 0;
}
