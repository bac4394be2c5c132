"""What flows with the drawn loads on, and what voltage is left."""
