/* Cloth and roll on rows of any kind: each call comes back, stays within the caller's arrays, gives numbers that are
 * finite or NaN, and keeps its plainest promises. */
#include <tailorgeom/roll.h>
#include "bytes.h"

enum { ROOM = 24 };

/* A value of a row: mostly one that the call takes, now and then any double at all, or none. */
static double value(bytes *b, double low, double high)
{
    const unsigned kind = bytes_small(b);
    if (kind < 3)
        return NAN;
    if (kind < 6)
        return bytes_number(b);
    return low + (high - low) * bytes_small(b) / 255;
}

static void cloth_of(bytes *b, double *cloth)
{
    static const double high[TAILOR_CLOTH_COUNT] = {0, 600, 12000, 12000, 200, 0.5, 300, 300, 40, 2};
    const int sound = bytes_small(b) % 4 != 0;
    cloth[0] = NAN;
    for (int i = 1; i < TAILOR_CLOTH_COUNT; i++) {
        const double low = tailor_table_low(tailor_cloth_table(), i);
        cloth[i] = sound ? low + (high[i] - low) * bytes_small(b) / 255 : value(b, low, high[i]);
    }
}

static void numbers_only(const double *row, size_t known, size_t count)
{
    for (size_t i = 0; i < count && i < known; i++)
        check(isnan(row[i]) || isfinite(row[i]));
    for (size_t i = known; i < count; i++)
        check(isnan(row[i]));
}

static void one_cloth(bytes *b)
{
    double cloth[ROOM], row[ROOM], tests[ROOM];
    tailor_fault fault;
    cloth_of(b, cloth);
    const size_t count = bytes_small(b) % ROOM;
    const double angle = bytes_number(b) / 10;
    const int sound = tailor_cloth_check(cloth, TAILOR_CLOTH_COUNT, &fault) == TAILOR_OK;
    if (tailor_cloth_along(cloth, TAILOR_CLOTH_COUNT, angle, row, count, &fault) == TAILOR_OK) {
        check(sound);
        numbers_only(row, TAILOR_ALONG_COUNT, count);
        check(count < 2 || row[TAILOR_ALONG_STRETCH] > 0);
        check(count < 3 || row[TAILOR_ALONG_BENDING] > 0);
    } else
        check(fault.sentence[0] != '\0');
    for (int i = 0; i < TAILOR_TEST_COUNT; i++)
        tests[i] = value(b, 0.5, i == TAILOR_TEST_WEIGHT ? 500 : i == TAILOR_TEST_CONTRACTION ? 0.5 : 30);
    if (tailor_cloth_from_tests(tests, bytes_small(b) % (TAILOR_TEST_COUNT + 1), cloth, TAILOR_CLOTH_COUNT, &fault) ==
        TAILOR_OK)
        check(tailor_cloth_check(cloth, TAILOR_CLOTH_COUNT, NULL) == TAILOR_OK);
}

static void numbers_alone(bytes *b)
{
    const double a = bytes_number(b), c = bytes_number(b), e = bytes_number(b);
    check(!(tailor_cloth_bending_of_length(a, c) < 0));
    check(!(tailor_cloth_bending_length(a, c) < 0));
    check(!(tailor_cloth_shear_of_bias_stretch(a) < 0));
    (void)tailor_cloth_formability(a, c, e);
    check(!(tailor_cloth_bending_peirce(a, c, e) < 0));
    check(!(tailor_trellis_line(a, c) < 0) && !(tailor_trellis_line(a, c) > 1.4143));
    check(!(tailor_trellis_area(a) < 0) && !(tailor_trellis_area(a) > 1));
    check(!(fabs(tailor_trellis_shear(a / 1000)) > 90));
    check(!(tailor_cloth_standing_height(a) < 0));
    check(!(tailor_roll_bridle_tension(a, c, e, bytes_number(b), bytes_number(b)) < 0));
    check(!(tailor_roll_buttonhole_ratio(a, c) < 0));
}

static void droops(bytes *b)
{
    double row[ROOM], found = 1;
    const size_t count = bytes_small(b) % ROOM;
    const double rise = value(b, -80, 90), weight = value(b, 0, 100);
    if (tailor_cloth_elastica_hang(weight, value(b, 0, 20), rise, row, count, NULL) == TAILOR_OK)
        numbers_only(row, TAILOR_DROOP_COUNT, count);
    if (tailor_cloth_droop(value(b, 1, 60), value(b, 1, 200), rise, row, count, NULL) == TAILOR_OK)
        numbers_only(row, TAILOR_DROOP_COUNT, count);
    if (bytes_small(b) % 8 == 0 &&
        tailor_cloth_droop_bending_length(value(b, 1, 200), value(b, 0, 90), &found, NULL) == TAILOR_OK)
        check(found > 0 && isfinite(found));
}

