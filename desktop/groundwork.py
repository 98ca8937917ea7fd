"""Loads everything that needs no Qt; imported before Qt, because PySide6 reads the source of each later module."""

from __future__ import annotations

# ruff: noqa: F401 - only to have them loaded
import core.routes.evaluate
import desktop.forms.goal_fields
import desktop.lanes
import desktop.panels.charts.pictures
import desktop.plan_files
import desktop.questions
import desktop.words.answer
import desktop.words.files
import desktop.words.first
import desktop.words.goal
import desktop.words.labels
import desktop.words.paste
import desktop.words.routes
import desktop.words.steps
