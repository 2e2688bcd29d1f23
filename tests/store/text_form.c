/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/text_form.h"
#include "sample.h"
#include "store/json_read.h"
#include "support.h"
#include <locale.h>
#include <string.h>

#define HEAD "{\"format\": \"soffit-job\", \"version\": 1"

static void
test_round_trip (void)
{
  for (guint64 seed = 1; seed <= 20; seed++)
    {
      GError *error = NULL;
      g_autoptr (SwJob) job = sw_sample_job (seed, 4);
      g_autofree char *text = sw_text_form_write (job);
      g_autoptr (SwJob) back = sw_text_form_read (text, -1, &error);
      g_assert_no_error (error);
      g_assert_nonnull (back);
      g_assert_true (sw_job_equal (job, back));
      g_autofree char *again = sw_text_form_write (back);
      g_assert_cmpstr (text, ==, again);
    }
}

/* Ids with gaps are closed, in the same order: the text stays. */
static void
test_gaps (void)
{
  SwRandom random = { 3 };
  g_autoptr (SwJob) job = sw_sample_job (5, 4);
  for (int i = 0; i < 40; i++)
    {
      g_autoptr (SwEdit) edit = sw_sample_edit (&random, job);
      SwJob *next = sw_job_apply (job, edit, TRUE, NULL);
      g_assert_nonnull (next);
      sw_job_unref (job);
      job = next;
    }
  GError *error = NULL;
  g_autofree char *text = sw_text_form_write (job);
  g_autoptr (SwJob) back = sw_text_form_read (text, -1, &error);
  g_assert_no_error (error);
  g_autofree char *again = sw_text_form_write (back);
  g_assert_cmpstr (text, ==, again);
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    g_assert_cmpuint (sw_job_count (job, table), ==, sw_job_count (back, table));
}

/* What is written for a small job, to the letter: defaults left out, order of the fields, long lists one item a line. */
static void
test_form (void)
{
  static const char given[] = HEAD ", \"rooms\": [{\"outline\": [[0, 0], [3000.5, 0], [3000.5, 2e3], [0, 2000]], \"id\": \"Hall\", \"edge\": \"plain\"}],"
    "\"prices\": [{\"id\": \"board\", \"material\": \"12.5\", \"labour\": \"0\"}],"
    "\"runs\": [{\"vertices\": [{\"at\": [0, 0], \"z\": 60}, {\"z\": 0, \"at\": [9000, 0], \"level\": \"fall\"}, {\"at\": [9000, 2000], \"level\": \"fall\"}]}]}";
  static const char wanted[] =
    "{\n  \"format\": \"soffit-job\",\n  \"version\": 1,\n  \"job\": {},\n"
    "  \"rooms\": [\n    {\n      \"id\": \"Hall\",\n      \"outline\": [[0, 0], [3000.5, 0], [3000.5, 2000], [0, 2000]],\n      \"edge\": \"plain\"\n    }\n  ],\n"
    "  \"runs\": [\n    {\n      \"id\": \"R1\",\n      \"vertices\": [\n        {\"at\": [0, 0], \"z\": 60},\n        {\"at\": [9000, 0], \"level\": \"fall\"},\n"
    "        {\"at\": [9000, 2000], \"level\": \"fall\"}\n      ]\n    }\n  ],\n"
    "  \"prices\": [\n    {\n      \"id\": \"board\",\n      \"material\": \"12.50\"\n    }\n  ]\n}\n";
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_text_form_read (given, -1, &error);
  g_assert_no_error (error);
  g_autofree char *text = sw_text_form_write (job);
  g_assert_cmpstr (text, ==, wanted);
}

