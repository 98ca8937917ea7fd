"""Cautions beside the selected route and on the whole plan."""
