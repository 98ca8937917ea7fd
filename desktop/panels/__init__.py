"""The parts of the window, each with one job."""
