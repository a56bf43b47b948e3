"""Results by a named mechanics model: a model that there is, with its arguments, each of the right dimension."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from layshaft.book.definition import Result
from layshaft.book.fault import Fault, Path
from layshaft.book.message import fault
from layshaft.book.model import MODEL_PLANS, ModelPlan
from layshaft.book.nearness import listed, nearest_try
from layshaft.book.unlike import unlike
from layshaft.quantity import Dimension, Expression, QuantityFault


def check_model(path: Path, result: Result) -> Iterator[Fault]:
    """The name of a model, and the names of what it is given; `of` without a model says nothing."""
    if result.model is None:
        if result.of:
            yield fault("given to no model", path=(*path, "of"), found=", ".join(result.of))
        return
    plan = MODEL_PLANS.get(result.model)
    if plan is None:
        yield fault(
            "unknown model",
            path=(*path, "model"),
            found=result.model,
            needed=f"one of {listed(MODEL_PLANS)}",
            try_=nearest_try(result.model, MODEL_PLANS) or "a result by `chain` or `is`",
        )
        return
    for name in plan.unknown(result.of):
        yield fault(
            "unknown argument",
            path=(*path, "of", name),
            found=name,
            model=result.model,
            needed=listed(plan.arguments),
            try_=nearest_try(name, plan.missing(result.of) or plan.arguments),
        )
    missing = plan.missing(result.of)
    if missing:
        yield fault("argument missing", path=(*path, "model"), found=result.model, needed=_told(plan, missing))


def _told(plan: ModelPlan, names: tuple[str, ...]) -> str:
    return ", ".join(f"`{name}` ({plan.arguments[name].name})" for name in names)


def check_arguments(
    path: Path,
    result: Result,
    expressions: Mapping[str, Expression],
    dimension_of: Callable[[Expression], Dimension | None],
) -> Iterator[Fault]:
    """What each argument of a model is: its dimension has to be the one that is asked for."""
    plan = MODEL_PLANS.get(str(result.model))
    for name, expression in expressions.items() if plan is not None else ():
        due = plan.arguments.get(name) if plan is not None else None
        try:
            found = dimension_of(expression)
        except QuantityFault as refusal:
            yield expression_fault((*path, "of", name), refusal)
            continue
        if due is not None and found is not None:
            here: Path = (*path, "of", name)
            wrong = unlike(here, f"`{expression}`", found, due, f"as `{result.model}` asks for its `{name}`")
            yield from (wrong,) if wrong else ()


def expression_fault(path: Path, refusal: QuantityFault) -> Fault:
    """Why an expression cannot be read or makes no sense."""
    return fault(
        "expression", path=path, found=refusal.found, needed=refusal.needed, try_=refusal.try_, what=refusal.id
    )
