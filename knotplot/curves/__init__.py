"""Plane and space curves, and the profiles of a lower edge: pure maths, the ground floor."""
