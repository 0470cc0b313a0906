/* libtailorgeom: roll -- how a lapel rolls: its section across the break line, and where along the front it turns.
 *
 * Two questions, and two kinds of answer.
 *
 * The section (tailor_roll_section) is mechanics: the lapel as a heavy elastic strip with a pressed set, lying on the
 * chest. Its numbers follow from bending length, width and set, to the accuracy of the calculation.
 *
 * The estimate (tailor_roll_estimate) says whether a coat rolls to the break that was drawn or through it toward the
 * fastened button. It is a law of two groups, bridle tension and buttonhole against canvas, fitted to 70 runs of a
 * simulation of one idealised front (a discrete shell) and tried on 16 more. No real coat has confirmed its
 * millimetres. It therefore gives a class, a distance with its band, and no number at all outside the block it was
 * fitted on.
 *
 * What the simulation found, in the order of effect: a bridle drawn in, a stiff buttonhole bar, the width of the
 * lapel, the canvas. The angle of the canvas alone did not move the turning point beyond the scatter between meshes:
 * it acts on how the front stretches in the making and on how much a given bar resists. Nothing here says that the
 * bias makes a lapel roll.
 *
 *     tailor_layers_join(cloths, 2, TAILOR_CLOTH_COUNT, angles, joints, holds, front, TAILOR_LAYERS_COUNT, &fault);
 *     tailor_roll_estimate(making, TAILOR_ROLLING_COUNT, front, TAILOR_LAYERS_COUNT, roll, TAILOR_ROLL_COUNT, &fault);
 *     if (roll[TAILOR_ROLL_IN_RANGE] == 1)
 *         printf("%.0f mm, give or take %.0f\n", roll[TAILOR_ROLL_DISTANCE], roll[TAILOR_ROLL_BAND]);
 *
 * Arrays in: NaN or past the end means not given, and the default that is told applies; a number past what the
 * library knows is TAILOR_UNKNOWN_FIELD. Arrays out: the first min(count, known) entries are written, the rest set to
 * NaN. On failure nothing is written. No function allocates; any number of threads may call them.
 */
#ifndef TAILORGEOM_ROLL_H
#define TAILORGEOM_ROLL_H

#include <tailorgeom/cloth.h>
#include <tailorgeom/geom.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- section across the break line ------------------------------------------------------------------- */

