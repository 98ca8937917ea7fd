"""The most a plan may hold: generous bounds, so that a file from a stranger can neither fill memory nor stall."""

from __future__ import annotations

MOST_BYTES = 4 * 1024 * 1024
MOST_FAULTS = 100

LONGEST_NAME = 400
LONGEST_TEXT = 20_000
# Digits above and below the line of a fraction: more than that says nothing a double can hold.
LONGEST_FRACTION_PART = 15

MOST_MONEY = 10**12
MOST_CHANGE = 1_000
MOST_SEASONS = 60
# Seasons of clutch records may be calendar years.
FARTHEST_SEASON = 10_000

MOST_GENES = 40
MOST_ALLELES = 12
# Every genotype of a gene with the most alleles, in both one-copy and two-copy sexes.
MOST_GENOTYPES = 120
MOST_COMBINATIONS = 1_000
MOST_HIDDEN_GENOTYPES = 1_000

MOST_EGGS = 400
MOST_CLUTCHES = 20
MOST_FEMALES_PER_MALE = 1_000

MOST_WANT_ROWS = 12
MOST_WANTED = 200
MOST_HOUSING = 100_000
MOST_PRICE_ROWS = 200

MOST_FOR_SALE = 1_000
MOST_MY_ANIMALS = 400
MOST_CLUTCH_RECORDS = 2_000
MOST_YOUNG_ROWS = 400

MOST_ROUTES = 60
MOST_GROUPS = 40
MOST_PAIRINGS = 60
MOST_ANIMALS_IN_GROUP = 400
MOST_PICKS = 40
MOST_SCALE_COUNTS = 24

MOST_RUNS = 1_000_000
MOST_SEED = 2**63 - 1
MOST_CAUTIONS_READ = 2_000
