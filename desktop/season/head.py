"""What stands above the sheets of this season, and in their place before there is anything to show."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from desktop import fonts
from desktop.season import asking
from desktop.sheets import SheetsHead
from desktop.widgets.inked import Inked, button
from desktop.widgets.labels import PlainLabel, wrapped
from desktop.widgets.text_tabs import TextTabs
from desktop.words import season as words
from desktop.words.births import Births


class SeasonHead(SheetsHead):
    """The way back, the sheets, and what is wrong with the records."""

    def __init__(self, said: Births) -> None:
        self.trouble = wrapped("", fonts.sans(fonts.FORM))
        self.trouble.setProperty("look", "caution")
        self.trouble.hide()
        tabs = TextTabs((words.MY_ANIMALS, said.tab, words.NEXT, words.CARRY_ON))
        tabs.setAccessibleName(words.TABS_NAME)
        title = PlainLabel(words.TITLE, font=fonts.serif(fonts.SENTENCE, bold=True))
        super().__init__(button(words.BACK, "link"), tabs, (title,), (self.trouble,))

    def say(self, trouble: asking.Trouble | None) -> None:
        """Why nothing can be told of the animals, or that all is well."""
        self.trouble.setText("\n".join([trouble.sentence, *trouble.slips]) if trouble else "")
        self.trouble.setVisible(trouble is not None)


class NothingYet(Inked):
    """What there is to do before there is anything to show."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.text = wrapped("", fonts.serif(fonts.SENTENCE))
        self.add = button(words.ADD_ANIMALS, "main", self)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(24, 24, 24, 0)
        layout.setSpacing(16)
        layout.addWidget(self.text)
        layout.addWidget(self.add)
        layout.addStretch(1)
        self.dress()

    def say(self, text: str) -> None:
        """What is lacking."""
        self.text.setText(text)
