"""Pairwright's answers, in plain Python on numpy: plans in, chances, seasons and money out."""
