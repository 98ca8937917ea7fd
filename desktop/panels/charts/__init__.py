"""The charts: plain series in, curves with their labels, crossings and read-out drawn."""
