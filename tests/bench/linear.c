/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Linear cutting on the public instances u120, u250, u500 and t120 (reference data beside the tree; without it nothing is
 * measured), beside the plain model (whole numbers of each length on each bar, bars used or not; as many bars as the longest-first
 * rule needs) solved by GLPK in this process and by CBC as a process of its own. Times are processor times; the plain models get
 * a limit and the first few instances of each class, since most of them meet it. Arguments: seconds a plain model
 * (10; 0: none), plain models a class (2). */
#include "ceiling/linear_cut.h"
#include "base/number.h"
#include <glib/gstdio.h>
#include <glpk.h>
#include <math.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#define CLASSES 4
#define MOST_A_CLASS 20

typedef struct
{
  char name[16];
  gint64 capacity;
  int best;
  guint n;         /* distinct lengths, longest first */
  SwLinearItem items[512];
} Instance;

typedef struct
{
  double ms;
  int bars, bound; /* bars 0: none found; bound 0: none known */
  gboolean proven;
} Answer;

static double
now_ms (clockid_t clock)
{
  struct timespec now;
  clock_gettime (clock, &now);
  return now.tv_sec * 1e3 + now.tv_nsec / 1e6;
}

/* ---- reading ---- */

static int
compare_lengths (const void *pa, const void *pb)
{
  const SwLinearItem *a = pa, *b = pb;
  return (a->length < b->length) - (a->length > b->length);
}

static void
merge_equal (Instance *instance)
{
  guint kept = 0;
  qsort (instance->items, instance->n, sizeof *instance->items, compare_lengths);
  for (guint i = 0; i < instance->n; i++)
    if (kept > 0 && instance->items[kept - 1].length == instance->items[i].length)
      instance->items[kept - 1].copies++;
    else
      instance->items[kept++] = instance->items[i];
  instance->n = kept;
}

/* "name", capacity, count, best known; then the lengths. */
static guint
read_packings (const char *path, Instance *instances)
{
  g_autofree char *text = NULL;
  if (!g_file_get_contents (path, &text, NULL, NULL))
    return 0;
  char *save = NULL;
  guint count = (guint) atoi (strtok_r (text, " \r\n\t", &save));
  for (guint i = 0; i < count; i++)
    {
      Instance *instance = &instances[i];
      g_strlcpy (instance->name, strtok_r (NULL, " \r\n\t", &save), sizeof instance->name);
      instance->capacity = atoi (strtok_r (NULL, " \r\n\t", &save));
      instance->n = (guint) atoi (strtok_r (NULL, " \r\n\t", &save));
      instance->best = atoi (strtok_r (NULL, " \r\n\t", &save));
      for (guint k = 0; k < instance->n; k++)
        instance->items[k] = (SwLinearItem){ atoi (strtok_r (NULL, " \r\n\t", &save)), 1 };
      merge_equal (instance);
    }
  return count;
}

/* Count, capacity, lengths; 40 bars each by construction. */
static guint
read_triplets (const char *folder, Instance *instances)
{
  guint count = 0;
  for (guint i = 0; i < MOST_A_CLASS; i++)
    {
      Instance *instance = &instances[count];
      g_autofree char *path = g_strdup_printf ("%s/t120_%02u.txt", folder, i), *text = NULL;
      char *save = NULL;
      if (!g_file_get_contents (path, &text, NULL, NULL))
        continue;
      g_snprintf (instance->name, sizeof instance->name, "t120_%02u", i);
      instance->n = (guint) atoi (strtok_r (text, " \r\n\t", &save));
      instance->capacity = atoi (strtok_r (NULL, " \r\n\t", &save));
      instance->best = 40;
      for (guint k = 0; k < instance->n; k++)
        instance->items[k] = (SwLinearItem){ atoi (strtok_r (NULL, " \r\n\t", &save)), 1 };
      merge_equal (instance);
      count++;
    }
  return count;
}

/* ---- three ways to solve ---- */

