"""Words about plans in files: titles, questions, what is told."""

from __future__ import annotations

from core.plan.model import Plan
from desktop.words.labels import PROGRAM
from desktop.words.numbers import in_words

NEW, NEW_WINDOW, RECENT, CLOSE = "&New plan", "New &window", "Open &recent", "&Close window"
NOTHING_RECENT = "No plan has been opened or saved yet"
FORGET_MISSING = "&Forget those that are no longer there"

NOT_SAVED_YET, SAMPLE = "not saved yet", "sample"

UNSAVED_SAVE, UNSAVED_DROP, STAY = "&Save", "&Throw the changes away", "&Cancel"
UNSAVED_ASK = "Save them first?"

READ_AGAIN, KEEP_MINE = "Read it again", "Keep what I have here"
SAVE_OVER, SAVE_ELSEWHERE = "Save &over it", "Save under &another name"
READ_AGAIN_STEP = "read the file again"

SAVE_NOW, ALL_RIGHT = "Save under another name", "All right"


def title(plan: Plan, place: str) -> str:
    """The title bar; [*] is where Qt marks unsaved changes."""
    # Qt takes [*] for its mark wherever it stands, and two of them for the letters.
    named = plan.title.replace("[*]", "[*][*]")
    return " – ".join(part for part in (f"{named}[*]", place.replace("[*]", "[*][*]"), PROGRAM) if part)


def copy_of(name: str) -> str:
    """Where a plan stands that another window has open."""
    return f"copy of {name}"


def unsaved(plan: Plan, changes: int) -> str:
    """What closing would lose."""
    named = f"“{plan.title}”" if plan.title else "This plan"
    if changes <= 1:
        return f"{named} has one change that is not saved."
    return f"{named} has {in_words(changes)} changes that are not saved."


def open_elsewhere(name: str) -> str:
    """Told in the second window on one file."""
    return (
        f"{name} is open in another window too, so this is a copy: "
        "it changes nothing there, and saving asks for a name of its own."
    )


def taken_elsewhere(name: str) -> str:
    """Why a plan is not saved to a file that another window has open."""
    return f"{name} is open in another window: nothing was saved. Save under another name, or close it there first."


def changed_outside(name: str, *, gone: bool, unsaved: bool) -> str:
    """Told when another program changed the file."""
    if gone:
        return f"{name} is no longer where it was: another program moved or deleted it. Save to write it again."
    yours = "Your changes here are still here" if unsaved else "This window still shows it as it was"
    return f"{name} was changed by another program. {yours}; reading it again can be undone."


def save_over(name: str) -> str:
    """Asked before a file is replaced that another program changed."""
    return f"{name} was changed by another program since it was opened here."


SAVE_OVER_ASK = "Saving over it would lose what the other program wrote."


def not_kept(reason: str) -> str:
    """Told where changes cannot be kept safe against a crash."""
    return f"Changes that are not saved cannot be kept safe against a crash: {_sentence(reason)} Save often."


def not_saved(name: str, reason: str) -> str:
    """What a file that cannot be written is answered with."""
    return (
        f"{name} was not saved: {_sentence(reason)} "
        "Your plan is still here; save it under another name or in another folder."
    )


def recent_item(name: str, folder: str, number: int, *, missing: bool) -> str:
    """An item of the list of recent plans; the first nine have a digit to press."""
    digit = f"&{number} " if number < 10 else ""
    gone = ", no longer there" if missing else ""
    shown = f"{name} – {folder}{gone}".replace("&", "&&")
    return f"{digit}{shown}"


def _sentence(reason: str) -> str:
    return f"{reason[:1].lower()}{reason[1:].rstrip('.')}."


LEFT_TITLE = "Changes that were not saved"
BRING_BACK, LOOK, THROW_AWAY, KEEP_AFTER_ALL = (
    "Bring it back",
    "Look at the file as saved",
    "Throw away",
    "Keep it after all",
)
BROUGHT_BACK, THROWN_AWAY = "Brought back.", "Will be thrown away when this is closed."
LEFT_LATER = "What you do not decide now is kept, and offered again at the next start."


def left_head(count: int) -> str:
    """Told at the start after windows ended without closing."""
    if count == 1:
        return "Pairwright ended without closing a plan. Its changes were kept."
    return f"Pairwright ended without closing {in_words(count)} plans. Their changes were kept."


def left_plan(plan: Plan, file: str | None) -> str:
    """Which plan it is about."""
    named = f"“{plan.title}”" if plan.title else "A plan without a title"
    return f"{named}, {file}" if file else f"{named}, never saved to a file"


def left_changes(changes: int, when: str) -> str:
    """How many changes, and when the last of them was made."""
    if changes <= 1:
        return f"One change, made {when}."
    return f"{in_words(changes).capitalize()} changes, the last one {when}."


def moment(days_ago: int, date: str, time: str) -> str:
    """`today at 14:02`."""
    day = {0: "today", 1: "yesterday"}.get(days_ago, f"on {date}")
    return f"{day} at {time}"


LEFT_FILE_GONE = "The file itself is no longer there."
LEFT_FILE_CHANGED = "The file itself was changed after that by another program."
LEFT_ELSEWHERE = "The file itself is open in another window now."


def left_unreadable(path: str) -> str:
    """A kept file that is no plan."""
    return f"Something was kept in {path}, but it cannot be read as a plan."


def as_saved(name: str) -> str:
    """Told over a plan that is only looked at."""
    return f"This is {name} as it was saved, to look at: changes here go to a file of their own."
