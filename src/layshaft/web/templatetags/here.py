"""Which link of a page's head leads to the page that is shown."""

from __future__ import annotations

from typing import Any

from django import template
from django.utils.safestring import SafeString, mark_safe

register = template.Library()
PART_OF = {"part": "readings", "press way": "press"}
"""Pages that belong to a page of the head."""


@register.simple_tag(takes_context=True)
def here(context: dict[str, Any], name: str) -> SafeString:
    """What marks a link as the page that is shown, for eyes and for screen readers."""
    match = getattr(context.get("request"), "resolver_match", None)
    shown = match.url_name if match else None
    return mark_safe(' aria-current="page"' if PART_OF.get(shown, shown) == name else "")
