// The C side of Program. See bridge.c for what GLPK asks of its callers; here
// the problem lives on between calls, so every call checks that it is made on
// the thread of the problem and that its environment is still there.

#include "kept.h"
#include "bridge.h"

#include <glpk.h>
#include <math.h>
#include <pthread.h>
#include <setjmp.h>
#include <stdlib.h>
#include <string.h>

struct kept {
    glp_prob *lp;
    pthread_t thread;
    unsigned environment;
    jmp_buf escape;
    char fault[240];
    int freed; // by a fault or a stop elsewhere on its thread
    // Room for one row or column in GLPK's 1-based form.
    int room;
    int *index;
    double *value;
};

static int on_text(void *info, const char *text)
{
    struct kept *k = info;
    if (glp_at_error())
        strncat(k->fault, text, sizeof k->fault - strlen(k->fault) - 1);
    return 1; // taken: nothing is written
}

static void on_fault(void *info)
{
    struct kept *k = info;
    longjmp(k->escape, 1);
}

static int gone(const struct kept *k)
{
    return k->lp == NULL || k->environment != bridge_environment();
}

// enter reports whether GLPK may be called, and turns its hooks here.
static int enter(struct kept *k)
{
    if (!pthread_equal(k->thread, pthread_self())) {
        strcpy(k->fault, "called on another thread");
        return 0;
    }
    if (gone(k)) {
        if (k->fault[0] == '\0') {
            strcpy(k->fault, "freed after a fault or a stop");
            k->freed = 1;
        }
        return 0;
    }
    k->fault[0] = '\0';
    glp_term_hook(on_text, k);
    glp_error_hook(on_fault, k);
    return 1;
}

