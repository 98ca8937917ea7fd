"""Exact sums over many linked unknowns, by variable elimination in logarithms.

Logarithms, because a season's clutches multiply hundreds of chances and no unknown may be ruled out by underflow.
"""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping, Sequence
from itertools import combinations
from math import prod
from typing import Any

import msgspec
import numpy as np
from numpy.typing import NDArray

from core.genetics.units import Floats
from core.text import tr

# Most entries of one table: 32 MB of numbers.
LARGEST = 2**22


class TooEntangled(ValueError):
    """The unknowns hang together too closely for an exact sum in memory; `variables` are those, where known."""

    def __init__(self, message: str, variables: Sequence[int] = ()) -> None:
        """Say it, and name the variables that would be in one table."""
        self.variables = tuple(variables)
        super().__init__(message)


class Table(msgspec.Struct, frozen=True, eq=False):
    """Logarithms of weights over the states of some variables: one axis each, in ascending order of variable."""

    scope: tuple[int, ...]
    logs: Floats


class _Bucket(msgspec.Struct, frozen=True, eq=False):
    """All that named a variable when its turn came, its sum over that variable, and the buckets whose sums went in."""

    variable: int
    gathered: Table
    summed: Table
    sources: tuple[int, ...]


def check_size(entries: int, variables: Sequence[int] = ()) -> None:
    """Refuse a table before it is allocated. Errors: TooEntangled."""
    if entries > LARGEST:
        message = tr(
            "an exact answer needs a table of {entries} entries; at most {most} are kept",
            entries=f"{entries:,}",
            most=f"{LARGEST:,}",
        )
        raise TooEntangled(message, variables)


def eliminate(tables: Iterable[Table], sizes: Mapping[int, int], keep: Collection[int] = ()) -> Table:
    """The product of the tables, summed over all variables but those kept.

    sizes: number of states per variable. Errors: TooEntangled.
    """
    _, rest = _collect(tables, sizes, keep)
    return _product(rest, tuple(sorted(keep)), sizes)


def marginals(tables: Iterable[Table], sizes: Mapping[int, int]) -> dict[int, Floats]:
    """Per variable, the chances of its states under the product of the tables: [states], sums to 1.

    The tables must leave something possible. Sums are collected once and distributed once, so all variables together
    cost about twice as much as one. Errors: TooEntangled.
    """
    buckets, _ = _collect(tables, sizes, ())
    from_above: dict[int, Table] = {}
    found: dict[int, Floats] = {}
    for number in reversed(range(len(buckets))):
        bucket = buckets[number]
        scope = bucket.gathered.scope
        whole = _product([bucket.gathered, *([from_above[number]] if number in from_above else [])], scope, sizes)
        for source in bucket.sources:
            summed = buckets[source].summed
            from_above[source] = Table(summed.scope, _quotient(_onto(whole, summed.scope).logs, summed.logs))
        logs = _onto(whole, (bucket.variable,)).logs
        chances = np.exp(logs - logs.max())
        found[bucket.variable] = chances / chances.sum()
    return found


def draws(
    tables: Iterable[Table], sizes: Mapping[int, int], runs: int, rng: np.random.Generator
) -> dict[int, NDArray[np.intp]]:
    """Per variable, states drawn together from the product of the tables: [runs].

    The tables must leave something possible. Variables are drawn in the reverse of the order in which they are summed
    out, each given those that its table names, so the draws are exact. Errors: TooEntangled.
    """
    buckets, _ = _collect(tables, sizes, ())
    drawn: dict[int, NDArray[np.intp]] = {}
    for bucket in reversed(buckets):
        scope, variable = bucket.gathered.scope, bucket.variable
        given = tuple(drawn[other] for other in scope if other != variable)
        logs = np.broadcast_to(
            np.moveaxis(bucket.gathered.logs, scope.index(variable), -1)[given], (runs, sizes[variable])
        )
        climb = np.exp(logs - logs.max(axis=1, keepdims=True)).cumsum(axis=1)
        drawn[variable] = (climb <= rng.random((runs, 1)) * climb[:, -1:]).sum(axis=1)
    return drawn


def _collect(
    tables: Iterable[Table], sizes: Mapping[int, int], keep: Collection[int]
) -> tuple[list[_Bucket], list[Table]]:
    """Sum out one variable after another; what is left covers only those kept."""
    waiting: list[tuple[Table, int | None]] = [(table, None) for table in tables]
    buckets: list[_Bucket] = []
    for variable in _order([table.scope for table, _ in waiting], sizes, keep):
        here = [entry for entry in waiting if variable in entry[0].scope]
        waiting = [entry for entry in waiting if variable not in entry[0].scope]
        scope = tuple(sorted({variable}.union(*(table.scope for table, _ in here))))
        gathered = _product([table for table, _ in here], scope, sizes)
        summed = _onto(gathered, tuple(other for other in scope if other != variable))
        waiting.append((summed, len(buckets)))
        sources = tuple(source for _, source in here if source is not None)
        buckets.append(_Bucket(variable, gathered, summed, sources))
    return buckets, [table for table, _ in waiting]


def _order(scopes: Sequence[Sequence[int]], sizes: Mapping[int, int], keep: Collection[int]) -> list[int]:
    """From the leaves of a tree of bags towards the bag of those kept, so that no table is larger than a bag.

    All bags are checked before anything is allocated. Errors: TooEntangled.
    """
    if not sizes:
        return []
    # Only plans with animals of mine need it; no start of the program should wait for it.
    import networkx as nx

    bags = _bags(scopes, sizes, keep)
    for bag in bags:
        check_size(prod(sizes[variable] for variable in bag), tuple(sorted(bag)))
    kept = frozenset(keep)
    root = next((bag for bag in bags if kept <= bag), next(iter(bags)))
    inwards = [root, *(bag for _, bag in nx.bfs_edges(bags, root))][::-1]
    last = {variable: at for at, bag in enumerate(inwards) for variable in bag if variable not in kept}
    return sorted(last, key=lambda variable: (last[variable], variable))


def _bags(scopes: Sequence[Sequence[int]], sizes: Mapping[int, int], keep: Collection[int]) -> Any:
    """A tree of sets of variables: each table's are together in one, and each variable's sets hang together."""
    import networkx as nx
    from networkx.algorithms.approximation import treewidth_min_degree

    together = nx.Graph()
    together.add_nodes_from(sizes)
    for scope in (*scopes, tuple(keep)):
        together.add_edges_from(combinations(scope, 2))
    _, tree = treewidth_min_degree(together)
    return tree


def _product(tables: Iterable[Table], scope: tuple[int, ...], sizes: Mapping[int, int]) -> Table:
    check_size(prod(sizes[variable] for variable in scope), scope)
    logs = np.zeros(tuple(sizes[variable] for variable in scope))
    for table in tables:
        logs += table.logs.reshape([sizes[v] if v in table.scope else 1 for v in scope])
    return Table(scope, logs)


def _onto(table: Table, scope: tuple[int, ...]) -> Table:
    """Sum a table over all its variables but those of `scope`."""
    axes = tuple(k for k, variable in enumerate(table.scope) if variable not in scope)
    top = table.logs.max(axis=axes, keepdims=True)
    top[np.isneginf(top)] = 0.0
    with np.errstate(divide="ignore"):
        return Table(scope, np.log(np.exp(table.logs - top).sum(axis=axes)) + top.squeeze(axes))


def _quotient(whole: Floats, part: Floats) -> Floats:
    """whole - part, and still impossible where the part already was."""
    return np.where(np.isneginf(part), -np.inf, whole - np.where(np.isneginf(part), 0.0, part))
