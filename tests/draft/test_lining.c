/* The lining, and the turned-up hems, cuffs and vents: closed outlines on every coat that can be drafted, seams with
 * the ease they state, and every lining seam longer than the cloth's by what the constants say. */
#include "draft/making.h"

static const int linings[] = {TAILOR_PIECE_LINING_BACK, TAILOR_PIECE_LINING_SIDEBODY, TAILOR_PIECE_LINING_FOREPART,
                              TAILOR_PIECE_LINING_TOPSLEEVE, TAILOR_PIECE_LINING_UNDERSLEEVE};

static int is_lining(int number)
{
    for (size_t i = 0; i < sizeof linings / sizeof *linings; i++)
        if (linings[i] == number)
            return 1;
    return 0;
}

static int is_turn_up_or_vent(int number)
{
    return number >= TAILOR_MARKED_HEM_TURN_UP && number <= TAILOR_MARKED_SLEEVE_VENT;
}

/** Names of marks, edges and points are unique within their piece. */
static int same_names(const tailor_pattern *coat, int piece)
{
    for (int a = 0; a < tailor_piece_mark_count(coat, piece); a++)
        if (tailor_piece_find_mark(coat, piece, tailor_mark_name(coat, piece, a)) != a)
            return 1;
    for (int a = 0; a < tailor_piece_edge_count(coat, piece); a++)
        if (tailor_piece_find_edge(coat, piece, tailor_edge_name(coat, piece, a)) != a)
            return 1;
    for (int a = 0; a < tailor_piece_point_count(coat, piece); a++)
        if (tailor_piece_find_point(coat, piece, tailor_point_name(coat, piece, a)) != a)
            return 1;
    return 0;
}

static double worst_seam, worst_length;

/** What is wrong with the linings of a coat: the name of piece, mark or seam; NULL when nothing is. */
static const char *wrong(const struct made *m, const char **how)
{
    size_t count;
    for (int piece = 0; piece < tailor_pattern_piece_count(m->coat); piece++) {
        size_t outline_count;
        const tailor_cubic *outline = tailor_piece_outline(m->coat, piece, &outline_count);
        if (is_lining(tailor_piece_number(m->coat, piece)) && (*how = bad_outline(outline, outline_count)) != NULL)
            return tailor_piece_name(m->coat, piece);
        *how = "has two things of one name";
        if (same_names(m->coat, piece))
            return tailor_piece_name(m->coat, piece);
        for (int mark = 0; mark < tailor_piece_mark_count(m->coat, piece); mark++) {
            if (!is_turn_up_or_vent(tailor_mark_number(m->coat, piece, mark)))
                continue;
            tailor_cubic path[64];
            const tailor_cubic *given = tailor_mark_path(m->coat, piece, mark, &count);
            memcpy(path, given, count * sizeof *path);
            if (!tailor_piece_mirrored(m->coat, piece) && tailor_piece_side(m->coat, piece) == TAILOR_SIDE_LEFT)
                tailor_path_reverse(path, count, path); /* the mirror image of a mark keeps its order */
            double from_edge = INFINITY;                /* it begins on the net edge */
            tailor_path_nearest(outline, outline_count, given[0].p[0], &from_edge);
            *how = "does not begin on the net edge";
            if (!(from_edge < 1e-6))
                return tailor_mark_name(m->coat, piece, mark);
            if ((*how = bad_outline(path, count)) != NULL)
                return tailor_mark_name(m->coat, piece, mark);
        }
    }
    for (int seam = 0; seam < tailor_pattern_seam_count(m->coat); seam++) {
        const char *name = tailor_seam_name(m->coat, seam);
        if (strncmp(name, "lining_", 7) != 0)
            continue;
        const double error = seam_error(m->coat, seam);
        worst_seam = fmax(worst_seam, error);
        *how = "is not as long as it says";
        if (!(error < 0.05))
            return name;
    }
    return NULL;
}

/** Are the six pieces of the draft themselves closed? A draft whose pieces cross is told by its checks, not made. */
static int cloth_is_sound(const struct made *m)
{
    for (int piece = 0; piece < tailor_pattern_piece_count(m->coat); piece++) {
        size_t count;
        const tailor_cubic *outline = tailor_piece_outline(m->coat, piece, &count);
        if (tailor_piece_number(m->coat, piece) <= TAILOR_PIECE_UNDER_COLLAR && bad_outline(outline, count))
            return 0;
    }
    return 1;
}

