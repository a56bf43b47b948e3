"""What a result comes from: the parts behind it, and whether it is a plain sum in the sizes of some of them."""

from __future__ import annotations

from collections.abc import Collection, Iterator

from layshaft.book.definition import Term, Unit
from layshaft.book.size import expression_names, pack_pieces
from layshaft.quantity import parse_expression
from layshaft.quantity.node import Call, Name, Node, Product, Sum

NO_SUM = 2
"""Any degree above that of a sum."""


class Sources:
    """Follows the results of a unit to what they come from, each once."""

    def __init__(self, unit: Unit) -> None:
        self.unit = unit
        self.names = expression_names(unit)
        self._parts: dict[str, frozenset[str]] = {}

    def parts(self, result: str) -> frozenset[str]:
        """Every part that a result comes from."""
        if result not in self._parts:
            self._parts[result] = frozenset(self._parts_of(result))
        return self._parts[result]

    def results(self, result: str, read: Collection[str] = ()) -> tuple[str, ...]:
        """Every other result that a result comes from, each once; none beyond one of those that were read."""
        return tuple(dict.fromkeys(self._results_of(result, read)))

    def _results_of(self, result: str, read: Collection[str]) -> Iterator[str]:
        definition = self.unit.results[result]
        inner = [str(term.name) for term in definition.chain or () if term.kind == "result"]
        for text in (*definition.of.values(), *((definition.is_,) if definition.is_ else ())):
            inner += [name for name in parse_expression(text, self.names).names if name in self.unit.results]
        for one in inner:
            yield one
            if one not in read:
                yield from self._results_of(one, read)

    def is_sum_in(self, result: str, parts: Collection[str]) -> bool:
        """Whether a result grows evenly with the sizes of these parts, whatever else stands in it."""
        return self._degree(result, frozenset(parts)) < NO_SUM

    def _parts_of(self, result: str) -> Iterator[str]:
        definition = self.unit.results[result]
        for term in definition.chain or ():
            yield from self._parts_of_term(term)
        for text in (*definition.of.values(), *((definition.is_,) if definition.is_ else ())):
            for name in parse_expression(text, self.names).names:
                yield from self._parts_of_name(name)

    def _parts_of_term(self, term: Term) -> Iterator[str]:
        if term.kind == "result":
            yield from self.parts(str(term.name))
        elif term.kind == "pack":
            yield from self._parts_of_name(f"pack {term.name}")
        elif term.part is not None:
            yield term.part

    def _parts_of_name(self, name: str) -> Iterator[str]:
        word, _, rest = name.partition(" ")
        if name in self.unit.results:
            yield from self.parts(name)
        elif word == "pack":
            yield from (part for part, _ in pack_pieces(self.unit, self.unit.packs[rest]))
        elif word != "count":
            yield word

    def _degree(self, result: str, parts: frozenset[str]) -> int:
        definition = self.unit.results[result]
        if not self.parts(result) & parts:
            return 0
        if definition.chain is not None:
            inner = [str(term.name) for term in definition.chain if term.kind == "result"]
            return max((self._degree(name, parts) for name in inner), default=1) or 1
        if definition.is_ is None:
            return NO_SUM
        return self._degree_of(parse_expression(definition.is_, self.names).root, parts)

    def _degree_of(self, node: Node, parts: frozenset[str]) -> int:
        if isinstance(node, Name):
            return self._degree_of_name(node.name, parts)
        if isinstance(node, Sum):
            return max(self._degree_of(term, parts) for _, term in node.terms)
        if isinstance(node, Product):
            degrees = [(is_divided, self._degree_of(factor, parts)) for is_divided, factor in node.factors]
            return NO_SUM if any(is_divided and one for is_divided, one in degrees) else sum(one for _, one in degrees)
        if isinstance(node, Call):
            return NO_SUM if any(self._degree_of(one, parts) for one in node.arguments) else 0
        return 0

    def _degree_of_name(self, name: str, parts: frozenset[str]) -> int:
        word, _, rest = name.partition(" ")
        if name in self.unit.results:
            return self._degree(name, parts)
        if word == "pack":
            return int(any(part in parts for part in self._parts_of_name(name)))
        if word == "count" or word not in parts:
            return 0
        # A reading that is no distance is none of the sizes that are chosen.
        return int(self.unit.parts[word].readings[rest].from_ is not None)
