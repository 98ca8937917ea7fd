"""The plan of one window in its file: new, open, save, and what other windows and programs do to it."""

from __future__ import annotations

from functools import partial
from pathlib import Path

import msgspec
from PySide6.QtCore import QEvent, QObject, Signal, Slot
from PySide6.QtWidgets import QFileDialog, QWidget

from core.plan.model import Plan
from desktop.document import Document
from desktop.files import recent
from desktop.files.beside import Beside
from desktop.files.claim import Claim
from desktop.files.keeper import Keeper
from desktop.files.on_disk import OnDisk
from desktop.files.places import open_files_folder, recovery_folder
from desktop.files.recovery import RecoveryFile, Unsaved
from desktop.files.saving import save_and_stamp, with_suffix
from desktop.files.stamp import NOTHING, stamp_of
from desktop.history import Mark
from desktop.plan_files import SAMPLES, Faults, open_plan
from desktop.widgets.notices import Notices
from desktop.words import files as words
from desktop.words import labels

_COPY, _OUTSIDE, _TROUBLE, _SLOW = "copy", "outside", "trouble", "slow"


class _Read(msgspec.Struct, frozen=True):
    """What stood in a file."""

    plan: Plan
    stamp: str


class _Saving(msgspec.Struct):
    """A plan on its way to a file."""

    path: Path
    mark: Mark
    is_there: bool = False


