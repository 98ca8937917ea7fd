"""Offers back what windows left that ended without closing: one plan after the other, in words."""

from __future__ import annotations

from datetime import datetime
from pathlib import Path

import msgspec
from PySide6.QtCore import QDate, QLocale, Qt, QTime, Signal
from PySide6.QtWidgets import QDialog, QHBoxLayout, QPushButton, QScrollArea, QVBoxLayout, QWidget

from core.plan.model import Plan
from desktop import fonts
from desktop.files.recovery import RecoveryFile, Unsaved, left_behind
from desktop.files.stamp import NOTHING, stamp_of
from desktop.locale_numbers import reader_locale
from desktop.plan_files import Faults, open_plan
from desktop.theme import NOTES, SECOND
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel
from desktop.words import files as words
from desktop.words import labels

_WIDE = 720


class Left(msgspec.Struct, frozen=True, eq=False):
    """What one window left; without `kept` it cannot be read."""

    file: RecoveryFile
    kept: Unsaved | None = None
    plan: Plan | None = None


def all_left(folder: Path) -> list[Left]:
    """Everything that would be lost; what stands in the plan's own file already is let go."""
    found = []
    for file in left_behind(folder):
        content = file.read()
        if content is None:
            found.append(Left(file))
        elif _is_saved(*content):
            file.remove()
            file.release()
        else:
            found.append(Left(file, *content))
    return found


def _is_saved(kept: Unsaved, plan: Plan) -> bool:
    if kept.path is None:
        return False
    saved = open_plan(kept.path)
    return not isinstance(saved, Faults) and saved == plan


class LeftBehind(QDialog):
    """Nothing is thrown away before it is closed, and nothing that was not asked to be."""

    wanted = Signal(object)
    looked_at = Signal(Path)

    def __init__(self, left: list[Left], parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(words.LEFT_TITLE)
        head = PlainLabel(words.left_head(len(left)), font=fonts.serif(fonts.SENTENCE))
        head.setWordWrap(True)
        page = Inked(self)
        self.offers = [Offer(one, page, main=place == 0) for place, one in enumerate(left)]
        area = _scrolled(self.offers, page)
        note = PlainLabel(words.LEFT_LATER, font=fonts.sans(fonts.HEAD), ink=NOTES)
        note.setWordWrap(True)
        self.close_button = button(labels.CLOSE, "plain", page)
        self.close_button.clicked.connect(self.reject)
        foot = QHBoxLayout()
        foot.addWidget(note, 1)
        foot.addWidget(self.close_button)
        column = QVBoxLayout(page)
        column.setContentsMargins(24, 24, 24, 16)
        column.setSpacing(16)
        column.addWidget(head)
        column.addWidget(area, 1)
        column.addLayout(foot)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(page)
        for offer in self.offers:
            offer.wanted.connect(self.wanted)
            offer.looked_at.connect(self.looked_at)
            offer.decided.connect(self._close_when_done)
        page.dress()
        self.finished.connect(self._end)
        self.resize(_WIDE, max(min(140 + 110 * len(left), 600), layout.heightForWidth(_WIDE)))
        self.offers[0].bring_back.setFocus()

    def _close_when_done(self) -> None:
        if all(offer.is_back for offer in self.offers):
            self.accept()

    def _end(self) -> None:
        for offer in self.offers:
            offer.end()


class Offer(QWidget):
    """One plan, and what can be done with it."""

    wanted = Signal(object)
    looked_at = Signal(Path)
    decided = Signal()

    def __init__(self, left: Left, parent: QWidget, *, main: bool) -> None:
        super().__init__(parent)
        self._left = left
        self.is_back = self._thrown = False
        name, story = _told(left)
        self.name = PlainLabel(name, font=fonts.sans(fonts.LEAD, bold=True))
        self.story = PlainLabel(story, font=fonts.sans(fonts.FORM), ink=SECOND)
        for label in (self.name, self.story):
            label.setWordWrap(True)
        self.bring_back = self._word(words.BRING_BACK, "main" if main else "plain", self._bring_back)
        self.look = self._word(words.LOOK, "link", self._look)
        self.throw_away = self._word(words.THROW_AWAY, "link", self._turn)
        self._show_actions()
        actions = QHBoxLayout()
        actions.setSpacing(16)
        for word in (self.bring_back, self.look, self.throw_away):
            actions.addWidget(word)
        actions.addStretch(1)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 8)
        column.setSpacing(6)
        column.addWidget(self.name)
        column.addWidget(self.story)
        column.addLayout(actions)

    def end(self) -> None:
        """Does what was decided; what was not waits for the next start."""
        if self.is_back:
            return
        if self._thrown:
            self._left.file.remove()
        self._left.file.release()

    def _word(self, text: str, look: str, act: object) -> QPushButton:
        made = button(text, look, self)  # type: ignore[arg-type]
        made.setAccessibleName(f"{text}: {self.name.text()}")
        made.clicked.connect(act)
        return made

    def _show_actions(self) -> None:
        kept = self._left.kept
        readable = kept is not None and not self.is_back and not self._thrown
        self.bring_back.setVisible(readable)
        self.look.setVisible(readable and kept is not None and kept.path is not None and kept.path.is_file())
        self.throw_away.setVisible(not self.is_back)
        self.throw_away.setText(words.KEEP_AFTER_ALL if self._thrown else words.THROW_AWAY)

    def _bring_back(self) -> None:
        self.is_back = True
        self.story.setText(words.BROUGHT_BACK)
        self._show_actions()
        self.wanted.emit(self._left)
        self.decided.emit()

    def _look(self) -> None:
        if self._left.kept is not None and self._left.kept.path is not None:
            self.looked_at.emit(self._left.kept.path)

    def _turn(self) -> None:
        self._thrown = not self._thrown
        self.story.setText(words.THROWN_AWAY if self._thrown else _told(self._left)[1])
        self._show_actions()


def _told(left: Left) -> tuple[str, str]:
    """What it is, and how it came about."""
    kept, plan = left.kept, left.plan
    if kept is None or plan is None:
        return words.LEFT_TITLE, words.left_unreadable(str(left.file.path))
    said = [words.left_changes(kept.changes, _moment(kept.when))]
    if kept.path is not None:
        now = stamp_of(kept.path)
        if now == NOTHING:
            said.append(words.LEFT_FILE_GONE)
        elif kept.stamp and now != kept.stamp:
            said.append(words.LEFT_FILE_CHANGED)
    return words.left_plan(plan, kept.file), " ".join(said)


def _moment(when: datetime) -> str:
    here = when.astimezone()
    locale = reader_locale()
    days = (datetime.now(here.tzinfo).date() - here.date()).days
    date = locale.toString(QDate(here.year, here.month, here.day), QLocale.FormatType.LongFormat)
    time = locale.toString(QTime(here.hour, here.minute), QLocale.FormatType.ShortFormat)
    return words.moment(days, date, time)


def _scrolled(offers: list[Offer], parent: QWidget) -> QScrollArea:
    inside = QWidget()
    column = QVBoxLayout(inside)
    column.setContentsMargins(0, 0, 0, 0)
    for offer in offers:
        column.addWidget(offer)
    column.addStretch(1)
    area = QScrollArea(parent)
    area.setFrameShape(QScrollArea.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    area.setWidgetResizable(True)
    area.setWidget(inside)
    return area
