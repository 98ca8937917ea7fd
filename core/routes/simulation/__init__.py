"""Simulation: routes played many times over, in arrays over runs."""

from core.routes.simulation.play import play_route, stream
from core.routes.simulation.played import Played
from core.routes.simulation.player import Odds

__all__ = ["Odds", "Played", "play_route", "stream"]
