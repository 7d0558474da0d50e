"""Drawings of the machines: one machine, one scale, black line on paper."""
