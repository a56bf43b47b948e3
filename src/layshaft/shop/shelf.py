"""Finding and opening files: books on a shelf, shop and job files, with a sentence for everything that can go wrong."""

from __future__ import annotations

import os
import stat
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from layshaft.book import Book, BookFaults, load_book
from layshaft.book.definition import Job, Shop
from layshaft.book.reader import MOST_BYTES
from layshaft.book.sheet import Sheet, SheetFaults, load_job, load_shop
from layshaft.quantity import nearest


class ShelfFault(Exception):
    """A file cannot be opened or found; the sentence says which, and what to try."""


class NotAtHand(ShelfFault):
    """A file that can be read quotes a book or a shop that was not found."""


def read_file(path: Path) -> bytes:
    """The bytes of a file, or a sentence that says why not."""
    try:
        # Before it is opened: opening a pipe waits for whoever writes into it.
        _refuse_what_is_no_file(path, path.stat().st_mode)
        with path.open("rb") as handle:
            data = handle.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise ShelfFault(f"There is no file {path}. Look at the name, or where you stand: {Path.cwd()}.") from None
    except PermissionError:
        raise ShelfFault(f"{path} may not be read by you; ask whoever owns it for the right to.") from None
    except OSError as error:
        raise ShelfFault(f"{path} cannot be read: {error.strerror or error}.") from None
    if len(data) > MOST_BYTES:
        raise ShelfFault(f"{path} is larger than {MOST_BYTES // 1_000_000} MB, more than such a file needs.")
    return data


def _refuse_what_is_no_file(path: Path, mode: int) -> None:
    if stat.S_ISDIR(mode):
        names = [one.name for pattern in ("*.yaml", "*.yml") for one in _matching(path, pattern)]
        told = f"as in {path / names[0]}" if names else "it holds none whose name ends in .yaml"
        raise ShelfFault(f"{path} is a folder; name the file in it, {told}.")
    if stat.S_ISFIFO(mode) or stat.S_ISSOCK(mode):
        raise ShelfFault(f"{path} is a pipe and no file: write what comes out of it to a file, and name that.")
    if not stat.S_ISREG(mode):
        raise ShelfFault(f"{path} is a device and no file; name a file.")


def _whole(path: Path) -> Path:
    """A path from the root, links followed as far as they lead."""
    try:
        return path.resolve()
    except (OSError, RuntimeError):
        return path


def folders_named(names: Iterable[str]) -> tuple[Path, ...]:
    """Folders that a command names; each has to be there."""
    folders = tuple(Path(name) for name in names)
    for folder in folders:
        if not os.path.isdir(folder):
            told = "is no folder" if os.path.exists(folder) else "is not there"
            raise ShelfFault(f"The folder {folder}, in which to look for books, {told}.")
        if not os.access(folder, os.R_OK | os.X_OK):
            told = "may not be looked into by you; ask whoever owns it for the right to"
            raise ShelfFault(f"The folder {folder} {told}.")
    return folders


def kind_of(data: bytes) -> str:
    """What kind of file this is by its first key: book, shop, job, or nothing known."""
    for line in data.decode("utf-8", "replace").lstrip("\ufeff").splitlines():
        words = line.split("#", 1)[0].strip()
        if words and words != "---" and not words.startswith("%"):
            for kind in ("book", "shop", "job"):
                if words.startswith(f"layshaft {kind}"):
                    return kind
            return ""
    return ""


@dataclass(frozen=True)
class Desk:
    """Everything one job needs, opened and checked."""

    book: Book
    shop: Sheet[Shop]
    job: Sheet[Job]
    folder: Path


