"""One command from its words to its exit code: every refusal becomes a sentence on stderr."""

from __future__ import annotations

import argparse
import os
from collections.abc import Sequence

from layshaft.cli.command import Misuse
from layshaft.cli.parser import build_parser
from layshaft.cli.screen import Unwritable, complain, finish, speak_utf8

DONE, FAULTY, MISUSED = 0, 1, 2


def run(argv: Sequence[str] | None = None) -> int:
    """Understand the words, do what they ask, and return the exit code."""
    speak_utf8()
    try:
        code = _understood(argv)
        finish()
    except Unwritable as error:
        complain(str(error))
        return MISUSED
    return code


def _understood(argv: Sequence[str] | None) -> int:
    parser = build_parser()
    try:
        given = parser.parse_args(argv)
    except SystemExit as end:
        # argparse ends so after it printed help, or what it did not understand.
        return int(end.code or DONE)
    if given.run is None:
        parser.print_help()
        return MISUSED
    return _guarded(given)


def _guarded(given: argparse.Namespace) -> int:
    from layshaft.book.book import BookFaults
    from layshaft.book.sheet import SheetFaults
    from layshaft.plan.refusal import NoAnswer
    from layshaft.shop.shelf import NotAtHand, ShelfFault

    try:
        _stand_somewhere()
        return DONE if given.run(given) else FAULTY
    except (NoAnswer, NotAtHand) as error:
        complain(str(error))
        return FAULTY
    except (BookFaults, SheetFaults) as error:
        complain(error.report.text())
        return FAULTY
    except (Misuse, ShelfFault) as error:
        complain(str(error))
        return MISUSED
    except OSError as error:
        if error.filename is None:
            raise
        complain(f"{error.filename}: {error.strerror}.")
        return MISUSED


def _stand_somewhere() -> None:
    try:
        os.getcwd()
    except OSError:
        raise Misuse("The folder where you stand is no longer there; go to one that is, and ask again.") from None
