"""The models that a book can name, and the formulas behind them, keep together."""

import inspect

import pytest

from layshaft.book.model import MODEL_PLANS
from layshaft.plan.model import FUNCTIONS, MODELS


def test_every_model_has_its_formula():
    assert list(FUNCTIONS) == list(MODEL_PLANS) == list(MODELS)


@pytest.mark.parametrize("name", MODEL_PLANS)
def test_arguments_are_those_of_the_formula(name):
    plan = MODEL_PLANS[name]
    taken = inspect.signature(FUNCTIONS[name]).parameters
    spelled = {argument.replace(" ", "_"): argument for argument in plan.arguments}
    assert set(spelled) <= set(taken)
    needed = {one for one, parameter in taken.items() if parameter.default is inspect.Parameter.empty}
    assert needed <= set(spelled)
    assert {spelled[one] for one in needed} == set(plan.arguments) - plan.optional
