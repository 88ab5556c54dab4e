"""What is run by hand, or by the gates: faults, kills, long fuzz, and the processes they need."""
