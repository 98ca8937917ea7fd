"""Words about plans in files: titles, questions, what is told."""

from __future__ import annotations

from core.plan.model import Plan
from core.text import tr
from desktop.words.labels import PROGRAM
from desktop.words.numbers import in_words

NEW, NEW_WINDOW, RECENT, CLOSE = tr("&New plan"), tr("New &window"), tr("Open &recent"), tr("&Close window")
NOTHING_RECENT = tr("No plan has been opened or saved yet")
FORGET_MISSING = tr("&Forget those that are no longer there")

NOT_SAVED_YET, SAMPLE = tr("not saved yet"), tr("sample")

UNSAVED_SAVE, UNSAVED_DROP, STAY = tr("&Save"), tr("&Throw the changes away"), tr("&Cancel")

READ_AGAIN, KEEP_MINE = tr("Read it again"), tr("Keep what I have here")
SAVE_OVER, SAVE_ELSEWHERE = tr("Save &over it"), tr("Save under &another name")
READ_AGAIN_STEP = tr("read the file again")

SAVE_NOW, ALL_RIGHT = tr("Save under another name"), tr("All right")


def title(plan: Plan, place: str) -> str:
    """The title bar; [*] is where Qt marks unsaved changes."""
    # Qt takes [*] for its mark wherever it stands, and two of them for the letters.
    named = plan.title.replace("[*]", "[*][*]")
    return " – ".join(part for part in (f"{named}[*]", place.replace("[*]", "[*][*]"), PROGRAM) if part)


def copy_of(name: str) -> str:
    """Where a plan stands that another window has open."""
    return tr("copy of {name}", name=name)


def unsaved(plan: Plan, changes: int) -> str:
    """What closing would lose."""
    named = f"“{plan.title}”" if plan.title else tr("This plan")
    if changes <= 1:
        return tr("{named} has one change that is not saved.", named=named)
    return tr("{named} has {changes} changes that are not saved.", named=named, changes=in_words(changes))


def ask_to_save(changes: int) -> str:
    """What is asked of them."""
    return tr("Save it first?") if changes <= 1 else tr("Save them first?")


def open_elsewhere(name: str) -> str:
    """Told in the second window on one file."""
    return tr(
        "{name} is open in another window too, so this is a copy: it changes nothing there, and "
        "saving asks for a name of its own.",
        name=name,
    )


def taken_elsewhere(name: str) -> str:
    """Why a plan is not saved to a file that another window has open."""
    return tr(
        "{name} is open in another window: nothing was saved. Save under another name, or close it there first.",
        name=name,
    )


def changed_outside(name: str, *, gone: bool, unsaved: bool) -> str:
    """Told when another program changed the file."""
    if gone:
        return tr(
            "{name} is no longer where it was: another program moved or deleted it. Save to write it again.", name=name
        )
    yours = tr("Your changes here are still here") if unsaved else tr("This window still shows it as it was")
    return tr("{name} was changed by another program. {yours}; reading it again can be undone.", name=name, yours=yours)


def save_over(name: str) -> str:
    """Asked before a file is replaced that another program changed."""
    return tr("{name} was changed by another program since it was opened here.", name=name)


SAVE_OVER_ASK = tr("Saving over it would lose what the other program wrote.")


def not_kept(reason: str) -> str:
    """Told where changes cannot be kept safe against a crash."""
    return tr(
        "Changes that are not saved cannot be kept safe against a crash: {sentence} Save often.",
        sentence=_sentence(reason),
    )


def not_saved(name: str, reason: str) -> str:
    """What a file that cannot be written is answered with."""
    return tr(
        "{name} was not saved: {sentence} Your plan is still here; save it under another name or in another folder.",
        name=name,
        sentence=_sentence(reason),
    )


NO_REASON = tr("something unexpected happened")
DO_NOT_WAIT = tr("&Do not wait")


def being_saved(name: str) -> str:
    """Told while a slow disk takes a plan."""
    return tr("{name} is still being written: the disk is slow.", name=name)


def being_read(name: str) -> str:
    """Told while a slow disk gives a plan."""
    return tr("{name} is still being read: the disk is slow.", name=name)


def not_there_yet(name: str) -> str:
    """Told where the person did not wait for a plan to be written."""
    return tr(
        "{name} is still being written. Until it is there, your changes are kept safe against a crash.", name=name
    )


def recent_item(name: str, folder: str, number: int, *, missing: bool) -> str:
    """An item of the list of recent plans; the first nine have a digit to press."""
    digit = f"&{number} " if number < 10 else ""
    gone = tr(", no longer there") if missing else ""
    shown = f"{name} – {folder}{gone}".replace("&", "&&")
    return f"{digit}{shown}"


def _sentence(reason: str) -> str:
    return f"{reason[:1].lower()}{reason[1:].rstrip('.')}."


LEFT_TITLE = tr("Changes that were not saved")
BRING_BACK, LOOK, THROW_AWAY, KEEP_AFTER_ALL = (
    tr("Bring it back"),
    tr("Look at the file as saved"),
    tr("Throw away"),
    tr("Keep it after all"),
)
BROUGHT_BACK, THROWN_AWAY = tr("Brought back."), tr("Will be thrown away when this is closed.")
LEFT_LATER = tr("What you do not decide now is kept, and offered again at the next start.")


def left_head(count: int) -> str:
    """Told at the start after windows ended without closing."""
    if count == 1:
        return tr("Pairwright ended without closing a plan. Its changes were kept.")
    return tr("Pairwright ended without closing {count} plans. Their changes were kept.", count=in_words(count))


def left_plan(plan: Plan, file: str | None) -> str:
    """Which plan it is about."""
    named = f"“{plan.title}”" if plan.title else tr("A plan without a title")
    return f"{named}, {file}" if file else tr("{named}, never saved to a file", named=named)


def left_changes(changes: int, when: str) -> str:
    """How many changes, and when the last of them was made."""
    if changes <= 1:
        return tr("One change, made {when}.", when=when)
    return tr("{changes} changes, the last one {when}.", changes=in_words(changes).capitalize(), when=when)


def moment(days_ago: int, date: str, time: str) -> str:
    """`today at 14:02`."""
    if days_ago == 0:
        return tr("today at {time}", time=time)
    return tr("yesterday at {time}", time=time) if days_ago == 1 else tr("on {date} at {time}", date=date, time=time)


LEFT_FILE_GONE = tr("The file itself is no longer there.")
LEFT_FILE_CHANGED = tr("The file itself was changed after that by another program.")


def left_unreadable(path: str) -> str:
    """A kept file that is no plan."""
    return tr("Something was kept in {path}, but it cannot be read as a plan.", path=path)


def as_saved(name: str) -> str:
    """Told over a plan that is only looked at."""
    return tr("This is {name} as it was saved, to look at: changes here go to a file of their own.", name=name)
