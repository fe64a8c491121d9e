"""Motifs: figures of a few strands as steps, shipped or a pattern's own."""
