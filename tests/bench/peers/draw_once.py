"""The least a NumPy script for this job can be: it starts, and draws 10^6 normals once."""

import numpy as np

print(np.random.default_rng(1).standard_normal(1_000_000).sum())
