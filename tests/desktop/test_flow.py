"""Words set side by side: the height they need follows what they say now."""

from __future__ import annotations

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from desktop.widgets.flow import Flow


def test_longer_words_need_more_lines_at_once(qtbot: QtBot) -> None:
    page = QWidget()
    qtbot.addWidget(page)
    outer, flow = QVBoxLayout(page), Flow()
    outer.addLayout(flow)
    words = [QLabel("short") for _ in range(3)]
    for word in words:
        flow.addWidget(word)
    page.resize(300, 200)
    page.show()
    one_line = flow.heightForWidth(250)
    words[1].setText("words that fill a whole line by themselves")
    outer.activate()
    more_lines = flow.heightForWidth(250)
    assert more_lines > one_line
    words[1].hide()
    outer.activate()
    assert flow.heightForWidth(250) == one_line
