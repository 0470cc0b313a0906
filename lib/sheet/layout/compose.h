/* The two sheets, composed into a drawing. */
#ifndef TAILOR_IN_SHEET_COMPOSE_H
#define TAILOR_IN_SHEET_COMPOSE_H

#include "drawing.h"

void tailor_in_compose_pattern(struct tailor_in_drawing *d, const tailor_pattern *pattern, int print);
/** Every pattern must have a forepart with its stand point, break point and centre front. */
void tailor_in_compose_fronts(struct tailor_in_drawing *d, const tailor_pattern *const *patterns,
                              const char *const *labels, size_t count);

#endif