static void
test_automatic_marks (void)
{
  GError *error = NULL;
  g_autoptr (SwJob) job = sw_text_form_read (HEAD ", \"lights\": [{\"at\": [0, 0]}, {\"at\": [1, 0], \"id\": \"L1\"}, {\"at\": [2, 0]}, {\"at\": [3, 0], \"id\": \"L3\"}]}", -1, &error);
  g_assert_no_error (error);
  static const char *const marks[] = { "L2", "L1", "L4", "L3" };
  for (guint i = 0; i < G_N_ELEMENTS (marks); i++)
    g_assert_cmpstr (sw_job_nth (job, SW_TABLE_LIGHT, i)->tag, ==, marks[i]);
}

static void
test_errors (void)
{
  static const struct { const char *rest, *message; int code; } cases[] = {
    { ", \"rooms\": [{\"outline\": [[0,0],[1,0]]}]}", "rooms[0].outline: needs at least 3 points", SW_ERROR_INVALID },
    { ", \"rooms\": [{\"outline\": [[0,0],[100,100],[100,0],[0,100]]}]}", "rooms[0].outline[", SW_ERROR_INVALID },
    { ", \"rooms\": [{\"outline\": [[0,0],[1],[0,1]]}]}", "rooms[0].outline[1]: must be [x, y], not a list of 1", SW_ERROR_INVALID },
    { ", \"rooms\": [{\"outline\": [[0,0],[1,\"2\"],[0,1]]}]}", "rooms[0].outline[1][1]: must be a number, not a text", SW_ERROR_INVALID },
    { ", \"rooms\": [{}]}", "rooms[0]: \"outline\" is missing", SW_ERROR_INVALID },
    { ", \"rooms\": {}}", "rooms: must be a list, not an object", SW_ERROR_INVALID },
    { ", \"rooms\": [7]}", "rooms[0]: must be an object, not a number", SW_ERROR_INVALID },
    { ", \"job\": []}", "job: must be an object, not a list", SW_ERROR_INVALID },
    { ", \"romms\": []}", "there is no key \"romms\" here; did you mean \"rooms\"?", SW_ERROR_INVALID },
    { ", \"job\": {\"nmae\": \"\"}}", "job: there is no key \"nmae\" here; did you mean \"name\"?", SW_ERROR_INVALID },
    { ", \"job\": {\"xylophone\": \"\"}}", "job: there is no key \"xylophone\" here", SW_ERROR_INVALID },
    { ", \"job\": {\"pour_date\": \"2026-02-30\"}}", "job.pour_date: \"2026-02-30\" is not a date", SW_ERROR_INVALID },
    { ", \"job\": {\"level_line_mm\": 1e9}}", "job.level_line_mm: must lie between 0 and 5000", SW_ERROR_INVALID },
    { ", \"profiles\": [{\"id\": \"deep\"}], \"bays\": [{\"profile\": \"deeep\", \"outline\": []}]}",
      "bays[0].profile: no profile is called \"deeep\"; did you mean \"deep\"?", SW_ERROR_INVALID },
    { ", \"profiles\": [{\"id\": \"deep\"}], \"bays\": [{\"outline\": [[0,0],[1,0],[0,1]]}]}", "bays[0]: \"profile\" is missing", SW_ERROR_INVALID },
    { ", \"circuits\": [{\"id\": \"deep\"}], \"bays\": [{\"profile\": \"deep\"}]}", "bays[0].profile: \"deep\" is a circuit; a profile is wanted here", SW_ERROR_INVALID },
    { ", \"profiles\": [{\"id\": \"a\"}, {\"id\": \"a\"}]}", "profiles[1].id: \"a\" is already the id of profiles[0]", SW_ERROR_INVALID },
    { ", \"circuits\": [{\"id\": \"a\"}], \"profiles\": [{\"id\": \"a\"}]}", "circuits[0].id: \"a\" is already the id of profiles[0]", SW_ERROR_INVALID },
    { ", \"profiles\": [{\"id\": \"\"}]}", "profiles[0].id: needs a mark", SW_ERROR_INVALID },
    { ", \"profiles\": [{\"id\": 4}]}", "profiles[0].id: must be a text, not a number", SW_ERROR_INVALID },
    { ", \"profiles\": [{}, {\"mouth_mm\": 600}]}", "profiles[1].mouth_mm: must be less than the pitch", SW_ERROR_INVALID },
    { ", \"profiles\": [{\"tendons\": \"yse\"}]}", "profiles[0].tendons: \"yse\" is none of unknown, no, yes; did you mean \"yes\"?", SW_ERROR_INVALID },
    { ", \"circuits\": [{\"phases\": 1.5}]}", "circuits[0].phases: must be a whole number", SW_ERROR_INVALID },
    { ", \"circuits\": [{\"phases\": 1e300}]}", "circuits[0].phases: must be a whole number", SW_ERROR_INVALID },
    { ", \"circuits\": [{\"phases\": 4}]}", "circuits[0].phases: must lie between 1 and 3", SW_ERROR_INVALID },
    { ", \"prices\": [{\"material\": 12.5}]}", "prices[0].material: must be an amount in quotes, such as \"12.50\", not a number", SW_ERROR_INVALID },
    { ", \"prices\": [{\"material\": \"12,50\"}]}", "prices[0].material: \"12,50\" is not an amount", SW_ERROR_INVALID },
    { ", \"runs\": [{\"vertices\": [{\"at\": [0,0]}]}]}", "runs[0].vertices: needs at least 2 points", SW_ERROR_INVALID },
    { ", \"runs\": [{\"vertices\": [{\"at\": [0,0]}, {\"z\": 4}]}]}", "runs[0].vertices[1]: \"at\" is missing", SW_ERROR_INVALID },
    { ", \"runs\": [{\"vertices\": [{\"at\": [0,0]}, {\"at\": [1,0], \"level\": null}]}]}", "runs[0].vertices[1].level: must be a text, not null", SW_ERROR_INVALID },
    { ", \"walls\": [{\"from\": [5,5], \"to\": [5,5]}]}", "walls[0].to: is the same place as \"from\"", SW_ERROR_INVALID },
    { ", \"walls\": [{\"from\": [5,5], \"to\": [5e9,5]}]}", "walls[0].to: lies farther out", SW_ERROR_INVALID },
    { ", \"walls\": [{\"from\": [5,5], \"to\": [6,5], \"separating\": 1}]}", "walls[0].separating: must be true or false, not a number", SW_ERROR_INVALID },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;
      g_autofree char *text = g_strconcat (HEAD, cases[i].rest, NULL);
      g_autoptr (SwJob) job = sw_text_form_read (text, -1, &error);
      g_assert_null (job);
      g_assert_error (error, SW_ERROR, cases[i].code);
      /* The path stands first. */
      if (error != NULL && !g_str_has_prefix (error->message, cases[i].message))
        g_assert_cmpstr (error->message, ==, cases[i].message);
      g_clear_error (&error);
    }
}

