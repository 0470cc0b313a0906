#define _POSIX_C_SOURCE 200809L
#include "book.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static const char unfinished[] = ".writing-"; /* no order's folder begins with a dot */

static int write_file(int folder, const book_file *file)
{
    const char *bytes = file->bytes.bytes;
    size_t left = file->bytes.length;
    int fd = openat(folder, file->name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (fd < 0)
        return errno;
    while (left > 0) {
        ssize_t wrote = write(fd, bytes, left);
        if (wrote < 0 && errno != EINTR) {
            int error = errno;
            close(fd);
            return error;
        }
        if (wrote > 0) {
            bytes += wrote;
            left -= (size_t)wrote;
        }
    }
    return close(fd) == 0 ? 0 : errno;
}

static void say_path(buffer *path, const char *folder, const char *file)
{
    path->length = 0;
    buffer_say(path, folder);
    buffer_say(path, file ? "/" : "");
    buffer_add(path, file ? file : "", (file ? strlen(file) : 0) + 1);
}

static void remove_folder(int root, const char *name)
{
    int fd = openat(root, name, O_RDONLY | O_DIRECTORY | O_CLOEXEC | O_NOFOLLOW);
    DIR *folder = fd < 0 ? NULL : fdopendir(fd);
    for (struct dirent *entry; folder && (entry = readdir(folder)) != NULL;)
        unlinkat(fd, entry->d_name, 0);
    if (folder)
        closedir(folder);
    unlinkat(root, name, AT_REMOVEDIR);
}

static int write_all(int root, const char *part, const char *folder, const book_file *files, size_t count,
                     buffer *path)
{
    say_path(path, folder, NULL);
    if (mkdirat(root, part, 0777) != 0)
        return errno;
    int fd = openat(root, part, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    int error = fd < 0 ? errno : 0;
    for (size_t i = 0; i < count && !error; i++) {
        error = write_file(fd, &files[i]);
        if (error)
            say_path(path, folder, files[i].name);
    }
    if (fd >= 0)
        close(fd);
    return error;
}

int book_write_folder(int root, int thread, const char *folder, const book_file *files, size_t count, buffer *path)
{
    char part[sizeof unfinished + 16];
    struct stat found;
    if (fstatat(root, folder, &found, AT_SYMLINK_NOFOLLOW) == 0 && S_ISDIR(found.st_mode))
        return 0;
    snprintf(part, sizeof part, "%s%d", unfinished, thread);
    int error = write_all(root, part, folder, files, count, path);
    if (!error && renameat(root, part, root, folder) != 0)
        error = errno;
    if (error)
        remove_folder(root, part);
    return error;
}

/* Calls `see` for every entry until it says false. */
static void walk(int root, bool (*see)(int root, const char *name, void *user), void *user)
{
    int fd = openat(root, ".", O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    DIR *folder = fd < 0 ? NULL : fdopendir(fd);
    for (struct dirent *entry; folder && (entry = readdir(folder)) != NULL;)
        if (strcmp(entry->d_name, ".") != 0 && strcmp(entry->d_name, "..") != 0 && !see(root, entry->d_name, user))
            break;
    if (folder)
        closedir(folder);
}

static bool remove_one(int root, const char *name, void *user)
{
    (void)user;
    if (strncmp(name, unfinished, sizeof unfinished - 1) == 0)
        remove_folder(root, name);
    return true;
}

void book_remove_unfinished(int root) { walk(root, remove_one, NULL); }

static bool see_one(int root, const char *name, void *empty)
{
    (void)root;
    (void)name;
    *(bool *)empty = false;
    return false;
}

bool book_is_empty(int root)
{
    bool empty = true;
    walk(root, see_one, &empty);
    return empty;
}
