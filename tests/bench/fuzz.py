"""Harms plan files at random and reads them: `python -m tests.bench.fuzz [INPUTS] [SEED]`, a million by default.

Bytes are flipped, cut, doubled and spliced, and values of the parsed plan replaced by others that mean harm. Whatever
comes back must be a plan or a list of faults, within two seconds of work; the peak of memory is told (aim: 500 MiB).
One in so many plans that are still valid is evaluated, step by step, with few runs. A find is written where the
command runs.
"""

from __future__ import annotations

import json
import random
import resource
import sys
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import msgspec

from core.plan.faults import PlanError
from core.plan.model import Plan
from core.plan.read import read_plan
from core.routes.evaluate import evaluate_steps
from core.routes.prepare import TooManyGenotypes

SAMPLES = Path(__file__).resolve().parents[2] / "assets" / "samples"
SLOWEST = 2.0
# Steps of an evaluation looked at, and seconds one may take between two of them.
_STEPS = 40
_EVALUATED = 20
_BAD = (
    None, True, False, -1, 0, 1, 2, 1e308, -1e308, 1e-320, 0.5, 10**30, -(10**30), "", " ", "+", "/", "a/a", "+/+",
    "1/2", "1/0", "0/1", "2/3/4", "\u0000", "\ud800", "<b>", "=1+1", "x" * 5000, "é" * 50, [], {}, [[]], {"": {}},
    [None] * 50, float("nan"), float("inf"), "any", "female", "buy", "hold", "own",
)  # fmt: skip

_SPLICED = (b"[" * 2000, b'{"a":' * 500, b"1e999", b"NaN", b"\xff\xfe", b"-0", b"\\ud800")


def main() -> None:
    """Print how many inputs were read, and what was found."""
    inputs = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    print(json.dumps(run(inputs, random.Random(seed))))


def run(inputs: int, rng: random.Random, found: Callable[[bytes, str], None] | None = None) -> dict[str, float]:
    """Read so many harmed plans; tells counts, the slowest of them, and the peak of memory in MiB."""
    seeds = [path.read_bytes() for path in sorted(SAMPLES.glob("*.plan.json"))]
    trees = [json.loads(data) for data in seeds]
    valid = evaluated = 0
    slowest = slowest_step = 0.0
    for _ in range(inputs):
        way = rng.random()
        data = _harmed_bytes(rng, seeds) if way < 0.3 else _harmed_tree(rng, trees) if way < 0.96 else _odd(rng, trees)
        begun = time.process_time()
        plan = _read(data, found)
        took = time.process_time() - begun
        slowest = max(slowest, took)
        if took > SLOWEST:
            _tell(data, f"reading took {took:.1f} s", found)
        if plan is None:
            continue
        valid += 1
        if valid % _EVALUATED == 0:
            evaluated += 1
            slowest_step = max(slowest_step, _evaluate(data, plan, rng, found))
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return {
        "inputs": inputs, "valid": valid, "evaluated": evaluated, "slowest_read_s": round(slowest, 3),
        "slowest_step_s": round(slowest_step, 3), "peak_mib": memory // 1024,
    }  # fmt: skip


def _read(data: bytes, found: Callable[[bytes, str], None] | None) -> Plan | None:
    try:
        return read_plan(data)
    except PlanError as error:
        if not error.faults or "\n" in str(error.faults[0]):
            _tell(data, "faults that are no lines", found)
        return None
    except Exception as error:  # noqa: BLE001 - whatever else comes is what is looked for
        _tell(data, repr(error), found)
        return None


def _evaluate(data: bytes, plan: Plan, rng: random.Random, found: Callable[[bytes, str], None] | None) -> float:
    """Evaluates one route for some steps; gives the longest of them."""
    if not plan.routes:
        return 0.0
    plan = msgspec.structs.replace(plan, simulation=msgspec.structs.replace(plan.simulation, runs=100))
    slowest = 0.0
    try:
        steps = evaluate_steps(plan, rng.choice(plan.routes))
        for _ in range(_STEPS):
            begun = time.process_time()
            try:
                next(steps)
            finally:
                slowest = max(slowest, time.process_time() - begun)
    except StopIteration:
        pass
    except (ValueError, TooManyGenotypes):
        # A sentence for the person: records that cannot be, animals too many to tell apart.
        pass
    except Exception as error:  # noqa: BLE001 - whatever else comes is what is looked for
        _tell(data, f"evaluating: {error!r}", found)
    if slowest > SLOWEST:
        _tell(data, f"a step of an evaluation took {slowest:.1f} s", found)
    return slowest


