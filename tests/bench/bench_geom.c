/* The curve kernels against the same work of GEOS (its C API) and cairo on the same outline, in one run.
 *
 *     cc -O3 ... bench_geom.c -lgeos_c $(pkg-config --cflags --libs cairo)        Usage: bench_geom [repeats]
 *
 * Each row is the least of some repeats. A peer row gives its time as a multiple of ours. Mind that the peers work on
 * polygons of 512 points where geom keeps curves: the ratio is a gain of design, not of better code. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <cairo.h>
#include <geos_c.h>
#include <tailorgeom/geom.h>

enum { SIDES = 8, CURVES = 256, ROOM = 256, POLYGON = 512 };

/* A forepart-like outline of eight cubics. */
static const tailor_cubic outline[SIDES] = {
    {{{0, 0}, {120, -8}, {240, -12}, {330, -20}}},      {{{330, -20}, {380, -18}, {392, 40}, {390, 140}}},
    {{{390, 140}, {388, 260}, {392, 380}, {386, 470}}}, {{{386, 470}, {384, 520}, {370, 600}, {330, 660}}},
    {{{330, 660}, {300, 650}, {270, 640}, {240, 690}}}, {{{240, 690}, {190, 680}, {130, 665}, {90, 660}}},
    {{{90, 660}, {110, 560}, {60, 500}, {10, 470}}},    {{{10, 470}, {30, 300}, {-20, 150}, {0, 0}}},
};
static tailor_cubic curve[CURVES];
static tailor_cubic made[ROOM];
static tailor_point flat[1 << 14], polygon[POLYGON + 1];
static double ten[SIDES];
static GEOSGeometry *ring, *outline_polygon, *other_ring;
static cairo_t *cairo;
static volatile double sink;

static double now(void)
{
    struct timespec t;
    timespec_get(&t, TIME_UTC);
    return 1e9 * (double)t.tv_sec + (double)t.tv_nsec;
}

/* ---- ours: each does its work once and returns how many times that is */

static int lengths(void)
{
    double sum = 0;
    for (int i = 0; i < CURVES; i++) sum += tailor_cubic_length(&curve[i]);
    sink = sum;
    return CURVES;
}

static int inverses(void)
{
    double sum = 0;
    for (int i = 0; i < CURVES; i++) sum += tailor_cubic_at_length(&curve[i], 97 + 0.5 * i);
    sink = sum;
    return CURVES;
}

static int areas(void)
{
    double sum = 0;
    for (int i = 0; i < 100; i++) sum += tailor_path_area(outline, SIDES);
    sink = sum;
    return 100;
}

static int offset(int corner, double tolerance)
{
    size_t needed = 0;
    if (tailor_outline_offset(outline, SIDES, ten, corner, 4, tolerance, made, ROOM, &needed) != TAILOR_OK) abort();
    sink = (double)needed;
    return 1;
}

static int offset_mitre(void) { return offset(TAILOR_CORNER_MITRE, 0.01); }
static int offset_round(void) { return offset(TAILOR_CORNER_ROUND, 0.01); }

static int edge_offset(void)
{
    size_t needed = 0;
    if (tailor_path_offset(&outline[7], 1, 10, 0.01, made, ROOM, &needed) != TAILOR_OK) abort();
    return 1;
}

static int flatten(void)
{
    size_t needed = 0;
    if (tailor_path_flatten(outline, SIDES, 0.01, flat, 1 << 14, &needed) != TAILOR_OK) abort();
    sink = (double)needed;
    return 1;
}

static tailor_point somewhere(int i) { return (tailor_point){(i * 37) % 420 - 10, (i * 101) % 720 - 20}; }

static int nearest(void)
{
    double sum = 0, distance;
    for (int i = 0; i < 100; i++) {
        tailor_path_nearest(outline, SIDES, somewhere(i), &distance);
        sum += distance;
    }
    sink = sum;
    return 100;
}

static int line_crossings(void)
{
    double places[16];
    size_t found = 0, sum = 0;
    for (int i = 0; i < 100; i++) {
        if (tailor_path_cross_line(outline, SIDES, somewhere(i), somewhere(i + 1), places, 16, &found) != TAILOR_OK)
            abort();
        sum += found;
    }
    sink = (double)sum;
    return 100;
}

static int curve_crossings(void)
{
    static const tailor_cubic a = {{{0, 0}, {100, 100}, {200, 100}, {300, 0}}},
                              b = {{{0, 50}, {100, 70}, {200, 20}, {300, 50}}};
    double p[9], q[9];
    size_t found = 0;
    for (int i = 0; i < 20; i++)
        if (tailor_path_cross_path(&a, 1, &b, 1, 1e-9, p, q, 9, &found) != TAILOR_OK || found != 2) abort();
    return 20;
}

