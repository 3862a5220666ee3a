#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The upper bound's time against GLPK's and that of SciPy's HiGHS on the same rigs, as ratios. Asserts nothing.

  bench_equilibrium.py BENCH-EQUILIBRIUM FOLDER-OF-equilibrium_oracle.py
"""
import subprocess
import sys
import time

from scipy.optimize import linprog

COUNT, WITH_HIGHS = 1000, 200


def highs(oracle):
    """Microseconds for each: linprog alone, on rows that are built already, and without asking whether the load stands."""
    spent = 0.0
    for number in range(WITH_HIGHS):
        rows, right, upper, limits, bounds, cost = oracle.Rig(number).matrices(1.0)
        start = time.process_time()
        linprog(cost, A_ub=upper, b_ub=limits, A_eq=rows, b_eq=right, bounds=bounds, method="highs")
        spent += time.process_time() - start
    return spent / WITH_HIGHS * 1e6


def main():
    program, folder = sys.argv[1:]
    sys.path.insert(0, folder)
    import equilibrium_oracle
    run = subprocess.run([program, "0", str(COUNT)], capture_output=True, text=True, check=True)
    ours, glpk, rigs = (float(word) for word in run.stdout.split())
    scipy = highs(equilibrium_oracle)
    print("upper bound, %d random rigs: %.1f us each" % (rigs, ours))
    print("GLPK    %8.0f us each, %6.1f times ours (wanted: 5)" % (glpk, glpk / ours))
    print("HiGHS   %8.0f us each, %6.1f times ours (wanted: 50; SciPy's linprog on %d of them)" % (scipy, scipy / ours, WITH_HIGHS))


if __name__ == "__main__":
    main()
