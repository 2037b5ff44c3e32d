"""The only place where kernels meet: one batch from start to finish, with bands."""
