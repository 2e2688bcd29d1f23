/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Every operation on the disk fails in turn, then the process dies at random. Afterwards the job opens with exactly the
 * edits that were reported as done, or one more when the last step of a commit failed. */
#include "fault_vfs.h"
#include "job/desk.h"
#include "sample.h"
#include "store/job_file.h"
#include "support.h"
#include <glib/gstdio.h>
#include <signal.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static const char *program;

/* What the script does, a letter a step: e an edit, u undo, r redo, f forget the history. The longer one goes over a job
 * with records in every table. */
static const char full_script[] = "eeurufe", short_script[] = "euer";

static const char *
script (void)
{
  return sw_test_is_full () ? full_script : short_script;
}

static SwJob *
start_job (void)
{
  return sw_sample_job (40, sw_test_is_full () ? 1 : 0);
}

/* The job with a step done, which failed; NULL when there was nothing to do. `shadow` stands as the desk does. */
static SwJob *
job_if_done (SwDesk *shadow, char letter, SwEdit *edit)
{
  SwJob *job = NULL;
  if (letter == 'e')
    return sw_job_apply (sw_desk_job (shadow), edit, TRUE, NULL);
  if (letter == 'f')
    return sw_job_ref (sw_desk_job (shadow));
  if (letter == 'u' ? sw_desk_undo (shadow, NULL) : sw_desk_redo (shadow, NULL))
    {
      job = sw_job_ref (sw_desk_job (shadow));
      g_assert_true (letter == 'u' ? sw_desk_redo (shadow, NULL) : sw_desk_undo (shadow, NULL));
    }
  return job;
}

static gboolean
do_step (SwDesk *desk, char letter, SwEdit *edit)
{
  switch (letter)
    {
    case 'e':
      return sw_desk_do (desk, edit, NULL);
    case 'u':
      return sw_desk_undo (desk, NULL);
    case 'r':
      return sw_desk_redo (desk, NULL);
    default:
      return sw_desk_forget_history (desk, NULL);
    }
}

/* Runs the script on the file, over steps that fail. `may_be` is what the file may hold: the job as after the last step
 * that was done, or with one that failed since. */
static void
run_script (const char *path, GPtrArray *may_be)
{
  g_autoptr (SwJobFile) file = sw_job_file_open (path, FALSE, NULL);
  if (file == NULL)
    return;
  SwRandom random = { 77 };
  g_autoptr (SwDesk) desk = sw_desk_new (sw_job_file_job (file), sw_job_file_take_journal (file));
  g_autoptr (SwDesk) shadow = sw_desk_new (sw_job_file_job (file), NULL); /* the same without a file */
  for (const char *step = script (); *step != '\0'; step++)
    {
      g_autoptr (SwEdit) edit = *step == 'e' ? sw_sample_edit (&random, sw_desk_job (desk)) : NULL;
      if (do_step (desk, *step, edit))
        {
          g_assert_true (do_step (shadow, *step, edit));
          g_ptr_array_set_size (may_be, 0);
          g_ptr_array_add (may_be, sw_job_ref (sw_desk_job (desk)));
        }
      else
        {
          SwJob *job = job_if_done (shadow, *step, edit);
          if (job != NULL)
            g_ptr_array_add (may_be, job);
        }
    }
}

/* The file opens to be written, holds what it should, and its history leads back and forth. */
static void
check_file (const char *path, GPtrArray *may_be)
{
  GError *error = NULL;
  g_autoptr (SwJobFile) file = sw_job_file_open (path, FALSE, &error);
  g_assert_no_error (error);
  if (file == NULL)
    return;
  g_assert_cmpint (sw_job_file_read_only (file), ==, SW_READ_ONLY_NOT);
  SwJob *job = sw_job_file_job (file);
  gboolean known = FALSE;
  for (guint i = 0; i < may_be->len; i++)
    known |= sw_job_equal (job, may_be->pdata[i]);
  g_assert_true (known);
  g_autoptr (SwDesk) desk = sw_desk_new (job, sw_job_file_take_journal (file));
  guint undone = 0;
  while (sw_desk_undo (desk, &error))
    undone++;
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "nothing to undo");
  for (; undone > 0; undone--)
    g_assert_true (sw_desk_redo (desk, &error));
  g_assert_no_error (error);
  g_assert_true (sw_job_equal (sw_desk_job (desk), job));
}

