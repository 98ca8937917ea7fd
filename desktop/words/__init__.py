"""Every sentence on screen, without Qt: plain values in, plain text out."""
