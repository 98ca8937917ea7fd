"""The plan file: its values, and reading, checking and writing them."""