def _tell(data: bytes, what: str, found: Callable[[bytes, str], None] | None) -> None:
    if found is not None:
        found(data, what)
        return
    path = Path(f"found-{abs(hash(data)) % 10**8}.plan.json")
    path.write_bytes(data)
    print(f"{path}: {what}", file=sys.stderr, flush=True)


def _harmed_bytes(rng: random.Random, seeds: list[bytes]) -> bytes:
    data = bytearray(rng.choice(seeds))
    for _ in range(rng.randint(1, 4)):
        at = rng.randrange(len(data) or 1)
        match rng.randrange(6):
            case 0:
                del data[at:]
            case 1:
                data[at : at + 1] = bytes([rng.randrange(256)])
            case 2:
                data[at:at] = data[at : at + rng.randint(1, 200)]
            case 3:
                del data[at : at + rng.randint(1, 60)]
            case 4:
                data[at:at] = rng.choice(_SPLICED)
            case _:
                other = rng.choice(seeds)
                start = rng.randrange(len(other))
                data[at:] = other[start:]
    return bytes(data)


def _harmed_tree(rng: random.Random, trees: list[Any]) -> bytes:
    tree = json.loads(json.dumps(rng.choice(trees)))
    for _ in range(rng.randint(1, 3)):
        _harm(rng, tree, rng.choice(trees))
    return json.dumps(tree).encode("utf-8", "surrogatepass")


def _odd(rng: random.Random, trees: list[Any]) -> bytes:
    """A plan that is likely to be valid still, with numbers at the ends of what they may be."""
    tree = json.loads(json.dumps(rng.choice(trees)))
    tree["goal"]["seasons"] = rng.choice((1, 2, 5, 12, 20))
    tree["goal"]["chance"] = rng.choice((0.01, 0.5, 0.999, "1/3"))
    species = tree["species"]
    for key in ("lays", "clutch_lost", "fertile", "hatches", "reaches_breeding"):
        if rng.random() < 0.4:
            species[key] = rng.choice((0, 0.001, 0.5, 0.999, 1, "2/3"))
    if rng.random() < 0.4:
        species["clutch"] = rng.choice(({"fixed": 1}, {"mean": 60, "sd": 20, "min": 1, "max": 120}, {"fixed": 0}))
    routes = tree.get("routes", [])
    for route in routes if isinstance(routes, list) else ():
        if not isinstance(route, dict):
            continue
        for group in route.get("groups", []):
            if isinstance(group, dict) and "count" in group and rng.random() < 0.5:
                group["count"] = rng.choice((1, 3, 8, 40, 300))
        if rng.random() < 0.3:
            route.pop("scale", None)
    return json.dumps(tree).encode()


def _harm(rng: random.Random, tree: Any, other: Any) -> None:
    """Walks to a random place and changes what stands there."""
    here = tree
    while isinstance(here, (dict, list)) and here:
        keys = list(here) if isinstance(here, dict) else list(range(len(here)))
        key = rng.choice(keys)
        inside = here[key]
        if not isinstance(inside, (dict, list)) or not inside or rng.random() < 0.2:
            _change(rng, here, key, other)
            return
        here = inside


def _change(rng: random.Random, here: Any, key: Any, other: Any) -> None:
    match rng.randrange(7):
        case 0:
            del here[key]
        case 1 if isinstance(here, dict):
            here[rng.choice(("x", "", "id", "forms", "__class__", "a b"))] = _copied(here[key])
        case 2 if isinstance(here, list):
            here.append(_copied(here[key]))
        case 3:
            value = here[key]
            if isinstance(value, (int, float)) and not isinstance(value, bool):
                here[key] = rng.choice((value + 1, value - 1, -value, value * 10, value / 3, value * 1e6))
            else:
                here[key] = _copied(rng.choice(_BAD))
        case 4:
            here[key] = _some(rng, other)
        case _:
            here[key] = _copied(rng.choice(_BAD))


def _some(rng: random.Random, tree: Any) -> Any:
    here = tree
    for _ in range(rng.randint(1, 5)):
        if isinstance(here, dict) and here:
            here = here[rng.choice(list(here))]
        elif isinstance(here, list) and here:
            here = rng.choice(here)
    return _copied(here)


def _copied(value: Any) -> Any:
    """What is harmed later must be neither a seed nor a part of itself."""
    return json.loads(json.dumps(value))


if __name__ == "__main__":
    main()
