"""How long a book of 150 kB takes to check, clean and with faults.

Run it from the project's folder with the project's environment: `python -m benchmarks.book_check`.
"""

import re
import statistics
import time
from pathlib import Path

from layshaft.book import check_book

ROOT = Path(__file__).resolve().parents[1]
BYTES = 150_000
ROUNDS = 7
GOALS = {"clean": 0.3, "faulty": 1.5}


def grown_book() -> str:
    """The shipped three-variant book with one of its parts repeated under other ids until it is large enough."""
    text = (ROOT / "books" / "overtop" / "book.yaml").read_text(encoding="utf-8")
    part = re.search(r"  OT-030:\n(?:    .*\n|\n)+", text)
    assert part
    pieces, size = [], len(text.encode())
    while size < BYTES:
        pieces.append(part[0].replace("OT-030", f"XX-{len(pieces) + 1:03}"))
        size += len(pieces[-1].encode())
    return text[: part.start()] + "".join(pieces) + text[part.start() :]


def seconds(text: str) -> list[float]:
    """The time that each of several checks takes, with the report written out."""
    taken = []
    for _ in range(ROUNDS):
        start = time.perf_counter()
        check_book(text, "book.yaml").text()
        taken.append(time.perf_counter() - start)
    return taken


def main() -> None:
    """Print both figures."""
    clean = grown_book()
    faulty = clean.replace("time: 2.0 min", "time: 2.0").replace("grades:", "grade:", 60)
    for name, text in (("clean", clean), ("faulty", faulty)):
        report = check_book(text, "book.yaml")
        taken = seconds(text)
        print(f"{name}: {len(text.encode()):,} bytes, {len(report.faults)} faults: median "
              f"{statistics.median(taken):.3f} s, slowest {max(taken):.3f} s (goal {GOALS[name]} s)")


if __name__ == "__main__":
    main()
