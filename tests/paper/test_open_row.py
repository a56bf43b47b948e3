"""One open point for each job that there is to do."""

from __future__ import annotations

from layshaft.paper.open_row import grouped

DUE = "gauge 1 was due on 2026-11-03"
READ = "Measure again A-1 Case, bore (bore gauge, 2 ways)."


def test_a_remark_on_a_reading_that_is_taken_again_stands_with_it() -> None:
    assert grouped([READ], [f"A-1 Case, bore: {DUE}.", "A-1 Case, bore: the part was warm."]) == [
        f"{READ} G{DUE[1:]}. The part was warm."
    ]


def test_remarks_in_the_same_words_are_told_together() -> None:
    findings = [f"A-2 Shaft, track: {DUE}.", "A-4 Pin, end: bent.", f"A-3 Bush, bore: {DUE}."]
    assert grouped([READ], findings) == [READ, f"A-2 Shaft, track; A-3 Bush, bore: {DUE}.", "A-4 Pin, end: bent."]


def test_a_sentence_without_a_subject_stays_as_it_is() -> None:
    assert grouped([], ["Twice the same.", "Twice the same."]) == ["Twice the same."]
