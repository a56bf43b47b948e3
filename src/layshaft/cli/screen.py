"""Where results and refusals go: a screen, or the pipe, the file or the nothing that stands in its place."""

from __future__ import annotations

import contextlib
import os
import sys
from collections.abc import Iterator
from typing import TextIO


class Unwritable(Exception):
    """A result was worked out and could not be handed over."""


def speak_utf8() -> None:
    """Write the trade's signs whatever the locale says; no sign may end the program."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")


def tell(text: str) -> None:
    """Write a result."""
    if sys.stdout is None:
        raise Unwritable("The result could not be written: standard output is closed.")
    with _handing_over():
        print(text)
        sys.stdout.flush()


def finish() -> None:
    """Send off what others printed, as help and misunderstandings are."""
    _flush_refusals()
    if sys.stdout is not None:
        with _handing_over():
            sys.stdout.flush()


@contextlib.contextmanager
def _handing_over() -> Iterator[None]:
    """A reader that left early, as `head` does, had enough: that changes no exit code. Any other failure is told."""
    try:
        yield
    except BrokenPipeError:
        _let_go(sys.stdout)
    except OSError as error:
        _let_go(sys.stdout)
        raise Unwritable(f"The result could not be written to standard output: {error.strerror or error}.") from None


def complain(sentence: str) -> None:
    """Write a refusal; where nobody can read it, the exit code alone has to do."""
    if sys.stderr is not None:
        with contextlib.suppress(OSError):
            print(sentence, file=sys.stderr)
        _flush_refusals()


def _flush_refusals() -> None:
    try:
        if sys.stderr is not None:
            sys.stderr.flush()
    except OSError:
        _let_go(sys.stderr)


def _let_go(stream: TextIO) -> None:
    """Lead a stream to nowhere, so that what is still in it cannot fail again when the program ends."""
    with contextlib.suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
