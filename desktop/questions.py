"""What the answer of a route depends on: equal questions have equal answers, so only new ones are worked out; no Qt."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import replace as changed

import msgspec

from core.plan.model import Plan, Route
from desktop.evaluation import RouteAnswer, RouteFailure

Question = bytes
# Enough to go back and forth between a few versions of a plan with many routes.
_MOST_KNOWN = 64


def questions(plan: Plan) -> dict[str, Question]:
    """The question of each route, by the route's id. Names, notes and what is for sale change no answer."""
    replace = msgspec.structs.replace
    ground = msgspec.json.encode(
        (
            replace(plan.species, name=""),
            [replace(gene, name="", note="") for gene in plan.genes],
            plan.linkage,
            replace(plan.goal, housing=None),
            plan.costs,
            [replace(animal, name="") for animal in plan.my_animals],
            plan.clutch_records,
            plan.simulation,
        )
    )
    return {route.id: ground + _of_route(route) for route in plan.routes}


def _of_route(route: Route) -> Question:
    return msgspec.json.encode(msgspec.structs.replace(route, id="route", name=""))


class Known:
    """The answers worked out last, by question: undo finds them here, and so does a copy of a route."""

    def __init__(self) -> None:
        self._answers: OrderedDict[Question, RouteAnswer | RouteFailure] = OrderedDict()

    def keep(self, question: Question, answer: RouteAnswer | RouteFailure) -> None:
        """Remembers an answer; the oldest make room."""
        self._answers[question] = answer
        self._answers.move_to_end(question)
        if len(self._answers) > _MOST_KNOWN:
            self._answers.popitem(last=False)

    def find(self, question: Question, id_: str) -> RouteAnswer | RouteFailure | None:
        """The answer for the route of that id, if the question was answered before."""
        answer = self._answers.get(question)
        if answer is None or answer.id == id_:
            return answer
        if isinstance(answer, RouteFailure):
            return RouteFailure(id_, answer.reason)
        drawn = changed(answer.drawn, id=id_)
        cheapest = drawn if answer.cheapest is answer.drawn else changed(answer.cheapest, id=id_)
        return RouteAnswer(id_, drawn, cheapest)
