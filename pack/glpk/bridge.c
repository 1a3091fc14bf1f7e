// The C side of the binding. GLPK 5.0 asks for three things, which are why
// all of a solve happens inside one call:
//
//   - A problem belongs to the environment of the thread that made it, so it
//     is made, solved and freed without leaving the thread.
//   - A wrong argument or a failed assertion calls abort() after the error
//     hook. The hook jumps back into bridge_solve instead; the frames that it
//     skips are all C, and glp_free_env gives back the memory they held, and
//     with it every problem that the thread keeps.
//   - Messages go to stdout unless the terminal hook takes them.

#include "bridge.h"

#include <glpk.h>
#include <limits.h>
#include <math.h>
#include <setjmp.h>
#include <string.h>

// Milliseconds of simplex work between two looks at the stop flag.
#define POLL_MS 10

enum escape { ESCAPE_FAULT = 1, ESCAPE_STOP };

struct run {
    struct bridge_call *call;
    glp_prob *lp;
    jmp_buf escape;
    int jumped;
    // Branch and bound: the callback stops the search, not a jump, so that
    // the best solution found so far is kept.
    int searching;
    int why; // the status to report if the callback ended the search
};

static int stop_asked(const struct run *r)
{
    return __atomic_load_n(r->call->stop, __ATOMIC_RELAXED);
}

static int stop_status(int asked)
{
    return asked == BRIDGE_STOP_TIME ? BRIDGE_TIME_LIMIT : BRIDGE_CANCELLED;
}

// on_text takes every message in place of the terminal. GLPK reports on the
// simplex method from time to time: that is the moment to look for a stop,
// and it does not change the path of the method as a limit would.
static int on_text(void *info, const char *text)
{
    struct run *r = info;
    if (glp_at_error()) {
        char *fault = r->call->fault;
        strncat(fault, text, sizeof r->call->fault - strlen(fault) - 1);
    } else if (!r->searching && stop_asked(r)) {
        longjmp(r->escape, ESCAPE_STOP);
    }
    return 1; // taken: nothing is written
}

static void on_fault(void *info)
{
    struct run *r = info;
    longjmp(r->escape, ESCAPE_FAULT);
}

static int bound_type(double lower, double upper)
{
    if (isinf(lower))
        return isinf(upper) ? GLP_FR : GLP_UP;
    if (isinf(upper))
        return GLP_LO;
    return lower < upper ? GLP_DB : GLP_FX;
}

static void load_matrix(const struct run *r)
{
    const struct bridge_call *c = r->call;
    int entries = c->start[c->columns];
    int *row = glp_alloc(entries + 1, sizeof *row);
    int *column = glp_alloc(entries + 1, sizeof *column);
    double *value = glp_alloc(entries + 1, sizeof *value);
    for (int j = 0; j < c->columns; j++) {
        for (int k = c->start[j]; k < c->start[j + 1]; k++) {
            row[k + 1] = c->index[k] + 1;
            column[k + 1] = j + 1;
            value[k + 1] = c->value[k];
        }
    }
    glp_load_matrix(r->lp, entries, row, column, value);
    glp_free(row);
    glp_free(column);
    glp_free(value);
}

// load makes the problem. It returns 0 if some limits exclude each other.
static int load(struct run *r)
{
    const struct bridge_call *c = r->call;
    glp_prob *lp = r->lp = glp_create_prob();
    glp_set_obj_dir(lp, GLP_MIN);
    if (c->rows > 0)
        glp_add_rows(lp, c->rows);
    if (c->columns > 0)
        glp_add_cols(lp, c->columns);
    for (int i = 0; i < c->rows; i++) {
        double lower = c->row_lower[i], upper = c->row_upper[i];
        if (lower > upper)
            return 0;
        glp_set_row_bnds(lp, i + 1, bound_type(lower, upper), lower, upper);
    }
    for (int j = 0; j < c->columns; j++) {
        double lower = c->lower[j], upper = c->upper[j];
        if (c->integer != NULL && c->integer[j]) {
            glp_set_col_kind(lp, j + 1, GLP_IV);
            lower = ceil(lower);
            upper = floor(upper);
        }
        if (lower > upper)
            return 0;
        glp_set_col_bnds(lp, j + 1, bound_type(lower, upper), lower, upper);
        glp_set_obj_coef(lp, j + 1, c->cost[j]);
    }
    load_matrix(r);
    return 1;
}

static void set_basis(const struct run *r)
{
    static const int glpk_status[] = { GLP_NL, GLP_NU, GLP_NF, GLP_NS, GLP_BS };
    const struct bridge_call *c = r->call;
    if (!c->has_basis) {
        glp_adv_basis(r->lp, 0);
        return;
    }
    for (int i = 0; i < c->rows; i++)
        glp_set_row_stat(r->lp, i + 1, glpk_status[c->row_basis[i]]);
    for (int j = 0; j < c->columns; j++)
        glp_set_col_stat(r->lp, j + 1, glpk_status[c->column_basis[j]]);
}

