"""The first minutes: from an empty plan to the first answer."""
