"""Figures on a common grid and back."""

from fractions import Fraction as F

from layshaft.gauging.assortment import Assortment, Pool, Result, Selective, Size
from layshaft.gauging.question import Question
from layshaft.gauging.window import Window

INCH = F("25.4")


def test_inch_and_millimetre_figures_are_kept_exactly():
    ring = Selective("ring", (Size(F("0.0625") * INCH, cost=F("2.35")), Size(F("1.6"), cost=F(7, 3))))
    plates = Pool("plates", (F("1.801"), F("0.0709") * INCH, F(16, 9)), 2)
    gap = Result("gap", F(8), {"ring": F(-1), "plates": F(-1, 3)}, Window(F("5.20"), F("5.25")))
    assortment = Assortment((ring,), (plates,), (gap,))
    question = Question(assortment)
    for hit in question.best(2).hits:
        pick = question.describe(hit)
        taken = sum(plates.pieces[place] for place in pick.pieces["plates"])
        assert pick.sums["plates"] == taken
        assert pick.values["gap"] == 8 - pick.sizes["ring"] - taken / 3
        assert pick.distances["gap"] == assortment.demands[0].distance(pick.values["gap"])
        assert pick.cost in (F("2.35"), F(7, 3))


def test_nothing_to_take_is_no_fault():
    empty = Question(Assortment((Selective("ring", (Size(F(1), stock=0),)),), (), ()))
    assert empty.best(1).hits == ()
    count = empty.count()
    assert count is not None
    assert count.picks_inside == 0
