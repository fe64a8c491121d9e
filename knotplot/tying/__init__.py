"""Tying: the rack that follows every strand through every tie, and the record it writes.

`moves.py` says what is asked of a group of lanes, `placing.py` finds where its ties stand,
`assembling.py` ties them there, `shape.py` makes one rigid shape of that, `rack.py` ties shapes row
by row on its `bench.py`, `piece.py` is the record that everything after reads.
"""
