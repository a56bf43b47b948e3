"""Setting a sheet as PDF with Typst: data goes in as JSON, never as source."""

from __future__ import annotations

import json
from importlib.resources import files
from typing import Any


def sheet_pdf(data: dict[str, Any]) -> bytes:
    """The build sheet as PDF; the same data give the same bytes."""
    import typst

    template = files("layshaft.paper") / "template" / "build_sheet.typ"
    made: bytes = typst.compile(template.read_bytes(), sys_inputs={"data": json.dumps(data, ensure_ascii=False)})
    return made
