"""The results of a demo book's unit as a job reckons them, from no readings or a few."""

from layshaft.book.definition import Unit
from layshaft.book.sheet import load_job, load_shop
from layshaft.plan.measured import Measured
from layshaft.plan.result import results

SHOP = """\
layshaft shop: 1
id: bench
name: Bench for tests
invented: true
revision: 1
dated: 2026-10-01
currency: CUR
labour rate: 90.00 CUR
"""
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


def results_of(unit: Unit, readings: str = ""):
    """Every result of a unit by its name; readings as a job file lists them."""
    text = JOB.format(book=unit.id, variant=unit.variant) + (f"readings:\n{readings}" if readings else "")
    measured = Measured(unit, load_job(text, "job.yaml").content, load_shop(SHOP, "shop.yaml").content)
    return results(unit, measured)
