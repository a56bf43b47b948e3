"""Figures worked out in floats against typed ones: exactly on a limit is inside, one digit beyond is not."""

from fractions import Fraction

import pytest

from layshaft.quantity import is_less, is_more, is_over


@pytest.mark.parametrize("digits", range(1, 9))
def test_what_is_written_one_step_beyond_is_beyond(digits):
    step = Fraction(1, 10**digits)
    assert is_more(float(1806 + step), Fraction(1806))
    assert is_less(float(1806 - step), Fraction(1806))
    assert is_over(1806 + step, 1806.0)


def test_the_last_digits_of_the_working_decide_nothing():
    """42 N/mm and 43 mm are 1806 N; in floats it comes to 1806.0000000000005."""
    worked = 42000 * (0.101 - (0.060 - 0.002))
    assert worked != 1806
    assert not is_more(worked, Fraction(1806)) and not is_less(worked, Fraction(1806))
    assert not is_over(Fraction(1806), worked) and not is_over(Fraction(1806), 1806 - 1e-12)


def test_nothing_is_nothing():
    assert not is_more(0.0, 0) and not is_less(0.0, 0) and not is_over(0, 0.0)
    assert is_more(1e-30, 0) and is_less(-1e-30, 0)
