"""Order lists: what is needed in parts that are sold, the drawer first, kits by money; nothing left out or made up."""

from decimal import Decimal
from fractions import Fraction
from itertools import product
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from layshaft.book import load_book
from layshaft.book.sheet import load_job, load_shop
from layshaft.book.sheet_check import narrow_shop
from layshaft.plan.fit import choose_fit
from layshaft.plan.order_kit import KitOffer, choose_kits
from layshaft.plan.order_list import order_fitted, order_list
from layshaft.plan.order_need import gather_needs
from layshaft.plan.price import price_job
from layshaft.plan.price_list import Offer, offer_on
from layshaft.plan.verdict import judge
from layshaft.quantity import Money
from tests.book.small import BOOK_TEXT, SHOP_TEXT, unit_and_shop
from tests.plan import gap_box

DAY = "2026-11-20"
DEMO = Path(__file__).parents[2] / "books"
DEMO_FILES = (("overtop", "book.yaml"), ("demo", "shop.yaml"), ("demo", "job.yaml"))
UNIT, SHOP = unit_and_shop()
SIZE = Fraction(1, 1000)


def listed(renew, day=DAY, text=SHOP_TEXT, variant="big", **more):
    unit, shop = unit_and_shop(variant, text)
    return order_list(unit, shop, day, renew, **more)


def pieces_of(lines):
    return {line.part if hasattr(line, "part") else line.code: line.pieces for line in lines}


# Needs.


def test_always_renewed_parts_are_needed_whatever_was_found():
    assert pieces_of(gather_needs(UNIT, {})) == {"S-4": 1, "S-9": 1}
    assert gather_needs(UNIT, {}, opened=["S-4"])[0].why == ("always renewed",)
    assert pieces_of(gather_needs(UNIT, {}, opened=["S-4"])) == {"S-4": 1}, "the rest was never opened"


def test_a_part_that_is_not_sold_carries_to_what_it_comes_in():
    needs = gather_needs(UNIT, {"S-6": 2}, opened=())
    assert [(need.part, need.pieces, need.why) for need in needs] == [
        ("S-5", 1, ("S-6 (2 of 3 renewed) is served in it",)),
    ]


def test_a_set_that_is_renewed_together_is_needed_whole():
    needs = gather_needs(UNIT, {"S-8": 1}, opened=())
    assert [(need.part, need.why) for need in needs] == [
        ("S-7", ("renewed together with S-8",)),
        ("S-8", ("renewed",)),
    ]


def test_only_so_many_pieces_as_are_bad_are_needed():
    need = gather_needs(UNIT, {"S-2": 2}, opened=())[0]
    assert (need.pieces, need.why) == (2, ("2 of 4 renewed",))
    with pytest.raises(ValueError, match=r"^5 of S-2 cannot be renewed: there are 4$"):
        gather_needs(UNIT, {"S-2": 5})


def test_counts_are_those_of_the_variant():
    small, _ = unit_and_shop("small")
    with pytest.raises(ValueError, match=r"there are 3$"):
        gather_needs(small, {"S-2": 4})


# Several places of one sold part.

PLACES = (
    BOOK_TEXT.replace("S-7: {name: Front bearing,", "S-7: {name: 'Ball bearing, front', sold as: S-70,")
    .replace("S-8: {name: Rear bearing,", "S-8: {name: 'Ball bearing, rear', sold as: S-70,")
    .replace("holds: {S-4: 1, S-9: 1, S-2: 2}", "holds: {S-4: 1, S-9: 1, S-7: 1, S-8: 1}")
)
PLACE_SHOP = SHOP_TEXT.replace("S-7: {count: 3}", "S-70: {count: 1}").replace("      S-7: {list", "      S-70: {list")


def in_places(renew, text=PLACE_SHOP, **more):
    book = load_book(PLACES, "slip.yaml")
    unit, shop = book.unit("big"), narrow_shop(load_shop(text, "shop.yaml").content, book, "big")
    return unit, shop, order_list(unit, shop, DAY, renew, **more)