static void try_many(int orders, struct drawing how_drawn, uint64_t seed, const char *what)
{
    struct dice d = {seed};
    struct made m, net;
    double house[TAILOR_CONSTANT_COUNT];
    int drafted = 0, bad = 0;
    worst_seam = 0;
    for (int n = 0; n < orders; n++) {
        draw_client(&d, m.client, how_drawn);
        draw_house(&d, house);
        const double *by_house = n % 2 ? house : NULL;
        make_whole_client(&m, by_house);
        if (!m.coat) {
            make_client(memcpy(&net, &m, sizeof m), by_house);
            if (net.coat) {
                print_client(&m, by_house);
                fail_msg("drafted, but not made: %s", m.fault.sentence);
            }
            continue;
        }
        drafted++;
        const char *how = NULL, *name = wrong(&m, &how);
        if (name && cloth_is_sound(&m) && bad++ < 2) {
            print_error("# %s %s:\n", name, how);
            print_client(&m, by_house);
        }
        unmake(&m);
    }
    print_message("# %s: %d orders, %d drafted, %d bad, seams within %.2g mm\n", what, orders, drafted, bad,
                  worst_seam);
    assert_int_equal(bad, 0);
    assert_true(drafted * 10 > orders);
}

static void plausible_men(void **state)
{
    (void)state;
    try_many(how_many(2000, 20000), (struct drawing){1, 0.5, 0.6}, 11, "plausible men");
}

static void any_style(void **state)
{
    (void)state;
    try_many(how_many(2000, 20000), (struct drawing){1, 0.5, 1}, 12, "plausible bodies, styles of any kind");
}

static void full_range(void **state)
{
    (void)state;
    try_many(how_many(4000, 40000), (struct drawing){0, 0.1, 1}, 13, "full range");
}

static void ends_of_the_ranges(void **state)
{
    (void)state;
    try_many(how_many(4000, 40000), (struct drawing){0, 0.3, 0}, 14, "styles at the ends of their ranges");
}

/* ---- lengths against the cloth's */

static double constant(const struct made *m, int number) { return m->constants[number]; }

static void lining_is_longer_as_it_says(void **state)
{
    (void)state;
    struct dice d = {13};
    struct made m;
    int tried = 0;
    worst_length = 0;
    while (tried < how_many(200, 2000)) {
        draw_client(&d, m.client, (struct drawing){1, 0.5, 0.6});
        both_sides_alike(m.client);
        make_whole_client(&m, NULL);
        if (!m.coat)
            continue;
        tried++;
        const double ease = constant(&m, TAILOR_CONSTANT_LINING_SEAM_EASE),
                     longer = constant(&m, TAILOR_CONSTANT_LINING_LONG), above = 17.5 + longer / 2 - longer;
        const double back = LENGTH(&m, LINING_BACK, BACK_SEAM) - LENGTH(&m, BACK, BACK_SEAM),
                     side_back = LENGTH(&m, LINING_SIDEBODY, BACK_SEAM) - LENGTH(&m, SIDEBODY, BACK_SEAM),
                     side_front = LENGTH(&m, LINING_SIDEBODY, FRONT_SEAM) - LENGTH(&m, SIDEBODY, FRONT_SEAM),
                     fore = LENGTH(&m, LINING_FOREPART, FRONT_SEAM) - LENGTH(&m, FOREPART, FRONT_SEAM);
        /* So much higher under the arm. */
        const double raise = back - ease + above;
        assert_true(raise > 1.5 && raise < constant(&m, TAILOR_CONSTANT_LINING_SCYE_MORE) + 1e-6);
        assert_close(side_back, back, 1e-6);
        assert_close(side_front, back, 1e-6);
        assert_close(fore, back, 1e-6);
        /* The sleeve: hindarm not raised, forearm raised a little, neither stretched. */
        assert_close(LENGTH(&m, LINING_UNDERSLEEVE, HINDARM_SEAM) - LENGTH(&m, UNDERSLEEVE, HINDARM_SEAM), ease - above,
                     1e-6);
        assert_close(LENGTH(&m, LINING_TOPSLEEVE, HINDARM_SEAM) - LENGTH(&m, TOPSLEEVE, HINDARM_SEAM), ease - above,
                     1e-6);
        assert_close(LENGTH(&m, LINING_TOPSLEEVE, FOREARM_SEAM), LENGTH(&m, LINING_UNDERSLEEVE, FOREARM_SEAM), 1e-6);
        /* Body and sleeve have the same under the arm: the undersleeve's lining follows the scye of the body's. */
        const double scye = LENGTH(&m, LINING_BACK, SCYE) + LENGTH(&m, LINING_SIDEBODY, SCYE) +
                            LENGTH(&m, LINING_FOREPART, SCYE),
                     crown = LENGTH(&m, LINING_TOPSLEEVE, CROWN) + LENGTH(&m, LINING_UNDERSLEEVE, CROWN);
        const double cloth = LENGTH(&m, TOPSLEEVE, CROWN) + LENGTH(&m, UNDERSLEEVE, CROWN) - LENGTH(&m, BACK, SCYE) -
                             LENGTH(&m, SIDEBODY, SCYE) - LENGTH(&m, FOREPART, SCYE);
        worst_length = fmax(worst_length, fabs(crown - scye - cloth));
        unmake(&m);
    }
    print_message("# sleeve and body linings: fullness of the cloth within %.2f mm\n", worst_length);
    assert_true(worst_length < 3);
}

