"""The page that tells what each animal for sale is worth, and which assumptions matter most."""