def test_places_of_one_sold_part_are_one_need_drawer_and_price():
    text = PLACE_SHOP.replace("SK-1: {list: 15.00 CUR, cost: 7.00 CUR}", "SK-1: {list: 90.00 CUR, cost: 70.00 CUR}")
    unit, shop, order = in_places({"S-7": 1}, text, opened=())
    assert [(need.part, need.pieces) for need in order.needs] == [("S-70", 2)]
    assert order.needs[0].why == ("S-7: renewed", "S-8: renewed together with S-7")
    assert [(one.part, one.name, one.pieces) for one in order.taken] == [("S-70", "Ball bearing", 1)]
    assert [(one.code, one.name, one.pieces) for one in order.bought] == [("S-70", "Ball bearing", 1)]
    line = price_job(unit, shop, DAY, order, ()).lines[0]
    assert (line.what, line.number, line.amount) == ("S-70 Ball bearing", 2, Money(Decimal("42.00"), "CUR"))


def test_a_kit_covers_the_places_it_is_said_to_hold():
    text = PLACE_SHOP.replace("S-70: {count: 1}", "S-70: {count: 0}")
    _, _, order = in_places({"S-7": 1}, text, opened=("S-4", "S-9"))
    assert [dict(kit.covers) for kit in order.kits] == [{"S-4": 1, "S-9": 1, "S-70": 2}]
    assert [one.code for one in order.bought] == ["SK-1"]


def test_places_that_are_open_add_up_in_what_may_still_be_asked_for():
    _, _, order = in_places({}, opened=(), undecided={"S-7": "look", "S-8": "look"})
    assert [(one.part, one.pieces, one.in_drawer) for one in order.undecided] == [("S-70", 2, 1)]
    _, _, order = in_places({"S-8": 1, "S-7": 1}, opened=(), undecided={"S-7": "look"})
    assert not order.undecided


# Drawer, sizes, used pieces.


def test_the_drawer_covers_first_and_the_rest_is_bought():
    order = listed({"S-2": 4, "S-7": 1}, opened=())
    assert [(one.part, one.pieces, one.is_reclaimed) for one in order.taken] == [("S-2", 1, False), ("S-7", 1, False)]
    assert pieces_of(order.bought) == {"S-2": 3, "S-8": 1}


def test_used_pieces_from_the_drawer_meet_a_need_where_they_were_chosen():
    order = listed({"S-2": 4}, opened=(), reclaimed={"S-2": 2})
    assert [(one.pieces, one.is_reclaimed) for one in order.taken] == [(2, True), (1, False)]
    assert pieces_of(order.bought) == {"S-2": 1}


def test_a_chosen_size_is_taken_in_that_size_or_bought_in_it():
    order = listed({}, opened=(), sizes={"S-3": SIZE})
    assert [(one.part, one.size) for one in order.taken] == [("S-3", SIZE)]
    order = listed({}, opened=(), sizes={"S-3": SIZE * Fraction(11, 10)})
    assert [(one.code, one.size) for one in order.bought] == [("S-3", SIZE * Fraction(11, 10))]
    assert order.needs[0].why == ("1.10 mm chosen",)


def test_each_of_several_selective_pieces_has_its_own_size():
    text = BOOK_TEXT.replace("class: selective\n", "class: selective\n    count: 3\n").replace(
        "less S-3", "less each S-3"
    )
    unit = load_book(text, "slip.yaml").unit("big")
    small, large = SIZE * Fraction(9, 10), SIZE
    order = order_list(unit, SHOP, DAY, {}, opened=(), sizes={"S-3 1": large, "S-3 2": small, "S-3 3": large})
    assert [(need.pieces, need.size) for need in order.needs] == [(2, large), (1, small)]
    assert [(one.pieces, one.size) for one in order.taken] == [(1, large)]
    assert [(one.pieces, one.size) for one in order.bought] == [(1, large), (1, small)]
    assert order.needs[0].why == ("1.00 mm and 0.90 mm chosen",)


