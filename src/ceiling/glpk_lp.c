/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ceiling/glpk_lp.h"
#include "base/error.h"
#include <glpk.h>
#include <math.h>
#include <setjmp.h>

/* The one file that talks to GLPK. Its environment belongs to the thread: the last programme that a thread frees takes it down.
 * What GLPK would print is dropped by a hook; what it takes for misuse would abort the program: its error hook jumps back
 * here instead, after which the environment is beyond use and is freed whole. A number that is not finite would be "solved"
 * without a word, so none is let in. */

struct _SwLp
{
  glp_prob *problem;
  guint n_rows, n_at_least;
  guint environment; /* that it was made in */
};

static _Thread_local guint live, environment; /* counted on when an abort took one down */
static _Thread_local jmp_buf back;

static int
drop_output (void *info, const char *text)
{
  return 1;
}

static void
jump_back (void *info)
{
  longjmp (back, 1);
}

static gboolean
fail (GError **error, const char *what)
{
  g_set_error (error, SW_ERROR, SW_ERROR_INTERNAL, "linear programme: %s", what);
  return FALSE;
}

/* What went wrong inside: nothing of the environment can be trusted any more. */
static gboolean
abandon (SwLp *lp, GError **error)
{
  glp_error_hook (NULL, NULL);
  glp_free_env ();
  environment++;
  return fail (error, "the solver gave up");
}

static gboolean
is_ready (const SwLp *lp, GError **error)
{
  return lp->environment == environment || fail (error, "it failed before");
}

/* Runs `work` with the hooks set. */
typedef int (*Work) (SwLp *lp, gconstpointer data);

static gboolean
guarded (SwLp *lp, Work work, gconstpointer data, int *result, GError **error)
{
  if (!is_ready (lp, error))
    return FALSE;
  if (setjmp (back) != 0)
    return abandon (lp, error);
  glp_term_hook (drop_output, NULL);
  glp_error_hook (jump_back, NULL);
  *result = work (lp, data);
  glp_error_hook (NULL, NULL);
  return TRUE;
}

static int
create (SwLp *lp, gconstpointer data)
{
  lp->problem = glp_create_prob ();
  glp_set_obj_dir (lp->problem, GLP_MIN);
  glp_add_rows (lp->problem, (int) lp->n_rows);
  for (guint i = 0; i < lp->n_rows; i++)
    glp_set_row_bnds (lp->problem, (int) i + 1, i < lp->n_at_least ? GLP_LO : GLP_UP, 0, 0);
  return 0;
}

SwLp *
sw_lp_new (guint n_rows, guint n_at_least, GError **error)
{
  SwLp *lp = g_new0 (SwLp, 1);
  lp->n_rows = n_rows;
  lp->n_at_least = n_at_least;
  lp->environment = environment;
  live++;
  if (setjmp (back) == 0)
    {
      glp_term_hook (drop_output, NULL);
      glp_error_hook (jump_back, NULL);
      create (lp, NULL);
      glp_error_hook (NULL, NULL);
      return lp;
    }
  abandon (lp, error);
  sw_lp_free (lp);
  return NULL;
}

void
sw_lp_free (SwLp *lp)
{
  if (lp == NULL)
    return;
  if (lp->environment == environment && lp->problem != NULL)
    glp_delete_prob (lp->problem);
  if (--live == 0)
    glp_free_env ();
  g_free (lp);
}

typedef struct
{
  guint index;
  double number;
  const double *values;
  gboolean flag;
} Change;

static int
set_row (SwLp *lp, gconstpointer data)
{
  const Change *change = data;
  int kind = change->index < lp->n_at_least ? GLP_LO : GLP_UP;
  glp_set_row_bnds (lp->problem, (int) change->index + 1, kind, change->number, change->number);
  return 0;
}

gboolean
sw_lp_set_row (SwLp *lp, guint row, double right, GError **error)
{
  int result;
  Change change = { row, right, NULL, FALSE };
  if (!isfinite (right) || row >= lp->n_rows)
    return fail (error, "a row's right side is not a number");
  return guarded (lp, set_row, &change, &result, error);
}

