"""What our system offers and another one does not."""

from __future__ import annotations

MODULES = ("fcntl", "pwd", "grp", "resource", "termios", "tty", "pty", "syslog", "posix_ipc")
OF_OS = (
    *("O_NOFOLLOW", "O_DIRECTORY", "O_CLOEXEC", "O_NOCTTY", "O_NONBLOCK", "O_SYNC"),
    *("fchmod", "fchown", "chown", "lchown", "link", "pread", "pwrite", "mkfifo", "mknod"),
    # uname and getuid stay: libraries ask for them where the system is called as ours is.
    *("geteuid", "getgid", "getegid", "getgroups", "statvfs", "killpg"),
    *("fork", "forkpty", "nice", "sync", "fdatasync", "getpgid", "setsid", "openpty"),
)
OF_SIGNAL = ("SIGKILL", "SIGHUP", "SIGALRM", "SIGUSR1", "SIGUSR2", "SIGPIPE", "SIGCHLD", "alarm")
