"""A slow, obvious reading of the plan-file page, to hold the engine against."""
