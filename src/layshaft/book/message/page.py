"""The manual's page of messages, written from the catalogue."""

from __future__ import annotations

from layshaft.book.message import SECTIONS, SLOT
from layshaft.book.message.kind import Message

_HEAD = """# Messages

Everything that `layshaft check` can say about a file. A *fault* has to be corrected before the file can be used; a
*note* stops nothing. Each says where it is, shows the line as written, and tells what was found, what is needed and
what to try. Words in capitals stand for what was found in the file at hand. This page is written from the program's
own catalogue, and a test holds it to that.
"""


def message_page() -> str:
    """The whole page in Markdown."""
    lines = [_HEAD]
    for title, messages in SECTIONS.items():
        lines.append(f"## {title}\n")
        for id, message in messages.items():
            lines += [f"### {id}\n", _paragraph(message)]
    return "\n".join(lines)


def _paragraph(message: Message) -> str:
    told = [f"*{message.kind.capitalize()}.* {_capitals(message.sentence)}"]
    if message.needed:
        told.append(f"**Needed:** {_capitals(message.needed)}")
    if message.try_:
        told.append(f"**Try:** {_capitals(message.try_)}")
    return "  \n".join(told) + "\n"


def _capitals(text: str) -> str:
    return SLOT.sub(lambda slot: slot[1].upper(), text)
