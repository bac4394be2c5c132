"""Where things lie: routing, labels, frame, flags, charts."""
