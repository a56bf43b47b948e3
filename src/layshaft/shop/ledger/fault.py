"""What keeps the record from taking something, as a sentence for the person who sent it."""

from __future__ import annotations


class Refused(Exception):
    """Something that is not written, and why; nothing was changed. `id` is a word for tests and pages."""

    def __init__(self, id: str, sentence: str) -> None:
        super().__init__(sentence)
        self.id = id
        self.sentence = sentence
