"""Clips a repeating pattern to a region at a cost that grows with the region's perimeter, not its area.

Only tiles that a wall runs through need clipping: `walk` finds them along the walls, `crossing` keeps those
really crossed, `chains` cuts all those that the wall enters and leaves once, `overlay` the few others and
those that bend inwards. The whole tiles between are never touched one by one: `runs` finds them by scan line,
as stretches.
"""
