/* cloths_own: the user's own file of cloths. Read by cloths_read() of cloths.h, kept for the rest of the run. */
#ifndef CLI_CLOTHS_OWN_H
#define CLI_CLOTHS_OWN_H

#include "cloths.h"

size_t cloths_own_count(void);
const cloth_row *cloths_own_at(size_t place);
/** NULL for a name that the file does not have. */
const cloth_row *cloths_own(const char *name);

#endif
