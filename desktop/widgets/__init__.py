"""Small widgets that know nothing of plans."""
