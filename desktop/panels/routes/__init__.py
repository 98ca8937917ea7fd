"""The route list: a row per route, with the figures of one plan."""
