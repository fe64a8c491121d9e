"""Sections, one file each: a stretch of work, what it asks of the strands, and its ties."""
