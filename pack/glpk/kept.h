// A linear program that GLPK keeps between solves. It belongs to the thread
// that opened it: every call is made there, or fails.

#ifndef CROSSGRAIN_KEPT_H
#define CROSSGRAIN_KEPT_H

#include <stdint.h>

struct kept;

// kept_open makes an empty program, NULL if there is no memory.
struct kept *kept_open(void);
void kept_close(struct kept *k);

// The calls below return 0, or -1 with the reason in kept_fault.
int kept_add_row(struct kept *k, double lower, double upper,
                 int32_t entries, const int32_t *column, const double *value);
int kept_add_column(struct kept *k, double cost, double lower, double upper,
                    int32_t entries, const int32_t *row, const double *value);
int kept_row_limits(struct kept *k, int32_t row, double lower, double upper);
int kept_column_limits(struct kept *k, int32_t column, double lower, double upper);
int kept_delete_rows(struct kept *k, int32_t count, const int32_t *row);
int kept_delete_columns(struct kept *k, int32_t count, const int32_t *column);

// kept_solve returns a bridge_status. With BRIDGE_OPTIMAL it fills x, one a
// column, and the duals and basis statuses of the rows.
int kept_solve(struct kept *k, int32_t dual, int32_t *iterations,
               double *x, double *row_dual, uint8_t *row_basis);

const char *kept_fault(const struct kept *k);

// kept_freed is not 0 if the call failed because of a fault or a stopped solve
// elsewhere on the thread.
int kept_freed(const struct kept *k);

#endif
