/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <glib.h>

/* A linear programme that grows by columns: min c·x, rows ≥ or ≤ their right side, x ≥ 0. To be used and freed in the thread
 * that made it. Everything that goes in has to be finite, else SW_ERROR_INTERNAL; after any error only freeing is allowed. */
typedef struct _SwLp SwLp;

/* Rows below n_at_least are ≥, the others ≤. */
SwLp *sw_lp_new (guint n_rows, guint n_at_least, GError **error);
void sw_lp_free (SwLp *lp);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwLp, sw_lp_free)

gboolean sw_lp_set_row (SwLp *lp, guint row, double right, GError **error);
/* `values` has one number a row. */
gboolean sw_lp_add_column (SwLp *lp, double cost, const double *values, GError **error);
/* Shut columns stay at 0. */
gboolean sw_lp_open_column (SwLp *lp, guint column, gboolean open, GError **error);

/* Goes on from where the last one ended. FALSE with SW_ERROR_NOT_FOUND when nothing fits the rows. */
gboolean sw_lp_solve (SwLp *lp, GError **error);
double sw_lp_value (const SwLp *lp);
double sw_lp_dual (const SwLp *lp, guint row);
double sw_lp_primal (const SwLp *lp, guint column);

/* An integer programme over all columns by GLPK's own branch and cut, for comparison in benchmarks; FALSE when it was not
 * solved within the seconds given. */
gboolean sw_lp_solve_integer (SwLp *lp, double seconds, double *value, GError **error);
