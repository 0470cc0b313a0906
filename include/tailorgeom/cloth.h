/* libtailorgeom: cloth -- the mechanics of woven sheets: how a cloth or a canvas stretches, shears, bends and hangs.
 *
 * A cloth is an array indexed by TAILOR_CLOTH_: weight, stiffness to stretch along warp and weft, shear, bending
 * along warp and weft, and so on; entry 0 is unused. Canvas, wool, melton, fusible: all are cloths. The numbers come
 * from a table, or from what a person can measure on strips (tailor_cloth_from_tests).
 *
 *     double along[TAILOR_ALONG_COUNT];
 *     tailor_cloth_along(canvas, TAILOR_CLOTH_COUNT, 45, along, TAILOR_ALONG_COUNT, &fault);
 *     printf("on the bias: %.0f N/m\n", along[TAILOR_ALONG_STRETCH]);
 *
 * Layers that are padded or fused together make one sheet again, which is no longer square to any of them: an array
 * indexed by TAILOR_LAYERS_, made once and then asked along any line.
 *
 * Angles are in degrees and signed. They are measured from the garment's straight grain, positive toward the break
 * line: a canvas at +20 has its warp leaned 20 deg toward the break line, the break line itself lies at +13 or so.
 * +45 and -45 are different coats: with hair in the weft, one lays the hair across the roll and the other along it.
 *
 * What is exact here: the algebra of turned and joined sheets (thin linear plates), and the heavy elastica, to
 * rounding. What is not: cloth is linear for small stretches only (a flag tells), real seams hold layers neither
 * wholly nor not at all, and friction within the cloth is left out. No function allocates; any number of threads may
 * call them. On failure nothing is written. Of an array of results the first min(count, known) entries are written
 * and the rest set to NaN.
 */
#ifndef TAILORGEOM_CLOTH_H
#define TAILORGEOM_CLOTH_H

#include <tailorgeom/base.h>
#include <tailorgeom/cloth_tables.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- a sheet ---------------------------------------------------------------------------------- */

/** Table of the properties of a cloth: names, units, ranges, meanings. Static. @since 0.2.0 */
TAILOR_API const tailor_table *tailor_cloth_table(void);

/** Is this a sheet? `cloth` is indexed by TAILOR_CLOTH_, `count` entries.
 *
 *  TAILOR_MISSING for a property that is NaN or past the end, TAILOR_NOT_FINITE for an infinite one,
 *  TAILOR_OUT_OF_RANGE outside the table's range; TAILOR_CONTRADICTION when contraction times its twin across
 *  (contraction * stretch_weft / stretch_warp) is 1 or more: such a sheet would give way without force.
 *  TAILOR_UNKNOWN_FIELD for a number, not NaN, past what this library knows. Every other call that takes a cloth
 *  makes the same check. @since 0.2.0 */
TAILOR_API tailor_status tailor_cloth_check(const double *cloth, size_t count, tailor_fault *fault);

