/* tailorgeom cloth: the cloths and canvases that have names, and what one of them is along any line. */
#include "cloths.h"
#include "commands.h"
#include "complain.h"
#include "json_out.h"

#include <stdio.h>
#include <string.h>

enum { STEP = 15, LINES = 90 / STEP + 1, SOURCE_SHOWN = 56 };

static const char *from_of(const cloth_row *row) { return cloths_from_file(row) ? cloths_file() : "tailorgeom"; }

/* Of what stands in the table: the sort of it. */
static const char *source_of(const cloth_row *row) { return row->source[0] ? row->source : "not told"; }

/* ---- along its lines */

typedef struct lines_of {
    double along[LINES][TAILOR_ALONG_COUNT];
    double greatest_angle, greatest_stretch;
} lines_of;

static bool look_along(const cloth_row *row, lines_of *l)
{
    const double straight = 0, whole = 1;
    const int padded = TAILOR_JOINT_PADDED;
    double layers[TAILOR_LAYERS_COUNT];
    tailor_fault fault = {0};
    tailor_status status = TAILOR_OK;
    for (int i = 0; i < LINES && status == TAILOR_OK; i++)
        status =
            tailor_cloth_along(row->properties, TAILOR_CLOTH_COUNT, i * STEP, l->along[i], TAILOR_ALONG_COUNT, &fault);
    if (status == TAILOR_OK)
        status = tailor_layers_join(row->properties, 1, TAILOR_CLOTH_COUNT, &straight, &padded, &whole, layers,
                                    TAILOR_LAYERS_COUNT, &fault);
    if (status == TAILOR_OK)
        status = tailor_layers_greatest_stretch(layers, TAILOR_LAYERS_COUNT, &l->greatest_angle, &l->greatest_stretch,
                                                &fault);
    if (status != TAILOR_OK)
        complain("%s: %s", row->name, fault.sentence);
    return status == TAILOR_OK;
}

/* The overhang at which a strip's chord falls to the slope of 41.5 deg: twice the bending length (ASTM D1388). */
static double overhang(const double *along) { return 2 * along[TAILOR_ALONG_BENDING_LENGTH]; }

/* Stretch at 0.1 N/cm, in %: all cloths are linear up to there but on the bias of the softest. */
static double percent(double stiffness) { return 100 * 10 / stiffness; }

/* ---- JSON */

static json_t *json_cloth(const cloth_row *row)
{
    json_t *object = json_object(), *properties = json_object();
    bool good = object && properties && json_put(object, "name", json_string(row->name)) &&
                json_put(object, "use", json_string(row->use));
    for (int place = 0, number; good && (number = tailor_table_at(tailor_cloth_table(), place)) != 0; place++)
        if (number < TAILOR_CLOTH_COUNT)
            good = json_put(properties, tailor_table_text(tailor_cloth_table(), number, TAILOR_COLUMN_NAME),
                            json_number(row->properties[number]));
    good = json_put(object, "properties", json_whole(properties, good)) && good &&
           json_put(object, "source", json_string(row->source)) && json_put(object, "from", json_string(from_of(row)));
    return json_whole(object, good);
}

static int list_json(void)
{
    json_t *document = json_document("cloths"), *rows = json_array();
    bool good = document && rows;
    for (size_t i = 0; good && i < cloths_count(); i++)
        good = json_add(rows, json_cloth(cloths_at(i)));
    good = json_put(document, "cloths", json_whole(rows, good));
    return json_print(json_whole(document, good));
}

static json_t *json_line(int angle, const double *along)
{
    static const struct {
        const char *name;
        int number;
    } columns[] = {{"stretch", TAILOR_ALONG_STRETCH},
                   {"bending", TAILOR_ALONG_BENDING},
                   {"bending_narrow", TAILOR_ALONG_BENDING_NARROW},
                   {"bending_across", TAILOR_ALONG_BENDING_ACROSS},
                   {"bending_length", TAILOR_ALONG_BENDING_LENGTH}};
    json_t *object = json_object();
    bool good = object && json_put(object, "angle", json_integer(angle));
    for (size_t i = 0; good && i < sizeof columns / sizeof columns[0]; i++)
        good = json_put(object, columns[i].name, json_number(along[columns[i].number]));
    good = good && json_put(object, "overhang", json_number(overhang(along)));
    return json_whole(object, good);
}

static int show_json(const cloth_row *row, const lines_of *l)
{
    json_t *document = json_document("cloth"), *lines = json_array(), *greatest = json_object();
    bool good = document && lines && json_put(document, "cloth", json_cloth(row));
    for (int i = 0; good && i < LINES; i++)
        good = json_add(lines, json_line(i * STEP, l->along[i]));
    bool put = json_put(greatest, "angle", json_number(l->greatest_angle)) &&
               json_put(greatest, "stretch", json_number(l->greatest_stretch));
    good = json_put(document, "along", json_whole(lines, good)) &&
           json_put(document, "greatest_stretch", json_whole(greatest, put)) && good;
    return json_print(json_whole(document, good));
}

