"""Renderers: a drawing as SVG, PDF or PNG, and files written whole or not at all."""
