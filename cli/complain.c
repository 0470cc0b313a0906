#include "complain.h"

#include <stdarg.h>
#include <stdio.h>

static void say(const char *source, int line, const char *format, va_list arguments)
{
    fputs("tailorgeom: ", stderr);
    if (source && line > 0)
        fprintf(stderr, "%s:%d: ", source, line);
    else if (source)
        fprintf(stderr, "%s: ", source);
    vfprintf(stderr, format, arguments);
    fputc('\n', stderr);
}

void complain(const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say(NULL, 0, format, arguments);
    va_end(arguments);
}

void complain_at(const char *source, int line, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    say(source, line, format, arguments);
    va_end(arguments);
}
