"""The project's own invented units from their books to verdicts, results and fits.

Nothing here stands in print. The figures were worked out once, apart from this program, and typed in again.
"""

from fractions import Fraction
from pathlib import Path

import pytest

from layshaft.book import load_book
from layshaft.book.sheet import load_job, load_shop
from layshaft.plan.fit import choose_fit
from layshaft.plan.measured import Measured
from layshaft.plan.result import results
from layshaft.plan.verdict import judge
from layshaft.plan.wanted import next_most_telling

BOOKS = Path(__file__).parents[2] / "books"
MM = Fraction(1, 1000)
UNITS = {
    name: load_book((BOOKS / name / "book.yaml").read_text("utf-8"), name)
    for name in ("overtop", "twinpath", "layline")
}
JOB = """\
layshaft job: 1
id: T-1
invented: true
book: {{id: {book}, revision: 1}}
shop: {{id: bench, revision: 1}}
variant: {variant}
opened: 2026-11-01
today: 2026-11-02
temperature: 20 °C
"""
SHOP = """\
layshaft shop: 1
id: bench
name: Bench for tests
invented: true
revision: 1
dated: 2026-10-01
currency: CUR
labour rate: 90.00 CUR
gauges:
  shoulder gauge: {class: height gauge, u95: 0.02 mm}
  front stand gauge: {class: height gauge, u95: 0.01 mm}
  rear stand gauge: {class: height gauge, u95: 0.01 mm}
  case gauge: {class: depth micrometer, u95: 0.02 mm}
  recess gauge: {class: depth micrometer, u95: 0.01 mm}
  feeler: {class: feeler, u95: 0.025 mm}
"""


def measured(book: str, variant: str, readings: str = "", drawer: str = "", more: str = "") -> Measured:
    text = JOB.format(book=book, variant=variant) + (f"readings:\n{readings}" if readings else "") + more
    shop = load_shop(SHOP + (f"drawer:\n{drawer}" if drawer else ""), "shop").content
    return Measured(UNITS[book].unit(variant), load_job(text, "job").content, shop)


def fitted(one: Measured):
    judged = judge(one.unit, one.job, one.shop, None, one)
    return choose_fit(one.unit, one, one.shop, judged)


def mm(figure) -> float:
    return float(figure) * 1000


# Chains as drawn: nominal, half the worst case, root sum square, in mm.
CHAINS = [
    ("overtop", "OT4", "hub recess", 14.0, 0.68, 0.197),
    ("overtop", "OT5", "hub recess", 14.0, 0.78, 0.203),
    ("overtop", "OT6", "hub recess", 14.0, 0.83, 0.207),
    ("overtop", "OT4", "spring installed length", 76.0, 0.69, 0.167),
    ("overtop", "OT5", "spring installed length", 76.0, 0.79, 0.175),
    ("overtop", "OT6", "spring installed length", 76.0, 0.84, 0.178),
    ("overtop", "OT4", "brake clearance", 3.1, 0.44, 0.146),
    ("overtop", "OT5", "brake clearance", 3.5, 0.44, 0.146),
    ("overtop", "OT6", "brake clearance", 3.8, 0.49, 0.151),
    ("twinpath", "TP2", "input end play", 0.15, 0.15, 0.096),
    ("twinpath", "TP2", "rear output end play", 0.10, 0.16, 0.088),
    ("twinpath", "TP2", "front clutch clearance", 1.1, 0.52, 0.123),
    ("layline", "iron", "countershaft setting", -0.05, 0.315, 0.156),
    ("layline", "alloy", "countershaft setting", -0.17, 0.315, 0.156),
    ("layline", "iron", "main bearing play", 0.06, 0.12, 0.079),
    ("layline", "iron", "input end play", 0.10, 0.11, 0.071),
    ("layline", "iron", "third gear float", 0.25, 0.06, 0.042),
]


@pytest.mark.parametrize(("book", "variant", "result", "nominal", "worst", "rss"), CHAINS)
def test_chains_as_drawn(book, variant, result, nominal, worst, rss):
    one = measured(book, variant)
    found = results(one.unit, one)[result]
    assert mm(found.value) == pytest.approx(nominal)
    assert mm(found.high - found.value) == pytest.approx(worst)
    assert mm(found.value - found.low) == pytest.approx(worst)
    assert mm(found.rss) == pytest.approx(rss, abs=0.0005)
    assert found.origin == "drawn"


