"""Where the program keeps what is not a plan: settings, what waits for recovery, who has which file open."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtCore import QSettings, QStandardPaths

_Location = QStandardPaths.StandardLocation


def recovery_folder() -> Path:
    """Where changes that are not saved yet are kept."""
    return _data() / "recovery"


def open_files_folder() -> Path:
    """Where windows say which file they have open."""
    return _data() / "open"


def library_file() -> Path:
    """The person's own species and genes."""
    return _data() / "library.json"


def log_file() -> Path:
    """Where the program writes down what went wrong."""
    return _data() / "log.txt"


def settings() -> QSettings:
    """What is remembered from one start to the next."""
    folder = QStandardPaths.writableLocation(_Location.AppConfigLocation)
    return QSettings(str(Path(folder) / "settings.ini"), QSettings.Format.IniFormat)


def _data() -> Path:
    return Path(QStandardPaths.writableLocation(_Location.AppDataLocation))