def test_an_inch_size_in_the_drawer_is_the_size_it_is():
    order = listed(
        {}, text=SHOP_TEXT.replace("{1.0 mm: 1}", "{0.0354330708661417 in: 1}"), opened=(), sizes={"S-3": SIZE}
    )
    assert not order.taken, "0.9 mm is not 1 mm"
    order = listed({}, text=SHOP_TEXT.replace("{1.0 mm: 1}", "{5/127 in: 1}"), opened=(), sizes={"S-3": SIZE})
    assert [one.pieces for one in order.taken] == [1]


def test_a_selective_part_without_a_size_is_an_open_point():
    order = listed({"S-3": 1}, opened=())
    assert not order.taken and not order.bought
    assert [(one.kind, one.sentence) for one in order.open] == [
        ("no size", "S-3 Shim: which size is not chosen yet, so none can be taken or bought."),
    ]


# Prices, leads, sources.


def test_the_newest_list_not_after_the_day_that_has_the_part_gives_the_price():
    assert str(offer_on(SHOP, "S-8", "2026-11-09").cost) == "13.00 CUR"
    later = offer_on(SHOP, "S-8", "2026-11-10")
    assert (str(later.cost), later.source, later.since) == ("12.50 CUR", "Dray Street bearings", "2026-11-10")
    assert offer_on(SHOP, "S-7", "2026-11-10").since == "2026-01-01", "the newer list does not have it"
    assert offer_on(SHOP, "S-8", "2025-12-31") is None


def test_of_two_lists_of_one_day_the_later_written_holds():
    text = SHOP_TEXT.replace("from: 2026-11-10", "from: 2026-01-01")
    assert str(offer_on(unit_and_shop(text=text)[1], "S-8", DAY).cost) == "12.50 CUR"


def test_lines_go_by_source_and_the_slowest_sets_the_day():
    order = listed({"S-5": 1, "S-8": 1}, opened=())
    assert {source: pieces_of(lines) for source, lines in order.by_source().items()} == {
        "Dray Street bearings": {"S-8": 1},
        "Tarnwick parts counter": {"S-5": 1},
    }
    assert (str(order.lead), order.waits_for) == ("9 days", ("S-5",))


def test_what_has_no_price_or_no_lead_time_is_said_and_never_left_out():
    text = SHOP_TEXT.replace("      SK-1: {list: 15.00 CUR, cost: 7.00 CUR}\n", "")
    order = listed({"S-8": 1}, text=text, opened=["S-9"])
    assert [(one.kind, one.sentence) for one in order.open] == [
        ("no price", "S-9 Seal: 1 to buy, but no price list has it on 2026-11-20. Ask for a price."),
        ("no lead time", "S-8 Rear bearing: Dray Street bearings does not say how long it takes. Ask for a day."),
    ]


def test_a_core_deposit_is_told_apart_from_the_cost():
    order = listed({"S-6": 1}, opened=())
    assert [(one.code, one.pieces, str(one.deposit)) for one in order.cores] == [("S-5", 1, "80.00 CUR")]
    assert [str(line.cost) for line in order.bought] == ["262.00 CUR"]


def test_what_an_open_verdict_could_still_ask_for_says_what_it_waits_for():
    order = listed({"S-7": 1}, opened=(), undecided={"S-6": "read the clearance with the dial", "S-8": "look again"})
    assert [(one.part, one.pieces, one.waits_for, one.in_drawer) for one in order.undecided] == [
        ("S-5", 1, "read the clearance with the dial", 0),
    ], "the bearings are needed anyway"
    assert "S-5" not in pieces_of(order.needs)


# Kits.


def test_a_kit_is_used_where_it_costs_less_than_what_it_covers():
    """By hand: plates 3 short at 3.10 and the ring at 1.20; kit 7.00 holds ring, seal, two plates.

    Without: 9.30 + 1.20 = 10.50, and the seal has no price. With one kit: 7.00 + 3.10 = 10.10, nothing unpriced.
    """
    order = listed({"S-2": 4})
    assert [(kit.code, kit.pieces, kit.covers) for kit in order.kits] == [("SK-1", 1, {"S-2": 2, "S-4": 1, "S-9": 1})]
    assert {line.code: (line.pieces, str(line.cost)) for line in order.bought} == {
        "SK-1": (1, "7.00 CUR"),
        "S-2": (1, "3.10 CUR"),
    }
    assert not order.open


