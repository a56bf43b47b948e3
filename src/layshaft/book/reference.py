"""What a definition names elsewhere in the book, read off the marks in the definitions' own types."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin, get_type_hints

from layshaft.book.definition import Term
from layshaft.book.definition.base import Definition, Names
from layshaft.book.fault import Path


@dataclass(frozen=True, slots=True)
class Reference:
    """One thing named: of which kind, how, and where inside the definition that names it."""

    subject: str
    value: Any
    path: Path


Visitor = Callable[[Any, Path], Iterator[Reference]]


def references(definition: Definition) -> tuple[Reference, ...]:
    """Everything a definition, and whatever is in it, names elsewhere."""
    visit = _visitor_of(type(definition))
    return tuple(visit(definition, ())) if visit else ()


@cache
def _visitor_of(kind: type[Definition]) -> Visitor | None:
    """What walks the fields of one definition, or nothing where it names nothing."""
    if kind is Term:
        return lambda value, path: iter((Reference("link", value, path),))
    hints = get_type_hints(kind, include_extras=True)
    fields: list[tuple[str, tuple[str, ...], Visitor]] = []
    for name, field in kind.model_fields.items():
        visit = _visitor(hints[name])
        if visit is not None:
            key = kind.written.get(name, str(field.alias))
            fields.append((name, (key,) if key else (), visit))
    if not fields:
        return None

    def walk(definition: Any, path: Path) -> Iterator[Reference]:
        for name, key, visit in fields:
            value = getattr(definition, name)
            if value is not None:
                yield from visit(value, path + key)

    return walk


def _visitor(kind: Any) -> Visitor | None:
    """What walks a value of one kind, or nothing where no such value names anything."""
    origin = get_origin(kind)
    if origin is Annotated:
        return _named(kind) or _visitor(get_args(kind)[0])
    if origin in (Union, UnionType):
        return _one_of(tuple(one for one in get_args(kind) if one is not type(None)))
    if origin is tuple:
        return _items(_visitor(get_args(kind)[0]))
    if origin is dict:
        return _entries(*(_visitor(one) for one in get_args(kind)))
    if isinstance(kind, type) and issubclass(kind, Definition):
        # Needs hold needs: what a definition names is asked when there is one, not here.
        return lambda value, path: (_visitor_of(value.__class__) or _nothing)(value, path)
    return None


def _nothing(_value: Any, _path: Path) -> Iterator[Reference]:
    return iter(())


def _named(kind: Any) -> Visitor | None:
    for mark in get_args(kind)[1:]:
        if isinstance(mark, Names):
            subject = mark.subject
            return lambda value, path: iter((Reference(subject, value, path),))
    return None


def _one_of(kinds: tuple[Any, ...]) -> Visitor | None:
    by_type: dict[type, Visitor] = {}
    for kind in kinds:
        visit = _visitor(kind)
        if visit is not None:
            by_type[_plain(kind)] = visit
    if not by_type:
        return None
    return lambda value, path: by_type.get(type(value), _nothing)(value, path)


def _plain(kind: Any) -> type:
    while get_origin(kind) is Annotated:
        kind = get_args(kind)[0]
    plain = get_origin(kind) or kind
    return plain if isinstance(plain, type) else object


def _items(visit: Visitor | None) -> Visitor | None:
    if visit is None:
        return None

    def walk(items: Any, path: Path) -> Iterator[Reference]:
        for at, item in enumerate(items):
            yield from visit(item, (*path, at))

    return walk


def _entries(of_key: Visitor | None, of_value: Visitor | None) -> Visitor | None:
    if of_key is None and of_value is None:
        return None

    def walk(entries: Mapping[str, Any], path: Path) -> Iterator[Reference]:
        for key, value in entries.items():
            if of_key is not None:
                yield from of_key(key, (*path, key))
            if of_value is not None:
                yield from of_value(value, (*path, key))

    return walk
