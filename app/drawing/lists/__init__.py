"""What is kept as rows, drawn for paper: wire list, terminal list, and flags to cut out and fold around the wires.

The rows come from ``app.tables``. Start reading at ``wire_list``; ``table`` plans ruled tables in blocks.
"""
