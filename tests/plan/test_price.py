"""Prices, in exact decimals, against sums worked by hand; what is missing makes a total `at least`, never nothing."""

from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.book import load_book
from layshaft.book.sheet import load_shop
from layshaft.book.sheet_check import narrow_shop
from layshaft.plan.order_list import order_list
from layshaft.plan.price import price_job
from tests.book.small import SHOP_TEXT, unit_and_shop

DAY = "2026-11-20"
BOOKS = Path(__file__).parents[2] / "books"


def priced(renew, labour=(), day=DAY, text=SHOP_TEXT, opened=(), **more):
    unit, shop = unit_and_shop(text=text)
    return price_job(unit, shop, day, order_list(unit, shop, day, renew, opened=opened, **more), labour)


def amounts(price, *kinds):
    return [str(line.amount) for line in price.lines if line.kind in kinds]


def test_a_whole_price_worked_by_hand():
    """By hand. Parts: 3 plates at 7.25 = 21.75, front bearing 21.00, rear bearing 22.00: 64.75.

    Labour at 90.00 an hour: 50 min = 75.00, 31 min = 46.50: 121.50. Supplies 5 % of 121.50 = 6.075, so 6.08.
    Tax 8.25 % of 64.75 = 5.341875, so 5.34. Total 64.75 + 121.50 + 6.08 + 5.34 = 197.67.
    """
    price = priced({"S-2": 3, "S-7": 1}, [("take down", Fraction(50)), ("build", Fraction(31))])
    assert amounts(price, "part") == ["21.75 CUR", "21.00 CUR", "22.00 CUR"]
    assert amounts(price, "labour") == ["75.00 CUR", "46.50 CUR"]
    assert amounts(price, "supplies", "tax") == ["6.08 CUR", "5.34 CUR"]
    assert (price.told(), price.is_firm) == ("197.67 CUR", True)


@pytest.mark.parametrize(
    "minutes, amount",
    [("1/3", "0.50 CUR"), ("1/300", "0.01 CUR"), ("1/301", "0.00 CUR"), ("0", "0.00 CUR"), ("20/3", "10.00 CUR")],
)
def test_a_line_is_rounded_once_half_away_from_nothing(minutes, amount):
    """By hand: 90 an hour is 1.50 a minute; a three-hundredth of a minute is half a cent, and goes up."""
    assert amounts(priced({}, [("work", Fraction(minutes))]), "labour") == [amount]


def test_no_work_takes_less_than_nothing():
    with pytest.raises(ValueError, match=r"^work takes -1 min: no work takes less than nothing$"):
        priced({}, [("work", Fraction(-1))])


def test_supplies_have_a_ceiling():
    """By hand: 5 % of 300 min at 90.00 an hour, 450.00, is 22.50; at most 12.00."""
    line = next(line for line in priced({}, [("work", Fraction(300))]).lines if line.kind == "supplies")
    assert (str(line.amount), line.note) == ("12.00 CUR", "at most 12.00 CUR")


def test_tax_is_on_what_the_shop_says():
    """By hand: on parts, 8.25 % of 7.25 = 0.598125. On all: of 7.25 + 90.00 + 4.50 = 101.75, 8.394375."""
    work = [("work", Fraction(60))]
    assert amounts(priced({"S-2": 1}, work), "tax") == ["0.60 CUR"]
    text = SHOP_TEXT.replace("on: parts}", "on: parts and labour}")
    assert amounts(priced({"S-2": 1}, work, text=text), "tax") == ["8.39 CUR"]


def test_a_shop_without_tax_or_supplies_charges_none():
    text = "".join(line for line in SHOP_TEXT.splitlines(True) if not line.startswith(("tax", "supplies")))
    assert {line.kind for line in priced({"S-2": 1}, [("work", Fraction(60))], text=text).lines} == {"part", "labour"}


def test_the_price_is_the_one_of_the_day():
    assert amounts(priced({"S-8": 1}, day="2026-11-09"), "part") == ["21.00 CUR", "24.00 CUR"]
    assert amounts(priced({"S-8": 1}, day="2026-11-10"), "part") == ["21.00 CUR", "22.00 CUR"]