/* ---- fields of the make */

static int marks_named(const struct made *m, int piece_number, int first, int last)
{
    const int piece = piece_of(m->coat, piece_number);
    int found = 0;
    for (int mark = 0; mark < tailor_piece_mark_count(m->coat, piece); mark++) {
        const int number = tailor_mark_number(m->coat, piece, mark);
        found += number >= first && number <= last;
    }
    return found;
}

static void vents_by_their_field(void **state)
{
    (void)state;
    static const int on_back[] = {0, 0, 1, 1}, on_sidebody[] = {0, 0, 0, 1};
    for (int vents = TAILOR_VENTS_NONE; vents <= TAILOR_VENTS_SIDE; vents++) {
        struct made m;
        size_t count;
        must_make_whole(
            &m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1780}, {TAILOR_FIELD_VENTS, vents}));
        assert_int_equal(marks_named(&m, TAILOR_PIECE_BACK, TAILOR_MARKED_VENT, TAILOR_MARKED_VENT), on_back[vents]);
        assert_int_equal(marks_named(&m, TAILOR_PIECE_SIDEBODY, TAILOR_MARKED_VENT, TAILOR_MARKED_VENT),
                         on_sidebody[vents]);
        const tailor_cubic *vent = mark_of(m.coat, TAILOR_PIECE_BACK, TAILOR_MARKED_VENT, &count);
        if (vents > TAILOR_VENTS_NONE) {
            double box[4];
            tailor_path_bounds(vent, count, box);
            const double below = vents == TAILOR_VENTS_CENTRE ? constant(&m, TAILOR_CONSTANT_CENTRE_VENT_BELOW)
                                                              : constant(&m, TAILOR_CONSTANT_SIDE_VENT_SHARE) * 1780;
            assert_close(box[3], -m.row[TAILOR_FIELD_BACK_WAIST_LENGTH] - below, 1e-6);
        }
        unmake(&m);
    }
}

static void cuff_buttons_by_their_field(void **state)
{
    (void)state;
    for (int choice = TAILOR_CUFF_BUTTONS_NONE; choice <= TAILOR_CUFF_BUTTONS_FIVE; choice++) {
        struct made m;
        must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1780},
                                  {TAILOR_FIELD_CUFF_BUTTONS, choice}));
        const int buttons =
            marks_named(&m, TAILOR_PIECE_TOPSLEEVE, TAILOR_MARKED_CUFF_BUTTON_1, TAILOR_MARKED_CUFF_BUTTON_4) +
            marks_named(&m, TAILOR_PIECE_TOPSLEEVE, TAILOR_MARKED_CUFF_BUTTON_5, TAILOR_MARKED_CUFF_BUTTON_5);
        assert_int_equal(buttons, choice - 1);
        unmake(&m);
    }
}

static void sleeve_vents_by_their_field(void **state)
{
    (void)state;
    for (int kind = TAILOR_SLEEVE_VENT_PLAIN; kind <= TAILOR_SLEEVE_VENT_WORKING; kind++) {
        struct made m;
        must_make_whole(&m, ORDER({TAILOR_FIELD_CHEST_GIRTH, 1000}, {TAILOR_FIELD_STATURE, 1780},
                                  {TAILOR_FIELD_SLEEVE_VENT, kind}));
        for (int sleeve = TAILOR_PIECE_TOPSLEEVE; sleeve <= TAILOR_PIECE_UNDERSLEEVE; sleeve++)
            assert_int_equal(marks_named(&m, sleeve, TAILOR_MARKED_SLEEVE_VENT, TAILOR_MARKED_SLEEVE_VENT),
                             kind > TAILOR_SLEEVE_VENT_PLAIN);
        unmake(&m);
    }
}

int test_lining(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plausible_men),
        cmocka_unit_test(any_style),
        cmocka_unit_test(full_range),
        cmocka_unit_test(ends_of_the_ranges),
        cmocka_unit_test(lining_is_longer_as_it_says),
        cmocka_unit_test(vents_by_their_field),
        cmocka_unit_test(cuff_buttons_by_their_field),
        cmocka_unit_test(sleeve_vents_by_their_field),
    };
    return cmocka_run_group_tests_name("lining", tests, NULL, NULL);
}