static GBytes *
fresh_job (void)
{
  g_autofree char *folder = sw_test_folder (), *path = g_build_filename (folder, "job.soffit", NULL);
  g_autoptr (SwJob) job = start_job ();
  SwJobFile *file = sw_job_file_create (path, job, FALSE, NULL);
  g_assert_nonnull (file);
  sw_job_file_unref (file);
  char *bytes = NULL;
  gsize length = 0;
  g_assert_true (g_file_get_contents (path, &bytes, &length, NULL));
  return g_bytes_new_take (bytes, length);
}

/* Fails operation n, then n + step …, until the script runs through; `cut`: the power goes with it. */
static void
fail_each (FaultKind kind, gboolean lasting, gboolean cut, int step)
{
  g_autofree char *folder = sw_test_folder (), *path = g_build_filename (folder, "job.soffit", NULL);
  g_autoptr (GBytes) fresh = fresh_job ();
  int n = 1;
  step *= 10 / sw_test_rounds (10);
  for (gboolean fired = TRUE; fired; n += step)
    {
      g_autoptr (GPtrArray) may_be = g_ptr_array_new_with_free_func ((GDestroyNotify) sw_job_unref);
      fault_vfs_forget ();
      g_assert_true (g_file_set_contents (path, g_bytes_get_data (fresh, NULL), (gssize) g_bytes_get_size (fresh), NULL));
      g_autoptr (SwJobFile) file = sw_job_file_open (path, TRUE, NULL);
      g_ptr_array_add (may_be, sw_job_ref (sw_job_file_job (file)));
      g_clear_pointer (&file, sw_job_file_unref);
      fault_vfs_arm (n, kind, lasting);
      run_script (path, may_be);
      fired = fault_vfs_disarm ();
      if (cut)
        fault_vfs_cut ();
      check_file (path, may_be);
      if (g_test_failed ())
        {
          g_test_message ("operation %d", n);
          break;
        }
    }
  g_test_message ("%d operations", n - step);
  g_assert_cmpint (n, >, sw_test_is_full () ? 150 : 30);
}

static void
test_one_fault (gconstpointer data)
{
  static const int steps[N_FAULTS] = { [FAULT_IO] = 1, [FAULT_FULL] = 4, [FAULT_LATE] = 1 };
  fail_each ((FaultKind) GPOINTER_TO_INT (data), FALSE, FALSE, steps[GPOINTER_TO_INT (data)]);
}

/* Most of what they find a single fault finds too. */
static void
test_lasting_faults (gconstpointer data)
{
  fail_each ((FaultKind) GPOINTER_TO_INT (data), TRUE, FALSE, 5);
}

static void
test_power_cut (void)
{
  fail_each (FAULT_IO, TRUE, TRUE, 2);
}

static void
check_no_parts (const char *folder)
{
  const char *name;
  GDir *dir = g_dir_open (folder, 0, NULL);
  while ((name = g_dir_read_name (dir)) != NULL)
    if (g_str_has_suffix (name, ".part") || *name == '.')
      g_assert_cmpstr (name, ==, "nothing like this");
  g_dir_close (dir);
}

/* New files and copies: a fault leaves the one that was there, or the whole new one, and nothing beside it. */
static void
test_new_files (void)
{
  g_autofree char *folder = sw_test_folder (), *path = g_build_filename (folder, "job.soffit", NULL), *copy = g_build_filename (folder, "copy.soffit", NULL);
  g_autoptr (SwJob) old = sw_sample_job (41, 1), job = sw_sample_job (42, 2);
  gboolean fired = TRUE;
  for (int n = 1; fired; n += sw_test_is_full () ? 1 : 9)
    {
      g_autoptr (GError) error = NULL;
      SwJobFile *file = sw_job_file_create (path, old, TRUE, NULL);
      g_assert_nonnull (file);
      sw_job_file_unref (file);
      fault_vfs_arm (n, n % 2 ? FAULT_IO : FAULT_FULL, FALSE);
      file = sw_job_file_create (path, job, TRUE, &error);
      gboolean copied = file != NULL && sw_job_file_save_copy (file, copy, NULL);
      g_clear_pointer (&file, sw_job_file_unref);
      fired = fault_vfs_disarm ();
      file = sw_job_file_open (path, TRUE, NULL);
      g_assert_true (file != NULL && sw_job_equal (sw_job_file_job (file), error == NULL ? job : old));
      g_clear_pointer (&file, sw_job_file_unref);
      file = copied ? sw_job_file_open (copy, TRUE, NULL) : NULL;
      g_assert_true (!copied || (file != NULL && sw_job_equal (sw_job_file_job (file), job)));
      g_clear_pointer (&file, sw_job_file_unref);
      check_no_parts (folder);
      g_unlink (copy);
      file = sw_job_file_open (path, FALSE, NULL); /* takes back what was interrupted */
      g_clear_pointer (&file, sw_job_file_unref);
      if (g_test_failed ())
        break;
    }
}

