/* Every geometric function on points and paths of any kind, degenerate and not finite ones too: each comes back, stays
 * within the caller's arrays, and keeps its plainest promises. */
#include "bytes.h"

enum { CUBICS = 6, ROOM = 600 };

static tailor_cubic made[ROOM], path[CUBICS], other[CUBICS];
static tailor_point flat[ROOM];

static void curves(bytes *b)
{
    tailor_cubic first, second;
    double box[4], t = bytes_small(b) / 255.0, u = bytes_small(b) / 255.0, distance = 0;
    tailor_point from = bytes_point(b);
    tailor_cubic c = path[0];
    (void)tailor_cubic_point(&c, t);
    (void)tailor_cubic_derivative(&c, t);
    (void)tailor_cubic_direction(&c, t);
    (void)tailor_cubic_curvature(&c, t);
    tailor_cubic_split(&c, t, &first, &second);
    (void)tailor_cubic_part(&c, t, u);
    (void)tailor_cubic_reverse(&c);
    tailor_cubic_bounds(&c, box);
    check(!(box[0] > box[2]) && !(box[1] > box[3]));
    double length = tailor_cubic_length(&c);
    check(!(length < 0));
    check(!(tailor_cubic_length_to(&c, t) < 0));
    double at = tailor_cubic_at_length(&c, t * length);
    check(!(at < 0) && !(at > 1));
    at = tailor_cubic_nearest(&c, from, &distance);
    check(!(at < 0) && !(at > 1) && !(distance < 0));
    (void)tailor_cubic_line(c.p[0], from);
    (void)tailor_cubic_hermite(c.p[0], c.p[1], from, c.p[2]);
    (void)tailor_cubic_arc(from, bytes_number(b), bytes_number(b), bytes_number(b));
}

static void along(bytes *b, size_t count)
{
    double box[4], distance = 0, place = bytes_number(b);
    tailor_point from = bytes_point(b), centre;
    double length = tailor_path_length(path, count);
    check(!(length < 0));
    (void)tailor_path_area(path, count);
    (void)tailor_path_centroid(path, count, &centre);
    tailor_path_bounds(path, count, box);
    (void)tailor_path_point(path, count, place);
    (void)tailor_path_direction(path, count, place);
    (void)tailor_path_length_to(path, count, place);
    double at = tailor_path_at_length(path, count, length * bytes_small(b) / 255);
    check(!(at < 0) && !(at > (double)count));
    at = tailor_path_nearest(path, count, from, &distance);
    check(!(at < 0) && !(at > (double)count) && !(distance < 0));
    (void)tailor_path_winding(path, count, from);
}

/* The array forms answer as the single ones do, bit for bit. */
static int same(double a, double b) { return memcmp(&a, &b, sizeof a) == 0 || (isnan(a) && isnan(b)) || a == b; }

static void arrays(bytes *b, size_t count)
{
    enum { MANY = 5 };
    double places[MANY], at[MANY], distances[MANY], lengths[CUBICS], moments[6], sum = 0, one;
    int windings[MANY];
    tailor_point points[MANY], from[MANY];
    for (int i = 0; i < MANY; i++) {
        places[i] = bytes_number(b) / 1000;
        from[i] = bytes_point(b);
    }
    tailor_cubic_points(path, places, MANY, points);
    for (int i = 0; i < MANY; i++)
        check(same(points[i].x, tailor_cubic_point(path, places[i]).x));
    tailor_path_points(path, count, places, MANY, points);
    tailor_path_at_lengths(path, count, places, MANY, at);
    tailor_path_windings(path, count, from, MANY, windings);
    for (int i = 0; i < MANY; i++) {
        check(same(points[i].y, tailor_path_point(path, count, places[i]).y));
        check(same(at[i], tailor_path_at_length(path, count, places[i])));
        check(windings[i] == tailor_path_winding(path, count, from[i]));
    }
    tailor_path_nearests(path, count, from, MANY, at, distances);
    check(same(at[2], tailor_path_nearest(path, count, from[2], &one)) && same(distances[2], one));
    double whole = tailor_path_lengths(path, count, lengths);
    for (size_t i = 0; i < count; i++)
        sum += lengths[i];
    check(same(whole, sum) || fabs(whole - sum) <= 1e-9 * sum);
    tailor_path_moments(path, count, moments);
}

static void joined(bytes *b, size_t count)
{
    tailor_cubic copy[CUBICS + 1];
    size_t n = bytes_path(b, other, CUBICS), closed = 0;
    double tolerance = bytes_small(b) - 8.0;
    check(!(tailor_path_gap(path, count, 1) < tailor_path_gap(path, count, 0)));
    (void)tailor_path_join(path, count, other, n, tolerance, made, bytes_small(b) % (2 * CUBICS + 1));
    memcpy(copy, path, sizeof path);
    if (tailor_path_close(copy, count, tolerance, CUBICS + 1, &closed) == TAILOR_OK && count > 0)
        check(closed >= count && closed <= count + 1
              && !(tailor_path_gap(copy, closed, 1) > 1e-6 * tailor_path_length(copy, closed)));
}

