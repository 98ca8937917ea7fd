"""One page at a time in the comparison's place, and the keyboard back where it was."""

from __future__ import annotations

import shiboken6
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from desktop.views import View, Views


def test_the_keyboard_goes_back_even_where_its_field_has_gone(qtbot: QtBot) -> None:
    comparison = QWidget()
    layout, field, other = QVBoxLayout(comparison), QLineEdit(), QLineEdit()
    for one in (field, other):
        layout.addWidget(one)
    views = Views(comparison)
    qtbot.addWidget(views)
    views.show()
    for gone in (False, True):
        field.setFocus()
        views.open(View())
        if gone:
            shiboken6.delete(field)
        views.close_page()
        assert views.page() is None
        assert views.currentWidget() is comparison
        assert gone or views.focusWidget() is field
