"""What a unit is: the definitions that a book is read into."""

from layshaft.book.definition.hold import Alignment, Axis, HandLimit, Home, Load, Opening, Release, Stop, Tool
from layshaft.book.definition.job import Choice, Customer, Done, Intake, Job, Look, Noticed, Proved, Reading
from layshaft.book.definition.need import Need, NeedAll, NeedAny, NeedPart
from layshaft.book.definition.part import (
    Fastening,
    Fitting,
    LookPlan,
    Odds,
    Part,
    ReadingPlan,
    Rework,
    Selective,
    SpringData,
    SpringTest,
    Step,
    Way,
)
from layshaft.book.definition.result import Direct, Pack, PackItem, Result
from layshaft.book.definition.shop import Gauge, Person, Press, PressGauge, PriceList, Shop, Stock
from layshaft.book.definition.term import Term
from layshaft.book.definition.train import ChainDrive, Coupling, Mesh, Planet, Planetary, Range, Train, Wheel
from layshaft.book.definition.unit import Unit
from layshaft.book.definition.work import (
    Failure,
    Fluid,
    Group,
    Kit,
    MatingSet,
    Passage,
    Preparation,
    Proof,
    Task,
)

__all__ = [
    "Alignment", "Axis", "ChainDrive", "Choice", "Coupling", "Customer", "Direct", "Done", "Failure",
    "Fastening", "Fitting", "Fluid", "Gauge", "Group", "HandLimit", "Home", "Intake", "Job", "Kit", "Load",
    "Look", "LookPlan", "MatingSet", "Mesh", "Need", "NeedAll", "NeedAny", "NeedPart", "Noticed", "Odds",
    "Opening", "Pack", "PackItem", "Part", "Passage", "Person", "Planet", "Planetary", "Preparation",
    "Press", "PressGauge", "PriceList", "Proof", "Proved", "Range", "Reading", "ReadingPlan", "Release",
    "Result", "Rework", "Selective", "Shop", "SpringData", "SpringTest", "Step", "Stock", "Stop", "Task",
    "Term", "Tool", "Train", "Unit", "Way", "Wheel",
]
