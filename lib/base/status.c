#include <tailorgeom/base.h>

typedef struct status_row {
    int number;
    const char *name, *text;
} status_row;

#define ROW(name, text) {name, #name, text}

static const status_row rows[] = {
    ROW(TAILOR_OK, "done"),
    ROW(TAILOR_BAD_ARGUMENT, "an argument that the call does not take"),
    ROW(TAILOR_UNKNOWN_FIELD, "a value was given for a number that this library does not know"),
    ROW(TAILOR_TOO_SMALL, "the array is too small"),
    ROW(TAILOR_NO_MEMORY, "no memory"),
    ROW(TAILOR_WRITE_FAILED, "the writer could not write"),
    ROW(TAILOR_MISSING, "a required value is not given"),
    ROW(TAILOR_NOT_FINITE, "a value is infinite or not a number"),
    ROW(TAILOR_OUT_OF_RANGE, "a value lies outside its range"),
    ROW(TAILOR_NOT_A_CHOICE, "a value is not one of the choices"),
    ROW(TAILOR_WRONG_UNIT, "a value seems to be in another unit"),
    ROW(TAILOR_CONTRADICTION, "two values cannot both be true of one coat"),
    ROW(TAILOR_BAD_LENGTH, "a text is not a length or number"),
    ROW(TAILOR_FRAME_UNSOLVED, "no room is left for back, scye or chest"),
    ROW(TAILOR_WAIST_UNSOLVED, "the suppression asked for does not fit the seams"),
    ROW(TAILOR_SHOULDER_UNSOLVED, "shoulder seam or neck point cannot be placed"),
    ROW(TAILOR_SCYE_UNSOLVED, "the scye cannot be drawn"),
    ROW(TAILOR_FRONT_UNSOLVED, "break line, lapel or front edge cannot be drawn"),
    ROW(TAILOR_SLEEVE_UNSOLVED, "no sleeve fits the scye"),
    ROW(TAILOR_COLLAR_UNSOLVED, "no collar fits the neck seam"),
    ROW(TAILOR_CHECK_FAILED, "a check of the finished coat does not hold"),
    ROW(TAILOR_DEGENERATE, "no direction, length or area where one is needed"),
    ROW(TAILOR_NO_SOLUTION, "there is no solution"),
    ROW(TAILOR_OVERLAP, "two curves share a stretch"),
    ROW(TAILOR_NOT_CONVERGED, "a bounded iteration ended before its tolerance"),
    ROW(TAILOR_UNSOUND, "a pattern cannot be cut or sewn"),
    ROW(TAILOR_INTERNAL, "a promise of the library was broken: please report it"),
};

static const status_row *find(int status)
{
    static const status_row unknown = {0, "TAILOR_UNKNOWN_STATUS", "a status that this library does not know"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        if (rows[i].number == status)
            return &rows[i];
    return &unknown;
}

const char *tailor_status_name(int status)
{
    return find(status)->name;
}

const char *tailor_status_text(int status)
{
    return find(status)->text;
}
