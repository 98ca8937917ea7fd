"""Advice on a plan: what to mind about its routes."""