static uint8_t bridge_variable_of(int glpk_status)
{
    switch (glpk_status) {
    case GLP_BS: return BRIDGE_BASIC;
    case GLP_NU: return BRIDGE_AT_UPPER;
    case GLP_NF: return BRIDGE_FREE;
    case GLP_NS: return BRIDGE_FIXED;
    default:     return BRIDGE_AT_LOWER;
    }
}

static void get_lp_values(const struct run *r)
{
    struct bridge_call *c = r->call;
    c->has_values = 1;
    c->objective = glp_get_obj_val(r->lp);
    for (int i = 0; i < c->rows; i++) {
        c->row_dual[i] = glp_get_row_dual(r->lp, i + 1);
        c->row_basis[i] = bridge_variable_of(glp_get_row_stat(r->lp, i + 1));
    }
    for (int j = 0; j < c->columns; j++) {
        c->x[j] = glp_get_col_prim(r->lp, j + 1);
        c->reduced_cost[j] = glp_get_col_dual(r->lp, j + 1);
        c->column_basis[j] = bridge_variable_of(glp_get_col_stat(r->lp, j + 1));
    }
}

// simplex solves the linear program and returns GLPK's code. A basis that
// cannot be used, or on which the method breaks down, gives way to the
// standard one.
static int simplex(const struct run *r, int method, int presolve)
{
    glp_smcp parameters;
    glp_init_smcp(&parameters);
    parameters.msg_lev = r->call->interruptible ? GLP_MSG_ON : GLP_MSG_OFF;
    parameters.out_dly = parameters.out_frq = POLL_MS;
    parameters.meth = method;
    parameters.presolve = presolve ? GLP_ON : GLP_OFF;
    if (r->call->iteration_limit > 0)
        parameters.it_lim = r->call->iteration_limit;
    int code = glp_simplex(r->lp, &parameters);
    switch (code) {
    case GLP_EBADB:
    case GLP_ESING:
    case GLP_ECOND:
    case GLP_EFAIL:
        glp_std_basis(r->lp);
        return glp_simplex(r->lp, &parameters);
    default:
        return code;
    }
}

// conclusive says whether an ended simplex method has settled the problem.
static int conclusive(const struct run *r, int code)
{
    int status = glp_get_status(r->lp);
    if (code == GLP_EITLIM || code == GLP_ENOPFS)
        return 1;
    return code == 0 && (status == GLP_OPT || status == GLP_NOFEAS || status == GLP_UNBND);
}

// solve_relaxation solves the problem without its integrality. GLPK's dual
// method and its presolver may end knowing only that there is no dual
// solution; the primal method then tells unbounded from infeasible.
static int solve_relaxation(const struct run *r)
{
    struct bridge_call *c = r->call;
    if (c->scale)
        glp_scale_prob(r->lp, GLP_SF_AUTO);
    set_basis(r);
    int code = simplex(r, c->dual ? GLP_DUALP : GLP_PRIMAL, c->presolve);
    if (!conclusive(r, code) && (c->dual || c->presolve))
        code = simplex(r, GLP_PRIMAL, 0);
    c->iterations = glp_get_it_cnt(r->lp);
    if (!conclusive(r, code))
        return BRIDGE_FAILED;
    if (code == GLP_EITLIM)
        return BRIDGE_ITERATION_LIMIT;
    if (code == GLP_ENOPFS)
        return BRIDGE_INFEASIBLE;
    switch (glp_get_status(r->lp)) {
    case GLP_OPT:   return BRIDGE_OPTIMAL;
    case GLP_UNBND: return BRIDGE_UNBOUNDED;
    default:        return BRIDGE_INFEASIBLE;
    }
}

static int solve_lp(const struct run *r)
{
    int status = solve_relaxation(r);
    // A presolved problem that was not solved to the end has no values.
    if (status == BRIDGE_OPTIMAL ||
        (status == BRIDGE_ITERATION_LIMIT && !r->call->presolve))
        get_lp_values(r);
    return status;
}

// add_cut_off_column makes room for a cut-off: one more column, which is
// fixed at zero, in no row, and of cost 1. offer_cut_off gives the search a
// "solution" in which it alone has a value, the cut-off: GLPK then prunes
// all that is not better, as it does with a solution of its own. (It does
// not check a given solution against the limits, and it leaves fixed columns
// out when it rounds bounds to multiples of the costs.)
static void add_cut_off_column(const struct run *r)
{
    int j = glp_add_cols(r->lp, 1);
    glp_set_col_bnds(r->lp, j, GLP_FX, 0, 0);
    glp_set_obj_coef(r->lp, j, 1);
}

static void offer_cut_off(const struct run *r, glp_tree *tree)
{
    int columns = r->call->columns;
    double *x = glp_alloc(columns + 2, sizeof *x);
    memset(x, 0, (columns + 2) * sizeof *x);
    x[columns + 1] = r->call->cut_off;
    glp_ios_heur_sol(tree, x);
    glp_free(x);
}

