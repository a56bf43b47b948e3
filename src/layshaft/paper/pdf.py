"""Setting a sheet as PDF with Typst: data goes in as JSON, never as source."""

from __future__ import annotations

import json
import re
from importlib.resources import files
from typing import Any

_UNITS = "% °C °F N kN N·m mm mm² µm in kPa MPa bar psi lbf lbf·ft lbf·in ft·lbf J mJ g kg lb m/s ft/s K L min deg"
_FIGURE = re.compile(rf"(?<=[0-9]) (?=(?:{'|'.join(re.escape(unit) for unit in _UNITS.split())})(?![\w·/²]))")


def _bound(text: str) -> str:
    """Each figure on one line with its unit."""
    return _FIGURE.sub("\u00a0", text)


def sheet_pdf(data: dict[str, Any]) -> bytes:
    """The build sheet as PDF; the same data give the same bytes."""
    import typst

    template = files("layshaft.paper") / "template" / "build_sheet.typ"
    told = _bound(json.dumps(data, ensure_ascii=False))
    made: bytes = typst.compile(template.read_bytes(), sys_inputs={"data": told})
    return made
