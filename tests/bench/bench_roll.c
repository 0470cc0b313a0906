/* What the mechanics cost. Per order: joining cloth and canvas, the same with the facing, the numbers along the break
 * line, and the estimate of the roll. By itself: the section of a lapel. Beside them, in the same run, peers: the same
 * laminate algebra by general 3 by 3 matrix products and a Gauss inverse, and a section by gradient descent with
 * momentum on the same energy, to the accuracy of a tenth of a millimetre only.
 *
 *     bench_roll [rounds]
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include <tailorgeom/roll.h>

enum { ORDERS = 256, LINKS = TAILOR_ROLLED_LINE_COUNT - 1 };

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e6 + (double)t.tv_nsec * 1e-3;
}

static const double wool[TAILOR_CLOTH_COUNT] = {NAN, 280, 4900, 3300, 50, 0.15, 12, 8, 2.2, 0.6};
static const double hair[TAILOR_CLOTH_COUNT] = {NAN, 200, 8000, 12000, 100, 0.05, 30, 250, 8, 0.5};

static double sum; /* so that nothing is left out */

static void one_order(int i)
{
    double cloths[3][TAILOR_CLOTH_COUNT], front[TAILOR_LAYERS_COUNT], lapel[TAILOR_LAYERS_COUNT];
    double along[TAILOR_ALONG_COUNT], roll[TAILOR_ROLL_COUNT];
    const double angles[3] = {0, 0.7 * i - 89, 0}, holds[3] = {1, 1, 0};
    const int joints[3] = {TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED, TAILOR_JOINT_PADDED};
    const double making[TAILOR_ROLLING_COUNT] = {NAN, 60 + i % 50, 105, 115, 330, 13.2, 150, i % 10, 1e-6, 1, 1};
    memcpy(cloths[0], wool, sizeof wool);
    memcpy(cloths[1], hair, sizeof hair);
    memcpy(cloths[2], wool, sizeof wool);
    if (tailor_layers_join(cloths[0], 2, TAILOR_CLOTH_COUNT, angles, joints, holds, front, TAILOR_LAYERS_COUNT, NULL) ||
        tailor_layers_join(cloths[0], 3, TAILOR_CLOTH_COUNT, angles, joints, holds, lapel, TAILOR_LAYERS_COUNT, NULL) ||
        tailor_layers_along(lapel, TAILOR_LAYERS_COUNT, 13.2, along, TAILOR_ALONG_COUNT, NULL) ||
        tailor_roll_estimate(making, TAILOR_ROLLING_COUNT, front, TAILOR_LAYERS_COUNT, roll, TAILOR_ROLL_COUNT, NULL))
        abort();
    sum += roll[TAILOR_ROLL_DISTANCE] + along[TAILOR_ALONG_BENDING_LENGTH_ACROSS];
}

/* ---- the peer of the algebra: matrices in general */

static void product(double a[3][3], double b[3][3], double c[3][3])
{
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++) {
            c[i][j] = 0;
            for (int k = 0; k < 3; k++)
                c[i][j] += a[i][k] * b[k][j];
        }
}

static void turned(double m[3][3], double degrees, double out[3][3])
{
    const double c = cos(degrees * 0.017453292519943295), s = sin(degrees * 0.017453292519943295);
    double t[3][3] = {{c * c, s * s, c * s}, {s * s, c * c, -c * s}, {-2 * c * s, 2 * c * s, c * c - s * s}};
    double across[3][3], half[3][3];
    for (int i = 0; i < 3; i++)
        for (int j = 0; j < 3; j++)
            across[i][j] = t[j][i];
    product(m, t, half);
    product(across, half, out);
}

static double inverse_11(double m[3][3])
{
    double a[3][6] = {{0}};
    for (int i = 0; i < 3; i++) {
        memcpy(a[i], m[i], 3 * sizeof(double));
        a[i][3 + i] = 1;
    }
    for (int i = 0; i < 3; i++) {
        const double pivot = a[i][i];
        for (int j = 0; j < 6; j++)
            a[i][j] /= pivot;
        for (int r = 0; r < 3; r++)
            if (r != i) {
                const double factor = a[r][i];
                for (int j = 0; j < 6; j++)
                    a[r][j] -= factor * a[i][j];
            }
    }
    return a[0][3];
}

static void plate(const double *c, double stretch[3][3], double bending[3][3])
{
    const double v = c[TAILOR_CLOTH_CONTRACTION],
                 twin = v * c[TAILOR_CLOTH_STRETCH_WEFT] / c[TAILOR_CLOTH_STRETCH_WARP];
    const double e = c[TAILOR_CLOTH_STRETCH_WARP] / (1 - v * twin), f = c[TAILOR_CLOTH_STRETCH_WEFT] / (1 - v * twin);
    const double s[3][3] = {{e, twin * e, 0}, {twin * e, f, 0}, {0, 0, c[TAILOR_CLOTH_SHEAR]}};
    const double b[3][3] = {
        {c[TAILOR_CLOTH_BENDING_WARP], 0, 0}, {0, c[TAILOR_CLOTH_BENDING_WEFT], 0}, {0, 0, c[TAILOR_CLOTH_TWIST]}};
    memcpy(stretch, s, sizeof s);
    memcpy(bending, b, sizeof b);
}

