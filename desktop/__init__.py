"""The window: shows a plan and its answers, and owns widgets, threads and files in use."""
