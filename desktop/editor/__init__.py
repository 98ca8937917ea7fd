"""The route editor: one route as sentences with fields, seasons beside them, and what each change does."""
