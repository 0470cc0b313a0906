#include <stddef.h>
#include <tailorgeom/pattern.h>
#include "../pattern/build.h"
static inline int tailor_pattern_edition(const tailor_pattern *p){ (void)p; return 1; }
static inline int tailor_pattern_style(const tailor_pattern *p, int f){ (void)p;(void)f; return 0; }
static inline size_t tailor_in_pattern_bytes_of(const tailor_pattern *p){ return tailor_in_pattern_bytes(p->count); }
static inline tailor_pattern *tailor_in_pattern_copy_into(const tailor_pattern *from, void *b, tailor_allocator a){
  tailor_pattern *p = tailor_in_pattern_begin(b, from->count, a);
  for (int i = 0; i < TAILOR_IN_ARRAYS; i++) { p->count[i]=from->count[i];
    for (size_t j=0;j<tailor_in_record_bytes[i]*(size_t)from->count[i];j++) ((char*)p+p->offset[i])[j]=((const char*)from+from->offset[i])[j]; }
  return p; }
