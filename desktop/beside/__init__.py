"""A second process that works out routes beside the window: Python gives the threads of one process one core."""
