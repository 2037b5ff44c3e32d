"""The fish's eye: what its cones catch, and which looks it can tell apart."""
