"""What is open, once for each job that there is to do: alike remarks on several readings are one point.

A remark on a reading that has to be taken again anyway stands with that reading; remarks in the same words, such as of
one gauge that was due, are told together with all that they are about.
"""

from __future__ import annotations

from collections.abc import Iterable

from layshaft.paper.wording import capital


def grouped(points: Iterable[str], findings: Iterable[str]) -> list[str]:
    """The open points, with the findings laid on them or told together; the order of the first of each stays."""
    rows = list(dict.fromkeys(points))
    alike: dict[str, list[str]] = {}
    for finding in dict.fromkeys(findings):
        subject, _, words = finding.partition(": ")
        at = next((place for place, row in enumerate(rows) if f" {subject} (" in row), None)
        if at is not None and words:
            rows[at] = f"{rows[at]} {capital(words)}"
        else:
            alike.setdefault(words, []).append(subject)
    return [*rows, *(_together(subjects, words) for words, subjects in alike.items())]


def _together(subjects: list[str], words: str) -> str:
    told = "; ".join(subjects)
    return f"{told}: {words}" if words else told
