"""Programs that a test watches while they run. It waits for what it needs, a word on the terminal or a file, and never
for the clock: on a busy machine anything may take long."""
import os
import pty
import select
import shutil
import signal
import subprocess
import time

NET = 900  # seconds after which a program counts as hanging; nothing is meant to come near it
TRIES = 50  # a busy machine may let a program end before its test comes to look: then it is run again


class Terminal:
    """A pseudo-terminal, and all that was said on it so far."""

    def __init__(self):
        self.leader, self.follower = pty.openpty()
        self.said = b""

    def start(self, command, **options):
        """Starts a program with this as its standard error."""
        process = subprocess.Popen(command, stderr=self.follower, **options)
        os.close(self.follower)
        return process

    def more(self):
        assert select.select([self.leader], [], [], NET)[0], f"nothing more after {self.said!r}"
        try:
            read = os.read(self.leader, 4096)
        except OSError:  # how a pseudo-terminal ends
            read = b""
        self.said += read
        return bool(read)

    def until(self, word):
        while word not in self.said:
            assert self.more(), f"it ended without {word!r}: {self.said!r}"

    def rest(self):
        """Whatever is still said until the program ends."""
        while self.more():
            pass
        os.close(self.leader)
        return self.said


def until(process, true):
    """Waits until it is so, or the program has ended."""
    end = time.monotonic() + NET
    while process.poll() is None and not true():
        assert time.monotonic() < end, "the program hangs"
        time.sleep(0.0005)


def remove(path):
    if path.is_dir():
        shutil.rmtree(path)
    else:
        path.unlink(missing_ok=True)


def ended(command, true, number, made, **options):
    """Runs a program until something is true and ends it there with a signal; `made` is what to remove before it is run
    again, where it was through already."""
    for _ in range(TRIES):
        process = subprocess.Popen(command, stderr=subprocess.PIPE, **options)
        until(process, true)
        process.send_signal(number)
        process.communicate()
        if process.returncode == -number:
            return
        for path in made:
            remove(path)
    raise AssertionError("it was through each time before it could be ended")


def halted(command, true, early, made, **options):
    """Runs a program until something is true and halts it there, with `early` true: it has not got too far. It goes on
    with SIGCONT."""
    for _ in range(TRIES):
        process = subprocess.Popen(command, stderr=subprocess.PIPE, **options)
        until(process, true)
        process.send_signal(signal.SIGSTOP)
        if process.returncode is None:
            os.waitid(os.P_PID, process.pid, os.WSTOPPED | os.WEXITED | os.WNOWAIT)
        if process.poll() is None and early(process):
            return process
        process.kill()
        process.communicate()
        for path in made:
            remove(path)
    raise AssertionError("it was too far each time before it could be halted")


def place_in(process, path):
    """How far a program that is halted has read a file, in bytes."""
    for link in os.scandir(f"/proc/{process.pid}/fd"):
        if os.path.samefile(link.path, path):
            with open(f"/proc/{process.pid}/fdinfo/{link.name}") as about:
                return int(about.readline().split()[1])
    return os.path.getsize(path)
