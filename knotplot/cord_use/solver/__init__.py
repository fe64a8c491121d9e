"""The solver behind the table of cord use: an ideal rope, pulled tight.

A flexible tube that doesn't stretch and may not overlap itself. `rope` says what is solved,
`starts`, `shapes` and `entries` where it begins, `tighten` (with `contacts` and `forces`) pulls,
`solve` refines and extrapolates, `table` writes. Needs the extra `solve`; the library at run time
only looks the numbers up.
"""