@pytest.mark.parametrize(("variant", "stroke"), [("OT4", 2.4), ("OT5", 2.8), ("OT6", 3.1)])
def test_stroke_as_drawn(variant, stroke):
    one = measured("overtop", variant)
    assert mm(results(one.unit, one)["release stroke"].value) == pytest.approx(stroke)


# One unit of the widest variant fitted from measured parts.


@pytest.fixture(scope="module")
def rebuild() -> Measured:
    job = load_job((BOOKS / "demo/job.yaml").read_text("utf-8"), "job").content
    shop = load_shop((BOOKS / "demo/shop.yaml").read_text("utf-8"), "shop").content
    return Measured(UNITS["overtop"].unit(job.variant), job, shop)


@pytest.fixture(scope="module")
def verdicts(rebuild):
    return judge(rebuild.unit, rebuild.job, rebuild.shop, None, rebuild)


@pytest.fixture(scope="module")
def fit(rebuild, verdicts):
    return choose_fit(rebuild.unit, rebuild, rebuild.shop, verdicts)


@pytest.fixture(scope="module")
def anew(rebuild, verdicts):
    """The fit of the same unit if its own selective parts were none that can be used again."""
    others = {part: one for part, one in verdicts.items() if rebuild.unit.parts[part].selective is None}
    return choose_fit(rebuild.unit, rebuild, rebuild.shop, others)


def test_best_sizes_and_plates(anew):
    assert {part: mm(size) for part, size in anew.sizes.items()} == {"OT-044": 5.5, "OT-020": 3.9, "OT-034": 8.65}
    assert mm(sum(anew.figures["OT-046"], Fraction(0))) == pytest.approx(17.412, abs=1e-9)
    assert anew.reclaimed == {"OT-046": 10}
    assert not anew.to_buy
    assert anew.is_proved


def test_its_own_parts_stay_where_they_do(fit):
    """As read on the bench: pressure plate, spacer and reaction plate bring every limit inside, and cost nothing."""
    kept = {"OT-044": 5.299, "OT-020": 3.743, "OT-034": 8.445}
    assert {part: mm(size) for part, size in fit.sizes.items()} == pytest.approx(kept)
    assert set(fit.own) == set(kept)
    assert not fit.replaced
    # The brake's other links are those of the fit below: 8.65 less 8.445 is 0.205 more.
    assert mm(fit.values["brake clearance"].value) == pytest.approx(3.764 + 0.205)
    gap = mm(fit.values["hub recess"].value) + 0.4 - 9.86 - 3.743
    assert mm(fit.values["hub gap"].value) == pytest.approx(gap)
    assert {one.verdict for name, one in fit.values.items() if name != "one-way grip"} == {"inside"}


@pytest.mark.parametrize(
    ("result", "value"),
    [("hub recess", 14.03), ("hub gap", 0.67), ("brake clearance", 3.764), ("release stroke", 3.094)],
)
def test_what_the_fit_gives(anew, result, value):
    assert mm(anew.values[result].value) == pytest.approx(value, abs=1e-9)
    assert anew.values[result].verdict == "inside"


def test_sets_that_pass_and_that_fail_the_stroke(rebuild, verdicts):
    """With every listed size on hand 33 sets pass all three windows and 5 of them can fail the stroke."""
    sizes = {part: rebuild.unit.parts[part].selective.sizes for part in ("OT-020", "OT-034", "OT-044")}
    drawer = "".join(
        f"  {part}: {{sizes: {{{', '.join(f'{one}: 1' for one in all_)}}}}}\n" for part, all_ in sizes.items()
    )
    full = load_shop(SHOP + f"drawer:\n{drawer}", "shop").content.drawer
    drawer_with_plates = {**full, "OT-046": rebuild.shop.drawer["OT-046"]}
    renewed = {part: judged for part, judged in verdicts.items() if part not in sizes}
    found = choose_fit(rebuild.unit, rebuild, rebuild.shop, renewed, drawer_with_plates)
    assert (found.sets_inside, found.sets_failing) == (33, 5)


