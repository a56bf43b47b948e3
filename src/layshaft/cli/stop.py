"""Ctrl-C: a sentence and an exit code at any moment, and what was half-written cleared away."""

from __future__ import annotations

import contextlib
import os
import signal
from collections.abc import Iterator

STOPPED = 130
_SENTENCE = b"Stopped by you; nothing was left half-written.\n"


def stop_at_once() -> None:
    """Let Ctrl-C end this program on the spot, also amid an import, where an exception would get lost or be told."""
    if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
        signal.signal(signal.SIGINT, _end)


@contextlib.contextmanager
def clearing_away() -> Iterator[None]:
    """Let Ctrl-C be an exception here, so that what is being written can be taken back."""
    if signal.getsignal(signal.SIGINT) is not _end:
        yield
        return
    signal.signal(signal.SIGINT, signal.default_int_handler)
    try:
        yield
    finally:
        signal.signal(signal.SIGINT, _end)


def say_stopped() -> None:
    """Say that the person stopped it, past any stream that may be in the middle of a line."""
    with contextlib.suppress(OSError):
        os.write(2, _SENTENCE)


def _end(*_: object) -> None:
    say_stopped()
    os._exit(STOPPED)
