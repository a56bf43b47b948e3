"""What a trail costs, and how a better one is told from it: the sums, without asking whether it is legal."""

from layshaft.plan.sequence.fan import Trail
from layshaft.plan.sequence.table import Table


def cost_of(table: Table, trail: Trail) -> int:
    """The packed cost of a legal trail."""
    made = table.start_made
    tool = table.start_tool
    total = 0
    for kind, number, way in trail:
        if kind == "turn":
            total += table.pack("turns", table.mass(made))
        elif kind == "enter":
            session = table.sessions[number]
            total += table.pack("presses", int(session.is_press)) + table.pack("minutes", session.minutes)
        elif kind == "make":
            row = table.ways[number][way]
            made |= row.bit
            total += table.pack("risk", row.risk) + table.pack("minutes", row.minutes)
            if "moves" in table.rank:
                total += table.pack("moves")
            if row.tool and row.tool != tool:
                tool = row.tool
                total += table.pack("tools")
    return total
