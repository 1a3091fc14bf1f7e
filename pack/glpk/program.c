// The C side of Program. GLPK 5.0 asks three things of its callers:
//
//   - A problem belongs to the environment of the thread that made it. So every
//     call checks that it is made on that thread, and that the environment is
//     still there.
//   - A wrong argument or a failed assertion calls abort() after the error
//     hook. The hook jumps back into the function that was called instead; the
//     frames that it skips are all C, and glp_free_env gives back the memory
//     they held, and with it every problem of the thread.
//   - Messages go to stdout unless the terminal hook takes them.

#include "program.h"

#include <glpk.h>
#include <math.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdlib.h>
#include <string.h>

// From so many columns on, the prices of the simplex method are projected steepest
// edges.
#define MANY_COLUMNS 300

struct program {
    glp_prob *lp;
    pthread_t thread;
    unsigned environment;
    jmp_buf escape;
    char fault[240];
    // Room for one row or column in GLPK's 1-based form.
    int room;
    int *index;
    double *value;
};

// The number of times that the environment of a thread has been freed: all
// that was made in it before is gone.
static _Thread_local unsigned environment;

static int on_text(void *info, const char *text)
{
    struct program *p = info;
    if (glp_at_error())
        strncat(p->fault, text, sizeof p->fault - strlen(p->fault) - 1);
    return 1; // taken: nothing is written
}

static void on_fault(void *info)
{
    struct program *p = info;
    longjmp(p->escape, 1);
}

static int gone(const struct program *p)
{
    return p->lp == NULL || p->environment != environment;
}

// enter reports whether GLPK may be called, and turns its hooks here.
static int enter(struct program *p)
{
    if (!pthread_equal(p->thread, pthread_self())) {
        strcpy(p->fault, "called on another thread");
        return 0;
    }
    if (gone(p)) {
        if (p->fault[0] == '\0')
            strcpy(p->fault, "freed by a fault elsewhere on its thread");
        return 0;
    }
    p->fault[0] = '\0';
    glp_term_hook(on_text, p);
    glp_error_hook(on_fault, p);
    return 1;
}

// failed is what a call returns after a jump.
static int failed(void)
{
    environment++;
    glp_free_env();
    return -1;
}

static int bound_type(double lower, double upper)
{
    if (isinf(lower))
        return isinf(upper) ? GLP_FR : GLP_UP;
    if (isinf(upper))
        return GLP_LO;
    return lower < upper ? GLP_DB : GLP_FX;
}

struct program *program_open(void)
{
    struct program *p = calloc(1, sizeof *p);
    if (p == NULL)
        return NULL;
    p->thread = pthread_self();
    p->environment = environment;
    glp_term_hook(on_text, p);
    glp_error_hook(on_fault, p);
    if (setjmp(p->escape) != 0) {
        failed();
        return p;
    }
    glp_prob *lp = glp_create_prob();
    glp_set_obj_dir(lp, GLP_MIN);
    p->lp = lp;
    return p;
}

void program_close(struct program *p)
{
    if (!gone(p) && enter(p) && setjmp(p->escape) == 0)
        glp_delete_prob(p->lp);
    free(p->index);
    free(p->value);
    free(p);
}

// list copies entries, or indices alone if value is NULL, into the 1-based room.
// It returns 0 without memory.
static int list(struct program *p, int32_t entries, const int32_t *at, const double *value)
{
    if (entries >= p->room) {
        int room = 2 * (entries + 1);
        int *index = realloc(p->index, room * sizeof *index);
        if (index != NULL)
            p->index = index;
        double *values = realloc(p->value, room * sizeof *values);
        if (values != NULL)
            p->value = values;
        if (index == NULL || values == NULL) {
            strcpy(p->fault, "no memory");
            return 0;
        }
        p->room = room;
    }
    for (int e = 0; e < entries; e++) {
        p->index[e + 1] = at[e] + 1;
        if (value != NULL)
            p->value[e + 1] = value[e];
    }
    return 1;
}

int program_add_row(struct program *p, double lower, double upper,
                    int32_t entries, const int32_t *column, const double *value)
{
    if (!enter(p) || !list(p, entries, column, value))
        return -1;
    if (setjmp(p->escape) != 0)
        return failed();
    int i = glp_add_rows(p->lp, 1);
    glp_set_row_bnds(p->lp, i, bound_type(lower, upper), lower, upper);
    glp_set_mat_row(p->lp, i, entries, p->index, p->value);
    glp_set_row_stat(p->lp, i, GLP_BS);
    return 0;
}

int program_add_column(struct program *p, double cost, double lower, double upper,
                       int32_t entries, const int32_t *row, const double *value)
{
    if (!enter(p) || !list(p, entries, row, value))
        return -1;
    if (setjmp(p->escape) != 0)
        return failed();
    int j = glp_add_cols(p->lp, 1);
    glp_set_obj_coef(p->lp, j, cost);
    glp_set_col_bnds(p->lp, j, bound_type(lower, upper), lower, upper);
    glp_set_mat_col(p->lp, j, entries, p->index, p->value);
    glp_set_col_stat(p->lp, j, isinf(lower) ? (isinf(upper) ? GLP_NF : GLP_NU) : GLP_NL);
    return 0;
}

int program_row_limits(struct program *p, int32_t row, double lower, double upper)
{
    if (!enter(p))
        return -1;
    if (setjmp(p->escape) != 0)
        return failed();
    glp_set_row_bnds(p->lp, row + 1, bound_type(lower, upper), lower, upper);
    return 0;
}