class Filing(QObject):
    """Asks before anything is lost, and tells in the window's notices what happened outside it."""

    # The plan stands in another file, or in none.
    moved = Signal()

    def __init__(self, document: Document, notices: Notices, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._notices, self._window = document, notices, window
        self._claim = Claim(open_files_folder())
        self._disk = OnDisk(self)
        self._keeper = Keeper(document, RecoveryFile(recovery_folder()), self)
        self._original: Path | None = None
        self._saving: _Saving | None = None
        self._writing: Beside | None = None
        self._waits = False
        self._disk.changed.connect(self._changed_outside)
        self._keeper.trouble.connect(self._not_kept)
        window.installEventFilter(self)

    @property
    def place(self) -> str:
        """Where the plan stands, for the title."""
        path = self._document.path
        if self._original is not None:
            return words.copy_of(self._original.name)
        if path is None:
            return words.NOT_SAVED_YET
        return words.SAMPLE if is_sample(path) else path.name

    def begin(self) -> None:
        """Takes up the plan that the window was opened with."""
        path = self._document.path
        if path is not None and not is_sample(path):
            self._settle(path, stamp_of(path))
        self.moved.emit()

    def start_new(self, plan: Plan) -> None:
        """Another plan that stands in no file yet."""
        if self.may_go():
            self._document.replace(plan, None)
            self._settle(None, NOTHING)

    def ask_for_file(self) -> None:
        """Lets the person choose a file to open."""
        name, _ = QFileDialog.getOpenFileName(self._window, labels.OPEN_TITLE, str(self._folder()), labels.OPEN_FILTER)
        if name:
            self.open(Path(name))

    def open(self, path: Path) -> None:
        """Replaces the plan by that of a file, or tells what is wrong with it."""
        if not self.may_go():
            return
        read = self._read(path)
        if read is not None:
            self._document.replace(read.plan, path)
            self._settle(path, read.stamp)

    def look_at(self, path: Path) -> None:
        """Shows what stands in a file, as a copy that leaves the file alone."""
        read = self._read(path)
        if read is not None:
            self._document.replace(read.plan, None)
            self._settle(None, NOTHING)
            self._be_copy(path, words.as_saved(path.name))
            self.moved.emit()

    @property
    def is_untouched(self) -> bool:
        """Whether the window still shows the sample as it came, so that another plan may take its place."""
        path = self._document.path
        return path is not None and is_sample(path) and not self._document.has_unsaved_changes

    def bring_back(self, file: RecoveryFile, kept: Unsaved, plan: Plan) -> None:
        """Goes on with what an ended window left."""
        self._keeper.adopt(file)
        self._document.replace(plan, kept.path, saved=False, changes=kept.changes)
        self._settle(kept.path, kept.stamp)
        self._disk.look()

    def save(self) -> bool:
        """Saves to the plan's own file; asks for one where there is none, or where it is the program's own sample."""
        self._take_what_is_typed()
        path = self._document.path
        if path is None or is_sample(path):
            return self.save_as()
        looking = Beside(partial(stamp_of, path))
        if self._waits or not self._wait(looking, words.being_read(path.name)):
            return False
        self._disk.take(str(looking.result))
        if self._disk.is_changed and self._disk.now != NOTHING:
            from desktop.files.asking import Choice, about_saving_over

            said = about_saving_over(self._window, words.save_over(path.name))
            if said is not Choice.SAVE:
                return said is Choice.SAVE_ELSEWHERE and self.save_as()
        return self.save_to(path)

    def save_as(self) -> bool:
        """Asks where to, and saves; whether it was saved."""
        self._take_what_is_typed()
        path = self._document.path or self._original
        start = self._folder() if path is None or is_sample(path) else path
        name, _ = QFileDialog.getSaveFileName(self._window, labels.SAVE_TITLE, str(start), labels.OPEN_FILTER)
        return bool(name) and self.save_to(with_suffix(Path(name)))

    def save_to(self, path: Path) -> bool:
        """Writes the file; where that cannot be, says why and changes nothing.

        The plan can be edited on while it is written: what is saved is how it stood.
        """
        if self._waits or self._is_still_writing():
            return False
        if not self._claim.take(path):
            self._tell(words.taken_elsewhere(path.name))
            return False
        document = self._document
        self._saving = _Saving(path, document.history.mark())
        self._writing = Beside(partial(save_and_stamp, document.plan, path))
        self._writing.done.connect(self._written)
        return self._await_writing()

    def _is_still_writing(self) -> bool:
        """Whether the disk has not taken yet what it was given before."""
        return self._saving is not None and not self._await_writing() and self._saving is not None

    def _await_writing(self) -> bool:
        """Whether the plan is in the file, as far as the person waits for it."""
        saving, writing = self._saving, self._writing
        if saving is None or writing is None:
            return False
        if not self._wait(writing, words.being_saved(saving.path.name)):
            self._notices.tell(_SLOW, words.not_there_yet(saving.path.name))
        return saving.is_there

    @Slot(object)
    def _written(self, outcome: tuple[str | None, str] | None) -> None:
        saving, self._saving, self._writing = self._saving, None, None
        self._notices.hush(_SLOW)
        if saving is None:
            return
        reason, stamp = outcome or (words.NO_REASON, NOTHING)
        if reason is not None:
            self._tell(words.not_saved(saving.path.name, reason))
            if self._document.path is not None:
                self._claim.take(self._document.path)
            return
        saving.is_there = True
        self._document.saved(saving.path, saving.mark)
        self._settle(saving.path, stamp)

    def may_go(self) -> bool:
        """Asks about unsaved changes; False where the plan is to stay."""
        if self._waits:
            return False
        self._take_what_is_typed()
        document = self._document
        if not document.has_unsaved_changes:
            return True
        from desktop.files.asking import Choice, about_unsaved

        said = about_unsaved(
            self._window,
            words.unsaved(document.plan, document.history.changes),
            words.ask_to_save(document.history.changes),
        )
        return self.save() if said is Choice.SAVE else said is Choice.DROP

    def show_faults(self, faults: Faults) -> None:
        """Tells what is wrong with a file; the plan stays."""
        from desktop.faults_dialog import FaultsDialog

        FaultsDialog(faults, self._window).open()

    def stop(self) -> None:
        """The window closes."""
        self._window.removeEventFilter(self)
        self._disk.hold(None)
        self._claim.release()
        self._keeper.stop()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:  # noqa: D102
        # Not every disk tells of changes by itself.
        if event.type() == QEvent.Type.WindowActivate:
            self._disk.look()
        return super().eventFilter(watched, event)

    def _take_what_is_typed(self) -> None:
        """What stands in a field counts, too: a field takes it when it is left."""
        field = self._window.focusWidget()
        if field is not None and field.hasFocus():
            field.clearFocus()
            field.setFocus()

    def _settle(self, path: Path | None, stamp: str) -> None:
        """The plan stands in this file from now on, unless another window has it."""
        for matter in (_COPY, _OUTSIDE):
            self._notices.hush(matter)
        own = path if path is not None and not is_sample(path) else None
        self._original = None
        if own is None:
            self._claim.release()
        elif not self._claim.take(own):
            self._document.detach()
            self._be_copy(own, words.open_elsewhere(own.name))
            own = None
        else:
            recent.remember(own)
        self._disk.hold(own, stamp if own else NOTHING)
        self._keeper.stamp = self._disk.stamp
        self.moved.emit()

    def _changed_outside(self) -> None:
        if self._saving is not None:
            # It may well be what is being written here.
            return
        path = self._document.path
        if path is None or not self._disk.is_changed:
            self._notices.hush(_OUTSIDE)
            return
        gone = self._disk.now == NOTHING
        sentence = words.changed_outside(path.name, gone=gone, unsaved=self._document.has_unsaved_changes)
        again = [] if gone else [(words.READ_AGAIN, self._read_again)]
        self._notices.tell(_OUTSIDE, sentence, [*again, (words.KEEP_MINE, _nothing)])

    def _read_again(self) -> None:
        path = self._document.path
        if path is None:
            return
        read = self._read(path)
        if read is not None:
            self._document.edit(read.plan, words.READ_AGAIN_STEP)
            self._document.saved(path)
            self._settle(path, read.stamp)

    def _read(self, path: Path) -> _Read | None:
        """The plan in a file; what is wrong with it is told."""
        reading = Beside(partial(_read, path))
        if self._waits or not self._wait(reading, words.being_read(path.name)):
            return None
        if isinstance(reading.result, Faults):
            self.show_faults(reading.result)
        return reading.result if isinstance(reading.result, _Read) else None

    def _wait(self, work: Beside, told: str) -> bool:
        """Whether it was done before the person had enough of it; nothing else goes to a disk meanwhile."""
        self._waits = True
        try:
            return work.wait(self._window, told)
        finally:
            self._waits = False

    def _be_copy(self, original: Path, sentence: str) -> None:
        self._original = original
        self._notices.tell(_COPY, sentence, [(words.ALL_RIGHT, _nothing)])

    def _not_kept(self, reason: str) -> None:
        self._notices.hush(_TROUBLE)
        if reason:
            self._notices.tell(_TROUBLE, words.not_kept(reason), [(words.SAVE_NOW, self.save_as)])

    def _tell(self, text: str) -> None:
        from desktop.files.asking import tell

        tell(self._window, text)

    def _folder(self) -> Path:
        """Where the person looks for plans: beside this one, else where the last one was."""
        known = [self._document.path, self._original, *recent.recent()]
        own = (path.parent for path in known if path is not None and not is_sample(path))
        return next(own, Path())


def is_sample(path: Path) -> bool:
    """Whether a file came with the program: it is never saved over."""
    return path.is_relative_to(SAMPLES)


def _read(path: Path) -> _Read | Faults:
    # Before it is read: what is written meanwhile then counts as changed, not as known.
    stamp = stamp_of(path)
    opened = open_plan(path)
    return opened if isinstance(opened, Faults) else _Read(opened, stamp)


def _nothing() -> None:
    """The notice has been read; that is all."""
