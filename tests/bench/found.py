"""Every route found on the samples, played egg by egg by the slow reference: `python -m tests.bench.found RUNS`.

Prints, for each sample, how many routes there were and the farthest that a chance, or the share of runs that the told
money is enough for, lies off what was told, in standard errors; beyond four there is a fault.
"""

from __future__ import annotations

import json
import math
import sys
from collections.abc import Iterator
from pathlib import Path

import msgspec

from core.plan.chances import chance
from core.plan.model import Plan
from core.plan.read import load_plan
from core.plan.write import write_plan
from core.progress import finished
from core.search.find import find
from core.search.found import Proposal
from tests.reference.player import play_many

SAMPLES = sorted((Path(__file__).parents[2] / "assets" / "samples").glob("*.plan.json"))


def main() -> None:
    """Print the farthest off for each sample."""
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 1_000
    for path in SAMPLES:
        plan = load_plan(path)
        found = finished(find(plan))
        off = [one for proposal in (*found.proposals, *found.others) for one in _off(plan, proposal, runs)]
        routes = len(found.proposals) + len(found.others)
        print(
            f"{path.name}: {routes} routes, {len(off)} figures, at most {max(off):.1f} standard errors off", flush=True
        )


def _off(plan: Plan, one: Proposal, runs: int) -> Iterator[float]:
    """How far off: the chance by each season; and that the money told is enough, to a step of its grid either way."""
    document = json.loads(write_plan(msgspec.structs.replace(plan, routes=(one.route,))))
    played = play_many(document, document["routes"][0], runs, 7)
    noise = one.result.chance_by_season_se
    for season, told in enumerate(one.result.chance_by_season):
        own = 0.0 if noise is None else float(noise[season])
        yield _errors(float(played.chance_by_season()[season]), float(told), runs, own)
    if math.isfinite(one.money):
        step = 0.001 * float(one.result.budget_curve.money[-1])
        enough, less = (
            sum(float(share) for money, share in played.money() if money <= one.money + side * step) for side in (1, -1)
        )
        goal = chance(plan.goal.chance)
        own = 0.0 if noise is None else float(max(noise))
        yield max(0.0, goal - enough) and _errors(enough, goal, runs, own)
        # What is less than that is not enough; where many runs cost the same, far from it.
        yield max(0.0, less - goal) and _errors(less, goal, runs, own)


def _errors(seen: float, told: float, runs: int, own: float) -> float:
    spread = math.hypot(math.sqrt(max(told * (1 - told), 1 / runs) / runs), own)
    return abs(seen - told) / spread


if __name__ == "__main__":
    main()
