"""Widgets dressed in the page's colours: buttons that are words, choices that fill when picked."""

from __future__ import annotations

from typing import Literal

from PySide6.QtCore import QEvent
from PySide6.QtGui import QFont
from PySide6.QtWidgets import QPushButton, QSizePolicy, QWidget

from desktop import fonts
from desktop.forms.fields import SentenceChoice, field_sheet
from desktop.theme import Colours, colours_of

Look = Literal["link", "plain", "main"]
# At text of 100 %.
_CHECK_BOX = 13


class Inked(QWidget):
    """Dresses everything inside it, and again when light turns dark; what is made later asks for it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._colours: Colours | None = None

    def changeEvent(self, event: QEvent) -> None:  # noqa: D102
        super().changeEvent(event)
        # A sheet changes the widget's own palette too: only another set of colours counts.
        if event.type() == QEvent.Type.PaletteChange and colours_of(self.palette()) is not self._colours:
            self.dress()

    def dress(self) -> None:
        """Puts the colours on everything inside."""
        colours = colours_of(self.palette())
        if colours is not self._colours:
            self._colours = colours
            self.setStyleSheet(_sheet(colours) + field_sheet(colours))
        for choice in self.findChildren(SentenceChoice):
            choice.ink(colours)


def button(text: str, look: Look, parent: QWidget | None = None, *, font: QFont | None = None) -> QPushButton:
    """A button: only its words in the accent, outlined, or filled for what to do next."""
    made = QPushButton(text, parent)
    made.setProperty("look", look)
    made.setAccessibleName(text)
    made.setFont(font or fonts.sans(fonts.FORM, bold=look != "plain"))
    made.setAutoDefault(False)
    made.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
    return made


def _sheet(c: Colours) -> str:
    box = fonts.grown(_CHECK_BOX)
    return f"""
    QCheckBox[look="check"] {{ color: {c.text}; spacing: 6px; padding: 2px; border-bottom: 2px solid transparent; }}
    QCheckBox[look="check"]:focus {{ border-bottom: 2px solid {c.accent}; }}
    QCheckBox[look="check"]::indicator {{ width: {box}px; height: {box}px; border: 1px solid {c.rule};
        border-radius: 3px; background: {c.field}; }}
    QCheckBox[look="check"]::indicator:checked {{ background: {c.accent}; border-color: {c.accent}; }}
    QLabel[look="caution"] {{ color: {c.caution}; }}
    QFrame[look="hairline"] {{ background: {c.hairline}; }}
    QPushButton[look="step"] {{ background: transparent; border: 1px solid {c.hairline}; border-radius: 4px;
        color: {c.accent}; padding: 0px; }}
    QPushButton[look="step"]:hover {{ background: {c.hover}; border-color: {c.rule}; }}
    QPushButton[look="step"]:pressed {{ background: {c.selected}; }}
    QSpinBox[look="count"] {{ background: transparent; border: none; border-bottom: 1px solid {c.rule};
        color: {c.text}; padding: 1px; }}
    QSpinBox[look="count"]:focus {{ background: {c.selected}; border-bottom: 2px solid {c.accent}; }}
    QPlainTextEdit[look="prose"] {{ background: {c.field}; color: {c.text}; border: none;
        border-bottom: 2px solid {c.rule}; padding: 4px; placeholder-text-color: {c.notes}; }}
    QPlainTextEdit[look="prose"]:focus {{ border-bottom: 2px solid {c.accent}; }}
    QListView[look="list"] {{ background: transparent; border: none; color: {c.text}; outline: none; }}
    QListView[look="list"]::item {{ padding: 5px 8px; border-left: 3px solid transparent; }}
    QListView[look="list"]::item:hover {{ background: {c.hover}; }}
    QListView[look="list"]::item:selected {{ background: {c.selected}; color: {c.text};
        border-left: 3px solid {c.accent}; }}
    QListView[look="list"]::item:selected:focus {{ border: 1px solid {c.accent}; border-left: 3px solid {c.accent};
        padding: 4px 7px 4px 8px; }}
    QPushButton[look="link"] {{ background: transparent; border: none; border-bottom: 2px solid transparent;
        color: {c.accent}; padding: 2px; }}
    QPushButton[look="link"]:hover {{ border-bottom: 2px solid {c.hairline}; }}
    QPushButton[look="link"]:focus {{ border-bottom: 2px solid {c.accent}; }}
    QPushButton[look="link"]:disabled {{ color: {c.notes}; }}
    QPushButton[look="link"]::menu-indicator {{ image: none; width: 0px; }}
    QPushButton[look="field"] {{ background: transparent; border: none; border-bottom: 1px solid {c.rule};
        color: {c.text}; padding: 0px 2px 1px 3px; text-align: left; }}
    QPushButton[look="field"]:hover {{ background: {c.hover}; }}
    QPushButton[look="field"]:focus {{ background: {c.selected}; border-bottom: 2px solid {c.accent};
        padding-bottom: 0px; }}
    QPushButton[look="plain"] {{ background: transparent; border: 1px solid {c.rule}; border-radius: 4px;
        color: {c.text}; padding: 6px 13px; }}
    QPushButton[look="plain"]:hover {{ background: {c.hover}; }}
    QPushButton[look="plain"]:focus {{ border: 2px solid {c.accent}; padding: 5px 12px; }}
    QPushButton[look="plain"]:disabled {{ color: {c.notes}; border-color: {c.hairline}; }}
    QPushButton[look="main"] {{ background: {c.accent}; border: 1px solid {c.accent}; border-radius: 4px;
        color: {c.on_accent}; padding: 6px 13px; }}
    QPushButton[look="main"]:focus {{ border: 3px double {c.on_accent}; padding: 4px 11px; }}
    QPushButton[look="main"]:disabled {{ background: {c.hairline}; border-color: {c.hairline}; color: {c.notes}; }}
    QRadioButton[look="choice"] {{ background: transparent; border: 1px solid {c.hairline}; border-radius: 4px;
        color: {c.text}; padding: 3px 11px; spacing: 0px; }}
    QRadioButton[look="choice"]::indicator {{ width: 0px; height: 0px; }}
    QRadioButton[look="choice"]:hover {{ background: {c.hover}; border-color: {c.rule}; }}
    QRadioButton[look="choice"]:focus {{ border: 2px solid {c.accent}; padding: 2px 10px; }}
    QRadioButton[look="choice"]:checked {{ background: {c.accent}; border-color: {c.accent}; color: {c.on_accent}; }}
    QRadioButton[look="choice"]:checked:focus {{ border: 3px double {c.on_accent}; padding: 1px 9px; }}
    QRadioButton[look="choice"][quiet="true"]:checked {{ background: {c.selected}; border-color: {c.accent};
        color: {c.text}; }}
    QRadioButton[look="choice"][quiet="true"]:checked:focus {{ border: 2px solid {c.text}; padding: 2px 10px; }}
    """
