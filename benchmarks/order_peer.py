"""Orders found here against OR-Tools CP-SAT on the same problems in the same run: results, bounds, seconds.

Run it from the project's folder with the project's test environment: `python -m benchmarks.order_peer [SECONDS]`.
CP-SAT gets SECONDS (60) and two workers, no hint, and a model that suits it: runs of one attitude, tool and session, a
fifth more of them than the order found here needs. Problems are flat and give each move one way, so that risk and
minutes are the same in every order; compared are turn-overs (grams), press set-ups and tool changes, in that rank.
CP-SAT's bound holds for orders of so many runs.
"""

from __future__ import annotations

import sys
import time
from dataclasses import replace
from itertools import pairwise

from ortools.sat.python import cp_model

from layshaft.plan.sequence import Enter, Make, Problem, Turn, order_moves, replay
from tests.plan.sequence.random_problem import random_problem

Score = tuple[int, int, int]
SIZES = ((30, 4, 10), (60, 5, 20), (120, 6, 30), (1000, 6, 60))


def flat_problem(seed: int, count: int, tools: int, near: int) -> Problem:
    """A random problem without assemblies and alternatives, with needs and presses."""
    drawn = random_problem(seed, count, tools=tools, near=near, ways=1, sessions=2)
    moves = tuple(replace(move, parent=-1, ways=move.ways[:1]) for move in drawn.moves)
    sessions = tuple(replace(one, parent=-1) for one in drawn.sessions)
    return replace(drawn, moves=moves, sessions=sessions)


def runs_of(problem: Problem, steps: tuple[object, ...]) -> int:
    """How many runs of one attitude, tool and session an order has."""
    runs, tool = 1, problem.tool
    for step in steps:
        if isinstance(step, Turn | Enter):
            runs += 1
        elif isinstance(step, Make):
            wanted = problem.moves[step.move].ways[step.way].tool
            if wanted is not None and wanted != tool:
                runs, tool = runs + 1, wanted
    return runs