static void layers_and_roll(bytes *b)
{
    double cloths[3 * TAILOR_CLOTH_COUNT], angles[3], holds[3], layers[ROOM], row[ROOM], percent = 0, angle = 0,
                                                                                         least = 0;
    int joints[3], beyond = 0;
    for (int i = 0; i < 3; i++) {
        cloth_of(b, cloths + i * TAILOR_CLOTH_COUNT);
        angles[i] = value(b, -180, 180);
        holds[i] = value(b, 0, 1);
        joints[i] = (int)(bytes_small(b) % 9 == 0 ? bytes_small(b) : 1 + bytes_small(b) % 2);
    }
    const int joined = tailor_layers_join(cloths, bytes_small(b) % 4, TAILOR_CLOTH_COUNT, angles, joints, holds, layers,
                                          TAILOR_LAYERS_COUNT, NULL);
    if (joined != TAILOR_OK)
        for (int i = 0; i < TAILOR_LAYERS_COUNT; i++)
            layers[i] = bytes_number(b);
    const double line = bytes_number(b) / 10;
    if (tailor_layers_along(layers, TAILOR_LAYERS_COUNT, line, row, TAILOR_ALONG_COUNT, NULL) == TAILOR_OK) {
        check(joined != TAILOR_OK || row[TAILOR_ALONG_STRETCH] > 0);
        if (tailor_layers_stretch(layers, TAILOR_LAYERS_COUNT, line, value(b, 0, 2), &percent, &beyond, NULL) ==
            TAILOR_OK)
            check(joined != TAILOR_OK || percent >= 0);
        check(tailor_layers_greatest_stretch(layers, TAILOR_LAYERS_COUNT, &angle, &least, NULL) == TAILOR_OK);
        check(joined != TAILOR_OK || (angle > -90 && angle <= 90 && least <= row[TAILOR_ALONG_STRETCH] * (1 + 1e-9)));
    }
    static const double high[TAILOR_ROLLING_COUNT] = {0, 120, 120, 140, 400, 20, 800, 12, 1e-4, 2, 2};
    double making[ROOM];
    for (int i = 0; i < TAILOR_ROLLING_COUNT; i++)
        making[i] = i == TAILOR_ROLLING_BUTTONHOLE_SIDES ? 1 + bytes_small(b) % 2 : value(b, 0, high[i]);
    const size_t count = bytes_small(b) % ROOM;
    if (tailor_roll_estimate(making, TAILOR_ROLLING_COUNT, layers, TAILOR_LAYERS_COUNT, row, count, NULL) ==
            TAILOR_OK &&
        count > TAILOR_ROLL_BAND && joined == TAILOR_OK) {
        numbers_only(row, TAILOR_ROLL_COUNT, count);
        check((row[TAILOR_ROLL_IN_RANGE] == 1) == !isnan(row[TAILOR_ROLL_CLASS]));
        check((row[TAILOR_ROLL_IN_RANGE] == 1) ==
              (tailor_roll_in_range(making, TAILOR_ROLLING_COUNT, NULL) == TAILOR_OK));
        check(!(row[TAILOR_ROLL_DISTANCE] > 45) && !(row[TAILOR_ROLL_DISTANCE] < -2.2));
    }
}

static void sections(bytes *b)
{
    static const double high[TAILOR_SECTION_COUNT] = {0, 60, 130, 180, 40, 10, 90, 45, 80, 200};
    double section[ROOM], row[ROOM];
    tailor_point line[TAILOR_ROLLED_LINE_COUNT];
    for (int i = 0; i < TAILOR_SECTION_COUNT; i++)
        section[i] = value(b,
                           i == TAILOR_SECTION_BENDING_LENGTH ? 8
                           : i == TAILOR_SECTION_LAPEL_WIDTH  ? 15
                                                              : 4,
                           high[i]);
    section[TAILOR_SECTION_LINKS] = bytes_small(b) % 4 ? NAN : bytes_small(b);
    const size_t count = bytes_small(b) % ROOM, room = bytes_small(b) % 3 ? TAILOR_ROLLED_LINE_COUNT : 20;
    const int status = tailor_roll_section(section, TAILOR_SECTION_COUNT, row, count, line, room, NULL);
    check(status != TAILOR_NOT_CONVERGED);
    if (status == TAILOR_OK)
        numbers_only(row, TAILOR_ROLLED_COUNT, count);
    double height = 0, radius = 0, arc = 0;
    if (tailor_roll_free_fold(bytes_number(b), &height, &radius, &arc) == TAILOR_OK)
        check(height > 0 && radius > 0 && arc > 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bytes b = {data, size};
    one_cloth(&b);
    numbers_alone(&b);
    droops(&b);
    layers_and_roll(&b);
    sections(&b);
    return 0;
}
