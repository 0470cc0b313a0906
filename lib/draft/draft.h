/* The draft in work: what the steps hand on to one another. Each step is one file and fills its own part.
 *
 *   frame      levels and widths            suppression  what the seams take, belly
 *   seams      centre back, back seam, front seam        shoulder   back neck, shoulders, front neck point, crook
 *   scye       back, sidebody, forepart     fold, lapel  stand point, break line, gorge, lapel
 *   edge       front edge, buttons, holes   hem          hems         pockets    dart, pocket, welt, belly cut
 *   sleeve     both sleeves                 collar       under collar assemble   the pattern
 *
 * Paths run as the text beside them says; the assembly turns them into counter-clockwise outlines. */
#ifndef TAILOR_IN_COAT_DRAFT_H
#define TAILOR_IN_COAT_DRAFT_H

#include <tailorgeom/order.h>
#include <tailorgeom/pattern.h>

#include "../pattern/fastening.h"
#include "figure.h"
#include "vector.h"

enum { TAILOR_IN_PATH = 10 };

typedef struct tailor_in_path {
    size_t count;
    tailor_cubic c[TAILOR_IN_PATH];
} tailor_in_path;

typedef struct tailor_in_draft {
    const double *f, *k; /* fields and constants of the side's figure */
    double blades_width, blades_ease, back_pitch_share; /* the figure's */
    tailor_fault *fault;

    /* frame: levels (y) and verticals (x) */
    double scye_line, cross_back_level, waist, seat, back_hem, front_hem, belly_level, scye_line_measured;
    double deepened; /* scye cut deeper for a strong arm */
    double scye_low; /* bottom of the scye: the scye line, less what a low shoulder is cut */
    double back_width_line, scye_front, centre_front, front_width;
    double back_seam_axis, front_seam_axis, scye_low_x, front_seam_top;

    /* suppression: gap an edge, positive where cloth is taken away */
    double suppression, belly, hollow, back_gap_waist, front_gap_waist, dart, back_gap_seat, front_gap_seat;
    tailor_in_path belly_line; /* x = how far the centre front moves out, y = level, downwards */

    /* seams, all downwards */
    tailor_in_path centre_back, back_seam_back, back_seam_side, front_seam_side, front_seam_fore;

    /* shoulder */
    double back_slope, front_slope, crook_angle;
    tailor_point back_neck_point, back_shoulder_end, neck_point, front_shoulder_end;
    tailor_cubic back_shoulder, front_shoulder; /* from neck to shoulder end */
    tailor_cubic back_neck;                     /* from nape to neck point */
    double neck_turn;                           /* deg, of the joined neck seam from the nape to the break line */

    /* scye */
    tailor_in_path scye_back, scye_side,
        scye_fore; /* shoulder end downwards; top of back seam forward; shoulder end downwards */
    tailor_point cross_back, scye_plumb, scye_bottom;
    double scye_length;

    /* fold: the break line runs up from break point to stand point */
    tailor_point stand_point, break_point, up, inward;
    int breaks_high; /* above the topmost hole */
    tailor_point gorge_crossing, gorge_corner, worn_tip, worn_root, tip, root;
    tailor_point bridle[2]; /* lower end, upper end */
    tailor_in_path gorge;   /* collar end to neck point */
    tailor_cubic worn_edge; /* worn tip to break point */

    /* edge. Rows of buttons from the top; a single-breasted front has its holes on the centre front, where its buttons
     * are; a double-breasted one as far beyond it as its buttons are behind it, and its topmost rows may have none. */
    double break_y, waist_button_y, edge_out; /* edge_out: front edge beyond the centre front */
    int row_count, first_hole;
    tailor_point button[TAILOR_IN_FASTENINGS], eye[TAILOR_IN_FASTENINGS];
    tailor_in_path front_edge; /* hem to break point */
    tailor_point hem_front, fronts_part;

    /* hems, from centre back toward the front */
    tailor_cubic hem_back, hem_side, hem_fore;

    /* pockets */
    tailor_in_path dart_shape, welt, belly_cut;
    tailor_cubic pocket_fore, pocket_side;
    int pocket_crosses; /* the pocket runs on over the front seam into the sidebody */

    /* sleeve: x from the forearm fold to the hindarm, y from the scye line */
    double sleeve_width, hindarm_inset, back_pitch_height, sleeve_length, elbow_level, cuff_x;
    tailor_point crown_top, back_pitch, front_pitch;
    double back_pitch_place, front_pitch_place; /* on scye_back and scye_fore */
    double scye_upper_back, scye_upper_front, underscye;
    tailor_in_path under_crown; /* whole underscye of the sleeve: front pitch to hindarm */
    tailor_in_path crown_tail,
        crown_under;      /* its two parts: on the topsleeve (mirrored, fold to seam), on the undersleeve */
    tailor_in_path crown; /* topsleeve: hindarm to front pitch */
    tailor_in_path fore_top, fore_under, hind_top, hind_under, fold_fore, fold_hind; /* all downwards */

    /* collar, on the forepart */
    double lay_over;
    tailor_in_path collar_neck; /* collar end to centre back */
    tailor_in_path collar_leaf; /* collar point to centre back */
    tailor_in_path crease;      /* gorge crossing to centre back */
    tailor_point collar_point, leaf_at_shoulder;
} tailor_in_draft;

