"""One row for every field of the plan file that its page can change."""