def test_a_kit_that_costs_as_much_as_its_parts_is_not_used():
    """By hand: without the seal the ring alone is short, 1.20; a kit at 1.20 would save nothing."""
    text = SHOP_TEXT.replace("cost: 7.00 CUR", "cost: 1.20 CUR")
    assert not listed({}, text=text, opened=["S-4"]).kits
    text = SHOP_TEXT.replace("cost: 7.00 CUR", "cost: 1.19 CUR")
    assert [kit.code for kit in listed({}, text=text, opened=["S-4"]).kits] == ["SK-1"]


def test_a_kits_content_is_no_need():
    order = listed({}, opened=["S-9"])
    assert pieces_of(order.needs) == {"S-9": 1}
    assert [(kit.code, kit.covers) for kit in order.kits] == [("SK-1", {"S-9": 1})], "the seal has no price by itself"


def test_a_kit_in_the_drawer_is_used_before_one_is_bought():
    text = SHOP_TEXT.replace("  S-7: {count: 3}", "  S-7: {count: 3}\n  SK-1: {count: 1}")
    order = listed({"S-2": 4}, text=text)
    assert [(kit.pieces, kit.from_drawer) for kit in order.kits] == [(1, 1)]
    assert pieces_of(order.bought) == {"S-2": 1}


def test_a_kit_in_the_drawer_costs_nothing_more():
    """By hand: two plates short at 3.10 are 6.20, a kit of two 7.00: bought singly, but not past a kit on hand."""
    text = SHOP_TEXT.replace("  S-2: {count: 1", "  S-2: {count: 0")
    assert pieces_of(listed({"S-2": 2}, text=text, opened=()).bought) == {"S-2": 2}
    text = text.replace("  S-7: {count: 3}", "  S-7: {count: 3}\n  SK-1: {count: 1}")
    order = listed({"S-2": 2}, text=text, opened=())
    assert [(kit.pieces, kit.from_drawer, kit.covers) for kit in order.kits] == [(1, 1, {"S-2": 2})]
    assert not order.bought


def offer(code, cents):
    money = Money(Decimal(cents).scaleb(-2), "CUR")
    return Offer(code, money, money, None, "counter", None, "2026-01-01")


PARTS = ["A", "B", "C"]
HOLDS = st.dictionaries(st.sampled_from(PARTS), st.integers(1, 3), min_size=1)
KITS = st.lists(st.tuples(HOLDS, st.integers(1, 900), st.integers(0, 2)), max_size=3)


@given(
    st.dictionaries(st.sampled_from(PARTS), st.integers(1, 5), min_size=1),
    st.dictionaries(st.sampled_from(PARTS), st.integers(1, 300)),
    KITS,
)
def test_no_choice_of_kits_is_cheaper(short, prices, kits):
    """Against every choice up to five of each kit, with cents as whole numbers; those on hand cost nothing more."""
    offers = [
        KitOffer(f"K{at}", f"K{at}", holds, offer(f"K{at}", cents), on_hand)
        for at, (holds, cents, on_hand) in enumerate(kits)
    ]
    singles = {part: offer(part, prices[part]) if part in prices else None for part in short}

    def weight(numbers):
        left = dict(short)
        for number, (holds, _, _) in zip(numbers, kits, strict=True):
            for part, held in holds.items():
                left[part] = max(0, left.get(part, 0) - number * held)
        unpriced = sum(pieces for part, pieces in left.items() if part not in prices)
        money = sum(pieces * prices.get(part, 0) for part, pieces in left.items())
        bought = ((max(0, number - held) * cents) for number, (_, cents, held) in zip(numbers, kits, strict=True))
        return unpriced, money + sum(bought)

    best = min(weight(numbers) for numbers in product(range(6), repeat=len(kits)))
    choice = choose_kits(short, offers, singles)
    assert weight([choice.kits.get(kit.code, 0) for kit in offers]) == best


