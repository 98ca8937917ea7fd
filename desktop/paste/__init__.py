"""Pasting a seller's list into the plan."""
