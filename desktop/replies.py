"""The answers of a plan's routes as they come and go: known, outdated, on their way, stopped; no Qt."""

from __future__ import annotations

from core.plan.model import Plan
from desktop.evaluation import RouteAnswer, RouteFailure, Underway
from desktop.questions import Known, Question, questions


class Replies:
    """Old answers stay in sight, marked stale, until the new ones are there, unless they would not fit the page."""

    def __init__(self, plan: Plan) -> None:
        self.answers: dict[str, RouteAnswer | RouteFailure] = {}
        self.shares: dict[str, float] = {}
        self.stopped = False
        self._known = Known()
        self._plan = plan
        self._asked = questions(plan)
        self._open = set(self._asked)
        # Of those, the ones that have been simulated meanwhile.
        self._told_early = set[str]()
        self._finished = not self._open

    @property
    def pending(self) -> frozenset[str]:
        """The routes that wait for an answer."""
        return frozenset() if self.stopped else frozenset(self._open)

    @property
    def stale(self) -> frozenset[str]:
        """The routes whose answer is one to an earlier question."""
        return frozenset((self.answers.keys() & self._open) - self._told_early)

    @property
    def complete(self) -> bool:
        """Whether no answer is to be waited for."""
        return self._finished or self.stopped

    def ask(self, plan: Plan) -> bool:
        """Takes over an edited plan; whether that asks for work nobody does yet, or ends all that was to do."""
        before, self._asked = self._asked, questions(plan)
        was_open, was_done = self._open, self.complete
        if plan.goal.seasons != self._plan.goal.seasons:
            self.answers = {}
        self._plan = plan
        self.answers = {id_: answer for id_, answer in self.answers.items() if id_ in self._asked}
        self._told_early = {id_ for id_ in self._told_early if self._asked.get(id_) == before[id_]}
        self._open = {id_ for id_, question in self._asked.items() if not self._recall(id_, question)}
        self._finished = not self._open
        # A route may be gone from those that are worked on, but none of them may ask for something else now.
        news = any(self._asked.get(id_, before[id_]) != before[id_] for id_ in was_open) or bool(self._open - was_open)
        if news:
            self.shares = {}
        if news or self._finished:
            self.stopped = False
        return news or (self._finished and not was_done)

    def take(self, answer: RouteAnswer | RouteFailure) -> None:
        """One answer of the newest run."""
        question = self._asked.get(answer.id)
        if question is None:
            return
        self.answers[answer.id] = answer
        if _is_early(answer):
            self._told_early.add(answer.id)
            return
        self._known.keep(question, answer)
        self._open.discard(answer.id)
        self._told_early.discard(answer.id)

    def underway(self, step: Underway) -> None:
        """How far a route is."""
        self.shares[step.id] = step.share

    def finish(self) -> None:
        """The newest run is at its end."""
        self._finished = True

    def stop(self) -> None:
        """The person does not want to wait; routes without any answer say so."""
        self.stopped, self.shares = True, {}

    def go_on(self) -> None:
        """The person wants the rest after all."""
        self.stopped, self._finished = False, not self._open

    def _recall(self, id_: str, question: Question) -> bool:
        known = self._known.find(question, id_)
        if known is not None:
            self.answers[id_] = known
        return known is not None


def _is_early(answer: RouteAnswer | RouteFailure) -> bool:
    return isinstance(answer, RouteAnswer) and answer.early
