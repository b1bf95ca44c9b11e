"""What an order is given: the instruction sheet, the report of every figure, and the pack of files."""