static void peer_order(int i)
{
    double stretch[2][3][3], bending[2][3][3], a[3][3], b[3][3], line[3][3];
    plate(wool, stretch[0], bending[0]);
    plate(hair, stretch[1], bending[1]);
    turned(stretch[1], 0.7 * i - 89, a);
    turned(bending[1], 0.7 * i - 89, b);
    for (int k = 0; k < 9; k++) {
        a[k / 3][k % 3] += stretch[0][k / 3][k % 3];
        b[k / 3][k % 3] += bending[0][k / 3][k % 3];
    }
    turned(a, -13.2, line);
    sum += 1 / inverse_11(line);
    turned(b, -103.2, line);
    sum += line[0][0];
    turned(b, -90, line);
    sum += line[0][0];
    for (int k = 0; k < 9; k++)
        b[k / 3][k % 3] += bending[0][k / 3][k % 3];
    turned(b, -103.2, line);
    sum += cbrt(line[0][0]);
}

/* ---- the peer of the section: the same chain (no curl, no pull along the chest), by gradients with momentum */

static double peer_section(double length, double width, double set)
{
    const double band = 20, free = 30, h = (free + band / 2 + width) / LINKS, down = sin(0.349) / pow(length, 3);
    static double t[LINKS], speed[LINKS], slope[LINKS], rest[LINKS];
    double crest = 0, before = 0;
    double lean = 0;
    for (int i = 0; i < LINKS; i++) {
        const double inside = (i + 0.5) * h > free && (i - 0.5) * h < free + band;
        rest[i] = inside * set / band;
        t[i] = lean += inside * h * 3.14159265 / band;
        speed[i] = 0;
    }
    for (int step = 0; step < 400000; step++) {
        double y = 0, height[LINKS], pushed = 0;
        for (int i = 0; i < LINKS; i++)
            height[i] = y += h * sin(t[i]);
        for (int i = LINKS - 1; i >= 0; i--) {
            if (height[i] < 0)
                pushed += 100 * down * h * height[i];
            const double left = i ? (t[i] - t[i - 1]) / h - rest[i] : 2 * t[0] / h;
            const double right = i + 1 < LINKS ? (t[i + 1] - t[i]) / h - rest[i + 1] : 0;
            slope[i] = left - right + (h * h * (LINKS - i - 0.5) * down + pushed * h) * cos(t[i]);
        }
        for (int i = 0; i < LINKS; i++) {
            speed[i] = 0.999 * speed[i] - 0.2 * h * slope[i];
            t[i] += speed[i];
        }
        if (step % 1000 == 0) {
            crest = y = 0;
            for (int i = 0; i < LINKS; i++) {
                y += h * sin(t[i]);
                crest = y > crest ? y : crest;
            }
            if (step > 2000 && fabs(crest - before) < 0.01)
                return crest;
            before = crest;
        }
    }
    return crest;
}

int main(int argc, char **argv)
{
    const int rounds = argc > 1 ? atoi(argv[1]) : 200;
    double best[6] = {1e300, 1e300, 1e300, 1e300, 1e300, 1e300}, ours = 0, theirs = 0, quick = 1e300;
    for (int round = 0; round < rounds; round++) {
        double begin = now();
        for (int i = 0; i < ORDERS; i++)
            one_order(i);
        double spent = (now() - begin) / ORDERS;
        best[0] = spent < best[0] ? spent : best[0];
        begin = now();
        for (int i = 0; i < ORDERS; i++)
            peer_order(i);
        spent = (now() - begin) / ORDERS;
        best[1] = spent < best[1] ? spent : best[1];
        for (int k = 0; k < 2; k++) {
            const double section[] = {NAN, k ? 40 : 18, 85, 165, 20, k ? 4 : 0};
            double rolled[TAILOR_ROLLED_COUNT];
            begin = now();
            if (tailor_roll_section(section, 6, rolled, TAILOR_ROLLED_COUNT, NULL, 0, NULL))
                abort();
            spent = now() - begin;
            best[2 + k] = spent < best[2 + k] ? spent : best[2 + k];
            ours = k ? ours : rolled[TAILOR_ROLLED_CREST_HEIGHT];
        }
        const double few[] = {NAN, 18, 85, 165, 20, 0, NAN, NAN, NAN, 40};
        double rolled[TAILOR_ROLLED_COUNT];
        begin = now();
        if (tailor_roll_section(few, 10, rolled, TAILOR_ROLLED_COUNT, NULL, 0, NULL))
            abort();
        spent = now() - begin;
        quick = spent < quick ? spent : quick;
        double droop[TAILOR_DROOP_COUNT];
        begin = now();
        if (tailor_cloth_droop(20, 40, 0, droop, TAILOR_DROOP_COUNT, NULL))
            abort();
        spent = now() - begin;
        best[4] = spent < best[4] ? spent : best[4];
        if (round < 3) {
            begin = now();
            theirs = peer_section(18, 85, 165 * 0.017453292519943295);
            spent = now() - begin;
            best[5] = spent < best[5] ? spent : best[5];
        }
    }
    printf("cloth and roll, best of %d rounds (sum %g)\n", rounds, sum);
    printf("  an order %7.3f us: two joins, along the break line, the estimate; goal 2\n", best[0]);
    printf("  peer     %7.3f us: the algebra alone by general matrices; ratio %.2f\n", best[1], best[1] / best[0]);
    printf("  section  %7.1f us soft, %.1f us firm, %.1f us soft of 40 links; goal 1000\n", best[2], best[3], quick);
    printf("  peer     %7.1f us: gradients with momentum, crest %.2f mm against %.2f; ratio %.0f\n", best[5], theirs,
           ours, best[5] / best[2]);
    printf("  droop    %7.1f us\n", best[4]);
    return 0;
}
