#include <tailorgeom/base.h>

#define TEXT(x) #x
#define VERSION(major, minor, patch) TEXT(major) "." TEXT(minor) "." TEXT(patch)

const char *tailor_version(void)
{
    return VERSION(TAILOR_VERSION_MAJOR, TAILOR_VERSION_MINOR, TAILOR_VERSION_PATCH);
}

int tailor_edition(void)
{
    return 1;
}
