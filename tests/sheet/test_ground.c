/* The ground in which labels look for room. What is inside is asked of GEOS, which knows nothing of cells. */
#include "../base/near.h"
#include "../../lib/sheet/layout/ground.h"

#include <geos_c.h>
#include <stdlib.h>

static void *take(void *user, size_t bytes)
{
    (void)user;
    return malloc(bytes);
}
static void give_back(void *user, void *memory)
{
    (void)user;
    free(memory);
}
static const tailor_allocator heap = {take, give_back, NULL};
static const double as_it_is[6] = {1, 0, 0, 1, 0, 0};

/* A figure with hollows, like a forepart: corners on the page. */
static const tailor_point corners[] = {{20, 20},  {60, 30},   {75, 80},   {140, 90}, {150, 25},
                                       {180, 30}, {170, 170}, {100, 130}, {25, 165}};
enum { CORNERS = sizeof corners / sizeof *corners };

static void outline(tailor_cubic path[CORNERS])
{
    for (int i = 0; i < CORNERS; i++)
        path[i] = tailor_cubic_line(corners[i], corners[(i + 1) % CORNERS]);
}

static GEOSGeometry *ring_of(const tailor_point *p, int count)
{
    GEOSCoordSequence *places = GEOSCoordSeq_create((unsigned)count + 1, 2);
    for (int i = 0; i <= count; i++) {
        GEOSCoordSeq_setX(places, (unsigned)i, p[i % count].x);
        GEOSCoordSeq_setY(places, (unsigned)i, p[i % count].y);
    }
    return GEOSGeom_createPolygon(GEOSGeom_createLinearRing(places), NULL, 0);
}

static GEOSGeometry *ring_of_box(struct tailor_in_box box)
{
    const double turn = box.angle * acos(-1) / 180, c = cos(turn), s = sin(turn);
    tailor_point p[4];
    for (int i = 0; i < 4; i++) {
        const double x = (i == 1 || i == 2 ? 0.5 : -0.5) * box.width, y = (i > 1 ? 0.5 : -0.5) * box.height;
        p[i] = (tailor_point){box.middle.x + c * x - s * y, box.middle.y + s * x + c * y};
    }
    return ring_of(p, 4);
}

static void free_boxes_lie_inside(void **state)
{
    struct tailor_in_ground ground;
    tailor_cubic path[CORNERS];
    uint64_t seed = 7;
    int inside = 0, outside = 0;
    (void)state;
    outline(path);
    assert_true(tailor_in_ground_begin(&ground, &heap, 200, 200));
    tailor_in_ground_inside(&ground, as_it_is, path, CORNERS);
    GEOSGeometry *figure = ring_of(corners, CORNERS), *core = GEOSBuffer(figure, -6, 8),
                 *wide = GEOSBuffer(figure, 6, 8);
    for (int i = 0; i < 4000; i++) {
        struct tailor_in_box box = {{200 * next_random(&seed), 200 * next_random(&seed)},
                                    4 + 30 * next_random(&seed),
                                    3 + 8 * next_random(&seed),
                                    360 * next_random(&seed) - 180};
        GEOSGeometry *ring = ring_of_box(box);
        const int in = tailor_in_ground_free_box(&ground, box, 0);
        const int out = tailor_in_ground_free_box(&ground, box, TAILOR_IN_OUTSIDE);
        assert_false(in && out);
        if (in)
            assert_true(GEOSContains(figure, ring));
        if (out)
            assert_false(GEOSIntersects(figure, ring));
        if (GEOSContains(core, ring)) /* well inside it must be found free, and well outside too */
            assert_true(in);
        if (GEOSDisjoint(wide, ring) && box.middle.x > 20 && box.middle.x < 180 && box.middle.y > 20 &&
            box.middle.y < 180)
            assert_true(out);
        inside += in;
        outside += out;
        GEOSGeom_destroy(ring);
    }
    assert_true(inside > 300 && outside > 300);
    GEOSGeom_destroy(figure);
    GEOSGeom_destroy(core);
    GEOSGeom_destroy(wide);
    tailor_in_ground_end(&ground, &heap);
}

