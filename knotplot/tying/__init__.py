"""Tying: the rack that follows every strand through every tie, and the record it writes.

`moves.py` says what is asked of a group of lanes, `placing.py` finds where its ties stand,
`shape.py` makes of both one rigid shape, `rack.py` ties shapes row by row, `piece.py` is the
record that everything after reads.
"""