/** What a person can measure on strips of cloth; index of `tests` in tailor_cloth_from_tests(). */
enum {
    TAILOR_TEST_WEIGHT = 1,              /**< g/m2 */
    TAILOR_TEST_THICKNESS = 2,           /**< mm */
    TAILOR_TEST_BENDING_LENGTH_WARP = 3, /**< mm, see tailor_cloth_droop_bending_length() */
    TAILOR_TEST_BENDING_LENGTH_WEFT = 4, /**< mm */
    TAILOR_TEST_BENDING_LENGTH_BIAS = 5, /**< mm, of a strip on the bias; NaN: twist rigidity is guessed */
    TAILOR_TEST_STRETCH_WARP = 6,        /**< % at 100 gf/cm */
    TAILOR_TEST_STRETCH_WEFT = 7,        /**< % at 100 gf/cm */
    TAILOR_TEST_STRETCH_BIAS = 8,        /**< % at 5 gf/cm, of a strip on the bias */
    TAILOR_TEST_CONTRACTION = 9          /**< ratio; NaN: 0.1 */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_TEST_COUNT 10

/** The sheet that strips of it tell of. `tests` is indexed by TAILOR_TEST_; `cloth` (output) by TAILOR_CLOTH_.
 *
 *  Bending rigidity is weight times bending length cubed. Stretch stiffness is the secant to 100 gf/cm (98.07 N/m).
 *  Shear is what the off-axis formula (Jones, Mechanics of Composite Materials) leaves of the bias stretch. Twist:
 *  from the bias bending length by Cooper 1960 (from memory), a wide strip; without it 0.9 sqrt(B1 B2) / 4, own
 *  assumption. Errors: TAILOR_MISSING, TAILOR_NOT_FINITE, TAILOR_OUT_OF_RANGE (a test that is not above zero),
 *  TAILOR_CONTRADICTION when the bias strip stretches less, or bends more easily, than warp and weft allow; those of
 *  tailor_cloth_check() for the result. @since 0.2.0 */
TAILOR_API tailor_status tailor_cloth_from_tests(const double *tests, size_t test_count, double *cloth,
                                                 size_t cloth_count, tailor_fault *fault);

/** Bending rigidity, uN.m, of a bending length (mm) at a weight (g/m2): B = w g c^3; NaN unless all are above zero. The
 *  form of the SiroFAST manual (CSIRO WT92.02; from memory). @since 0.2.0 */
TAILOR_API double tailor_cloth_bending_of_length(double bending_length, double weight);
/** The other way round: bending length, mm, of a bending rigidity (uN.m) at a weight (g/m2). @since 0.2.0 */
TAILOR_API double tailor_cloth_bending_length(double bending, double weight);
/** Shear stiffness, N/m, of a bias stretch (% at 5 gf/cm) where warp and weft hardly stretch: 123 / percent, as
 *  SiroFAST has it (the exact constant is 122.6). NaN unless above zero. @since 0.2.0 */
TAILOR_API double tailor_cloth_shear_of_bias_stretch(double percent);
/** Formability, mm2: bending rigidity (uN.m) times how much more a strip stretches at 20 gf/cm than at 5 (both %), over
 *  14.7: how far a seam can be eased before it puckers. SiroFAST. NaN for what is not finite. @since 0.2.0 */
TAILOR_API double tailor_cloth_formability(double bending, double stretch_5, double stretch_20);
/** Bending rigidity at an angle (deg) off the warp by Peirce 1930 (from memory), for a cloth of which no twist is
 *  known: 1/sqrt(B) = cos^2/sqrt(warp) + sin^2/sqrt(weft). NaN unless both are above zero. @since 0.2.0 */
TAILOR_API double tailor_cloth_bending_peirce(double warp, double weft, double angle);

/* ---- along a line ------------------------------------------------------------------------------- */

/** What a sheet is along a line. */
enum {
    TAILOR_ALONG_STRETCH = 1,              /**< N/m: stiffness of a strip cut along the line, free to narrow */
    TAILOR_ALONG_BENDING = 2,              /**< uN.m: bent along the line, wide strip (Cooper): it stays a cylinder */
    TAILOR_ALONG_BENDING_NARROW = 3,       /**< uN.m: the same, narrow strip with free edges; real strips lie between.
                                                NaN for layers at an angle that resist no twist */
    TAILOR_ALONG_BENDING_ACROSS = 4,       /**< uN.m: rolled about the line, as a lapel is about its break line; wide */
    TAILOR_ALONG_BENDING_LENGTH = 5,       /**< mm, of TAILOR_ALONG_BENDING */
    TAILOR_ALONG_BENDING_LENGTH_ACROSS = 6, /**< mm, of TAILOR_ALONG_BENDING_ACROSS */
    TAILOR_ALONG_WEIGHT = 7,               /**< g/m2 */
    TAILOR_ALONG_DRAPE_LENGTH = 8          /**< mm: bending length of the mean over all directions; an order of how
                                                stiffly cloths hang, not a measured drape coefficient */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_ALONG_COUNT 9

/** A cloth along a line `angle` degrees off its warp. `along` (output) is indexed by TAILOR_ALONG_.
 *
 *  1/E = c^4/E1 + s^4/E2 + (1/G - 2v/E1) s^2 c^2 (Jones; Kilby 1963, from memory); wide strip B = c^4 B1 + s^4 B2
 *  + 4 Bt s^2 c^2 (Cooper 1960, from memory); narrow strip 1/B = c^4/B1 + s^4/B2 + s^2 c^2/Bt. Errors: those of
 *  tailor_cloth_check(); TAILOR_NOT_FINITE for the angle. Cost: 0.1 us. @since 0.2.0 */
TAILOR_API tailor_status tailor_cloth_along(const double *cloth, size_t count, double angle, double *along,
                                            size_t along_count, tailor_fault *fault);

/* ---- layers ------------------------------------------------------------------------------------ */

/** How a layer is joined to those below it. */
enum {
    /** By stitches that hold it to the others along the sheet wholly (1), not at all (0: laid in loose, as the facing
     *  is) or in part. Rigidities to bending add: rows of padding give set, not stiffness. */
    TAILOR_JOINT_PADDED = 1,
    /** By glue, of which 0 leaves the bending of padded layers and 1 gives that of one solid plate. 1 is several times
     *  too stiff for cloth; 0.15 is an own assumption: measure one fused strip. In a stack the weakest bond counts. */
    TAILOR_JOINT_FUSED = 2
};

/** Layers joined to one sheet: stiffness in the garment's own frame, 1 along its straight grain, 2 across it on the
 *  side of the break line, 6 in shear. The whole of a linear thin plate, without coupling of stretch and bending. */
enum {
    TAILOR_LAYERS_STRETCH_11 = 1, /**< N/m */
    TAILOR_LAYERS_STRETCH_22 = 2,
    TAILOR_LAYERS_STRETCH_12 = 3,
    TAILOR_LAYERS_STRETCH_16 = 4,
    TAILOR_LAYERS_STRETCH_26 = 5,
    TAILOR_LAYERS_STRETCH_66 = 6,
    TAILOR_LAYERS_BENDING_11 = 7, /**< uN.m */
    TAILOR_LAYERS_BENDING_22 = 8,
    TAILOR_LAYERS_BENDING_12 = 9,
    TAILOR_LAYERS_BENDING_16 = 10,
    TAILOR_LAYERS_BENDING_26 = 11,
    TAILOR_LAYERS_BENDING_66 = 12,
    TAILOR_LAYERS_WEIGHT = 13,   /**< g/m2 */
    TAILOR_LAYERS_THICKNESS = 14 /**< mm */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_LAYERS_COUNT 15
/** Most layers of one call. */
#define TAILOR_LAYERS_MOST 8

/** Join layers, the lowest first. `cloths` holds `layer_count` rows (1 to TAILOR_LAYERS_MOST) of `property_count`
 *  entries, each a cloth; `angles` the degrees by which each one's warp leans from the straight grain toward the
 *  break line, -180 to 180; `joints` a TAILOR_JOINT_ and `holds` 0 to 1 for each. The first layer's joint and hold
 *  are not looked at. `layers` (output) is indexed by TAILOR_LAYERS_.
 *
 *  Stretch: C = C_0 + sum(hold C_i) for padded layers, + C_i for fused ones. Bending: D = sum(D_i); of the fused ones
 *  and the first, bond times [sum(C z^2) - sum(C z) C^-1 sum(C z)] besides, z being the heights of their middles.
 *  Errors: those of tailor_cloth_check(), the sentence naming the layer; TAILOR_BAD_ARGUMENT for a count, joint or
 *  NULL; TAILOR_OUT_OF_RANGE for an angle or a hold. Cost: some 0.1 us a layer. @since 0.2.0 */
TAILOR_API tailor_status tailor_layers_join(const double *cloths, size_t layer_count, size_t property_count,
                                            const double *angles, const int *joints, const double *holds,
                                            double *layers, size_t layers_count, tailor_fault *fault);

/** Joined layers along a line `angle` degrees from the straight grain toward the break line; as tailor_cloth_along().
 *  TAILOR_MISSING or TAILOR_NOT_FINITE for an entry of `layers`, TAILOR_OUT_OF_RANGE for layers that would give way
 *  without force: no layers that tailor_layers_join() made. Cost: 0.1 us. @since 0.2.0 */
TAILOR_API tailor_status tailor_layers_along(const double *layers, size_t layers_count, double angle, double *along,
                                             size_t along_count, tailor_fault *fault);

/** How much a line on the layers stretches, in %, under a tension (N/cm across the line, 0 or more). `*beyond` (may be
 *  NULL) is 1 when it comes to more than 5 %: there cloth is no longer linear and the number only nominal. Errors as
 *  tailor_layers_along(). @since 0.2.0 */
TAILOR_API tailor_status tailor_layers_stretch(const double *layers, size_t layers_count, double angle, double tension,
                                               double *percent, int *beyond, tailor_fault *fault);

/** The direction in which layers stretch most: its angle, above -90 to 90, and the stiffness along it, N/m (either
 *  may be NULL). Of two equal ones the positive; 0 for layers that stretch alike in all directions. For one cloth
 *  with equal warp and weft it is 45 exactly, by symmetry; two plies crossed at an angle brace each other, so a
 *  made-up front is another matter than its canvas. Errors as tailor_layers_along(). Cost: 2 us. @since 0.2.0 */
TAILOR_API tailor_status tailor_layers_greatest_stretch(const double *layers, size_t layers_count, double *angle,
                                                        double *stiffness, tailor_fault *fault);

/* ---- trellis: threads that turn at their crossings and do not stretch ------------------------------- */

/** How much longer a line becomes, as a ratio, when warp and weft leave the square by `shear` degrees (-90 to 90,
 *  positive: the line at +45 lengthens). `angle`: of the line, from the warp, before. sqrt(1 + sin(shear) sin(2
 *  angle)), exact for a pin-jointed net. NaN out of range. @since 0.2.0 */
TAILOR_API double tailor_trellis_line(double shear, double angle);
/** How much smaller an area becomes, as a ratio: cos(shear). NaN out of -90 to 90. @since 0.2.0 */
TAILOR_API double tailor_trellis_area(double shear);
/** The shear, deg, that makes a line on the true bias longer by `extension` (0.05 for 5 %); shorter ones are negative.
 *  NaN outside -1 to sqrt(2) - 1, where the net is closed. @since 0.2.0 */
TAILOR_API double tailor_trellis_shear(double extension);

/* ---- droop: a strip under its own weight, exactly ------------------------------------------------------ */

/** Where the end of a clamped strip hangs. Of tailor_cloth_elastica_hang() lengths are shares of the strip's length. */
enum {
    TAILOR_DROOP_CHORD_ANGLE = 1, /**< deg below the horizontal, of the line from clamp to tip */
    TAILOR_DROOP_TIP_ANGLE = 2,   /**< deg below the horizontal, of the tip itself */
    TAILOR_DROOP_REACH = 3,       /**< mm, horizontal distance of the tip from the clamp */
    TAILOR_DROOP_DROP = 4         /**< mm by which the tip is lower than the clamp */
};
/** Length of an array indexed by the numbers above. */
#define TAILOR_DROOP_COUNT 5

/** The heavy elastica: an inextensible strip, clamped at one end with `rise` degrees above the horizontal (-89.9
 *  to 90), under its own weight and a load at the tip. `weight` is w L^3 / B and `load` P L^2 / B, both without
 *  unit, 0 to 8000 together. Strips clamped upright (rise 90) stand when w L^3 / B is below 7.837, Greenhill's
 *  number, and fold over beyond it. Of several shapes in balance the one without loops is found. Results to some 1e-9.
 *  TAILOR_OUT_OF_RANGE, TAILOR_NOT_FINITE. Cost: 0.1 ms. @since 0.2.0 */
TAILOR_API tailor_status tailor_cloth_elastica_hang(double weight, double load, double rise, double *droop,
                                                    size_t count, tailor_fault *fault);

/** The same for a strip of cloth: `bending_length` and `overhang` in mm (overhang at most 20 bending lengths), no load.
 *  Cost: 0.1 ms. @since 0.2.0 */
TAILOR_API tailor_status tailor_cloth_droop(double bending_length, double overhang, double rise, double *droop,
                                             size_t count, tailor_fault *fault);

/** Bending length, mm, of a strip that, clamped level, droops until its chord lies `chord_angle` deg (0.1 to 89)
 *  below the horizontal. At 41.5 deg it is half the overhang, as ASTM D1388 and BS 3356 have it; Peirce's closed form
 *  gives 1.9 % more there (5.7 % in rigidity) and is not used. Cost: 2 ms. @since 0.2.0 */
TAILOR_API tailor_status tailor_cloth_droop_bending_length(double overhang, double chord_angle, double *bending_length,
                                                     tailor_fault *fault);

/** The greatest height, mm, at which a strip clamped upright stands by itself: 1.986 bending lengths (Greenhill 1881).
 *  NaN unless the bending length is above zero. @since 0.2.0 */
TAILOR_API double tailor_cloth_standing_height(double bending_length);

#ifdef __cplusplus
}
#endif
#endif