static Answer
solve_ours (const Instance *instance)
{
  GError *error = NULL;
  SwLinearStock stock = { instance->capacity, 1, 0 };
  double start = now_ms (CLOCK_THREAD_CPUTIME_ID);
  g_autoptr (SwLinearPlan) plan = sw_linear_cut (instance->items, instance->n, &stock, 1, NULL, NULL, &error);
  double ms = now_ms (CLOCK_THREAD_CPUTIME_ID) - start;
  if (plan == NULL || !sw_linear_plan_check (plan, instance->items, instance->n, &stock, 1, NULL, &error))
    g_error ("%s: %s", instance->name, error->message);
  return (Answer){ ms, plan->n_bars, (int) plan->bound, plan->proven };
}

static guint
first_fit (const Instance *instance)
{
  gint64 left[512];
  guint bars = 0;
  for (guint i = 0; i < instance->n; i++)
    for (int k = 0; k < instance->items[i].copies; k++)
      {
        guint at = 0;
        while (at < bars && left[at] < instance->items[i].length)
          at++;
        if (at == bars)
          left[bars++] = instance->capacity;
        left[at] -= instance->items[i].length;
      }
  return bars;
}

static glp_prob *
plain_model (const Instance *instance)
{
  guint bars = first_fit (instance), n = instance->n;
  glp_term_out (GLP_OFF); /* the engine leaves no environment behind */
  glp_prob *model = glp_create_prob ();
  g_autofree int *index = g_new (int, MAX (bars, n) + 2);
  g_autofree double *value = g_new (double, MAX (bars, n) + 2);
  glp_add_rows (model, (int) (n + bars));
  glp_add_cols (model, (int) (bars + n * bars));
  for (guint b = 0; b < bars; b++) /* column b: whether bar b is used */
    {
      glp_set_col_kind (model, (int) b + 1, GLP_BV);
      glp_set_obj_coef (model, (int) b + 1, 1);
    }
  for (guint i = 0; i < n; i++)
    {
      for (guint b = 0; b < bars; b++)
        {
          int column = (int) (bars + i * bars + b) + 1;
          glp_set_col_kind (model, column, GLP_IV);
          glp_set_col_bnds (model, column, GLP_DB, 0, instance->items[i].copies);
          index[b + 1] = column;
          value[b + 1] = 1;
        }
      glp_set_row_bnds (model, (int) i + 1, GLP_FX, instance->items[i].copies, 0);
      glp_set_mat_row (model, (int) i + 1, (int) bars, index, value);
    }
  for (guint b = 0; b < bars; b++)
    {
      for (guint i = 0; i < n; i++)
        {
          index[i + 1] = (int) (bars + i * bars + b) + 1;
          value[i + 1] = (double) instance->items[i].length;
        }
      index[n + 1] = (int) b + 1;
      value[n + 1] = -(double) instance->capacity;
      glp_set_row_bnds (model, (int) (n + b) + 1, GLP_UP, 0, 0);
      glp_set_mat_row (model, (int) (n + b) + 1, (int) n + 1, index, value);
    }
  return model;
}

static Answer
solve_glpk (glp_prob *model, double seconds)
{
  glp_iocp options;
  glp_init_iocp (&options);
  options.msg_lev = GLP_MSG_OFF;
  options.presolve = GLP_ON;
  options.tm_lim = (int) (seconds * 1000);
  double start = now_ms (CLOCK_THREAD_CPUTIME_ID);
  glp_intopt (model, &options);
  int status = glp_mip_status (model);
  Answer answer = { now_ms (CLOCK_THREAD_CPUTIME_ID) - start, 0, 0, status == GLP_OPT };
  if (status == GLP_OPT || status == GLP_FEAS)
    answer.bars = (int) lround (glp_mip_obj_val (model));
  return answer;
}

static double
children_ms (void)
{
  struct rusage usage;
  getrusage (RUSAGE_CHILDREN, &usage);
  return (usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) * 1e3 + (usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) / 1e3;
}

