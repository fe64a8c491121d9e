"""Drawings: a handful of shapes in millimetres, what reads them, and the views made of them."""