def test_a_missing_price_makes_the_total_at_least():
    """By hand: the seal has no price and its kit is off the list; the ring is 3.35 and its tax 0.276375."""
    text = SHOP_TEXT.replace("      SK-1: {list: 15.00 CUR, cost: 7.00 CUR}\n", "")
    price = priced({}, text=text, opened=["S-4", "S-9"])
    assert (price.told(), price.is_firm) == ("at least 3.63 CUR", False)
    assert price.open == ("S-9 Seal: 1 needed, but no price list has it on 2026-11-20.",)
    assert price.if_renewed is None


def test_a_core_deposit_is_no_income_and_bears_no_tax():
    """By hand: the carrier 410.00 and 8.25 % of it, 33.825, so 33.83; its core of 80.00 stands apart."""
    price = priced({"S-5": 1})
    assert str(price.total) == "443.83 CUR"
    assert str(price.deposits) == "80.00 CUR"


def test_a_kit_is_charged_where_it_is_less_and_never_more():
    """By hand: ring 3.35, two plates 14.50 and a seal without a price come in the kit at 15.00; one plate more 7.25."""
    price = priced({"S-2": 4}, opened=None)
    assert [(line.kind, line.what, str(line.amount)) for line in price.lines if line.kind in ("kit", "part")] == [
        ("kit", "SK-1 Kit", "15.00 CUR"),
        ("part", "S-2 Plate", "14.50 CUR"),
    ]
    dear = SHOP_TEXT.replace("{list: 15.00 CUR, cost: 7.00 CUR}", "{list: 150.00 CUR, cost: 7.00 CUR}").replace(
        "      S-8: {list: 24.00 CUR", "      S-9: {list: 2.00 CUR, cost: 1.00 CUR}\n      S-8: {list: 24.00 CUR"
    )
    price = priced({"S-2": 4}, opened=None, text=dear)
    assert amounts(price, "kit") == []
    assert amounts(price, "part") == ["29.00 CUR", "3.35 CUR", "2.00 CUR"]


def test_a_used_piece_is_charged_at_the_shops_share_of_list():
    """By hand: 40 % of 7.25 is 2.90; two of them 5.80; one new 7.25 from the drawer."""
    price = priced({"S-2": 3}, reclaimed={"S-2": 2})
    assert amounts(price, "part") == ["7.25 CUR", "5.80 CUR"]
    price = priced({"S-2": 3}, reclaimed={"S-2": 2}, text=SHOP_TEXT.replace("reclaimed percent: 40\n", ""))
    assert price.open == ("S-2 Plate: 2 reclaimed, but the shop file does not say what those are charged at.",)


def test_an_open_verdict_leaves_the_total_open_and_says_how_far_it_can_go():
    """By hand: nothing for sure; if the carrier goes, 410.00 and its tax of 33.825."""
    price = priced({}, undecided={"S-6": "read the clearance with the dial"})
    assert price.told() == "at least 0.00 CUR"
    assert str(price.if_renewed) == "443.83 CUR"
    assert price.open == ("S-5 Carrier may be added (410.00 CUR each): read the clearance with the dial.",)


