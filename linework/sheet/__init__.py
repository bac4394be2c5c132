"""Where things lie on the paper, in rooms that meet at their front doors only."""