class Peer:
    """One problem as a constraint program."""

    def __init__(self, problem: Problem, runs: int) -> None:
        self.problem, self.runs = problem, range(runs)
        self.model = cp_model.CpModel()
        self.moves = range(len(problem.moves))
        self.tools = sorted({way.tool for move in problem.moves for way in move.ways if way.tool})
        new = self.model.new_bool_var
        self.when = [[new("") for _ in self.runs] for _ in self.moves]
        self.stands = [[new("") for _ in problem.attitudes] for _ in self.runs]
        self.hand = [[new("") for _ in range(len(self.tools) + 1)] for _ in self.runs]
        self.inside = [[new("") for _ in range(len(problem.sessions) + 1)] for _ in self.runs]
        for group in (self.when, self.stands, self.hand, self.inside):
            for choices in group:
                self.model.add_exactly_one(choices)
        self._settings()
        self._needs()
        self._costs()

    def _settings(self) -> None:
        for at, move in enumerate(self.problem.moves):
            way = move.ways[0]
            sessions = {0} if way.session is None else {one + 1 for one in way.session}
            for run in self.runs:
                here = self.when[at][run]
                if way.attitudes is not None:
                    allowed = [i for i, name in enumerate(self.problem.attitudes) if name in way.attitudes]
                    self.model.add_bool_or(self.stands[run][i] for i in allowed).only_enforce_if(here)
                if way.tool is not None:
                    self.model.add_implication(here, self.hand[run][self.tools.index(way.tool) + 1])
                self.model.add_bool_or(self.inside[run][i] for i in sorted(sessions)).only_enforce_if(here)

    def _needs(self) -> None:
        count = len(self.problem.moves)
        self.run_of = [sum(run * self.when[at][run] for run in self.runs) for at in self.moves]
        self.rank = [self.model.new_int_var(0, count - 1, "") for _ in self.moves]
        for at, move in enumerate(self.problem.moves):
            for clause in move.ways[0].needs:
                first = [self.model.new_bool_var("") for _ in clause]
                self.model.add_bool_or(first)
                for other, is_first in zip(clause, first, strict=True):
                    self.model.add(self.run_of[other] <= self.run_of[at]).only_enforce_if(is_first)
                    self.model.add(self.rank[other] < self.rank[at]).only_enforce_if(is_first)

    def _costs(self) -> None:
        model, problem = self.model, self.problem
        start = problem.attitudes.index(problem.start)
        model.add(self.stands[0][start] == 1)
        self.grams: list[cp_model.IntVar] = []
        whole = problem.base_mass + sum(move.mass for move in problem.moves)
        entered = [self._entered(None, 0)] + [self._entered(a, b) for a, b in pairwise(self.runs)]
        self.presses = [one for run in entered for at, one in run if problem.sessions[at].is_press]
        self.changes = [1 - self.hand[0][0]]
        for a, b in pairwise(self.runs):
            changed, turned = model.new_bool_var(""), model.new_bool_var("")
            for before, after in zip(self.hand[a], self.hand[b], strict=True):
                model.add(changed >= after - before)
            model.add(self.hand[b][0] <= self.hand[a][0])
            for before, after in zip(self.stands[a], self.stands[b], strict=True):
                model.add(turned >= after - before)
            for at in range(len(problem.sessions)):
                model.add(turned == 0).only_enforce_if(self.inside[a][at + 1], self.inside[b][at + 1])
            gone = sum(move.mass * self.when[at][run] for at, move in enumerate(problem.moves) for run in range(b))
            grams = model.new_int_var(0, whole, "")
            model.add(grams >= whole - gone).only_enforce_if(turned)
            self.changes.append(changed)
            self.grams.append(grams)
        many = len(self.runs) + 1
        total = sum(self.grams) * many * many + sum(self.presses) * many + sum(self.changes)
        model.minimize(total)

    def _entered(self, before: int | None, run: int) -> list[tuple[int, cp_model.IntVar]]:
        """For each session whether it begins with this run; then its needs are met and the unit stands right."""
        found = []
        for at, session in enumerate(self.problem.sessions):
            begins = self.model.new_bool_var("")
            was = 0 if before is None else self.inside[before][at + 1]
            self.model.add(begins >= self.inside[run][at + 1] - was)
            for clause in session.needs:
                done = sum(self.when[other][earlier] for other in clause for earlier in range(run))
                self.model.add(done >= 1).only_enforce_if(begins)
            if session.attitudes is not None:
                allowed = [i for i, name in enumerate(self.problem.attitudes) if name in session.attitudes]
                self.model.add_bool_or(self.stands[run][i] for i in allowed).only_enforce_if(begins)
            found.append((at, begins))
        return found

    def solve(self, seconds: float) -> tuple[Score | None, Score, str]:
        """The best order's score, the bound on its turn-overs, and what the solver says of it."""
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = seconds
        solver.parameters.num_workers = 2
        status = solver.solve(self.model)
        many = len(self.runs) + 1
        rest, changes = divmod(int(max(0.0, solver.best_objective_bound)), many)
        bound = (rest // many, rest % many, changes)
        if status not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            return None, bound, solver.status_name(status)

        def summed(group: list[cp_model.IntVar]) -> int:
            return sum(solver.value(one) for one in group)

        score = (summed(self.grams), summed(self.presses), summed(self.changes))
        return score, bound, solver.status_name(status)


def main(seconds: float) -> None:
    """Print one line for each solver and problem."""
    for count, tools, near in SIZES:
        problem = flat_problem(1, count, tools, near)
        start = time.perf_counter()
        order = order_moves(problem)
        taken = time.perf_counter() - start
        assert replay(problem, order.steps).is_legal
        own, own_bound = tuple(order.cost)[1:4], tuple(order.bound)[1:4]
        runs = runs_of(problem, order.steps)
        start = time.perf_counter()
        score, bound, status = Peer(problem, runs + 1 + runs // 5).solve(seconds)
        whole = time.perf_counter() - start
        print(f"{count:>5} moves  here   {own}  bound {own_bound}  proved {order.is_proved}  {taken:.2f} s")
        print(f"             CP-SAT {score}  bound {bound}  {status}  {whole:.1f} s  ratio of time {whole / taken:.0f}")


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 60.0)
