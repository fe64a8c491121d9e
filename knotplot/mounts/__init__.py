"""Mounts, one file each: how cords are hung, and what that ties."""
