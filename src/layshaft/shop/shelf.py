"""Finding and opening files: books on a shelf, shop and job files, with a sentence for everything that can go wrong."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from layshaft.book import Book, load_book
from layshaft.book.definition import Job, Shop
from layshaft.book.sheet import Sheet, load_job, load_shop

MOST_BYTES = 4_000_000


class ShelfFault(Exception):
    """A file cannot be opened or found; the sentence says which, and what to try."""


def read_file(path: Path) -> bytes:
    """The bytes of a file, or a sentence that says why not."""
    try:
        if path.is_dir():
            raise ShelfFault(f"{path} is a folder; name the file in it, as in {path / 'book.yaml'}.")
        if path.stat().st_size > MOST_BYTES:
            raise ShelfFault(f"{path} is larger than {MOST_BYTES // 1_000_000} MB, more than such a file needs.")
        return path.read_bytes()
    except FileNotFoundError:
        raise ShelfFault(f"There is no file {path}. Look at the name, or where you stand: {Path.cwd()}.") from None
    except PermissionError:
        raise ShelfFault(f"{path} may not be read by you; ask whoever owns it for the right to.") from None
    except OSError as error:
        raise ShelfFault(f"{path} cannot be read: {error.strerror or error}.") from None


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
        above = [parent / "books" for parent in path.resolve().parents]
        own = Path(__file__).resolve().parents[3] / "books"
        folders = (*extra, path.resolve().parent, *above, Path.cwd() / "books", own)
        return cls(tuple(dict.fromkeys(folder for folder in folders if folder.is_dir())))

    def book(self, id: str) -> Book:
        """The book of that id."""
        for folder in self.folders:
            for path in (folder / id / "book.yaml", folder / f"{id}.yaml"):
                if path.is_file():
                    return load_book(read_file(path), str(path))
        known = ", ".join(self.ids()) or "none"
        raise ShelfFault(f"No book `{id}` was found. Books found: {known}. Name its folder with --books.")

    def ids(self) -> tuple[str, ...]:
        """The ids of the books that are there, by their folders."""
        found = {path.parent.name for folder in self.folders for path in folder.glob("*/book.yaml")}
        return tuple(sorted(found))

    def shop(self, id: str, beside: Path) -> Sheet[Shop]:
        """The shop file of that id, beside the job or on the shelf."""
        for folder in (beside, *self.folders):
            for path in sorted(folder.glob("*shop*.yaml")):
                sheet = load_shop(read_file(path), str(path))
                if sheet.content.id == id:
                    return sheet
        raise ShelfFault(f"No shop file of `{id}` was found beside the job. Name it with --shop.")


def open_book(name: str, books: tuple[Path, ...] = ()) -> Book:
    """A book by its file, its folder or its id."""
    path = Path(name)
    if path.is_dir() and (path / "book.yaml").is_file():
        path = path / "book.yaml"
    if path.suffix in (".yaml", ".yml") or path.exists():
        return load_book(read_file(path), str(path))
    return Shelf.around(Path.cwd() / "x", books).book(name)


def open_desk(job_path: Path, shop_path: Path | None = None, books: tuple[Path, ...] = ()) -> Desk:
    """A job with the book and the shop that it quotes."""
    job = load_job(read_file(job_path), str(job_path))
    shelf = Shelf.around(job_path, books)
    book = shelf.book(job.content.book.id)
    if shop_path is not None:
        shop = load_shop(read_file(shop_path), str(shop_path))
    else:
        shop = shelf.shop(job.content.shop.id, job_path.resolve().parent)
    return Desk(book, shop, job, job_path.resolve().parent)
