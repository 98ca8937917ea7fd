"""Everything that leaves the program: the odds card, a page to print, charts, tables."""
