"""Lists that sellers write, read into animals of one plan; what is unclear is marked, never guessed."""