static void
test_head (void)
{
  static const struct { const char *text, *part; int code; } cases[] = {
    { "[]", "must be an object: a job, not a list", SW_ERROR_INVALID },
    { "{}", "\"format\" is missing", SW_ERROR_INVALID },
    { "{\"format\": \"other\", \"version\": 1}", "format: must be \"soffit-job\"", SW_ERROR_INVALID },
    { "{\"format\": \"soffit-job\"}", "\"version\" is missing", SW_ERROR_INVALID },
    { "{\"format\": \"soffit-job\", \"version\": 0}", "version: must be a whole number", SW_ERROR_INVALID },
    { "{\"format\": \"soffit-job\", \"version\": \"1\"}", "version: must be a whole number", SW_ERROR_INVALID },
    { "{\"format\": \"soffit-job\", \"version\": 2, \"unheard\": []}", "newer version", SW_ERROR_TOO_NEW },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;
      g_assert_null (sw_text_form_read (cases[i].text, -1, &error));
      sw_assert_error (error, cases[i].code, cases[i].part);
    }
}

/* Every field of every table refuses what is of no kind that it could be, and says which field it is. */
static void
test_wrong_kinds (void)
{
  for (SwTable table = 0; table < SW_N_TABLES; table++)
    {
      const SwType *type = sw_type_get (table);
      for (guint i = 0; i < type->body.n_fields; i++)
        {
          GError *error = NULL;
          const char *key = type->body.fields[i].key;
          gboolean job = table == SW_TABLE_JOB;
          g_autofree char *text = g_strdup_printf (HEAD ", \"%s\": %s{\"%s\": {}}%s}", type->key, job ? "" : "[", key, job ? "" : "]");
          g_autofree char *wanted = g_strdup_printf ("%s%s.%s: must be ", type->key, job ? "" : "[0]", key);
          g_assert_null (sw_text_form_read (text, -1, &error));
          g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
          if (error != NULL && !g_str_has_prefix (error->message, wanted))
            g_assert_cmpstr (error->message, ==, wanted);
          g_clear_error (&error);
        }
    }
}

