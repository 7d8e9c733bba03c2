/* Loaded before libc: the FAULT_AT-th change of a file under FAULT_FOLDER fails or kills.

   FAULT_KIND: "kill"; "full" (no room from then on); "full_once"; "failed" (input/output error).
   The change that met the fault is named on standard error. */

#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <limits.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/types.h>
#include <sys/uio.h>
#include <unistd.h>

enum need { ROOM, NO_ROOM };

static const char *folder, *kind;
static long at, seen;

__attribute__((constructor)) static void begin(void)
{
    const char *text = getenv("FAULT_AT");
    folder = getenv("FAULT_FOLDER");
    kind = getenv("FAULT_KIND");
    at = text && folder && kind ? atol(text) : 0;
}

static int inside(const char *path)
{
    return at && path && !strncmp(path, folder, strlen(folder));
}

static int inside_fd(int fd)
{
    char link[64], path[PATH_MAX + 2];
    snprintf(link, sizeof link, "/proc/self/fd/%d", fd);
    ssize_t length = at ? readlink(link, path, PATH_MAX) : -1;
    if (length < 0)
        return 0;
    strcpy(path + length, "/"); /* so that the folder itself, synced like a file, is inside */
    return inside(path);
}

/* Whether this change must fail; errno is set then. */
static int struck(const char *name, enum need need)
{
    int lasting = !strcmp(kind, "full");
    seen++;
    if (seen < at || (seen > at && !lasting))
        return 0;
    if (seen == at)
        dprintf(2, "fault: %s\n", name);
    if (!strcmp(kind, "kill"))
        kill(getpid(), SIGKILL);
    if (lasting && need == NO_ROOM)
        return 0;
    errno = strcmp(kind, "failed") ? ENOSPC : EIO;
    return 1;
}

#define REAL(type, name, ...) ((type(*)(__VA_ARGS__))dlsym(RTLD_NEXT, #name))

#define BY_FD(type, name, need, parameters, types, values)                  \
    type name parameters                                                    \
    {                                                                       \
        if (inside_fd(fd) && struck(#name, need))                           \
            return -1;                                                      \
        return ((type(*) types)dlsym(RTLD_NEXT, #name))values;              \
    }

#define BY_PATH(name, need, parameters, types, values)                      \
    int name parameters                                                     \
    {                                                                       \
        if (inside(path) && struck(#name, need))                            \
            return -1;                                                      \
        return ((int(*) types)dlsym(RTLD_NEXT, #name))values;               \
    }

#define BY_OPEN(name)                                                       \
    int name(const char *path, int flags, ...)                              \
    {                                                                       \
        va_list rest;                                                       \
        va_start(rest, flags);                                              \
        mode_t mode = flags & O_CREAT ? va_arg(rest, mode_t) : 0;           \
        va_end(rest);                                                       \
        if (flags & O_CREAT && inside(path) && struck(#name, ROOM))         \
            return -1;                                                      \
        return REAL(int, name, const char *, int, ...)(path, flags, mode);  \
    }

BY_FD(ssize_t, write, ROOM, (int fd, const void *from, size_t size), (int, const void *, size_t),
      (fd, from, size))
BY_FD(ssize_t, pwrite, ROOM, (int fd, const void *from, size_t size, off_t place),
      (int, const void *, size_t, off_t), (fd, from, size, place))
BY_FD(ssize_t, pwrite64, ROOM, (int fd, const void *from, size_t size, off64_t place),
      (int, const void *, size_t, off64_t), (fd, from, size, place))
BY_FD(ssize_t, pwritev, ROOM, (int fd, const struct iovec *from, int count, off_t place),
      (int, const struct iovec *, int, off_t), (fd, from, count, place))
BY_FD(int, fsync, NO_ROOM, (int fd), (int), (fd))
BY_FD(int, fdatasync, NO_ROOM, (int fd), (int), (fd))
BY_FD(int, ftruncate, ROOM, (int fd, off_t size), (int, off_t), (fd, size))
BY_FD(int, ftruncate64, ROOM, (int fd, off64_t size), (int, off64_t), (fd, size))
BY_PATH(unlink, NO_ROOM, (const char *path), (const char *), (path))
BY_PATH(mkdir, ROOM, (const char *path, mode_t mode), (const char *, mode_t), (path, mode))
BY_PATH(rename, NO_ROOM, (const char *path, const char *to), (const char *, const char *),
        (path, to))
BY_PATH(link, ROOM, (const char *path, const char *to), (const char *, const char *), (path, to))
BY_OPEN(open)
BY_OPEN(open64)
