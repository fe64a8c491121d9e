"""The pattern: what the maker writes, read, checked, and worked on the rack."""
