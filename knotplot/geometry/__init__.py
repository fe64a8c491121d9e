"""The record in millimetres: where every tie stands and how every strand runs between ties.

x runs to the right from the left edge of the piece, y down from the top of the support. "As
worked" is the piece flat on the board; a rod pocket's band then stands above y = 0, unfolded.
Hanging, its rows move by their row's `shift`.
"""
