"""The counter view: full screen, by taps alone, for a customer who stands before the table."""