static void moved(bytes *b, size_t count)
{
    double matrix[6];
    tailor_point line[2] = { bytes_point(b), bytes_point(b) };
    size_t got = 0;
    for (int i = 0; i < 6; i++)
        matrix[i] = bytes_number(b);
    tailor_path_reverse(path, count, made);
    tailor_path_affine(path, count, matrix, made);
    tailor_points_affine(line, 2, matrix, flat);
    tailor_points_reflect(line, 2, path[0].p[0], path[0].p[3], flat);
    (void)tailor_point_reflect(line[0], line[1], matrix[0] > 0 ? line[0] : path[0].p[0]);
    (void)tailor_path_reflect(path, count, line[0], line[1], made);
    (void)tailor_path_part(path, count, bytes_number(b), bytes_number(b), made, ROOM, &got);
    check(got <= ROOM);
}

static void meetings(bytes *b, size_t count)
{
    double places[64], others[64], pair[2];
    size_t found = 0, room = bytes_small(b) % 64, n = bytes_path(b, other, CUBICS);
    int crosses = 0;
    tailor_point line[2] = { bytes_point(b), bytes_point(b) };
    if (tailor_path_cross_line(path, count, line[0], line[1], places, room, &found) == TAILOR_OK)
        for (size_t i = 0; i < found && i < room; i++)
            check(places[i] >= 0 && places[i] <= (double)count && (i == 0 || places[i] >= places[i - 1]));
    found = 0;
    if (tailor_path_cross_path(path, count, other, n, 1e-6, places, others, room, &found) == TAILOR_OK)
        for (size_t i = 0; i < found && i < room; i++)
            check(places[i] >= 0 && places[i] <= (double)count && others[i] >= 0 && others[i] <= (double)n);
    (void)tailor_path_crosses_itself(path, count, 1e-6, &crosses, pair);
}

static void drawn(bytes *b, size_t count)
{
    static const double tolerances[] = { 0.01, 1, 1e-4, 0, -1, INFINITY };
    tailor_point points[CUBICS + 1];
    double distances[CUBICS];
    size_t needed = 0, room = bytes_small(b) * 2u, n = bytes_small(b) % (CUBICS + 2);
    double tolerance = tolerances[bytes_small(b) % 6];
    for (size_t i = 0; i < CUBICS; i++)
        distances[i] = bytes_number(b) / 100;
    for (size_t i = 0; i < CUBICS + 1; i++)
        points[i] = bytes_point(b);
    (void)tailor_path_smooth(points, n, made);
    (void)tailor_path_monotone(points, n, made);
    if (tailor_path_flatten(path, count, tolerance, flat, room, &needed) == TAILOR_OK)
        check(needed <= room);
    if (tailor_path_offset(path, count, distances[0], tolerance, made, room, &needed) == TAILOR_OK)
        check(needed <= room);
    int corner = 1 + (int)bytes_small(b) % 4;
    if (tailor_outline_offset(path, count, distances, corner, 4, tolerance, made, room, &needed) == TAILOR_OK)
        check(needed <= room);
}

/* A closed path's offset is closed, asking tells its true size, and if the path is sound it runs the same way. */
static void outlines(bytes *b, size_t count)
{
    double distances[CUBICS], tolerance = bytes_small(b) % 2 ? 0.01 : 0.5;
    size_t needed = 0, asked = 0;
    int corner = 1 + (int)bytes_small(b) % 3;
    if (count == 0)
        return;
    memcpy(other, path, sizeof path);
    other[count - 1].p[3] = other[0].p[0];
    for (size_t i = 0; i < count; i++)
        distances[i] = i > 0 && bytes_small(b) % 4 ? distances[i - 1] : bytes_number(b) / 1000;
    const double limit = 1 + bytes_small(b) / 16.0;
    if (tailor_outline_offset(other, count, distances, corner, limit, tolerance, made, ROOM, &needed) != TAILOR_OK)
        return;
    check(needed <= ROOM);
    check(tailor_outline_offset(other, count, distances, corner, limit, tolerance, NULL, 0, &asked) == TAILOR_OK);
    check(asked == needed);
    check(needed == 0 || tailor_path_gap(made, needed, 1) == 0);
    int crosses = 1;
    if (tailor_path_crosses_itself(other, count, 1e-6, &crosses, NULL) == TAILOR_OK && crosses == 0)
        check(needed == 0 || tailor_path_area(made, needed) * tailor_path_area(other, count) > 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = { data, size };
    memset(path, 0, sizeof path);
    size_t count = bytes_path(&b, path, CUBICS);
    curves(&b);
    along(&b, count);
    arrays(&b, count);
    joined(&b, count);
    moved(&b, count);
    meetings(&b, count);
    drawn(&b, count);
    outlines(&b, count);
    return 0;
}

#ifdef TAILOR_FUZZ_ALONE
/* Without a fuzzer, as under gcc with its sanitizers: so many inputs of pseudo-random bytes. Usage: [inputs [seed]] */
int main(int argc, char **argv)
{
    static uint8_t data[1024];
    unsigned long inputs = argc > 1 ? strtoul(argv[1], NULL, 10) : 10000;
    uint64_t state = argc > 2 ? strtoul(argv[2], NULL, 10) : 1;
    for (unsigned long i = 0; i < inputs; i++) {
        size_t size = 0;
        do {
            state = state * 6364136223846793005u + 1442695040888963407u; /* Knuth's MMIX generator */
            data[size] = (uint8_t)(state >> 56);
            if (size % 2 == 0 && data[size] < 8 && state >> 40 & 7)
                data[size] |= 128; /* numbers of a pattern's size more often than any double at all */
        } while (++size < sizeof data);
        LLVMFuzzerTestOneInput(data, 64 + (size_t)(state >> 32) % (sizeof data - 64));
    }
    printf("%lu inputs\n", inputs);
    return 0;
}
#endif
