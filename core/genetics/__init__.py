"""Genes, gametes, crosses and hidden genotypes."""
