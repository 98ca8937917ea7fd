"""Simulation: routes played many times over, in arrays over runs."""

from core.routes.simulation.play import Played, play_route

__all__ = ["Played", "play_route"]
