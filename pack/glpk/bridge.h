// One crossing into GLPK: flat arrays in, flat arrays out. Everything is
// 0-based on this side; the library's 1-based numbers stay in bridge.c.

#ifndef CROSSGRAIN_BRIDGE_H
#define CROSSGRAIN_BRIDGE_H

#include <stdint.h>

// The values of Status in status.go, in the same order.
enum bridge_status {
    BRIDGE_FAILED,
    BRIDGE_OPTIMAL,
    BRIDGE_INFEASIBLE,
    BRIDGE_UNBOUNDED,
    BRIDGE_ITERATION_LIMIT,
    BRIDGE_TIME_LIMIT,
    BRIDGE_NODE_LIMIT,
    BRIDGE_CANCELLED,
    BRIDGE_FEASIBLE
};

// The values of VariableStatus in status.go, in the same order.
enum bridge_variable {
    BRIDGE_AT_LOWER,
    BRIDGE_AT_UPPER,
    BRIDGE_FREE,
    BRIDGE_FIXED,
    BRIDGE_BASIC
};

// What the caller writes to *stop, at any time and from any thread.
enum bridge_stop { BRIDGE_GO_ON, BRIDGE_STOP_CANCELLED, BRIDGE_STOP_TIME };

// One solve. The caller owns every array; none is kept after the call.
struct bridge_call {
    // The problem: minimise cost.x, row_lower <= A x <= row_upper,
    // lower <= x <= upper; infinities stand for no limit.
    int32_t rows, columns;
    const double *row_lower, *row_upper;
    const double *cost, *lower, *upper;
    const int32_t *start, *index; // A by columns: columns + 1 starts
    const double *value;
    int32_t whole;          // an integer program
    const uint8_t *integer; // one a column; NULL: none

    // The basis: read if has_basis, written with the values of an LP.
    uint8_t *row_basis, *column_basis;
    int32_t has_basis;

    // How to solve.
    int32_t dual, presolve, scale, cuts;
    int32_t iteration_limit, node_limit; // 0: none
    int32_t has_cut_off;
    double cut_off;
    int32_t interruptible; // look at *stop during the simplex method
    const int32_t *stop;

    // The answer.
    int32_t status;     // bridge_status
    int32_t has_values; // objective and x (an LP: duals and basis too) hold
    int32_t iterations, nodes;
    double objective, bound;
    double *x, *row_dual, *reduced_cost; // the last two: LP only
    char fault[240];                     // what GLPK said, if it gave up
};

// bridge_solve makes, solves and frees the problem. It never ends the
// process and never writes to a stream.
void bridge_solve(struct bridge_call *call);

// bridge_reset frees everything that GLPK holds for the calling thread;
// bridge_environment counts how often that has happened.
void bridge_reset(void);
unsigned bridge_environment(void);

#endif
