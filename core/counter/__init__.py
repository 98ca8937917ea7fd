"""What a pair gives, for the counter of an expo: looks, chances by clutch, the best partner, the odds card."""