int program_column_limits(struct program *p, int32_t column, double lower, double upper)
{
    if (!enter(p))
        return -1;
    if (setjmp(p->escape) != 0)
        return failed();
    glp_set_col_bnds(p->lp, column + 1, bound_type(lower, upper), lower, upper);
    return 0;
}

int program_delete_rows(struct program *p, int32_t count, const int32_t *row)
{
    if (!enter(p) || !list(p, count, row, NULL))
        return -1;
    if (setjmp(p->escape) != 0)
        return failed();
    glp_del_rows(p->lp, count, p->index);
    return 0;
}

int program_delete_columns(struct program *p, int32_t count, const int32_t *column)
{
    if (!enter(p) || !list(p, count, column, NULL))
        return -1;
    if (setjmp(p->escape) != 0)
        return failed();
    int basic = 0;
    for (int e = 1; e <= count; e++)
        basic |= glp_get_col_stat(p->lp, p->index[e]) == GLP_BS;
    glp_del_cols(p->lp, count, p->index);
    if (basic) // what is left of the basis might be none
        glp_std_basis(p->lp);
    return 0;
}

static int glpk_of(uint8_t variable)
{
    switch (variable) {
    case PROGRAM_BASIC:    return GLP_BS;
    case PROGRAM_AT_UPPER: return GLP_NU;
    default:               return GLP_NL; // GLPK sets right what has no such limit
    }
}

int program_set_basis(struct program *p, const uint8_t *row_basis, const uint8_t *column_basis)
{
    if (!enter(p))
        return -1;
    if (setjmp(p->escape) != 0)
        return failed();
    int rows = glp_get_num_rows(p->lp), columns = glp_get_num_cols(p->lp);
    for (int i = 0; i < rows; i++)
        glp_set_row_stat(p->lp, i + 1, glpk_of(row_basis[i]));
    for (int j = 0; j < columns; j++)
        glp_set_col_stat(p->lp, j + 1, glpk_of(column_basis[j]));
    return 0;
}

static uint8_t variable_of(int glpk_status)
{
    switch (glpk_status) {
    case GLP_BS: return PROGRAM_BASIC;
    case GLP_NU: return PROGRAM_AT_UPPER;
    case GLP_NF: return PROGRAM_FREE;
    case GLP_NS: return PROGRAM_FIXED;
    default:     return PROGRAM_AT_LOWER;
    }
}

// run does so many iterations of a method at most: both can go round in
// circles on degenerate programs. The dual method, if it does, takes longest for each,
// as it looks for long steps, and the primal one mostly ends soon from where it stopped.
static int run(struct program *p, int method, int presolve)
{
    glp_smcp parameters;
    glp_init_smcp(&parameters);
    parameters.msg_lev = GLP_MSG_OFF;
    parameters.meth = method;
    // Long steps of the dual method take least, and so do plain prices while a
    // program is small; found by trial.
    parameters.pricing = glp_get_num_cols(p->lp) < MANY_COLUMNS ? GLP_PT_STD : GLP_PT_PSE;
    parameters.r_test = GLP_RT_FLIP;
    parameters.presolve = presolve ? GLP_ON : GLP_OFF;
    int size = glp_get_num_rows(p->lp) + glp_get_num_cols(p->lp);
    parameters.it_lim = method == GLP_DUALP ? 200 + size : 1000 + 10 * size;
    return glp_simplex(p->lp, &parameters);
}

static int conclusive(const struct program *p, int code)
{
    int status = glp_get_status(p->lp);
    return code == 0 && (status == GLP_OPT || status == GLP_NOFEAS || status == GLP_UNBND);
}

// simplex tries the method asked for from the last basis, then other ways. It
// reports whether one came to an end.
static int simplex(struct program *p, int dual)
{
    if (conclusive(p, run(p, dual ? GLP_DUALP : GLP_PRIMAL, 0)))
        return 1;
    if (dual && conclusive(p, run(p, GLP_PRIMAL, 0)))
        return 1;
    glp_std_basis(p->lp);
    if (conclusive(p, run(p, GLP_PRIMAL, 0)))
        return 1;
    glp_adv_basis(p->lp, 0);
    if (conclusive(p, run(p, GLP_DUALP, 0)))
        return 1;
    glp_std_basis(p->lp);
    return conclusive(p, run(p, GLP_PRIMAL, 1));
}

int program_solve(struct program *p, int32_t dual, int32_t *iterations,
                  double *x, double *row_dual, uint8_t *row_basis, uint8_t *column_basis)
{
    if (!enter(p))
        return PROGRAM_FAILED;
    if (setjmp(p->escape) != 0) {
        failed();
        return PROGRAM_FAILED;
    }
    int before = glp_get_it_cnt(p->lp);
    int ended = simplex(p, dual);
    *iterations = glp_get_it_cnt(p->lp) - before;
    if (!ended)
        return PROGRAM_FAILED;
    switch (glp_get_status(p->lp)) {
    case GLP_OPT:   break;
    case GLP_UNBND: return PROGRAM_UNBOUNDED;
    default:        return PROGRAM_INFEASIBLE;
    }
    int rows = glp_get_num_rows(p->lp), columns = glp_get_num_cols(p->lp);
    for (int j = 0; j < columns; j++) {
        x[j] = glp_get_col_prim(p->lp, j + 1);
        column_basis[j] = variable_of(glp_get_col_stat(p->lp, j + 1));
    }
    for (int i = 0; i < rows; i++) {
        row_dual[i] = glp_get_row_dual(p->lp, i + 1);
        row_basis[i] = variable_of(glp_get_row_stat(p->lp, i + 1));
    }
    return PROGRAM_OPTIMAL;
}

const char *program_fault(const struct program *p)
{
    return p->fault;
}