/** What a section is made of. Defaults are own assumptions but for the width, common practice. */
enum {
    TAILOR_SECTION_BENDING_LENGTH = 1, /**< mm, 8 to 80, required: of cloth, canvas and facing together, across the
                                            break line (TAILOR_ALONG_BENDING_LENGTH_ACROSS) */
    TAILOR_SECTION_LAPEL_WIDTH = 2,    /**< mm, 15 to 250, required: from the break line to the edge */
    TAILOR_SECTION_SET = 3,            /**< deg, 0 to 180; 165: the angle pressed into the crease */
    TAILOR_SECTION_SET_BAND = 4,       /**< mm, 4 to 40; 20: width over which it is pressed, half on either side */
    TAILOR_SECTION_CURL = 5,           /**< 1/m, -10 to 10; 4: curvature by the padding, edge of the lapel inward */
    TAILOR_SECTION_CHEST_LEAN = 6,     /**< deg, 0 to 90; 20: by which the chest leans back from plumb; weight presses
                                            the lapel on by its sine. 90 is a table */
    TAILOR_SECTION_BREAK_ANGLE = 7,    /**< deg, -45 to 45; 0: of the break line from plumb, as tailor_fold_angle() has
                                            it; weight then pulls the lapel back from its crease as well */
    TAILOR_SECTION_FREE = 8,           /**< mm, 0 to 200; 30: of the forepart behind the set that may lift off */
    TAILOR_SECTION_LINKS = 9           /**< count, 20 to 200; 200: of the chain. 40 cost a fifth and come within 2 % */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_SECTION_COUNT 10

/** What a section comes to. */
enum {
    TAILOR_ROLLED_CREST_HEIGHT = 1, /**< mm above the chest: the height of the roll */
    TAILOR_ROLLED_CREST_RADIUS = 2, /**< mm: the smallest radius; NaN where nothing bends */
    TAILOR_ROLLED_LIES = 3,         /**< 1: the edge of the lapel lies on the chest; 0: it stands off */
    TAILOR_ROLLED_EDGE_HEIGHT = 4,  /**< mm by which the edge stands off */
    TAILOR_ROLLED_OVERHANG = 5,     /**< mm by which the roll reaches beyond where the set begins */
    TAILOR_ROLLED_STEPS = 6         /**< steps of the calculation */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_ROLLED_COUNT 7
/** Points of the line of a section of 200 links: one more than links. */
#define TAILOR_ROLLED_LINE_COUNT 201

/** The section of a lapel that has been folded over and let go. `section` is indexed by TAILOR_SECTION_, `rolled`
 *  (output) by TAILOR_ROLLED_. `line` (output, room for `line_room` points, or NULL and 0) takes a point
 *  more than there are links, in mm, from the held end of the forepart, at the origin, over the crease to the edge
 *  of the lapel: x along the chest toward the crease, y off the chest.
 *
 *  A heavy elastica of links of equal length that do not stretch and that the chest holds up (within 0.15 mm in any
 *  usual lapel), without friction: the rest that is reached from the fold closed by hand, by Newton's method. Others
 *  may exist, such as the lapel opened out. The pressed set decides the height more than the stiffness does. Against
 *  the exact free fold it is 0.2 % low.
 *  Errors: TAILOR_MISSING, TAILOR_NOT_FINITE, TAILOR_OUT_OF_RANGE, which is also told of a lapel and free forepart of
 *  more than 16 bending lengths, TAILOR_TOO_SMALL for `line_room`, TAILOR_NOT_CONVERGED. Cost: 0.2 ms, 30 KB of
 *  stack. @since 0.2.0 */
TAILOR_API tailor_status tailor_roll_section(const double *section, size_t section_count, double *rolled,
                                             size_t rolled_count, tailor_point *line, size_t line_room,
                                             tailor_fault *fault);

/** A strip of any length folded over on a level table, without set: the free heavy fold, exactly. In bending lengths
 *  it is always the same: height 0.90660, radius 0.39467, and an arc of 4.68347 in the air. `height`, `radius`, `arc`
 *  (outputs, mm) may be NULL. TAILOR_NOT_FINITE, TAILOR_OUT_OF_RANGE unless the bending length is 0.001 to 1e6 mm.
 *  @since 0.2.0 */
TAILOR_API tailor_status tailor_roll_free_fold(double bending_length, double *height, double *radius, double *arc);

/* ---- how far it rolls ------------------------------------------------------------------------------------ */

/** What making and cutting give to the roll of a coat whose break is drawn above its fastened button. */
enum {
    TAILOR_ROLLING_LAPEL_WIDTH = 1,       /**< mm, required */
    TAILOR_ROLLING_BUTTON_SPACING = 2,    /**< mm, required: from the fastened button to the one above it */
    TAILOR_ROLLING_BREAK_ABOVE = 3,       /**< mm, required: of the drawn break point above the fastened button */
    TAILOR_ROLLING_BREAK_LENGTH = 4,      /**< mm, required: of the break line */
    TAILOR_ROLLING_BREAK_ANGLE = 5,       /**< deg, required: of the break line from plumb (tailor_fold_angle) */
    TAILOR_ROLLING_BRIDLE_STIFFNESS = 6,  /**< N; 0, no bridle: force over stretch. Own assumptions: soft 30, mid 150,
                                              firm tape 600 */
    TAILOR_ROLLING_BRIDLE_DRAWN_IN = 7,   /**< mm; 0: by how much shorter than the break line the bridle is sewn on */
    TAILOR_ROLLING_BUTTONHOLE_BAR = 8,    /**< N.m2; 0: bending stiffness of one worked side of the buttonhole at the
                                              break. Own assumptions: plain 1e-6, double over gimp 1e-5 */
    TAILOR_ROLLING_BUTTONHOLE_SIDES = 9,  /**< 1 or 2; 1: sides on which it is worked */
    TAILOR_ROLLING_HANG_LOAD = 10         /**< N; 1: pull of the front's weight along the break line; own assumption */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_ROLLING_COUNT 11

/** Choices of TAILOR_ROLL_CLASS. */
enum {
    TAILOR_ROLL_CLASS_HOLDS = 1,   /**< the lapel holds at the drawn break */
    TAILOR_ROLL_CLASS_BETWEEN = 2, /**< it may settle anywhere between */
    TAILOR_ROLL_CLASS_THROUGH = 3  /**< it rolls through the drawn break */
};

/** What the estimate tells. Class, distance and band are NaN when it is out of range; the rest is not. */
enum {
    TAILOR_ROLL_IN_RANGE = 1,        /**< 1: within the block that the law was fitted on; else 0 */
    TAILOR_ROLL_CLASS = 2,           /**< a TAILOR_ROLL_CLASS_ choice */
    TAILOR_ROLL_DISTANCE = 3,        /**< mm below the drawn break point where the lapel has turned by 45 deg; it may
                                          come out a little above the point (negative) */
    TAILOR_ROLL_BAND = 4,            /**< mm by which the distance may be off, either way, against the simulation */
    TAILOR_ROLL_BRIDLE_TENSION = 5,  /**< N in the bridle */
    TAILOR_ROLL_BUTTONHOLE_RATIO = 6, /**< ratio: of the bar's stiffness to that of 22 mm of front */
    TAILOR_ROLL_BREAK_STRETCH = 7,   /**< %: stretch of the front along the break line at 1 N/cm; nominal above 5 % */
    TAILOR_ROLL_BENDING_ACROSS = 8,  /**< uN.m: of the front, rolled about the break line, without facing */
    TAILOR_ROLL_BENDING_LENGTH = 9   /**< mm, of the same */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_ROLL_COUNT 10

/** Tension in a bridle, N: `stiffness` (N) against the stretch of 30 mm of front along it (`front_stretch`, N/m, of
 *  TAILOR_ALONG_STRETCH): EA EAc / (EA + EAc) drawn / length + hang EA / (EA + EAc). `drawn_in`, `length` in mm. NaN
 *  for what is not finite, below zero, or a length or front_stretch of zero. @since 0.2.0 */
TAILOR_API double tailor_roll_bridle_tension(double stiffness, double drawn_in, double length, double front_stretch,
                                             double hang_load);
/** How stiff a buttonhole bar (N.m2) is beside 22 mm of front whose bending rigidity along the bar is `bending`
 *  (uN.m). NaN for what is not finite, a bar below zero, or a bending that is not above it. @since 0.2.0 */
TAILOR_API double tailor_roll_buttonhole_ratio(double bar, double bending);

/** Does the law of tailor_roll_estimate() speak of such a coat? TAILOR_OK when it does; TAILOR_OUT_OF_RANGE when it
 *  does not, the fault telling the first input that lies outside, its value and the law's range. Else as
 *  tailor_roll_estimate() refuses `making`. Cost: 0.1 us. @since 0.2.0 */
TAILOR_API tailor_status tailor_roll_in_range(const double *making, size_t making_count, tailor_fault *fault);

/** Does the lapel hold at the drawn break, or roll through it? `making` is indexed by TAILOR_ROLLING_; `front` by
 *  TAILOR_LAYERS_, the cloth and canvas of the front without its facing; `roll` (output) by TAILOR_ROLL_.
 *
 *  Class: bridle tension above 1.4 N or buttonhole ratio above 40 holds; below 0.9 N and 3 rolls through; else
 *  between. Distance: 35.4 (W/85)^0.68 / (1 + (T/1.09)^9 + (P/8.7)^0.78) - 2.1, W the lapel width, T the tension, P
 *  the ratio; rms 4.3 mm on the 70 runs it was fitted to, 5.7 on the 16 others, 14 at most there; finer and coarser
 *  meshes of the simulation scatter by 8 to 10 mm. The band is 12 mm. The number says nothing finer than that.
 *
 *  In range, as simulated: lapel 60 to 110 mm; break 95 to 135 above the button; bridle to 800 N, drawn in to 10 mm;
 *  bar, both sides, to 1e-4 N.m2. The simulation had one front: spacing 105, a break line of 329 mm at 13.2 deg, 1 N
 *  of hang load. By own judgement the law is taken to hold for a spacing of 95 to 115, a break line of 280 to 400 at
 *  8 to 24 deg and 0.5 to 2 N; outside a spacing of 100 to 110, 300 to 345 mm and 11 to 16 deg the band is 18 mm.
 *
 *  Errors: TAILOR_MISSING, TAILOR_NOT_FINITE, TAILOR_OUT_OF_RANGE for what is below zero or no number of sides, and
 *  those of tailor_layers_along(). Cost: 0.3 us. @since 0.2.0 */
TAILOR_API tailor_status tailor_roll_estimate(const double *making, size_t making_count, const double *front,
                                              size_t front_count, double *roll, size_t roll_count,
                                              tailor_fault *fault);

#ifdef __cplusplus
}
#endif
#endif