static int
add_column (SwLp *lp, gconstpointer data)
{
  const Change *change = data;
  int column = glp_add_cols (lp->problem, 1), n = 0;
  g_autofree int *rows = g_new (int, lp->n_rows + 1);
  g_autofree double *values = g_new (double, lp->n_rows + 1);
  for (guint i = 0; i < lp->n_rows; i++)
    if (change->values[i] != 0)
      {
        rows[++n] = (int) i + 1;
        values[n] = change->values[i];
      }
  glp_set_col_bnds (lp->problem, column, GLP_LO, 0, 0);
  glp_set_obj_coef (lp->problem, column, change->number);
  glp_set_mat_col (lp->problem, column, n, rows, values);
  return 0;
}

gboolean
sw_lp_add_column (SwLp *lp, double cost, const double *values, GError **error)
{
  int result;
  Change change = { 0, cost, values, FALSE };
  gboolean finite = isfinite (cost);
  for (guint i = 0; i < lp->n_rows; i++)
    finite = finite && isfinite (values[i]);
  if (!finite)
    return fail (error, "a column holds what is not a number");
  return guarded (lp, add_column, &change, &result, error);
}

static int
open_column (SwLp *lp, gconstpointer data)
{
  const Change *change = data;
  glp_set_col_bnds (lp->problem, (int) change->index + 1, change->flag ? GLP_LO : GLP_FX, 0, 0);
  return 0;
}

gboolean
sw_lp_open_column (SwLp *lp, guint column, gboolean open, GError **error)
{
  int result;
  Change change = { column, 0, NULL, open };
  return guarded (lp, open_column, &change, &result, error);
}

/* From the last basis; when that has gone bad, once more from a fresh one. */
static int
solve (SwLp *lp, gconstpointer data)
{
  glp_smcp how;
  glp_init_smcp (&how);
  how.msg_lev = GLP_MSG_OFF;
  how.meth = GLP_DUALP;
  int failed = glp_simplex (lp->problem, &how);
  if (failed != 0 || glp_get_status (lp->problem) != GLP_OPT)
    {
      glp_adv_basis (lp->problem, 0);
      how.meth = GLP_PRIMAL;
      failed = glp_simplex (lp->problem, &how);
    }
  return failed != 0 ? GLP_UNDEF : glp_get_status (lp->problem);
}

gboolean
sw_lp_solve (SwLp *lp, GError **error)
{
  int status;
  if (!guarded (lp, solve, NULL, &status, error))
    return FALSE;
  if (status == GLP_OPT && isfinite (glp_get_obj_val (lp->problem)))
    return TRUE;
  if (status != GLP_NOFEAS && status != GLP_INFEAS)
    return fail (error, "no optimum was reached");
  g_set_error_literal (error, SW_ERROR, SW_ERROR_NOT_FOUND, "linear programme: nothing fits");
  return FALSE;
}

double
sw_lp_value (const SwLp *lp)
{
  return glp_get_obj_val (lp->problem);
}

double
sw_lp_dual (const SwLp *lp, guint row)
{
  return glp_get_row_dual (lp->problem, (int) row + 1);
}

double
sw_lp_primal (const SwLp *lp, guint column)
{
  return glp_get_col_prim (lp->problem, (int) column + 1);
}

static int
solve_integer (SwLp *lp, gconstpointer data)
{
  glp_iocp how;
  glp_init_iocp (&how);
  how.msg_lev = GLP_MSG_OFF;
  how.tm_lim = (int) fmin (*(const double *) data * 1e3, 1e9);
  for (int i = 1; i <= glp_get_num_cols (lp->problem); i++)
    glp_set_col_kind (lp->problem, i, GLP_IV);
  int failed = glp_intopt (lp->problem, &how);
  return failed != 0 ? GLP_UNDEF : glp_mip_status (lp->problem);
}

gboolean
sw_lp_solve_integer (SwLp *lp, double seconds, double *value, GError **error)
{
  int status;
  if (!sw_lp_solve (lp, error) || !guarded (lp, solve_integer, &seconds, &status, error))
    return FALSE;
  if (status != GLP_OPT)
    return fail (error, "not solved in the time given");
  *value = glp_mip_obj_val (lp->problem);
  return TRUE;
}
