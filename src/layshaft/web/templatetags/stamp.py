"""A key of its own for every form: what is sent twice is written once."""

from __future__ import annotations

from uuid import uuid4

from django import template

register = template.Library()


@register.simple_tag
def fresh_key() -> str:
    """A key that no other form has."""
    return str(uuid4())
