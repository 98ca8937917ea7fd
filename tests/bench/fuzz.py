"""Harms plan files at random and reads them: `python -m tests.bench.fuzz [INPUTS] [SEED]`, a million by default.

Bytes are flipped, cut, doubled and spliced, and values of the parsed plan replaced by others that mean harm. Whatever
comes back must be a plan or a list of faults, within two seconds of work. One in so many plans that are still valid is
evaluated, step by step, with few runs: no step may take more than two seconds of work, nor the whole program more than
500 MiB. A find is written where the command runs, as is the plan with the longest step, and that with the highest peak.
"""

from __future__ import annotations

import gc
import json
import random
import sys
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import msgspec

from core.plan.faults import PlanError
from core.plan.model import Plan
from core.plan.read import read_plan
from core.routes.evaluate import evaluate_steps
from core.routes.exact.limits import OutOfReach
from core.routes.prepare import TooManyGenotypes

SAMPLES = Path(__file__).resolve().parents[2] / "assets" / "samples"
SLOWEST = 2.0
# What one evaluation may add to some 100 MiB, so that all stays below 500.
MOST_ADDED_MIB = 400
# Steps of an evaluation looked at, and seconds one may take between two of them.
_STEPS = 400
_EVALUATED = 20
# Inputs after which the figures so far are told.
_TOLD = 10_000
_BAD = (
    None, True, False, -1, 0, 1, 2, 1e308, -1e308, 1e-320, 0.5, 10**30, -(10**30), "", " ", "+", "/", "a/a", "+/+",
    "1/2", "1/0", "0/1", "2/3/4", "\u0000", "\ud800", "<b>", "=1+1", "x" * 5000, "é" * 50, [], {}, [[]], {"": {}},
    [None] * 50, float("nan"), float("inf"), "any", "female", "buy", "hold", "own",
)  # fmt: skip

_SPLICED = (b"[" * 2000, b'{"a":' * 500, b"1e999", b"NaN", b"\xff\xfe", b"-0", b"\\ud800")


_PROC = Path("/proc/self")

Tell = Callable[[bytes, str], None]


@dataclass
class Figures:
    """What a run came to; times are seconds of work, memory MiB of the whole program.

    plans: the inputs with the longest step and the highest peak.
    """

    inputs: int = 0
    valid: int = 0
    evaluated: int = 0
    slowest_read: float = 0.0
    longest_step: float = 0.0
    peak: int = 0
    plans: dict[str, bytes] = field(default_factory=dict)

    def see(self, data: bytes, step: float, peak: int) -> None:
        """Takes in one evaluation."""
        self.evaluated += 1
        if step > self.longest_step:
            self.longest_step, self.plans["longest-step"] = step, data
        if peak > self.peak:
            self.peak, self.plans["highest-peak"] = peak, data

    def __str__(self) -> str:
        """As one line of JSON."""
        told = {key: value for key, value in vars(self).items() if key != "plans"}
        return json.dumps({key: round(value, 3) for key, value in told.items()})


def main() -> None:
    """Print how many inputs were read, and what was found; now and then what it is so far."""
    inputs = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000_000
    seed = int(sys.argv[2]) if len(sys.argv) > 2 else 1
    rng, figures = random.Random(seed), Figures()
    while figures.inputs < inputs:
        run(min(_TOLD, inputs - figures.inputs), rng, figures=figures)
        print(figures, flush=True)
        for name, data in figures.plans.items():
            Path(f"{name}-{seed}.plan.json").write_bytes(data)


def run(inputs: int, rng: random.Random, found: Tell | None = None, figures: Figures | None = None) -> Figures:
    """Read so many harmed plans, and add up what is seen."""
    seeds = [path.read_bytes() for path in sorted(SAMPLES.glob("*.plan.json"))]
    trees = [json.loads(data) for data in seeds]
    figures = figures or Figures()
    for _ in range(inputs):
        way = rng.random()
        data = _harmed_bytes(rng, seeds) if way < 0.3 else _harmed_tree(rng, trees) if way < 0.96 else _odd(rng, trees)
        begun = time.perf_counter()
        plan = _read(data, found)
        figures.inputs += 1
        if time.perf_counter() - begun > figures.slowest_read:
            _time_read(data, found, figures)
        if plan is None:
            continue
        figures.valid += 1
        if figures.valid % _EVALUATED == 0:
            _evaluate(data, plan, rng, found, figures)
    figures.peak = max(figures.peak, peak_mib())
    return figures


def forget_peak() -> int:
    """From here on the peak is that of what comes; what it is now."""
    if _PROC.exists():
        (_PROC / "clear_refs").write_text("5")
    return peak_mib()


def peak_mib() -> int:
    """The most memory since then, of the whole program; 0 where no Linux tells."""
    status = (_PROC / "status").read_text().splitlines() if _PROC.exists() else []
    return next((int(line.split()[1]) for line in status if line.startswith("VmHWM")), 0) // 1024


def _time_read(data: bytes, found: Tell | None, figures: Figures) -> None:
    """Reads an input once more, by its own work: others may have had the machine, and asking each time takes long."""
    begun = time.process_time()
    _read(data, found)
    took = time.process_time() - begun
    figures.slowest_read = max(figures.slowest_read, took)
    if took > SLOWEST:
        _tell(data, f"reading took {took:.1f} s", found)


def _read(data: bytes, found: Tell | None) -> Plan | None:
    try:
        return read_plan(data)
    except PlanError as error:
        if not error.faults or "\n" in str(error.faults[0]):
            _tell(data, "faults that are no lines", found)
        return None
    except Exception as error:  # noqa: BLE001 - whatever else comes is what is looked for
        _tell(data, repr(error), found)
        return None


def _evaluate(data: bytes, plan: Plan, rng: random.Random, found: Tell | None, figures: Figures) -> None:
    """Evaluates one route for some steps."""
    if not plan.routes:
        return
    plan = msgspec.structs.replace(plan, simulation=msgspec.structs.replace(plan.simulation, runs=100))
    slowest = 0.0
    # The window sweeps up between evaluations, too.
    gc.collect()
    before = forget_peak()
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
    except OutOfReach as error:
        # What is out of reach for an exact answer is to be played.
        _tell(data, f"evaluating: {error!r}", found)
    except (ValueError, TooManyGenotypes):
        # A sentence for the person: records that cannot be, animals too many to tell apart.
        pass
    except Exception as error:  # noqa: BLE001 - whatever else comes is what is looked for
        _tell(data, f"evaluating: {error!r}", found)
    peak = peak_mib()
    figures.see(data, slowest, peak)
    if slowest > SLOWEST:
        _tell(data, f"a step of an evaluation took {slowest:.1f} s", found)
    if peak - before > MOST_ADDED_MIB:
        _tell(data, f"an evaluation took {peak - before} MiB", found)


def _tell(data: bytes, what: str, found: Tell | None) -> None:
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
