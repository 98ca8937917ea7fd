"""What the keys do, part by part."""

from __future__ import annotations

from core.text import tr

TITLE = tr("Keyboard")
PARTS: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = (
    (
        tr("Everywhere"),
        (
            (tr("Tab, Shift+Tab"), tr("on to the next part, and back")),
            (tr("Escape"), tr("back to the page before; takes back what is being typed")),
            (tr("Ctrl+Z, Ctrl+Y"), tr("undo and redo the last change")),
        ),
    ),
    (
        tr("In the list of routes"),
        (
            (tr("Up, Down"), tr("choose a route")),
            (tr("Enter, Ctrl+E"), tr("edit it")),
            (tr("F2"), tr("rename it")),
            (tr("Alt+Up, Alt+Down"), tr("move it")),
            (tr("Ctrl+D, Ctrl+H, Delete"), tr("duplicate, hide or delete it")),
            (tr("Left, Right, Space"), tr("in the heads: go from one to the next, and sort by it")),
        ),
    ),
    (
        tr("In a chart"),
        (
            (tr("Left, Right"), tr("read out values; Escape ends it")),
            (tr("+, −, 0"), tr("a nearer look, a wider one, the whole")),
            (tr("Up, Down"), tr("on the goal’s mark: be more or less sure")),
        ),
    ),
    (
        tr("To another page"),
        (
            (tr("Ctrl+R"), tr("a new route")),
            (tr("Ctrl+F"), tr("find routes")),
            (tr("Ctrl+I"), tr("why this chance")),
            (tr("Ctrl+Shift+I"), tr("why this beats that")),
            (tr("Ctrl+M"), tr("what is worth paying")),
            (tr("Ctrl+Shift+M"), tr("what matters most")),
            (tr("Ctrl+T"), tr("this season")),
            (tr("Ctrl+,"), tr("plan assumptions")),
            (tr("F9"), tr("the counter view over the whole screen")),
        ),
    ),
    (
        tr("Plans and windows"),
        (
            (tr("Ctrl+N, Ctrl+O"), tr("a new plan; open one")),
            (tr("Ctrl+S, Ctrl+Shift+S"), tr("save it; under another name")),
            (tr("Ctrl+P"), tr("print the comparison")),
            (tr("Ctrl+Shift+N, Ctrl+W"), tr("another window; close this one")),
            (tr("Ctrl+Q"), tr("quit")),
        ),
    ),
)
