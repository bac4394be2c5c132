"""What shorts drive, what ends them, and what they heat."""