static void end_search(struct run *r, glp_tree *tree, int why)
{
    int best = glp_ios_best_node(tree);
    if (best != 0) // before its first relaxation the root knows nothing
        r->call->bound = fmax(r->call->bound, glp_ios_node_bound(tree, best));
    r->why = why;
    glp_ios_terminate(tree);
}

// on_search is GLPK's branch-and-cut callback.
static void on_search(glp_tree *tree, void *info)
{
    struct run *r = info;
    struct bridge_call *c = r->call;
    int asked = stop_asked(r);
    if (!r->searching) {
        r->searching = 1;
        if (c->has_cut_off)
            offer_cut_off(r, tree);
    }
    if (asked)
        end_search(r, tree, stop_status(asked));
    else if (glp_ios_reason(tree) != GLP_IPREPRO)
        return;
    else if (c->node_limit > 0 && c->nodes >= c->node_limit)
        end_search(r, tree, BRIDGE_NODE_LIMIT);
    else
        c->nodes++; // a relaxation is about to be solved
}

static int branch_and_cut(struct run *r)
{
    const struct bridge_call *c = r->call;
    glp_iocp parameters;
    glp_init_iocp(&parameters);
    parameters.msg_lev = GLP_MSG_OFF;
    parameters.cb_func = on_search;
    parameters.cb_info = r;
    parameters.presolve = c->presolve ? GLP_ON : GLP_OFF;
    if (c->cuts)
        parameters.gmi_cuts = parameters.mir_cuts = GLP_ON;
    return glp_intopt(r->lp, &parameters);
}

static void get_mip_values(const struct run *r)
{
    struct bridge_call *c = r->call;
    c->has_values = 1;
    c->objective = glp_mip_obj_val(r->lp);
    for (int j = 0; j < c->columns; j++)
        c->x[j] = glp_mip_col_val(r->lp, j + 1);
}

// search solves the integer program and returns its status. It leaves the
// bound as the relaxation or end_search set it.
static int search(struct run *r)
{
    struct bridge_call *c = r->call;
    if (c->has_cut_off)
        c->presolve = 0; // its column would not survive
    if (!c->presolve) {
        int status = solve_relaxation(r);
        if (status != BRIDGE_OPTIMAL)
            return status;
        c->bound = glp_get_obj_val(r->lp);
    }
    int code = branch_and_cut(r);
    c->iterations = glp_get_it_cnt(r->lp);
    int status = glp_mip_status(r->lp);
    // The cut-off counts as found; a solution proper is below it.
    int held = (status == GLP_OPT || status == GLP_FEAS) &&
               (!c->has_cut_off || glp_mip_obj_val(r->lp) < c->cut_off);
    switch (code) {
    case 0:
    case GLP_ESTOP:
        if (held)
            get_mip_values(r);
        if (code == 0)
            return held ? BRIDGE_OPTIMAL : BRIDGE_INFEASIBLE;
        return held ? BRIDGE_FEASIBLE : r->why;
    case GLP_ENOPFS:
        return BRIDGE_INFEASIBLE;
    case GLP_ENODFS:
        return BRIDGE_UNBOUNDED;
    default:
        return BRIDGE_FAILED;
    }
}

static int solve_mip(struct run *r)
{
    struct bridge_call *c = r->call;
    c->bound = -INFINITY;
    if (c->has_cut_off)
        add_cut_off_column(r);
    int status = search(r);
    if (status == BRIDGE_OPTIMAL)
        c->bound = c->objective;
    else if (status == BRIDGE_INFEASIBLE)
        c->bound = c->has_cut_off ? c->cut_off : INFINITY;
    return status;
}

static int solve(struct run *r)
{
    if (!load(r))
        return BRIDGE_INFEASIBLE;
    return r->call->whole ? solve_mip(r) : solve_lp(r);
}

// guarded is apart from bridge_solve so that no variable of the function
// that calls setjmp changes before the jump back.
static void guarded(struct run *r)
{
    switch (setjmp(r->escape)) {
    case 0:
        r->call->status = solve(r);
        break;
    case ESCAPE_STOP:
        r->jumped = 1;
        r->call->has_values = 0;
        r->call->status = stop_status(stop_asked(r));
        break;
    default:
        r->jumped = 1;
        r->call->has_values = 0;
        r->call->status = BRIDGE_FAILED;
        break;
    }
}

// The number of times that the environment of a thread has been freed: all
// that was made in it before is gone.
static _Thread_local unsigned environment;

unsigned bridge_environment(void) { return environment; }

void bridge_reset(void)
{
    environment++;
    glp_free_env();
}

void bridge_solve(struct bridge_call *call)
{
    struct run r = { .call = call };
    glp_term_hook(on_text, &r);
    glp_error_hook(on_fault, &r);
    guarded(&r);
    if (r.jumped)
        bridge_reset(); // the problem, and whatever the jump left behind
    else if (r.lp != NULL)
        glp_delete_prob(r.lp);
}
