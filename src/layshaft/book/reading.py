"""The definitions' own refusals told as faults in the book's words."""

from __future__ import annotations

from collections.abc import Iterator
from types import UnionType
from typing import Annotated, Any, Union, get_args, get_origin

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from layshaft.book.definition.base import Definition, shown
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.nearness import listed, nearest_try

_FORMS = {
    "string_type": "text",
    "model_type": "a table of keys and values",
    "model_attributes_type": "a table of keys and values",
    "dict_type": "a table of names and what they stand for",
    "tuple_type": "a list",
    "list_type": "a list",
}


def refusals(error: ValidationError, model: type[Definition], path: Path = ()) -> Iterator[Fault]:
    """Each thing a definition refused, as a fault with its path from the top of the file."""
    for detail in error.errors(include_url=False):
        yield _refusal(detail, model, path)


def _refusal(detail: ErrorDetails, model: type[Definition], path: Path) -> Fault:
    told = detail.get("ctx", {})
    # Which of several forms was taken for meant stands in brackets; it is no step into the file.
    loc = tuple(key for key in detail["loc"] if not str(key).startswith("("))
    where: Path = (*path, *loc)
    found = str(told.get("found", shown(detail["input"])))
    needed = str(told.get("needed", "")).removesuffix(",")
    kind = detail["type"]
    if kind == "missing":
        key = str(loc[-1])
        return fault("missing key", path=where, found=listed(detail["input"]), needed=f"`{key}: ..`", key=key)
    if kind == "extra_forbidden":
        return _unknown_key(str(loc[-1]), where, known_keys(model, loc[:-1]))
    if kind == "quantity":
        return fault("figure", path=where, found=found, needed=needed, try_=str(told["try"]), what=str(told["fault"]))
    if kind == "origin":
        return fault("origin", path=where, found=found, needed=needed)
    if kind == "literal_error":
        known = [word.strip("' ") for word in str(told["expected"]).replace(" or ", ",").split(",")]
        return fault("unknown word", path=where, found=found, needed=listed(known), try_=nearest_try(found, known))
    if kind in _FORMS:
        return fault("form", path=where, found=found, needed=_FORMS[kind])
    if kind == "form":
        return fault("form", path=where, found=found, needed=needed)
    if kind in ("too_short", "too_long"):
        return fault("number of items", path=where, found=str(told["actual_length"]), needed=_bounded(told))
    if kind in ("string_too_short", "string_too_long"):
        return fault(
            "length of text", path=where, found=f"{len(str(detail['input']).strip())} signs", needed=_bounded(told)
        )
    return fault("not accepted", path=where, found=found, needed=detail["msg"])


def _bounded(told: dict[str, Any]) -> str:
    if "min_length" in told:
        return f"at least {told['min_length']}"
    return f"at most {told['max_length']}"


def _unknown_key(key: str, where: Path, known: tuple[str, ...]) -> Fault:
    return fault("unknown key", path=where, found=key, needed=listed(known), try_=nearest_try(key, known))


def known_keys(model: type[Definition], loc: tuple[int | str, ...]) -> tuple[str, ...]:
    """The keys that the definition at a place inside another one knows."""
    here: Any = model
    for key in loc:
        here = _inside(here, key)
    found = _definition(here)
    return tuple(str(field.alias) for field in found.model_fields.values()) if found else ()


def _inside(kind: Any, key: int | str) -> Any:
    """The kind of what stands under a key of something of a kind; the kind itself where the key is no step in."""
    found = _definition(kind)
    if found is not None:
        for field in found.model_fields.values():
            if field.alias == key:
                return field.annotation
        return kind
    for one in _flat(kind):
        if get_origin(one) is dict:
            return get_args(one)[1]
        if get_origin(one) is tuple:
            return get_args(one)[0]
    return kind


def _definition(kind: Any) -> type[Definition] | None:
    for one in _flat(kind):
        if isinstance(one, type) and issubclass(one, Definition):
            return one
    return None


def _flat(kind: Any) -> Iterator[Any]:
    """A kind, or each of several that it may be, with nothing wrapped around it."""
    origin = get_origin(kind)
    if origin is Annotated:
        yield from _flat(get_args(kind)[0])
    elif origin in (Union, UnionType):
        for one in get_args(kind):
            yield from _flat(one)
    else:
        yield kind


def entry_of(model: type[Definition], key: str) -> type[Definition] | None:
    """The definition that each entry of a section has, where the key names a section: a table of names."""
    for field in model.model_fields.values():
        if field.alias == key:
            for one in _flat(field.annotation):
                if get_origin(one) is dict:
                    return _definition(get_args(one)[1])
    return None
