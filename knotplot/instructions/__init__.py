"""Instructions: the rows of a piece as plain records, then words.

`records.py` says what can be told, `rows.py` tells a piece in such records (with `motif_steps.py`,
`row_actions.py`, `folding.py`, `mounting.py` and `finishing.py`), a language's package (`en`) puts
each record into words, a file a part, `words.py` and `text.py` print them. A cord's number is its
place from the left at that moment, from 1.
"""