@given(st.lists(st.fractions(0, 200, max_denominator=60), max_size=8), st.integers(0, 4))
def test_every_line_and_the_total_agree_with_plain_decimal_arithmetic(minutes, plates):
    """Against `decimal` of the standard library, from minutes to cents."""
    price = priced({"S-2": plates}, [("work", spent) for spent in minutes])
    cent = Decimal("0.01")

    def cents(value):
        return (
            Decimal(Fraction(value).numerator * 10**30 // Fraction(value).denominator)
            .scaleb(-30)
            .quantize(cent, ROUND_HALF_UP)
        )

    work = [cents(spent * Fraction(3, 2)) for spent in minutes]
    supplies = min(cents(Fraction(sum(work, Decimal(0))) * Fraction(5, 100)), Decimal(12))
    parts = Decimal("7.25") * plates
    tax = cents(Fraction(parts) * Fraction(825, 10000))
    assert price.total.amount == sum(work, Decimal(0)) + supplies + parts + tax


def demonstration(text):
    book = load_book((BOOKS / "overtop" / "book.yaml").read_text(encoding="utf-8"), "book.yaml")
    unit, shop = book.unit("OT5"), narrow_shop(load_shop(text, "shop.yaml").content, book, "OT5")
    return price_job(unit, shop, DAY, order_list(unit, shop, DAY, {}), [("all work", Fraction(390))])


def test_the_demonstration_units_always_renewed_parts_and_labour():
    """Against the invented unit's own figures: 233 CUR of always-renewed parts, 6.5 h at 98 CUR, 637.00 CUR."""
    sheet = (BOOKS / "demo" / "shop.yaml").read_text(encoding="utf-8")
    price = demonstration("".join(line for line in sheet.splitlines(True) if "OTK-" not in line))
    assert str(price.sum_of("part")) == "233.00 CUR"
    assert str(price.sum_of("labour")) == "637.00 CUR"
    price = demonstration(sheet)
    assert amounts(price, "part", "kit") == ["214.00 CUR"], "the overhaul kit at its list price holds all of them"


def test_pieces_of_a_kit_are_charged_once_wherever_they_come_from():
    """By hand: ring 3.35, seal 8.00 and two plates 14.50 are 25.85 one by one, 15.00 as a kit.

    The drawer has both plates, so that only ring and seal are short: one by one 1.20 + 4.00 to the shop, which is
    less than the kit at 7.00. The shop buys the two, the customer pays the kit, and no plate beside it.
    """
    text = SHOP_TEXT.replace("S-2: {count: 1,", "S-2: {count: 2,").replace(
        "      S-4: {list: 3.35", "      S-9: {list: 8.00 CUR, cost: 4.00 CUR}\n      S-4: {list: 3.35"
    )
    unit, shop = unit_and_shop(text=text)
    order = order_list(unit, shop, DAY, {"S-2": 2})
    assert {line.code for line in order.bought} == {"S-4", "S-9"}
    price = price_job(unit, shop, DAY, order, ())
    assert amounts(price, "part", "kit") == ["15.00 CUR"]
    assert price.notes == (
        "SK-1 Kit is charged as a kit, which is less for the customer than its parts one by one.",
    )


def test_a_bought_kit_goes_in_before_the_drawer_and_what_is_left_is_said():
    """The kit is bought for ring and seal; its two plates go in, and the one of the drawer stays there."""
    order = order_list(*unit_and_shop(), DAY, {"S-2": 1})
    assert [(kit.code, dict(kit.covers), dict(kit.left)) for kit in order.kits] == [
        ("SK-1", {"S-4": 1, "S-9": 1, "S-2": 1}, {"S-2": 1})
    ]
    assert not order.taken
    assert price_job(*unit_and_shop(), DAY, order, ()).notes == (
        "SK-1 Kit is charged as a kit, as a part of it has no price; not fitted of what it holds: 1 × S-2 Plate.",
    )


def test_an_undecided_piece_that_lies_in_a_charged_kit_costs_nothing_more():
    """By hand: ring and two plates are 17.85, the kit 15.00 and its tax 1.2375; the seal of it is left for later."""
    text = SHOP_TEXT.replace("      S-4: {list", "      S-9: {list: 8.00 CUR, cost: 4.00 CUR}\n      S-4: {list")
    price = priced({"S-2": 2}, opened=["S-4"], text=text, undecided={"S-9": "look at it"})
    assert price.open == ("S-9 Seal may be added (in a kit that is charged already): look at it.",)
    assert (price.told(), str(price.if_renewed)) == ("at least 16.24 CUR", "16.24 CUR")


def test_undecided_pieces_are_charged_from_kits_too():
    """By hand: ring, seal and two plates as a kit at 15.00, two plates more 14.50; of 29.50 a tax of 2.43375."""
    text = SHOP_TEXT.replace("      S-4: {list", "      S-9: {list: 8.00 CUR, cost: 4.00 CUR}\n      S-4: {list")
    price = priced({}, opened=["S-4", "S-9"], text=text, undecided={"S-2": "look at it"})
    assert str(price.if_renewed) == "31.93 CUR"