static void found_room_is_free_and_is_taken_once(void **state)
{
    struct tailor_in_ground ground;
    tailor_cubic path[CORNERS];
    GEOSGeometry *figure = ring_of(corners, CORNERS), *placed[64];
    int count = 0;
    (void)state;
    outline(path);
    assert_true(tailor_in_ground_begin(&ground, &heap, 200, 200));
    tailor_in_ground_inside(&ground, as_it_is, path, CORNERS);
    for (; count < 64; count++) { /* until it is full */
        struct tailor_in_box box = {{100, 100}, 26, 9, 0};
        const int found =
            count % 2 ? tailor_in_ground_near(&ground, &box, 120, 0)
                      : tailor_in_ground_roomiest(&ground, &box, (tailor_point){0, 0}, (tailor_point){200, 200});
        if (!found)
            break;
        tailor_in_ground_take_box(&ground, box);
        placed[count] = ring_of_box(box);
        assert_true(GEOSContains(figure, placed[count]));
        for (int i = 0; i < count; i++)
            assert_false(GEOSOverlaps(placed[i], placed[count]));
    }
    assert_true(count > 15 && count < 64);
    for (int i = 0; i < count; i++)
        GEOSGeom_destroy(placed[i]);
    GEOSGeom_destroy(figure);
    tailor_in_ground_end(&ground, &heap);
}

static void a_taken_line_is_kept_clear(void **state)
{
    struct tailor_in_ground ground;
    tailor_cubic path[CORNERS];
    const tailor_cubic line = tailor_cubic_line((tailor_point){30, 100}, (tailor_point){170, 110});
    struct tailor_in_box across = {{100, 105}, 20, 6, 0}, far_off = {{50, 70}, 14, 6, 0}, beyond = {{250, 50}, 5, 5, 0};
    (void)state;
    outline(path);
    assert_true(tailor_in_ground_begin(&ground, &heap, 200, 200));
    tailor_in_ground_inside(&ground, as_it_is, path, CORNERS);
    assert_true(tailor_in_ground_free_box(&ground, across, 0));
    tailor_in_ground_take(&ground, as_it_is, &line, 1, 1);
    assert_false(tailor_in_ground_free_box(&ground, across, 0));
    assert_true(tailor_in_ground_free_box(&ground, far_off, 0));
    assert_false(tailor_in_ground_free_box(&ground, beyond, TAILOR_IN_OUTSIDE));
    tailor_in_ground_end(&ground, &heap);
}

/** How far off a place is, as tailor_in_ground_near() sees it. */
static double off(struct tailor_in_box box, tailor_point wish, double *cost)
{
    const double x = fabs(box.middle.x - wish.x), y = fabs(box.middle.y - wish.y);
    const double nearest = hypot(fmax(x - box.width / 2, 0), fmax(y - box.height / 2, 0));
    *cost = nearest + 0.1 * hypot(x, y);
    return nearest;
}

/* Every place one cell from the next is tried by itself: none that is free is nearer than the one found. */
static void the_nearest_is_found(void **state)
{
    uint64_t seed = 11;
    int found = 0, missed = 0;
    (void)state;
    for (int i = 0; i < 300; i++) {
        struct tailor_in_ground ground;
        tailor_cubic path[CORNERS];
        outline(path);
        assert_true(tailor_in_ground_begin(&ground, &heap, 200, 200));
        tailor_in_ground_inside(&ground, as_it_is, path, CORNERS);
        for (int k = 0; k < 25; k++)
            tailor_in_ground_take_box(&ground,
                                      (struct tailor_in_box){{200 * next_random(&seed), 200 * next_random(&seed)},
                                                             20 * next_random(&seed),
                                                             10,
                                                             90 * next_random(&seed)});
        const tailor_point wish = {200 * next_random(&seed), 200 * next_random(&seed)};
        const double reach = 40 * next_random(&seed);
        const int where = i % 2 ? TAILOR_IN_OUTSIDE : TAILOR_IN_INSIDE;
        struct tailor_in_box box = {wish, 2 + 200 * next_random(&seed) * next_random(&seed),
                                    2 + 12 * next_random(&seed), 0};
        double best = INFINITY, cost;
        for (int row = -90; row <= 90; row++)
            for (int column = -90; column <= 90; column++) {
                struct tailor_in_box there = box;
                there.middle = (tailor_point){wish.x + column * ground.cell, wish.y + row * ground.cell};
                if (off(there, wish, &cost) <= reach && cost < best && tailor_in_ground_free_box(&ground, there, where))
                    best = cost;
            }
        if (tailor_in_ground_near(&ground, &box, reach, where)) {
            assert_true(off(box, wish, &cost) <= reach && fabs(cost - best) < 1e-6);
            assert_true(tailor_in_ground_free_box(&ground, box, where));
            found++;
        } else {
            assert_true(isinf(best));
            missed++;
        }
        tailor_in_ground_end(&ground, &heap);
    }
    assert_true(found > 100 && missed > 20);
}

