"""What can be done with a chart, as quiet words in its heading."""

from __future__ import annotations

from PySide6.QtWidgets import QHBoxLayout, QWidget

from desktop.widgets.word import Word
from desktop.words import charts as words


class Tools(QWidget):
    """Words for zooming and for the table; those that would do nothing are not in use."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        # The first one comes and goes, so that the others keep their place.
        self.whole = Word(words.WHOLE_CHART, self)
        self.zoom_in = Word(words.ZOOM_IN, self)
        self.zoom_out = Word(words.ZOOM_OUT, self)
        self.table = Word(words.AS_TABLE, self)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(12)
        layout.addStretch(1)
        self.words = (self.whole, self.zoom_in, self.zoom_out, self.table)
        for word in self.words:
            layout.addWidget(word)
        self.show_state(zoomed=False, as_table=False)

    def show_state(self, *, zoomed: bool, as_table: bool) -> None:
        """What there is to do now."""
        self.whole.setVisible(zoomed and not as_table)
        self.zoom_out.setVisible(zoomed and not as_table)
        self.zoom_in.setVisible(not as_table)
        text = words.AS_CHART if as_table else words.AS_TABLE
        self.table.setText(text)
        self.table.setAccessibleName(text)
        self.table.updateGeometry()