def test_pinion_near_its_limit(verdicts):
    carrier = verdicts["OT-054"]
    figure = next(one for one in carrier.figures if one.reading == "pinion side clearance")
    assert (carrier.verdict, figure.is_inside, figure.place) == ("measure again", True, "place 4")
    assert figure.probability == pytest.approx(0.945, abs=0.0005)


def test_what_was_left_open_stays_open(rebuild, verdicts, fit):
    assert {part for part, judged in verdicts.items() if judged.open} == {"OT-054", "OT-070", "OT-072", "OT-090"}
    assert [one.reading for one in rebuild.findings if one.is_waiting] == ["bearing bore"]
    assert fit.values["one-way grip"].verdict == "open"
    assert next_most_telling(verdicts, rebuild.unit)[0].part == "OT-070"


def test_burnt_broken_and_bought(verdicts):
    assert verdicts["OT-043"].reason.startswith("Drum wave ring: broken: Slivers on the magnet")
    assert (verdicts["OT-011"].verdict, verdicts["OT-011"].renew_count) == ("renew", 1)
    assert (verdicts["OT-046"].verdict, verdicts["OT-046"].renew_count) == ("renew", 10)
    assert verdicts["OT-094"].reason.startswith("Tail bush: J. Maddick chose to renew it")
    assert (verdicts["OT-086"].verdict, verdicts["OT-086"].kept_by) == ("reuse", "customer")
    assert verdicts["OT-071"].carried_from == "OT-072"


@pytest.mark.parametrize("variant", ["OT4", "OT5", "OT6"])
def test_a_bad_washer_condemns_the_carrier(variant):
    one = measured("overtop", variant, "  - {part: OT-058, reading: step wear, figures: [0.20 mm], gauge: feeler}\n")
    found = judge(one.unit, one.job, one.shop)
    assert (found["OT-054"].verdict, found["OT-054"].carried_from) == ("renew", "OT-058")
    assert found["OT-055"].bought_as == "OT-054"


def test_both_in_their_windows_and_the_pair_fails():
    """Brake clearance 3.55 and hub gap 0.85 leave a stroke of 2.70 where 2.75 is needed."""
    readings = (
        "  - {result: hub recess, figures: [14.00 mm, 14.00 mm, 14.00 mm], confirmed: true}\n"
        "  - {result: bearing face proud, figures: [9.80 mm, 9.80 mm, 9.80 mm], confirmed: true}\n"
        "  - {result: brake face proud, figures: [12.75 mm, 12.75 mm, 12.75 mm], confirmed: true}\n"
        "  - {part: OT-020, reading: thickness, figures: [3.75 mm, 3.75 mm, 3.75 mm, 3.75 mm]}\n"
    )
    one = measured("overtop", "OT6", readings)
    found = results(one.unit, one)
    values = [found[name].value / MM for name in ("brake clearance", "hub gap", "release stroke")]
    assert values == [Fraction("3.55"), Fraction("0.85"), Fraction("2.70")]
    assert found["brake clearance"].margin > 0
    assert found["hub gap"].margin > 0
    assert mm(found["release stroke"].margin) == pytest.approx(-0.05)


def test_wear_reserve_of_a_direct_plate():
    one = measured("overtop", "OT6")
    assert mm(results(one.unit, one)["wear reserve per plate"].value) == pytest.approx(0.064, abs=0.0005)


def test_chain_slack():
    one = measured("twinpath", "TP2", "  - {part: TP-062, reading: slack, figures: [16.5 mm]}\n")
    found = results(one.unit, one)["chain elongation"]
    assert float(found.value) * 100 == pytest.approx(0.3888, abs=5e-5)
    assert found.margin > 0


# The countershaft shim by five readings, iron case at 20 °C.


def shim_readings(case: str = "") -> str:
    found = ""
    for part, reading, figure, places, gauge in (
        ("LL-030", "shoulder length", "286.412 mm", 3, "shoulder gauge"),
        ("LL-032", "stand height", "19.338 mm", 3, "front stand gauge"),
        ("LL-033", "stand height", "19.361 mm", 3, "rear stand gauge"),
        ("LL-010", "rear face to front cup seat", "324.984 mm", 3, "case gauge"),
        ("LL-011", "cup recess depth", "1.508 mm", 4, "recess gauge"),
    ):
        warm = case if part == "LL-010" else ""
        figures = ", ".join([figure] * places)
        found += f"  - {{part: {part}, reading: {reading}, figures: [{figures}], gauge: {gauge}{warm}}}\n"
    return found


