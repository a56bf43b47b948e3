"""The `layshaft` command: thin, over the same functions as everything else. Results go to stdout, refusals to stderr.

Exit codes: 0 done; 1 a file has faults or the question has no answer; 2 the command was not understood, or what it
names is not there or cannot be read or written; 130 stopped by Ctrl-C. Nothing heavy is imported before Ctrl-C is
looked after.
"""

from __future__ import annotations

from collections.abc import Sequence

from layshaft.cli.stop import STOPPED, say_stopped, stop_at_once


def main(argv: Sequence[str] | None = None) -> int:
    """Run one command and return its exit code; without `argv`, the one that this program was started with."""
    try:
        if argv is None:
            stop_at_once()
        from layshaft.cli.run import run

        return run(argv)
    except KeyboardInterrupt:
        say_stopped()
        return STOPPED
