"""The page that explains one route's chance, and why one route beats another."""
