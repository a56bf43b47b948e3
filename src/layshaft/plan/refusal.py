"""A fair question that has no answer."""

from __future__ import annotations


class NoAnswer(Exception):
    """What was asked for cannot be done; the sentence says what stands in the way."""