SHIMS = "  LL-034: {sizes: {1.39 mm: 1, 1.42 mm: 1, 1.45 mm: 1}}\n"


def shims(drawer: str = SHIMS, case: str = ""):
    return fitted(measured("layline", "iron", shim_readings(case), drawer))


def test_best_shim():
    found = shims()
    assert mm(found.sizes["LL-034"]) == 1.42
    assert mm(found.values["countershaft setting"].value) == pytest.approx(-0.039, abs=1e-9)
    # The band of the five readings together, at k = 2.
    assert mm(found.values["countershaft setting"].uncertainty) * 2 == pytest.approx(0.033, abs=0.0005)


@pytest.mark.parametrize(
    ("size", "preload", "probability"), [("1.42", 0.039, 0.867), ("1.45", 0.069, 0.745), ("1.39", 0.009, 0.254)]
)
def test_each_shim(size, preload, probability):
    """The shim stands at its own ± 0.005, which the reference figures leave out: 0.002 is allowed for it."""
    more = f"choices: [{{fit: LL-034, size: {size} mm, by: ferrow}}]\n"
    found = fitted(measured("layline", "iron", shim_readings(), SHIMS, more)).values["countershaft setting"]
    assert mm(-found.value) == pytest.approx(preload, abs=1e-9)
    assert found.probability == pytest.approx(probability, abs=0.002)


def test_a_case_from_the_hot_wash_chooses_no_shim():
    """Read at 60 °C it would be wrong by 0.14: no shim is chosen by it."""
    found = shims(case=", temperature: 60 °C")
    assert "LL-034" in found.unchosen
    assert "rear face to front cup seat" in {one.name for one in found.waiting}


@pytest.mark.parametrize(("variant", "change"), [("iron", 0.018), ("alloy", -0.201)])
def test_preload_when_hot(variant, change):
    one = measured("layline", variant)
    found = results(one.unit, one)
    cold, hot = found["countershaft setting"].value, found["hot setting"].value
    assert mm(cold - hot) == pytest.approx(change, abs=0.0005)


# Faces of used parts that nothing but the whole unit tells.

PLAY = "  - {result: input end play, figures: [0.31 mm, 0.31 mm], confirmed: true}\n"
OLD_WASHER = "  - {part: TP-025, reading: thickness, figures: [1.75 mm, 1.75 mm, 1.75 mm, 1.75 mm]}\n"
WASHERS = "  TP-025: {sizes: {1.85 mm: 1, 1.95 mm: 1}}\n"


@pytest.mark.parametrize(
    ("readings", "wanted"),
    [("", ("", "input end play")), (PLAY, ("TP-025", "thickness")), (OLD_WASHER, ("", "input end play"))],
)
def test_no_washer_is_chosen_by_the_drawing(readings, wanted):
    found = fitted(measured("twinpath", "TP2", readings, WASHERS))
    assert "TP-025" in found.unchosen
    assert wanted in {(one.part, one.name) for one in found.waiting}


def test_a_washer_by_the_play_with_the_old_one():
    """0.31 with 1.75 in leaves 0.21 with 1.85 and 0.11 with 1.95; 0.04 and 0.03 from the nearer end of 0.08 to 0.25."""
    found = fitted(measured("twinpath", "TP2", PLAY + OLD_WASHER, WASHERS))
    assert mm(found.sizes["TP-025"]) == 1.85
    assert found.values["input end play"].value == Fraction("0.21") * MM


def test_a_mean_of_too_few_places_is_no_size():
    readings = shim_readings().replace("[286.412 mm, 286.412 mm, 286.412 mm]", "[286.412 mm]")
    found = fitted(measured("layline", "iron", readings, SHIMS))
    assert "LL-034" in found.unchosen
    assert [one.name for one in found.waiting if one.part == "LL-030"] == ["shoulder length"]