static int outline_crossings(void)
{
    static const double move[6] = {0.8, 0.1, -0.1, 0.9, 60, 40};
    tailor_cubic moved[SIDES];
    double p[64], q[64];
    size_t found = 0;
    tailor_path_affine(outline, SIDES, move, moved);
    if (tailor_path_cross_path(outline, SIDES, moved, SIDES, 1e-9, p, q, 64, &found) != TAILOR_OK || found == 0)
        abort();
    return 1;
}

static int crosses_itself(void)
{
    int answer = 0;
    if (tailor_path_crosses_itself(outline, SIDES, 1e-6, &answer, NULL) != TAILOR_OK || answer) abort();
    return 1;
}

static int winding(void)
{
    int sum = 0;
    for (int i = 0; i < 100; i++) sum += tailor_path_winding(outline, SIDES, somewhere(i));
    sink = sum;
    return 100;
}

/* ---- peers */

static GEOSGeometry *geos_ring(const tailor_point *at, size_t count)
{
    GEOSCoordSequence *s = GEOSCoordSeq_create((unsigned)count + 1, 2);
    for (size_t i = 0; i <= count; i++) GEOSCoordSeq_setXY(s, (unsigned)i, at[i % count].x, at[i % count].y);
    return GEOSGeom_createLinearRing(s);
}

static int geos_length(void)
{
    double length = 0;
    for (int i = 0; i < 100; i++) GEOSLength(ring, &length);
    sink = length;
    return 100 * SIDES; /* a cubic of the outline is its eighth part: 64 points */
}

static int geos_area(void)
{
    double area = 0;
    for (int i = 0; i < 100; i++) GEOSArea(outline_polygon, &area);
    sink = area;
    return 100;
}

static int geos_buffer(int join)
{
    GEOSGeometry *g = GEOSBufferWithStyle(outline_polygon, 10, 16, GEOSBUF_CAP_ROUND, join, 4);
    if (!g) abort();
    GEOSGeom_destroy(g);
    return 1;
}

static int geos_mitre(void) { return geos_buffer(GEOSBUF_JOIN_MITRE); }
static int geos_round(void) { return geos_buffer(GEOSBUF_JOIN_ROUND); }

static GEOSGeometry *geos_point(tailor_point p)
{
    GEOSCoordSequence *s = GEOSCoordSeq_create(1, 2);
    GEOSCoordSeq_setXY(s, 0, p.x, p.y);
    return GEOSGeom_createPoint(s);
}

static int geos_distance(void)
{
    double sum = 0, distance;
    for (int i = 0; i < 20; i++) {
        GEOSGeometry *p = geos_point(somewhere(i));
        GEOSDistance(ring, p, &distance);
        sum += distance;
        GEOSGeom_destroy(p);
    }
    sink = sum;
    return 20;
}

static int geos_contains(void)
{
    int sum = 0;
    for (int i = 0; i < 20; i++) {
        GEOSGeometry *p = geos_point(somewhere(i));
        sum += GEOSContains(outline_polygon, p);
        GEOSGeom_destroy(p);
    }
    sink = sum;
    return 20;
}

static int geos_line(void)
{
    for (int i = 0; i < 20; i++) {
        GEOSCoordSequence *s = GEOSCoordSeq_create(2, 2);
        GEOSCoordSeq_setXY(s, 0, somewhere(i).x, somewhere(i).y);
        GEOSCoordSeq_setXY(s, 1, somewhere(i + 1).x, somewhere(i + 1).y);
        GEOSGeometry *line = GEOSGeom_createLineString(s), *met = GEOSIntersection(ring, line);
        GEOSGeom_destroy(met);
        GEOSGeom_destroy(line);
    }
    return 20;
}

static int geos_rings(void)
{
    GEOSGeometry *met = GEOSIntersection(ring, other_ring);
    GEOSGeom_destroy(met);
    return 1;
}

static int geos_valid(void)
{
    if (!GEOSisValid(outline_polygon)) abort();
    return 1;
}

static int cairo_flatten(void)
{
    cairo_path_t *path;
    cairo_new_path(cairo);
    cairo_move_to(cairo, outline[0].p[0].x, outline[0].p[0].y);
    for (int i = 0; i < SIDES; i++)
        cairo_curve_to(cairo, outline[i].p[1].x, outline[i].p[1].y, outline[i].p[2].x, outline[i].p[2].y,
                       outline[i].p[3].x, outline[i].p[3].y);
    path = cairo_copy_path_flat(cairo);
    sink = path->num_data;
    cairo_path_destroy(path);
    return 1;
}