/* The steps. Each returns TAILOR_OK or fills the fault. */
tailor_status tailor_in_draft_frame(tailor_in_draft *d);
tailor_status tailor_in_draft_suppression(tailor_in_draft *d);
tailor_status tailor_in_draft_seams(tailor_in_draft *d);
tailor_status tailor_in_draft_shoulder(tailor_in_draft *d);
tailor_status tailor_in_draft_scye(tailor_in_draft *d);
tailor_status tailor_in_draft_fold(tailor_in_draft *d);
tailor_status tailor_in_draft_lapel(tailor_in_draft *d); /* a part of the fold */
tailor_status tailor_in_draft_edge(tailor_in_draft *d);
tailor_status tailor_in_draft_hem(tailor_in_draft *d);
tailor_status tailor_in_draft_pockets(tailor_in_draft *d);
tailor_status tailor_in_draft_sleeve(tailor_in_draft *d);
tailor_status tailor_in_draft_collar(tailor_in_draft *d);

/** How far the centre front has moved out for the belly at a level. */
double tailor_in_belly_at(const tailor_in_draft *d, double level);
/** x of a downward path made by tailor_path_monotone, at a level (the ends run on). */
double tailor_in_x_at(const tailor_in_path *path, double level);
/** Place of such a path at a level. */
double tailor_in_place_on_seam(const tailor_in_path *path, double level);
/** Sum of the lengths of a path. */
double tailor_in_length(const tailor_in_path *path);
void tailor_in_append(tailor_in_path *path, tailor_cubic c);
tailor_in_path tailor_in_reversed(const tailor_in_path *path);
tailor_in_path tailor_in_reflected(const tailor_in_path *path, tailor_point a, tailor_point b);
/** Part of a path between two places. */
tailor_in_path tailor_in_part(const tailor_in_path *path, double from, double to);
/** First place where a path crosses a level (y), -1 if it does not. */
double tailor_in_place_at_level(const tailor_in_path *path, double level);
tailor_point tailor_in_path_start(const tailor_in_path *path);
tailor_point tailor_in_path_end(const tailor_in_path *path);
tailor_point tailor_in_direction_start(const tailor_in_path *path);
tailor_point tailor_in_direction_end(const tailor_in_path *path);

/** Root of a continuous function between two values of opposite sign (Illinois method, bounded); NaN when the signs
 * agree. */
double tailor_in_root(double (*function)(const void *with, double x), const void *with, double low, double high,
                      double tolerance);

/** Refuse the order: the status names the step, the field is the one to change. The sentence is tailor_in_fault's. */
tailor_status tailor_in_refuse(const tailor_in_draft *d, tailor_status status, int field, const char *sentence);

/** The inner edge of the facing on the forepart, downwards from the shoulder seam to the hem; x a function of y. */
tailor_in_path tailor_in_facing_line(const tailor_in_draft *d);
/** Mouth of the inside pocket, on facing and lining of the forepart, from its front end backward. */
tailor_cubic tailor_in_inside_pocket(const tailor_in_draft *d);

#endif
