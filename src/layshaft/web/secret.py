"""The key that signs sessions: made on the first start, kept in the data folder, readable by its owner alone."""

from __future__ import annotations

import os
from pathlib import Path
from secrets import token_urlsafe

NAME = "secret-key"


def secret_key(data: Path) -> str:
    """The key of this shop, made where there is none yet."""
    path = data / NAME
    try:
        return path.read_text("utf-8")
    except FileNotFoundError:
        pass
    data.mkdir(parents=True, exist_ok=True)
    try:
        handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
    except FileExistsError:
        return path.read_text("utf-8")
    with os.fdopen(handle, "w", encoding="utf-8") as file:
        file.write(token_urlsafe(48))
    return path.read_text("utf-8")
