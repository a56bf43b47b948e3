"""A small invented unit with its shop and job: two sizes of it, plates, a shim, a carrier that comes whole, a kit."""

from layshaft.book import load_book
from layshaft.book.sheet import load_job, load_shop
from layshaft.book.sheet_check import narrow_shop, unit_of

BOOK_TEXT = """\
layshaft book: 1
id: slip
name: Slip box
maker: Tarnwick Gear Works
invented: true
revision: 4
dated: 2026-10-01
base: S-1
starts: level
attitudes: [level]
reference temperature: 20 °C
options: {size: [big, small]}
variants: {big: {size: big}, small: {size: small}}
axes: {main: {start: front, end: rear}}
parts:
  S-1:
    name: Case
    class: case
    mass: 3 kg
    faces: {front: 0 mm, floor: 20.00 ± 0.05 mm}
    readings:
      depth: {how: depth micrometer, gauge: depth micrometer, from: front, to: floor, places: 3, decides: mean}
      bore: {how: bore gauge, gauge: bore gauge, places: 2, new: 40.00 .. 40.02 mm, reuse: at most 40.05 mm}
    looks: {face: {how: eye, grades: {even: reuse, cracked: renew}}}
  S-2:
    name: Plate
    class: steel plate
    count: {size big: 4, size small: 3}
    mass: 0.1 kg
    faces: {front: 0 mm, rear: 2.00 ± 0.02 mm}
    ways: [{toward: front, held by: [S-4], time: 1 min}]
    readings:
      thickness: {how: micrometer, gauge: micrometer, from: front, to: rear, places: 2, reuse: at least 1.90 mm}
    looks: {heat: {how: eye, grades: {clean: reuse, blue spots: renew}}}
  S-3:
    name: Shim
    class: selective
    mass: 0.02 kg
    faces: {front: 0 mm, rear: 1.00 ± 0.01 mm}
    ways: [{toward: front, held by: [S-4], time: 1 min}]
    selective: {from: front, to: rear, sizes: [0.9 mm, 1.0 mm, 1.1 mm]}
  S-4:
    name: Ring
    class: snap ring
    mass: 0.01 kg
    ways: [{toward: front, time: 1 min}]
    renew: always
  S-5:
    name: Carrier
    class: carrier
    mass: 1 kg
    ways: [{toward: front, held by: [S-4], time: 1 min}]
    comeback cost: 400 CUR
  S-6: {name: Pinion, class: gear, count: 3, mass: 0.1 kg, lies in: S-5, served in: S-5}
  S-7: {name: Front bearing, class: bearing, mass: 0.1 kg, ways: [{toward: front, held by: [S-4], time: 1 min}]}
  S-8: {name: Rear bearing, class: bearing, mass: 0.1 kg, ways: [{toward: front, held by: [S-4], time: 1 min}]}
  S-9: {name: Seal, class: seal, mass: 0.01 kg, renew: always, ways: [{toward: front, held by: [S-4], time: 1 min}]}
results:
  room:
    about: What is left in the case
    chain: [plus S-1 front to floor, less each S-2 front to rear, less S-3 front to rear]
    read: {how: depth micrometer, gauge: depth micrometer, places: 2}
  twice: {about: Twice the room, is: room + room}
sets:
  bearings: {members: [S-7, S-8], rule: renew together}
kits:
  SK-1: {name: Kit, holds: {S-4: 1, S-9: 1, S-2: 2}}
proofs:
  turns: {name: Turn by hand, how: Turn it, proves: Nothing binds, does not prove: Strength, time: 1 min}
  room: {name: Room, how: Depth, result: room, proves: Room, does not prove: Strength, time: 1 min}
"""

SHOP_TEXT = """\
layshaft shop: 1
id: yard
name: Yard Street Gearworks
invented: true
revision: 2
dated: 2026-11-01
currency: CUR
labour rate: 90.00 CUR
supplies: {percent of labour: 5, at most: 12.00 CUR}
tax: {percent: 8.25, on: parts}
reclaimed percent: 40
temperature band: 4 K
people:
  kim: {name: K. Imsel, role: owner}
  ada: {name: A. Darrow, role: apprentice}
gauges:
  micrometer 1: {class: micrometer, u95: 0.004 mm, step: 0.001 mm, due: 2027-01-01}
  depth micrometer 1: {class: depth micrometer, u95: 0.010 mm, step: 0.005 mm, due: 2026-11-05}
  spring tester 1: {class: spring tester, u95 percent: 1.5, step: 1 N}
drawer:
  S-2: {count: 1, measured: [1.98 mm, 1.97 mm]}
  S-3: {sizes: {1.0 mm: 1}}
  S-7: {count: 3}
prices:
  - from: 2026-01-01
    source: Tarnwick parts counter
    lead: 3 days
    parts:
      S-2: {list: 7.25 CUR, cost: 3.10 CUR}
      S-3: {list: 6.00 CUR, cost: 2.40 CUR}
      S-4: {list: 3.35 CUR, cost: 1.20 CUR}
      S-5 where size big: {list: 410.00 CUR, cost: 262.00 CUR, core: 80.00 CUR, lead: 9 days}
      S-5 where size small: {list: 330.00 CUR, cost: 204.00 CUR, core: 60.00 CUR, lead: 9 days}
      S-7: {list: 21.00 CUR, cost: 11.00 CUR}
      S-8: {list: 24.00 CUR, cost: 13.00 CUR}
      SK-1: {list: 15.00 CUR, cost: 7.00 CUR}
  - from: 2026-11-10
    source: Dray Street bearings
    parts:
      S-8: {list: 22.00 CUR, cost: 12.50 CUR}
"""

JOB_TEXT = """\
layshaft job: 1
id: J-1
book: {id: slip, revision: 4}
shop: {id: yard, revision: 2}
variant: big
opened: 2026-11-02
today: 2026-11-20
temperature: 21 °C
"""

BOOK = load_book(BOOK_TEXT, "slip.yaml")
SHOP = load_shop(SHOP_TEXT, "shop.yaml")


def unit_and_shop(variant="big", text=SHOP_TEXT):
    """A variant of the small unit, and the shop as it sees it."""
    return BOOK.unit(variant), narrow_shop(load_shop(text, "shop.yaml").content, BOOK, variant)


def job(more):
    """The small job with more lines."""
    return load_job(JOB_TEXT + more, "job.yaml")


def unit_for(sheet):
    """The unit a job is of."""
    return unit_of(sheet, BOOK)
