"""From the maker's own pucks to constants: the calculation, its checks and its advice."""