static void
test_locales (void)
{
  static const char *const names[] = { "de_DE.UTF-8", "tr_TR.UTF-8" };
  g_autoptr (SwJob) job = sw_sample_job (11, 3);
  g_autofree char *plain = sw_text_form_write (job), *schema = sw_text_form_schema ();
  for (gsize i = 0; i < G_N_ELEMENTS (names); i++)
    {
      if (setlocale (LC_ALL, names[i]) == NULL)
        {
          g_test_skip_printf ("the locale %s is not installed", names[i]);
          continue;
        }
      GError *error = NULL;
      g_autofree char *text = sw_text_form_write (job), *local_schema = sw_text_form_schema ();
      g_autoptr (SwJob) back = sw_text_form_read (text, -1, &error);
      setlocale (LC_ALL, "C");
      g_assert_no_error (error);
      g_assert_cmpstr (text, ==, plain);
      g_assert_cmpstr (schema, ==, local_schema);
      g_assert_true (back != NULL && sw_job_equal (job, back));
    }
}

static void
test_files (void)
{
  GError *error = NULL;
  g_autofree char *folder = sw_test_folder (), *path = g_build_filename (folder, "job.json", NULL), *gone = g_build_filename (folder, "no", "job.json", NULL);
  g_autoptr (SwJob) job = sw_sample_job (12, 2);
  g_assert_true (sw_text_form_save (job, path, &error));
  g_autoptr (SwJob) back = sw_text_form_load (path, &error);
  g_assert_no_error (error);
  g_assert_true (sw_job_equal (job, back));
  g_assert_false (sw_text_form_save (job, gone, &error));
  sw_assert_error (error, SW_ERROR_IO, "job.json");
  g_assert_null (sw_text_form_load (gone, &error));
  sw_assert_error (error, SW_ERROR_IO, "job.json");
  g_assert_null (sw_text_form_load (folder, &error));
  g_assert_error (error, SW_ERROR, SW_ERROR_IO);
  g_clear_error (&error);
  g_assert_true (g_file_set_contents (path, "{\n\n  \"format\" 4", -1, NULL));
  g_assert_null (sw_text_form_load (path, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "job.json: line 3, column 12: a colon is missing");
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/text-form/round-trip", test_round_trip);
  g_test_add_func ("/store/text-form/gaps", test_gaps);
  g_test_add_func ("/store/text-form/form", test_form);
  g_test_add_func ("/store/text-form/automatic-marks", test_automatic_marks);
  g_test_add_func ("/store/text-form/errors", test_errors);
  g_test_add_func ("/store/text-form/head", test_head);
  g_test_add_func ("/store/text-form/wrong-kinds", test_wrong_kinds);
  g_test_add_func ("/store/text-form/locales", test_locales);
  g_test_add_func ("/store/text-form/files", test_files);
  return g_test_run ();
}