static double nanoseconds(int (*work)(void), int repeats)
{
    double least = INFINITY;
    for (int i = 0; i < repeats; i++) {
        const double begin = now();
        int times = 0, n = 0;
        do times += work();
        while (++n < 20);
        least = fmin(least, (now() - begin) / times);
    }
    return least;
}

static void quiet(const char *format, ...) { (void)format; }

static void set_up(void)
{
    unsigned state = 1;
    double random[4];
    for (int i = 0; i < CURVES; i++) { /* seams that bow by up to a fifth */
        for (int k = 0; k < 4; k++) random[k] = (double)((state = state * 1664525u + 1013904223u) >> 8) / 16777216.0;
        const double bow = (random[0] - 0.5) * 120;
        curve[i] =
            (tailor_cubic){{{0, 0}, {100 + 20 * random[1], bow}, {200 + 20 * random[2], bow * random[3]}, {300, 10}}};
    }
    for (int i = 0; i < SIDES; i++) ten[i] = 10;
    for (int i = 0; i <= POLYGON; i++) polygon[i] = tailor_path_point(outline, SIDES, (double)i * SIDES / POLYGON);
    initGEOS(quiet, quiet);
    ring = geos_ring(polygon, POLYGON);
    outline_polygon = GEOSGeom_createPolygon(geos_ring(polygon, POLYGON), NULL, 0);
    const double move[6] = {0.8, 0.1, -0.1, 0.9, 60, 40};
    tailor_points_affine(polygon, POLYGON + 1, move, polygon);
    other_ring = geos_ring(polygon, POLYGON);
    cairo_surface_t *surface = cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1);
    cairo = cairo_create(surface);
    cairo_surface_destroy(surface);
    cairo_set_tolerance(cairo, 0.01);
}

int main(int argc, char **argv)
{
    static const struct {
        const char *what, *peer;
        int (*ours)(void), (*theirs)(void);
    } rows[] = {
        {"length of a cubic, to 1e-9 mm", "GEOS, 64 chords", lengths, geos_length},
        {"parameter at a length", NULL, inverses, NULL},
        {"area of the outline", "GEOS, 512 points", areas, geos_area},
        {"offset 10 mm, mitred, to 0.01 mm", "GEOS, 512 points", offset_mitre, geos_mitre},
        {"offset 10 mm, rounded, to 0.01 mm", "GEOS, 512 points", offset_round, geos_round},
        {"offset of one edge, to 0.01 mm", NULL, edge_offset, NULL},
        {"flatten to 0.01 mm", "cairo", flatten, cairo_flatten},
        {"nearest point of the outline", "GEOS, 512 points", nearest, geos_distance},
        {"point inside?", "GEOS, 512 points", winding, geos_contains},
        {"line x outline", "GEOS, 512 points", line_crossings, geos_line},
        {"cubic x cubic, two crossings", NULL, curve_crossings, NULL},
        {"outline x outline", "GEOS, 512 points", outline_crossings, geos_rings},
        {"crosses itself?", "GEOS, 512 points", crosses_itself, geos_valid},
    };
    const int repeats = argc > 1 ? atoi(argv[1]) : 50;
    set_up();
    printf("%-36s %12s   %-18s %12s %8s\n", "", "ours, ns", "peer", "peer, ns", "ratio");
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double ours = nanoseconds(rows[i].ours, repeats);
        if (!rows[i].theirs) {
            printf("%-36s %12.1f\n", rows[i].what, ours);
            continue;
        }
        const double theirs = nanoseconds(rows[i].theirs, repeats);
        printf("%-36s %12.1f   %-18s %12.1f %8.1f\n", rows[i].what, ours, rows[i].peer, theirs, theirs / ours);
    }
    size_t corners[2] = {0, 0};
    tailor_outline_offset(outline, SIDES, ten, TAILOR_CORNER_ROUND, 4, 0.01, NULL, 0, &corners[0]);
    tailor_path_flatten(outline, SIDES, 0.01, NULL, 0, &corners[1]);
    printf("the rounded offset has %zu cubics, the flat outline %zu points\n", corners[0], corners[1]);
    GEOSGeom_destroy(ring);
    GEOSGeom_destroy(other_ring);
    GEOSGeom_destroy(outline_polygon);
    cairo_destroy(cairo);
    finishGEOS();
    return 0;
}
