/* A pattern as DXF: not a drawing replayed, since who takes it in wants pieces on layers, not a sheet. */
#ifndef TAILOR_IN_SHEET_DXF_H
#define TAILOR_IN_SHEET_DXF_H

#include "write.h"

/** How far a chord may be from its curve, mm. */
#define TAILOR_IN_DXF_TOLERANCE 0.01

/** Write a pattern; the sink knows whether it broke. No memory is taken. */
void tailor_in_write_dxf(const tailor_pattern *pattern, const char *title, struct tailor_in_sink *sink);

#endif
