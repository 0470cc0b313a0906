/* The overlay sheet, composed into a drawing. */
#ifndef TAILOR_IN_SHEET_OVERLAY_H
#define TAILOR_IN_SHEET_OVERLAY_H

#include "drawing.h"

/** Drafts and labels: before, after. Labels may be NULL. */
void tailor_in_compose_overlay(struct tailor_in_drawing *d, const tailor_pattern *const drafts[2],
                               const char *const labels[2], int print);

#endif