// failed is what a call returns after a jump.
static int failed(void)
{
    bridge_reset();
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

struct kept *kept_open(void)
{
    struct kept *k = calloc(1, sizeof *k);
    if (k == NULL)
        return NULL;
    k->thread = pthread_self();
    k->environment = bridge_environment();
    glp_term_hook(on_text, k);
    glp_error_hook(on_fault, k);
    if (setjmp(k->escape) != 0) {
        failed();
        return k;
    }
    glp_prob *lp = glp_create_prob();
    glp_set_obj_dir(lp, GLP_MIN);
    k->lp = lp;
    return k;
}

void kept_close(struct kept *k)
{
    if (!gone(k) && enter(k) && setjmp(k->escape) == 0)
        glp_delete_prob(k->lp);
    free(k->index);
    free(k->value);
    free(k);
}

// list copies entries into the 1-based room. It returns 0 without memory.
static int list(struct kept *k, int32_t entries, const int32_t *at, const double *value)
{
    if (entries >= k->room) {
        int room = 2 * (entries + 1);
        int *index = realloc(k->index, room * sizeof *index);
        if (index != NULL)
            k->index = index;
        double *values = realloc(k->value, room * sizeof *values);
        if (values != NULL)
            k->value = values;
        if (index == NULL || values == NULL) {
            strcpy(k->fault, "no memory");
            return 0;
        }
        k->room = room;
    }
    for (int e = 0; e < entries; e++) {
        k->index[e + 1] = at[e] + 1;
        k->value[e + 1] = value[e];
    }
    return 1;
}

int kept_add_row(struct kept *k, double lower, double upper,
                 int32_t entries, const int32_t *column, const double *value)
{
    if (!enter(k) || !list(k, entries, column, value))
        return -1;
    if (setjmp(k->escape) != 0)
        return failed();
    int i = glp_add_rows(k->lp, 1);
    glp_set_row_bnds(k->lp, i, bound_type(lower, upper), lower, upper);
    glp_set_mat_row(k->lp, i, entries, k->index, k->value);
    glp_set_row_stat(k->lp, i, GLP_BS);
    return 0;
}

int kept_add_column(struct kept *k, double cost, double lower, double upper,
                    int32_t entries, const int32_t *row, const double *value)
{
    if (!enter(k) || !list(k, entries, row, value))
        return -1;
    if (setjmp(k->escape) != 0)
        return failed();
    int j = glp_add_cols(k->lp, 1);
    glp_set_obj_coef(k->lp, j, cost);
    glp_set_col_bnds(k->lp, j, bound_type(lower, upper), lower, upper);
    glp_set_mat_col(k->lp, j, entries, k->index, k->value);
    glp_set_col_stat(k->lp, j, isinf(lower) ? (isinf(upper) ? GLP_NF : GLP_NU) : GLP_NL);
    return 0;
}

int kept_row_limits(struct kept *k, int32_t row, double lower, double upper)
{
    if (!enter(k))
        return -1;
    if (setjmp(k->escape) != 0)
        return failed();
    glp_set_row_bnds(k->lp, row + 1, bound_type(lower, upper), lower, upper);
    return 0;
}

int kept_column_limits(struct kept *k, int32_t column, double lower, double upper)
{
    if (!enter(k))
        return -1;
    if (setjmp(k->escape) != 0)
        return failed();
    glp_set_col_bnds(k->lp, column + 1, bound_type(lower, upper), lower, upper);
    return 0;
}

int kept_delete_rows(struct kept *k, int32_t count, const int32_t *row)
{
    if (!enter(k))
        return -1;
    if (setjmp(k->escape) != 0)
        return failed();
    int *number = glp_alloc(count + 1, sizeof *number);
    for (int e = 0; e < count; e++)
        number[e + 1] = row[e] + 1;
    glp_del_rows(k->lp, count, number);
    glp_free(number);
    return 0;
}

int kept_delete_columns(struct kept *k, int32_t count, const int32_t *column)
{
    if (!enter(k))
        return -1;
    if (setjmp(k->escape) != 0)
        return failed();
    int *number = glp_alloc(count + 1, sizeof *number);
    int basic = 0;
    for (int e = 0; e < count; e++) {
        number[e + 1] = column[e] + 1;
        basic |= glp_get_col_stat(k->lp, column[e] + 1) == GLP_BS;
    }
    glp_del_cols(k->lp, count, number);
    glp_free(number);
    if (basic) // what is left of the basis might be none
        glp_std_basis(k->lp);
    return 0;
}

static uint8_t variable_of(int glpk_status)
{
    switch (glpk_status) {
    case GLP_BS: return BRIDGE_BASIC;
    case GLP_NU: return BRIDGE_AT_UPPER;
    case GLP_NF: return BRIDGE_FREE;
    case GLP_NS: return BRIDGE_FIXED;
    default:     return BRIDGE_AT_LOWER;
    }
}

// run does so many iterations of a method at most: both can go round in
// circles on degenerate programs.
static int run(struct kept *k, int method, int presolve)
{
    glp_smcp parameters;
    glp_init_smcp(&parameters);
    parameters.msg_lev = GLP_MSG_OFF;
    parameters.meth = method;
    // Of programs as small as ours, plain prices and long steps of the dual
    // method take least; found by trial.
    parameters.pricing = GLP_PT_STD;
    parameters.r_test = GLP_RT_FLIP;
    parameters.presolve = presolve ? GLP_ON : GLP_OFF;
    parameters.it_lim = 1000 + 10 * (glp_get_num_rows(k->lp) + glp_get_num_cols(k->lp));
    return glp_simplex(k->lp, &parameters);
}

static int conclusive(const struct kept *k, int code)
{
    int status = glp_get_status(k->lp);
    return code == 0 && (status == GLP_OPT || status == GLP_NOFEAS || status == GLP_UNBND);
}

// simplex tries the method asked for from the last basis, then other ways. It
// reports whether one came to an end.
static int simplex(struct kept *k, int dual)
{
    if (conclusive(k, run(k, dual ? GLP_DUALP : GLP_PRIMAL, 0)))
        return 1;
    if (dual && conclusive(k, run(k, GLP_PRIMAL, 0)))
        return 1;
    glp_std_basis(k->lp);
    if (conclusive(k, run(k, GLP_PRIMAL, 0)))
        return 1;
    glp_adv_basis(k->lp, 0);
    if (conclusive(k, run(k, GLP_DUALP, 0)))
        return 1;
    glp_std_basis(k->lp);
    return conclusive(k, run(k, GLP_PRIMAL, 1));
}

int kept_solve(struct kept *k, int32_t dual, int32_t *iterations,
               double *x, double *row_dual, uint8_t *row_basis)
{
    if (!enter(k))
        return BRIDGE_FAILED;
    if (setjmp(k->escape) != 0) {
        failed();
        return BRIDGE_FAILED;
    }
    int before = glp_get_it_cnt(k->lp);
    int ended = simplex(k, dual);
    *iterations = glp_get_it_cnt(k->lp) - before;
    if (!ended)
        return BRIDGE_FAILED;
    switch (glp_get_status(k->lp)) {
    case GLP_OPT:   break;
    case GLP_UNBND: return BRIDGE_UNBOUNDED;
    default:        return BRIDGE_INFEASIBLE;
    }
    int rows = glp_get_num_rows(k->lp), columns = glp_get_num_cols(k->lp);
    for (int j = 0; j < columns; j++)
        x[j] = glp_get_col_prim(k->lp, j + 1);
    for (int i = 0; i < rows; i++) {
        row_dual[i] = glp_get_row_dual(k->lp, i + 1);
        row_basis[i] = variable_of(glp_get_row_stat(k->lp, i + 1));
    }
    return BRIDGE_OPTIMAL;
}

const char *kept_fault(const struct kept *k)
{
    return k->fault;
}

int kept_freed(const struct kept *k)
{
    return k->freed;
}
