"""What runs and parts are made for, by the tables of the family."""
