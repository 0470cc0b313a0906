/* Populations of orders: bodies as measured men have them, and a tally of what was refused, by reason. */
#ifndef TESTS_COAT_POPULATION_H
#define TESTS_COAT_POPULATION_H

#include "draft/drafting.h"

/* Chest and stature of men, and the regressions of the other measures on them with their standard errors of estimate,
 * in mm: Gordon et al., 2012 Anthropometric Survey of U.S. Army Personnel (ANSUR II), NATICK/TR-15/007, 2014, men, n =
 * 4082; computed from its public file. The names are the survey's. */
static const double CHEST_MEAN = 1058.71, CHEST_SD = 87.44;

struct regression {
    int field, on;
    double intercept, slope, error;
    double factor; /* from the survey's measure to the tailor's */
};

#define ON(x) TAILOR_FIELD_##x
static const struct regression men[] = {
    {ON(STATURE), ON(CHEST_GIRTH), 1550.869, 0.19396, 66.43, 1},
    {ON(WAIST_GIRTH), ON(CHEST_GIRTH), -257.774, 1.1319, 51.81, 1}, /* waist circumference */
    {ON(SEAT_GIRTH), ON(CHEST_GIRTH), 243.005, 0.73346, 42.04, 1},  /* buttock circumference */
    {ON(NECK_GIRTH), ON(CHEST_GIRTH), 150.174, 0.23375, 15.71, 1},  /* neck circumference */
    /* Slope and error of interscye I; the level is the tailor's (common practice), who measures at half the scye depth:
     * 34 mm less. */
    {ON(BACK_WIDTH), ON(CHEST_GIRTH), 102, 0.27823, 25.51, 1},
    /* Error of the waist back length; the survey's waist is at the navel, the tailor's lies higher: a quarter of the
     * stature (Der praktische Zuschnitt VI). */
    {ON(BACK_WAIST_LENGTH), ON(STATURE), 0, 0.25, 23.43, 1},
    {ON(ARM_LENGTH), ON(STATURE), -41.127, 0.36115, 18.36, 1}, /* sleeve outseam */
    {ON(UPPER_ARM_GIRTH), ON(CHEST_GIRTH), 28.478, 0.31138, 21.38, 0.94}, /* flexed; hanging 6 % less, from memory */
};
#undef ON

/** The body of a man: chest, and every measure of the table above with an error of up to 2.5 standard errors. */
static inline void draw_body(struct dice *d, double *client)
{
    client[TAILOR_FIELD_CHEST_GIRTH] = CHEST_MEAN + CHEST_SD * normal(d, 2.5);
    for (size_t i = 0; i < sizeof men / sizeof *men; i++)
        client[men[i].field] = men[i].factor *
                               (men[i].intercept + men[i].slope * client[men[i].on] + men[i].error * normal(d, 2.5));
}

/* ---- the tally */

enum { REASONS = 400 };

struct tally {
    int orders, drafted;
    struct {
        int status, table, index, count;
        char sentence[216]; /* the first of them */
    } reason[REASONS];
    int reasons;
};

static inline const char *reason_name(int table, int index)
{
    return tailor_table_text(table == TAILOR_TABLE_CHECK ? tailor_check_table() : tailor_field_table(), index,
                             TAILOR_COLUMN_NAME);
}

static inline void count_order(struct tally *t, const struct made *m)
{
    int i = 0;
    t->orders++;
    if (m->status == TAILOR_OK) {
        t->drafted++;
        return;
    }
    while (i < t->reasons && !(t->reason[i].status == m->status && t->reason[i].table == m->fault.table &&
                               t->reason[i].index == m->fault.index))
        i++;
    assert_true(i < REASONS);
    if (i == t->reasons) {
        t->reason[i].status = m->status;
        t->reason[i].table = m->fault.table;
        t->reason[i].index = m->fault.index;
        memcpy(t->reason[i].sentence, m->fault.sentence, sizeof t->reason[i].sentence);
        t->reasons++;
    }
    t->reason[i].count++;
}

/** Print the refusals by reason, the most frequent first. Lines begin with #, as remarks among test results do. */
static inline void print_tally(const struct tally *t, const char *what)
{
    char printed[REASONS] = {0};
    print_message("# %s: %d orders, %d drafted with all checks passing (%.2f %%)\n", what, t->orders, t->drafted,
                  100.0 * t->drafted / t->orders);
    for (int n = 0; n < t->reasons; n++) {
        int most = -1;
        for (int i = 0; i < t->reasons; i++)
            if (!printed[i] && (most < 0 || t->reason[i].count > t->reason[most].count))
                most = i;
        printed[most] = 1;
        print_message("# %6d  %s %s; the first: %s\n", t->reason[most].count,
                      tailor_status_name(t->reason[most].status) + 7,
                      reason_name(t->reason[most].table, t->reason[most].index), t->reason[most].sentence);
    }
}

#endif
