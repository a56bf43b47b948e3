"""What to do: moves, loads, orders, verdicts, fits, press plans, lists and prices; pure."""
