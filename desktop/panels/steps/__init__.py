"""The steps of the selected route, season by season."""
