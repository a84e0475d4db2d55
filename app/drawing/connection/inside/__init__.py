"""What is inside a part, drawn in its box: elements in strips from node to node. Start at ``strips``, then ``laying``.

A strip begins and ends at something named: a terminal by its letter, or an inner node by its words where a line would
say it worse. ``paths`` finds the way through a strip, ``laying`` gives everything its place, ``draw_inside`` draws it.
"""
