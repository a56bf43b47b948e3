"""Writing results down: all the files of one result together, or none of them."""

from __future__ import annotations

import os
import shutil
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

from layshaft.shop.shelf import ShelfFault

MOST_BYTES_OF_NAME = 200
_ELSEWHERE = "name another folder with --out"


def name_for(id: str) -> str:
    """An id as part of a file's name: other ids give other names, and no sign leads out of the folder."""
    name = "".join(sign if sign.isalnum() or sign in "-_. ()+" else _spelled(sign) for sign in id)
    if len(name.encode()) <= MOST_BYTES_OF_NAME:
        return name
    return f"{name[:20]}-{sha256(id.encode()).hexdigest()[:20]}"


def _spelled(sign: str) -> str:
    return "".join(f"%{byte:02X}" for byte in sign.encode())


def write_together(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files into a folder; whatever stops it, also Ctrl-C, leaves there what was there before."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name in files:
            if (folder / name).is_dir():
                raise ShelfFault(f"{folder / name} is a folder, in the way of a file: move it, or {_ELSEWHERE}.")
        with TemporaryDirectory(dir=folder, prefix=".layshaft-", ignore_cleanup_errors=True) as desk:
            for name, data in files.items():
                with (Path(desk) / f"new {name}").open("wb") as handle:
                    handle.write(data)
                    handle.flush()
                    os.fsync(handle.fileno())
            _put_in_place(folder, Path(desk), files)
    except PermissionError:
        raise ShelfFault(f"{folder} may not be written by you; {_ELSEWHERE}.") from None
    except (FileExistsError, NotADirectoryError):
        raise ShelfFault(f"{folder} cannot be written: it is no folder, or lies below a file; {_ELSEWHERE}.") from None
    except OSError as error:
        raise ShelfFault(f"{folder} cannot be written: {error.strerror or error}; {_ELSEWHERE}.") from None


def _put_in_place(folder: Path, desk: Path, names: Mapping[str, bytes]) -> None:
    """Replace one file after the other; where one cannot be, put back what the others replaced."""
    kept = [name for name in names if (folder / name).is_file()]
    for name in kept:
        shutil.copy2(folder / name, desk / f"old {name}")
    try:
        for name in names:
            os.replace(desk / f"new {name}", folder / name)
    except BaseException:
        for name in names:
            if name in kept:
                os.replace(desk / f"old {name}", folder / name)
            elif not (desk / f"new {name}").exists():
                (folder / name).unlink(missing_ok=True)
        raise
