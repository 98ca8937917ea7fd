"""Routes worked out here and by a helper at once."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator, Sequence

from desktop.beside.helper import GivenBack, Helper, Job
from desktop.evaluation import Engine, Finished, Step, Wanted, slowness, tried

# So long the helper is waited for at a time; whoever asks can give up in between.
_WAIT_S = 0.02
# What takes longer is worth another process; it takes about as long until that is there.
_LONG_S = 0.5


def shared_steps(
    jobs: Sequence[Job],
    engine: Engine,
    helper: Helper,
    knows: Callable[[Job], bool],
    first: Wanted,
) -> Iterator[Step | None]:
    """Progress and an answer or a failure for every route, then `Finished`; None while only the helper is at work.

    knows: whether the engine can tell a route at other prices: the helper is not asked for it then, nor this one for
    what the helper knows. Quick routes go first here, slow ones there, and those that `first` names before the others.
    """
    shares = _Shares(jobs, helper, knows, first)
    try:
        while shares.left or helper.is_busy:
            yield from shares.look_beside()
            job = shares.take_here()
            if job is None:
                yield None
                yield from shares.look_beside(_WAIT_S)
                continue
            for step in tried(*job, engine):
                yield step
                yield from shares.look_beside()
    finally:
        helper.give_up()
    yield Finished()


class _Shares:
    """What is left to be worked out, and by whom it may be."""

    def __init__(
        self,
        jobs: Sequence[Job],
        helper: Helper,
        knows: Callable[[Job], bool],
        first: Wanted,
    ) -> None:
        self.left = sorted(jobs, key=lambda job: slowness(*job))
        self._helper, self._first = helper, first
        # Routes, by id, that only this process or only the helper works out.
        self._here = {job[1].id for job in jobs if knows(job)}
        self._there = {job[1].id for job in jobs if job[1].id not in self._here and helper.knows(job)}
        self._begun = time.monotonic()

    def take_here(self) -> Job | None:
        """The next one for this process, or None where the helper has the rest."""
        there = set() if self._helper.is_gone else self._there
        wanted = self._wanted([job for job in self.left if job[1].id not in there])
        return self._take(wanted[0]) if wanted else None

    def look_beside(self, wait_s: float = 0.0) -> Iterator[Step]:
        """What the helper has told; where it is done, it gets its next route."""
        for news in self._helper.news(wait_s):
            if isinstance(news, GivenBack):
                self._here.add(news.job[1].id)
                self._there.discard(news.job[1].id)
                self.left.insert(0, news.job)
            else:
                yield news
        if not self.left:
            return
        if self._helper.is_free:
            wanted = self._wanted([job for job in self.left if job[1].id not in self._here])
            if wanted:
                # Of equals the first, as it stands higher on the page.
                self._helper.ask(self._take(max(wanted, key=lambda job: slowness(*job))))
        elif not self._helper.is_started and time.monotonic() - self._begun > _LONG_S:
            self._helper.start()

    def _wanted(self, some: Sequence[Job]) -> Sequence[Job]:
        """Those that are waited for most, where any of them is."""
        first = self._first()
        return [job for job in some if job[1].id in first] or some

    def _take(self, job: Job) -> Job:
        self.left.remove(job)
        return job
