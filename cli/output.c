#define _POSIX_C_SOURCE 200809L
#define _DEFAULT_SOURCE /* mkstemps */
#include "output.h"

#include "complain.h"
#include "unfinished.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static bool cannot(const char *path, const char *verb, int error)
{
    complain("%s: cannot be %s: %s", path, verb, strerror(error));
    return false;
}

/* mkstemps makes files that only their owner may read; a sheet shall be as readable as any other new file. */
static void usual_permissions(int fd)
{
    mode_t mask = umask(0);
    umask(mask);
    (void)fchmod(fd, 0666 & ~mask);
}

bool output_path(const char *directory, const char *name, char path[OUTPUT_PATH_MOST])
{
    size_t length = strlen(directory);
    const char *slash = length && directory[length - 1] == '/' ? "" : "/";
    int wrote = strcmp(directory, ".") == 0 ? snprintf(path, OUTPUT_PATH_MOST, "%s", name)
                                            : snprintf(path, OUTPUT_PATH_MOST, "%s%s%s", directory, slash, name);
    if (wrote >= 0 && wrote < OUTPUT_PATH_MOST)
        return true;
    complain("the path of the directory is too long");
    return false;
}

output *output_open_in(output_set *set, const char *directory, const char *name)
{
    char path[OUTPUT_PATH_MOST];
    return output_path(directory, name, path) ? output_open(set, path) : NULL;
}

bool output_drawn(output *file, tailor_status status, const tailor_fault *fault)
{
    if (!output_close(file)) /* a failed write is told here, with its reason */
        return false;
    if (status != TAILOR_OK)
        complain_at(file->path, 0, "%s", fault->sentence);
    return status == TAILOR_OK;
}

output *output_open(output_set *set, const char *path)
{
    static const char ending[] = ".part";
    output *file = &set->files[set->count];
    memset(file, 0, sizeof *file);
    int length = snprintf(file->part, sizeof file->part, "%s.XXXXXX%s", path, ending);
    if (set->count == OUTPUT_FILES_MOST || length < 0 || (size_t)length >= sizeof file->part) {
        cannot(path, "written", ENAMETOOLONG);
        return NULL;
    }
    snprintf(file->path, sizeof file->path, "%s", path);
    unfinished_hold();
    int fd = mkstemps(file->part, (int)sizeof ending - 1);
    int error = errno;
    if (fd >= 0)
        unfinished_add(file->part);
    unfinished_release();
    if (fd < 0) {
        cannot(path, "written", error);
        return NULL;
    }
    file->pending = true;
    set->count++;
    usual_permissions(fd);
    file->stream = fdopen(fd, "wb");
    if (!file->stream) {
        cannot(path, "written", errno);
        close(fd);
        return NULL;
    }
    return file;
}

int output_write(void *user, const void *data, size_t bytes)
{
    output *file = user;
    if (file->trouble || bytes == 0)
        return file->trouble != 0;
    if (fwrite(data, 1, bytes, file->stream) != bytes)
        file->trouble = errno ? errno : EIO;
    return file->trouble != 0;
}

bool output_close(output *file)
{
    if (!file->trouble && fflush(file->stream) != 0)
        file->trouble = errno;
    /* A device or pipe has nothing to bring to a disk and says EINVAL. */
    if (!file->trouble && fsync(fileno(file->stream)) != 0 && errno != EINVAL)
        file->trouble = errno;
    if (fclose(file->stream) != 0 && !file->trouble)
        file->trouble = errno;
    file->stream = NULL;
    return file->trouble ? cannot(file->path, "written", file->trouble) : true;
}

bool output_commit(output_set *set)
{
    for (size_t i = 0; i < set->count; i++) {
        output *file = &set->files[i];
        unfinished_hold();
        int failed = rename(file->part, file->path), error = errno;
        if (!failed) {
            file->pending = false;
            unfinished_remove(file->part);
        }
        unfinished_release();
        if (failed)
            return cannot(file->path, "put in its place", error);
    }
    return true;
}

void output_discard(output_set *set)
{
    for (size_t i = 0; i < set->count; i++) {
        output *file = &set->files[i];
        if (file->stream)
            fclose(file->stream);
        file->stream = NULL;
        if (!file->pending)
            continue;
        unfinished_hold();
        unlink(file->part);
        unfinished_remove(file->part);
        unfinished_release();
        file->pending = false;
    }
}

bool make_directory(const char *path)
{
    char step[OUTPUT_PATH_MOST];
    size_t length = strlen(path);
    if (length == 0 || length >= sizeof step)
        return cannot(length ? path : "the empty path", "made", length ? ENAMETOOLONG : ENOENT);
    for (size_t i = 1; i <= length; i++) {
        if (path[i] != '/' && path[i] != '\0')
            continue;
        memcpy(step, path, i);
        step[i] = '\0';
        if (mkdir(step, 0777) == 0)
            continue;
        int error = errno;
        struct stat found;
        if (stat(step, &found) != 0 || !S_ISDIR(found.st_mode))
            return cannot(step, "made", error);
    }
    return true;
}

void output_prepare(void)
{
    /* Opened the wrong way round, so that using a stream that the caller closed is an error, not a stray file. */
    for (int fd = 0; fd < 3; fd++)
        if (fcntl(fd, F_GETFD) < 0 && open("/dev/null", fd == 0 ? O_WRONLY : O_RDONLY) < 0)
            _exit(EXIT_REFUSED);
    unfinished_watch();
}

void complain_stdout(int error)
{
    static bool said;
    if (!said)
        complain("standard output: cannot be written: %s", strerror(error ? error : EIO));
    said = true;
}

bool output_finish_stdout(void)
{
    errno = 0;
    if (fflush(stdout) == 0 && !ferror(stdout))
        return true;
    complain_stdout(errno);
    return false;
}
