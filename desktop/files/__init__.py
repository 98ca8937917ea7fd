"""Plans in files: kept safe against a crash, told apart between windows, never overwritten silently."""
