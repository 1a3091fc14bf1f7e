// A linear program that GLPK keeps between solves. It belongs to the thread
// that opened it: every call is made there, or fails.

#ifndef CROSSGRAIN_PROGRAM_H
#define CROSSGRAIN_PROGRAM_H

#include <stdint.h>

// The values of Status in status.go, in the same order.
enum program_status { PROGRAM_FAILED, PROGRAM_OPTIMAL, PROGRAM_INFEASIBLE, PROGRAM_UNBOUNDED };

// The values of VariableStatus in status.go, in the same order.
enum program_variable {
    PROGRAM_AT_LOWER,
    PROGRAM_AT_UPPER,
    PROGRAM_FREE,
    PROGRAM_FIXED,
    PROGRAM_BASIC
};

struct program;

// program_open makes an empty program, NULL if there is no memory.
struct program *program_open(void);
void program_close(struct program *p);

// The calls below return 0, or -1 with the reason in program_fault.
int program_add_row(struct program *p, double lower, double upper,
                    int32_t entries, const int32_t *column, const double *value);
int program_add_column(struct program *p, double cost, double lower, double upper,
                       int32_t entries, const int32_t *row, const double *value);
int program_row_limits(struct program *p, int32_t row, double lower, double upper);
int program_column_limits(struct program *p, int32_t column, double lower, double upper);
int program_delete_rows(struct program *p, int32_t count, const int32_t *row);
int program_delete_columns(struct program *p, int32_t count, const int32_t *column);
int program_set_basis(struct program *p, const uint8_t *row_basis, const uint8_t *column_basis);

// program_solve returns a program_status. With PROGRAM_OPTIMAL it fills x, one a
// column, the duals of the rows, and the basis statuses of both.
int program_solve(struct program *p, int32_t dual, int32_t *iterations,
                  double *x, double *row_dual, uint8_t *row_basis, uint8_t *column_basis);

const char *program_fault(const struct program *p);

#endif