/* The other process: applies edits and says after each that it is done. */
static int
part_edit (const char *path)
{
  SwRandom random = { 78 };
  g_autoptr (SwJobFile) file = sw_job_file_open (path, FALSE, NULL);
  g_autoptr (SwDesk) desk = sw_desk_new (sw_job_file_job (file), sw_job_file_take_journal (file));
  for (int i = 0; i < 200; i++)
    {
      g_autoptr (SwEdit) edit = sw_sample_edit (&random, sw_desk_job (desk));
      if (!sw_desk_do (desk, edit, NULL) || write (STDOUT_FILENO, "+", 1) != 1)
        return 1;
    }
  return 0;
}

/* Starts it, kills it after `some` reports and a moment; returns how many it made. */
static guint
edit_and_kill (const char *path, guint some, guint moment_us)
{
  int ends[2];
  guint reported = 0;
  char report;
  g_assert_cmpint (pipe (ends), ==, 0);
  pid_t child = fork ();
  if (child == 0)
    {
      dup2 (ends[1], STDOUT_FILENO);
      close (ends[0]);
      execl (program, program, "--part", "edit", path, NULL);
      _exit (127);
    }
  close (ends[1]);
  while (reported < some && read (ends[0], &report, 1) == 1)
    reported++;
  g_usleep (moment_us);
  kill (child, SIGKILL);
  g_assert_cmpint (waitpid (child, NULL, 0), ==, child);
  while (read (ends[0], &report, 1) == 1)
    reported++;
  close (ends[0]);
  return reported;
}

/* 200 edits, killed anywhere: each one that was reported is there, in full, and at most one more. */
static void
test_kill (void)
{
  SwRandom random = { 79 };
  g_autofree char *folder = sw_test_folder (), *path = g_build_filename (folder, "job.soffit", NULL);
  g_autoptr (GBytes) fresh = fresh_job ();
  guint most = 0;
  for (int round = 0; round < (sw_test_is_full () ? 20 : 4); round++)
    {
      GError *error = NULL;
      g_assert_true (g_file_set_contents (path, g_bytes_get_data (fresh, NULL), (gssize) g_bytes_get_size (fresh), NULL));
      guint reported = edit_and_kill (path, (guint) sw_random_int (&random, 0, 200), (guint) sw_random_int (&random, 0, 4000));
      most = MAX (most, reported);
      g_autoptr (SwJobFile) file = sw_job_file_open (path, FALSE, &error);
      g_assert_no_error (error);
      g_assert_cmpint (sw_job_file_read_only (file), ==, SW_READ_ONLY_NOT);
      g_autoptr (SwDesk) desk = sw_desk_new (sw_job_file_job (file), sw_job_file_take_journal (file));
      guint length = sw_desk_history_length (desk);
      g_assert_cmpuint (length, >=, reported);
      g_assert_cmpuint (length, <=, reported + 1);

      SwRandom same = { 78 };
      g_autoptr (SwJob) start = start_job ();
      g_autoptr (SwDesk) memory = sw_desk_new (start, NULL);
      for (guint i = 0; i < length; i++)
        {
          g_autoptr (SwEdit) edit = sw_sample_edit (&same, sw_desk_job (memory));
          g_assert_true (sw_desk_do (memory, edit, NULL));
        }
      g_assert_true (sw_job_equal (sw_desk_job (memory), sw_desk_job (desk)));
    }
  g_assert_cmpuint (most, >, 20);
}

int
main (int argc, char **argv)
{
  if (argc == 4 && strcmp (argv[1], "--part") == 0 && strcmp (argv[2], "edit") == 0)
    return part_edit (argv[3]);
  program = argv[0];
  sw_sample_fast_folders ();
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/job-faults/kill", test_kill);
  fault_vfs_install ();
  static const char *const names[N_FAULTS] = { "io", "full", "late" };
  for (int kind = 0; kind < N_FAULTS; kind++)
    {
      g_autofree char *one = g_strdup_printf ("/store/job-faults/one/%s", names[kind]), *lasting = g_strdup_printf ("/store/job-faults/lasting/%s", names[kind]);
      g_test_add_data_func (one, GINT_TO_POINTER (kind), test_one_fault);
      g_test_add_data_func (lasting, GINT_TO_POINTER (kind), test_lasting_faults);
    }
  g_test_add_func ("/store/job-faults/power-cut", test_power_cut);
  g_test_add_func ("/store/job-faults/new-files", test_new_files);
  return g_test_run ();
}
