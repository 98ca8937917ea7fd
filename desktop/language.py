"""The language of all texts: the first of the reader's that the program has; English as written without one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from core import text

if TYPE_CHECKING:
    from PySide6.QtCore import QCoreApplication, QTranslator

TRANSLATIONS = Path(__file__).resolve().parents[1] / "assets" / "translations"


def choose(folder: Path = TRANSLATIONS) -> str | None:
    """Has every text said in the reader's language where there is a file for it, and gives that language.

    To be called before any module with texts is loaded. Without any file it costs nothing, and Qt is not loaded.
    """
    if not any(folder.glob("*.qm")):
        return None
    try:
        from PySide6.QtCore import QLocale, QTranslator
    except ImportError:
        # The start says in a moment what is wrong with it.
        return None
    for tag in QLocale().uiLanguages():
        language = tag.replace("-", "_")
        if language.partition("_")[0] in ("en", "C"):
            break
        translator = QTranslator()
        if translator.load(f"pairwright_{language}", str(folder)):
            text.use(_catalogue(translator))
            return language
    return None


def _catalogue(translator: QTranslator) -> text.Catalogue:
    # lupdate puts every text of a Python function into the context without a name.
    return lambda said, note, n: translator.translate("", said, note or None, n)


def speak(app: QCoreApplication, language: str) -> None:
    """Has Qt's own texts, such as those of its dialogs, said in that language."""
    from PySide6.QtCore import QLibraryInfo, QTranslator

    own = QTranslator(app)
    if own.load(f"qtbase_{language}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
        app.installTranslator(own)
