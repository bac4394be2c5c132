"""What the standards say: tables and limits per family, each value with its source."""
