"""Breakers, fuses, bonding."""