/* ---- text */

static int list_text(void)
{
    printf("%-16s %-8s %6s  %-9s  %-13s  what stands behind the numbers\n"
           "%-16s %-8s %6s  %-9s  %-13s\n",
           "name", "use", "g/m2", "bending", "stretch", "", "", "", "uN.m", "N/m");
    for (size_t i = 0; i < cloths_count(); i++) {
        const cloth_row *row = cloths_at(i);
        char bending[40], stretch[40];
        snprintf(bending, sizeof bending, "%g/%g", row->properties[TAILOR_CLOTH_BENDING_WARP],
                 row->properties[TAILOR_CLOTH_BENDING_WEFT]);
        snprintf(stretch, sizeof stretch, "%g/%g", row->properties[TAILOR_CLOTH_STRETCH_WARP],
                 row->properties[TAILOR_CLOTH_STRETCH_WEFT]);
        bool cut = strlen(source_of(row)) > SOURCE_SHOWN;
        printf("%-16s %-8s %6g  %-9s  %-13s  %.*s%s\n", row->name, row->use, row->properties[TAILOR_CLOTH_WEIGHT],
               bending, stretch, SOURCE_SHOWN, source_of(row), cut ? "..." : "");
    }
    printf("bending and stretch: warp/weft. No row of tailorgeom's own is one measured cloth; measure yours "
           "(--cloths).\n");
    return EXIT_DONE;
}

static void print_lines(const lines_of *l)
{
    printf("\noff the warp, deg                    ");
    for (int i = 0; i < LINES; i++)
        printf("%9d", i * STEP);
    printf("\nstretch stiffness, N/m               ");
    for (int i = 0; i < LINES; i++)
        printf("%9.0f", l->along[i][TAILOR_ALONG_STRETCH]);
    printf("\nstretch at 0.1 N/cm, %%               ");
    for (int i = 0; i < LINES; i++)
        printf("%9.2f", percent(l->along[i][TAILOR_ALONG_STRETCH]));
    printf("\nbending rigidity, wide strip, uN.m   ");
    for (int i = 0; i < LINES; i++)
        printf("%9.1f", l->along[i][TAILOR_ALONG_BENDING]);
    printf("\nbending rigidity, narrow strip, uN.m ");
    for (int i = 0; i < LINES; i++)
        printf("%9.1f", l->along[i][TAILOR_ALONG_BENDING_NARROW]);
    printf("\nbending length, mm                   ");
    for (int i = 0; i < LINES; i++)
        printf("%9.1f", l->along[i][TAILOR_ALONG_BENDING_LENGTH]);
    printf("\noverhang that droops to 41.5 deg, mm ");
    for (int i = 0; i < LINES; i++)
        printf("%9.1f", overhang(l->along[i]));
    printf("\ngreatest stretch at %.1f deg off the warp: %.2f %% at 0.1 N/cm\n", l->greatest_angle,
           percent(l->greatest_stretch));
}

static int show_text(const cloth_row *row, const lines_of *l)
{
    const tailor_table *table = tailor_cloth_table();
    printf("%s%s%s\n", row->name, row->use[0] ? ", " : "", row->use);
    for (int place = 0, number; (number = tailor_table_at(table, place)) != 0; place++)
        if (number < TAILOR_CLOTH_COUNT)
            printf("  %-13s %8g %-6s %s\n", tailor_table_text(table, number, TAILOR_COLUMN_NAME),
                   row->properties[number], tailor_table_text(table, number, TAILOR_COLUMN_UNIT),
                   tailor_table_text(table, number, TAILOR_COLUMN_TERM));
    print_lines(l);
    printf("Along a line: mechanics of the numbers above (thin sheets, small stretches; real strips lie between the\n"
           "wide and the narrow).\nThe numbers above: from %s; %s.\n", from_of(row), source_of(row));
    return EXIT_DONE;
}

static int show(const settings *s)
{
    char why[CLOTH_SENTENCE];
    lines_of l;
    const cloth_row *row = cloths_find(s->second);
    if (!row) {
        cloths_unknown(s->second, why);
        complain("%s: %s", s->second, why);
        return EXIT_REFUSED;
    }
    if (!look_along(row, &l))
        return EXIT_REFUSED;
    return s->json ? show_json(row, &l) : show_text(row, &l);
}

int run_cloth(const settings *s)
{
    bool list = strcmp(s->operand, "list") == 0;
    if (!list && strcmp(s->operand, "show") != 0)
        complain("cloth takes list, or show and a name, not %s", s->operand);
    else if (list && s->second)
        complain("cloth list takes no name: `tailorgeom cloth show %s` shows one", s->second);
    else if (!list && !s->second)
        complain("cloth show needs a name: `tailorgeom cloth list` has them");
    else
        return !list ? show(s) : s->json ? list_json() : list_text();
    complain("see `tailorgeom help cloth`");
    return EXIT_USAGE;
}
