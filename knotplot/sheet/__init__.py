"""The sheet: its pages, as drawings and tables."""