/** Whether a box is free at one of the angles anywhere on the cells' corners, or in their middles. */
static int free_anywhere(const struct tailor_in_ground *g, struct tailor_in_box box, double aside)
{
    static const double angles[] = {-90, -75, -60, -45, 45, 60, 75};
    for (int k = 0; k < 7; k++)
        for (int row = 0; row < g->rows; row++)
            for (int column = 0; column < g->columns; column++) {
                box.angle = angles[k];
                box.middle = (tailor_point){(column + aside) * g->cell, (row + aside) * g->cell};
                if (tailor_in_ground_free_box(g, box, TAILOR_IN_INSIDE))
                    return 1;
            }
    return 0;
}

/* The same for boxes that may be turned; and the roomiest place, level and upright, is a free one. */
static void turned_boxes_find_their_place(void **state)
{
    const tailor_point low = {0, 0}, high = {200, 200};
    uint64_t seed = 12;
    int found = 0, missed = 0, roomy = 0;
    (void)state;
    for (int i = 0; i < 120; i++) {
        struct tailor_in_ground ground;
        tailor_cubic path[CORNERS];
        outline(path);
        assert_true(tailor_in_ground_begin(&ground, &heap, 200, 200));
        tailor_in_ground_inside(&ground, as_it_is, path, CORNERS);
        const struct tailor_in_box asked = {{100, 90}, 15 + 110 * next_random(&seed), 4 + 40 * next_random(&seed), 0};
        struct tailor_in_box box = asked;
        const int corners_free = free_anywhere(&ground, asked, 0), middles_free = free_anywhere(&ground, asked, 0.5);
        const int slanting = tailor_in_ground_slanting(&ground, &box, low, high);
        if (slanting)
            assert_true(tailor_in_ground_free_box(&ground, box, TAILOR_IN_INSIDE));
        assert_true(slanting ? corners_free || middles_free : !(corners_free && middles_free));
        found += slanting;
        missed += !slanting;
        for (int upright = 0; upright < 2; upright++) {
            box = asked;
            box.angle = -90 * upright;
            if (!tailor_in_ground_roomiest(&ground, &box, low, high))
                continue;
            assert_true(tailor_in_ground_free_box(&ground, box, TAILOR_IN_INSIDE));
            roomy++;
        }
        tailor_in_ground_end(&ground, &heap);
    }
    assert_true(found > 30 && missed > 10 && roomy > 40);
}

static int begin_geos(void **state)
{
    (void)state;
    initGEOS(NULL, NULL);
    return 0;
}

static int end_geos(void **state)
{
    (void)state;
    finishGEOS();
    return 0;
}

int test_ground(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(free_boxes_lie_inside),         cmocka_unit_test(found_room_is_free_and_is_taken_once),
        cmocka_unit_test(a_taken_line_is_kept_clear),    cmocka_unit_test(the_nearest_is_found),
        cmocka_unit_test(turned_boxes_find_their_place),
    };
    return cmocka_run_group_tests(tests, begin_geos, end_geos);
}