class Shelf:
    """The folders in which books and shop files are looked for."""

    def __init__(self, folders: tuple[Path, ...]) -> None:
        self.folders = folders

    @classmethod
    def around(cls, path: Path, extra: tuple[Path, ...] = ()) -> Shelf:
        """Named folders first, then every `books` folder above a file, the one where you stand, and the tool's own."""
        whole = _whole(path)
        above = [parent / "books" for parent in whole.parents]
        own = Path(__file__).resolve().parents[3] / "books"
        folders = (*extra, whole.parent, *above, Path("books"), own)
        return cls(tuple(dict.fromkeys(folder for folder in folders if os.path.isdir(folder))))

    def book(self, id: str) -> Book:
        """The book of that id."""
        for folder in self.folders:
            for path in (folder / id / "book.yaml", folder / f"{id}.yaml"):
                if os.path.isfile(path):
                    return load_book(read_file(path), str(path))
        raise NotAtHand(f"No book `{id}` was found. {_known('Books', id, self.ids())} Name its folder with --books.")

    def ids(self) -> tuple[str, ...]:
        """The ids of the books that are there, by their folders and by the names of files that are books."""
        found = {path.parent.name for folder in self.folders for path in _matching(folder, "*/book.yaml")}
        found |= {path.stem for folder in self.folders for path in _matching(folder, "*.yaml") if _is_book(path)}
        return tuple(sorted(found - {"book"}))

    def books(self) -> tuple[Book, ...]:
        """Every book that is there and can be used; a faulty one is told of where it is checked itself."""
        found = []
        for id in self.ids():
            try:
                found.append(self.book(id))
            except (BookFaults, ShelfFault):
                continue
        return tuple(found)

    def shop(self, id: str, beside: Path) -> Sheet[Shop]:
        """The shop file of that id, beside the job or on the shelf; a faulty one matters only if no other is it."""
        known, faulty = [], []
        for path in (path for folder in (beside, *self.folders) for path in _matching(folder, "*shop*.yaml")):
            try:
                sheet = load_shop(read_file(path), str(path))
            except (SheetFaults, ShelfFault) as fault:
                faulty.append(fault)
                continue
            if sheet.content.id == id:
                return sheet
            known.append(sheet.content.id)
        if faulty:
            raise faulty[0]
        listed = _known("Shop files", id, dict.fromkeys(known))
        raise NotAtHand(f"No shop file of `{id}` was found beside the job. {listed} Name the file with --shop.")


def _is_book(path: Path) -> bool:
    try:
        return kind_of(read_file(path)) == "book"
    except ShelfFault:
        return False


def _matching(folder: Path, pattern: str) -> list[Path]:
    """The files of a folder that match; one that cannot be looked into holds none."""
    try:
        return sorted(folder.glob(pattern))
    except OSError:
        return []


def _known(what: str, id: str, known: Iterable[str]) -> str:
    names = tuple(known)
    near = nearest(id, names)
    hint = f" Did you mean {near}?" if near else ""
    return f"{what} found: {', '.join(names) or 'none'}.{hint}"


def open_book(name: str, books: tuple[Path, ...] = ()) -> Book:
    """A book by its file, its folder or its id."""
    path = Path(name)
    if os.path.isfile(path / "book.yaml"):
        path = path / "book.yaml"
    if path.suffix in (".yaml", ".yml") or os.path.exists(path):
        return load_book(read_file(path), str(path))
    try:
        return Shelf.around(Path("x"), books).book(name)
    except NotAtHand as error:
        raise ShelfFault(str(error)) from None


def open_desk(job_path: Path, shop_path: Path | None = None, books: tuple[Path, ...] = ()) -> Desk:
    """A job with the book and the shop that it quotes."""
    job = load_job(read_file(job_path), str(job_path))
    shelf = Shelf.around(job_path, books)
    book = shelf.book(job.content.book.id)
    folder = _whole(job_path).parent
    shop = shelf.shop(job.content.shop.id, folder) if shop_path is None else _shop_at(shop_path)
    return Desk(book, shop, job, folder)


def _shop_at(path: Path) -> Sheet[Shop]:
    return load_shop(read_file(path), str(path))
