"""Exact answers by generating functions, for routes whose random state stays small."""
