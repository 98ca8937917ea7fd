"""What the route came to when the editor opened, to hold every change against."""

from __future__ import annotations

from desktop.document import Document
from desktop.findings import Finding, as_drawn


class Before:
    """Keeps the first answer there is; an answer that comes only after an edit is none from before it."""

    def __init__(self, document: Document, route_id: str) -> None:
        self._document, self._id = document, route_id
        self._plan = document.plan
        self._finding: Finding | None = None

    def finding(self) -> Finding | None:
        """The route as it was, with its counts as drawn; None where it was not worked out yet."""
        if self._finding is None and self._document.plan is self._plan:
            one = next((one for one in self._document.found if one.id == self._id), None)
            if one is not None and one.state == "answered" and not one.stale:
                self._finding = as_drawn(self._plan, one)
        return self._finding