@given(
    st.fixed_dictionaries({}, optional={name: st.integers(0, part.count) for name, part in UNIT.parts.items()}),
    st.sampled_from([None, Fraction(9, 10000), SIZE, Fraction(11, 10000)]),
    st.integers(0, 2),
)
def test_every_need_is_met_once_and_nothing_that_is_not_sold_is_bought(renew, size, used):
    sizes = {"S-3": size} if size is not None else {}
    order = order_list(UNIT, SHOP, DAY, renew, sizes=sizes, reclaimed={"S-2": used})
    for need in order.needs:
        taken = sum(one.pieces for one in order.taken if one.part == need.part)
        bought = sum(one.pieces for one in order.bought if one.code == need.part)
        in_kits = sum(kit.covers.get(need.part, 0) for kit in order.kits)
        unmet = sum(one.pieces for one in order.open if one.part == need.part and one.kind in ("no price", "no size"))
        assert need.pieces == taken + bought + in_kits + unmet
        assert UNIT.parts[need.part].served_in is None
    codes = {one.code for one in order.bought} | {one.part for one in order.taken}
    assert codes <= {need.part for need in order.needs} | set(UNIT.kits)
    for part, pieces in renew.items():
        if pieces and UNIT.parts[part].served_in is None:
            assert pieces_of(order.needs)[part] >= pieces


def test_pieces_beside_a_condemned_one_may_be_added():
    """One of four plates is blue and nobody has looked at the others: three more may have to be bought."""
    unit, shop = gap_box.unit(), gap_box.shop()

    def ordered(pieces):
        job = gap_box.job("", f"  - {{part: GB-05, look: heat, grade: blue{pieces}}}\n")
        judgements = judge(unit, job, shop)
        order = order_fitted(unit, shop, job.today, judgements, choose_fit(unit, job, shop, judgements))
        needed, undecided = pieces_of(order.needs), {one.part: one for one in order.undecided}
        return needed["GB-05"], undecided.get("GB-05")

    needed, more = ordered(", pieces: [2]")
    assert (needed, more.pieces) == (1, 3)
    assert more.waits_for == "Look at GB-05 Plate, heat (eye), pieces 1, 3, 4."
    assert ordered("") == (4, None)


def test_the_demonstration_job_from_its_verdicts_and_its_fit():
    """Worked by hand from the job's looks and readings: what goes, what the drawer has, what is still open."""
    book, shop, sheet = (DEMO.joinpath(*name).read_text(encoding="utf-8") for name in DEMO_FILES)
    book, job = load_book(book, "book.yaml"), load_job(sheet, "job.yaml").content
    unit, shop = book.unit("OT6"), narrow_shop(load_shop(shop, "shop.yaml").content, book, "OT6")
    judgements = judge(unit, job, shop)
    order = order_fitted(unit, shop, job.today, judgements, choose_fit(unit, job, shop, judgements))
    renewed = {"OT-011": 1, "OT-019": 1, "OT-042": 1, "OT-046": 10, "OT-051": 1, "OT-053": 1}
    renewed |= {"OT-081": 1, "OT-084": 1, "OT-092": 1, "OT-094": 1}
    always = {"OT-012": 1, "OT-014": 1, "OT-015": 1, "OT-032": 5, "OT-043": 1, "OT-045": 11, "OT-085": 1, "OT-093": 1}
    assert pieces_of(order.needs) == renewed | always, "its own selective parts stay"
    assert pieces_of(order.bought) == {"OT-053": 1, "OT-084": 1}, "the drawer has the rest"
    assert {one.part: one.pieces for one in order.taken if one.is_reclaimed} == {"OT-046": 10}
    assert {one.part for one in order.undecided} == {"OT-054", "OT-070", "OT-071", "OT-090"}
    assert (str(order.lead), order.waits_for) == ("3 days", ("OT-053",))
    assert not order.open