static Answer
solve_cbc (glp_prob *model, const char *cbc, double seconds)
{
  g_autofree char *path = g_build_filename (g_get_tmp_dir (), "soffitwright-bench-XXXXXX", NULL), *output = NULL;
  g_autofree char *limit = g_strdup_printf ("%d", (int) seconds);
  int file = g_mkstemp (path);
  Answer answer = { 0 };
  if (file < 0)
    return answer;
  close (file);
  glp_write_mps (model, GLP_MPS_FILE, NULL, path);
  const char *words[] = { cbc, path, "-seconds", limit, "-solve", "-quit", NULL };
  double start = children_ms ();
  if (g_spawn_sync (NULL, (char **) words, NULL, G_SPAWN_STDERR_TO_DEV_NULL, NULL, NULL, &output, NULL, NULL, NULL))
    {
      const char *value = strstr (output, "Objective value:");
      answer.proven = strstr (output, "Result - Optimal solution found") != NULL;
      if (value)
        answer.bars = (int) lround (g_ascii_strtod (value + strlen ("Objective value:"), NULL));
    }
  answer.ms = children_ms () - start;
  g_unlink (path);
  return answer;
}

/* ---- the table ---- */

static int
compare_ms (const void *pa, const void *pb)
{
  double a = ((const Answer *) pa)->ms, b = ((const Answer *) pb)->ms;
  return (a > b) - (a < b);
}

static void
print_row (const char *class, const char *solver, Answer *answers, const Instance *instances, guint n)
{
  guint proven = 0, best = 0, more = 0;
  for (guint i = 0; i < n; i++)
    {
      proven += answers[i].proven;
      best += answers[i].bars > 0 && answers[i].bars <= instances[i].best;
      more += answers[i].bars > 0 ? (guint) MAX (answers[i].bars - instances[i].best, 0) : 0;
    }
  qsort (answers, n, sizeof *answers, compare_ms);
  g_print ("%-6s %-16s %9u %7u %10u %9u %11.1f %10.1f\n", class, solver, n, proven, best, more, answers[n / 2].ms,
           answers[n - 1].ms);
}

static void
measure_class (const char *class, const Instance *instances, guint n, double seconds, guint plain)
{
  static Answer ours[MOST_A_CLASS], glpk[MOST_A_CLASS], others[MOST_A_CLASS];
  g_autofree char *cbc = g_find_program_in_path ("cbc");
  for (guint i = 0; i < n; i++)
    ours[i] = solve_ours (&instances[i]);
  print_row (class, "column generation", ours, instances, n);
  plain = seconds > 0 ? MIN (plain, n) : 0;
  for (guint i = 0; i < plain; i++)
    {
      glp_prob *model = plain_model (&instances[i]);
      if (cbc)
        others[i] = solve_cbc (model, cbc, seconds);
      glpk[i] = solve_glpk (model, seconds);
      glp_delete_prob (model);
    }
  if (plain > 0)
    print_row (class, "plain, GLPK", glpk, instances, plain);
  if (plain > 0 && cbc)
    print_row (class, "plain, CBC", others, instances, plain);
  else if (plain > 0)
    g_print ("%-6s plain, CBC: skipped, cbc is not installed\n", class);
}

int
main (int argc, char **argv)
{
  static const char *classes[CLASSES] = { "u120", "u250", "u500", "t120" };
  static Instance instances[MOST_A_CLASS];
  const char *root = g_getenv ("SOFFITWRIGHT_SOURCE");
  g_autofree char *folder = g_build_filename (root ? root : ".", "../shared/reference/cutting1d", NULL);
  double seconds = argc > 1 ? g_ascii_strtod (argv[1], NULL) : 10;
  guint plain = argc > 2 ? (guint) atoi (argv[2]) : 2;
  if (!g_file_test (folder, G_FILE_TEST_IS_DIR))
    {
      g_print ("skipped: the public instances are not at %s\n", folder);
      return 0;
    }
  g_print ("class  solver           instances  proven best known more bars   median ms greatest ms\n");
  for (guint c = 0; c < CLASSES; c++)
    {
      g_autofree char *file = g_strdup_printf ("%s/binpack%u.txt", folder, c + 1);
      guint n = c < 3 ? read_packings (file, instances) : read_triplets (folder, instances);
      if (n > 0)
        measure_class (classes[c], instances, n, seconds, plain);
    }
  return 0;
}
