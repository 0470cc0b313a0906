/* Putting parts of the draft onto the piece in work: paths as edges; lines, levels, notches and circles as marks. */
#ifndef TAILOR_IN_COAT_PUT_H
#define TAILOR_IN_COAT_PUT_H

#include "../pattern/build.h"
#include "draft.h"

void tailor_in_add_path(tailor_pattern *p, int edge, const tailor_in_path *path);
void tailor_in_add_backwards(tailor_pattern *p, int edge, const tailor_in_path *path);
void tailor_in_add_line(tailor_pattern *p, int mark, int kind, tailor_point a, tailor_point b);
/** A level line between two downward edges. */
void tailor_in_add_level(tailor_pattern *p, int mark, double level, const tailor_in_path *from,
                         const tailor_in_path *to);
/** A notch square to an edge of the piece in work, at a place of the edge in outline direction. */
void tailor_in_add_notch(tailor_pattern *p, const tailor_in_draft *d, int mark, int edge, double place);
void tailor_in_add_circle(tailor_pattern *p, int mark, int kind, tailor_point centre, double radius);

#endif
