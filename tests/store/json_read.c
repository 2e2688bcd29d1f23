/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "store/json_read.h"
#include "base/random.h"
#include "sample.h"
#include "store/nearest.h"
#include "store/text_form.h"
#include "support.h"
#include <math.h>
#include <string.h>

static void
test_values (void)
{
  GError *error = NULL;
  g_autoptr (JsonNode) node = sw_json_read ("\xEF\xBB\xBF [0, -0.5e+1, 1E2, \"a\\u00e9\\ud83d\\ude00\\n\\/\", true, false, null, {}, [], 9007199254740992, 9007199254740993000]\n", -1, &error);
  g_assert_no_error (error);
  JsonArray *list = json_node_get_array (node);
  g_assert_cmpuint (json_array_get_length (list), ==, 11);
  g_assert_cmpint (json_array_get_int_element (list, 0), ==, 0);
  g_assert_cmpfloat (json_array_get_double_element (list, 1), ==, -5);
  g_assert_cmpfloat (json_array_get_double_element (list, 2), ==, 100);
  g_assert_cmpstr (json_array_get_string_element (list, 3), ==, "aé😀\n/");
  g_assert_true (json_array_get_boolean_element (list, 4));
  g_assert_false (json_array_get_boolean_element (list, 5));
  g_assert_true (json_array_get_null_element (list, 6));
  g_assert_cmpint (json_array_get_int_element (list, 9), ==, G_GINT64_CONSTANT (9007199254740992));
  g_assert_cmpfloat (json_array_get_double_element (list, 10), ==, 9007199254740993000.0);
}

/* RFC 8259: what its grammar leaves out is refused, and where it stands is said. */
static void
test_refuses (void)
{
  static const struct { const char *text, *message; } cases[] = {
    { "", "line 1, column 1: the document ends where a value is missing" },
    { "{\"a\": 1,\n \"a\": 2}", "line 2, column 2: the key \"a\" stands twice in one object" },
    { "{\"a\": 1, \"\\u0061\": 2}", "line 1, column 10: the key \"a\" stands twice in one object" },
    { "[1,]", "line 1, column 4: a value is missing here" },
    { "{\"a\": 1,}", "line 1, column 9: a key in quotes is missing" },
    { "{a: 1}", "line 1, column 2: a key in quotes is missing" },
    { "[1 2]", "line 1, column 4: a comma or \"]\" is missing" },
    { "{\"é\": 1 2}", "line 1, column 9: a comma or \"}\" is missing" },
    { "[1", "line 1, column 3: the document ends before its \"]\"" },
    { "[\"a", "line 1, column 2: this text has no closing quote" },
    { "[\"a\nb\"]", "line 1, column 4: a line break or control character in a text must be escaped" },
    { "[\"\\x\"]", "line 1, column 4: no such escape after \\" },
    { "[\"\\u12g4\"]", "line 1, column 7: four hexadecimal figures must follow \\u" },
    { "[\"\\u0000\"]", "line 1, column 3: \\u0000 may not stand in a text" },
    { "[\"\\ud83d\"]", "line 1, column 3: half of a pair of \\u units" },
    { "[\"\\ude00\"]", "line 1, column 3: half of a pair of \\u units" },
    { "[\"\\ud83d\\u0041\"]", "line 1, column 3: half of a pair of \\u units" },
    { "[01]", "line 1, column 2: this is not a number" },
    { "[1.]", "line 1, column 2: this is not a number" },
    { "[.5]", "line 1, column 2: a value is missing here" },
    { "[+5]", "line 1, column 2: a value is missing here" },
    { "[-]", "line 1, column 2: this is not a number" },
    { "[1e]", "line 1, column 2: this is not a number" },
    { "[0x10]", "line 1, column 3: a comma or \"]\" is missing" },
    { "[1e999]", "line 1, column 2: this number is too large" },
    { "[NaN]", "line 1, column 2: a value is missing here" },
    { "['a']", "line 1, column 2: a value is missing here" },
    { "// a\n1", "line 1, column 1: a value is missing here" },
    { "[] []", "line 1, column 4: something follows the document" },
    { "[\"\xff\"]", "line 1, column 3: this is not UTF-8 text" },
    { "[\"\xed\xa0\x80\"]", "line 1, column 3: this is not UTF-8 text" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;
      g_assert_null (sw_json_read (cases[i].text, -1, &error));
      g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
      if (error != NULL)
        g_assert_cmpstr (error->message, ==, cases[i].message);
      g_clear_error (&error);
    }
  GError *error = NULL;
  g_assert_null (sw_json_read ("[1]\0", 4, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "not UTF-8");
}

static void
test_deep (void)
{
  static const char *const starts[] = { "[", "{\"a\":" };
  for (gsize i = 0; i < G_N_ELEMENTS (starts); i++)
    {
      GError *error = NULL;
      GString *deep = g_string_new (NULL);
      for (int n = 0; n < 500000; n++)
        g_string_append (deep, starts[i]);
      g_assert_null (sw_json_read (deep->str, -1, &error));
      sw_assert_error (error, SW_ERROR_LIMIT, "nested deeper than");
      g_string_free (deep, TRUE);
    }
  g_autofree char *figures = g_strnfill (100000, '9');
  GError *error = NULL;
  g_assert_null (sw_json_read (figures, -1, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "not a number");
}

/* A job cut short anywhere is refused; with bytes changed it is refused or still a job; neither crashes. */
static void
test_damage (void)
{
  SwRandom random = { 8 };
  int rounds = sw_test_rounds (3000);
  g_autoptr (SwJob) job = sw_sample_job (21, 1);
  g_autofree char *text = sw_text_form_write (job);
  gsize length = strlen (text);
  for (gsize cut = 0; cut + 2 < length; cut += (gsize) sw_random_int (&random, 1, 9) * (gsize) (3000 / rounds))
    {
      GError *error = NULL;
      g_assert_null (sw_text_form_read (text, (gssize) cut, &error));
      g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
      g_clear_error (&error);
    }
  int refused = 0;
  for (int i = 0; i < rounds; i++)
    {
      GError *error = NULL;
      g_autofree char *copy = g_memdup2 (text, length);
      for (int n = sw_random_int (&random, 1, 3); n > 0; n--)
        copy[sw_random_int (&random, 0, (int) length - 1)] = i % 2 ? (char) sw_random_int (&random, 0, 255) : "{}[],:\"\\0-e"[sw_random_int (&random, 0, 10)];
      SwJob *read = sw_text_form_read (copy, (gssize) length, &error);
      g_assert_true ((read == NULL) == (error != NULL));
      refused += read == NULL;
      g_clear_pointer (&read, sw_job_unref);
      g_clear_error (&error);
    }
  g_assert_cmpint (refused, >, rounds / 3);
}

static void
test_nearest (void)
{
  static const struct { const char *word, *a, *b, *hint; } cases[] = {
    { "deeep", "shallow", "deep", "; did you mean \"deep\"?" },
    { "ROOMS", "rooms", "walls", "; did you mean \"rooms\"?" },
    { "nmae", "number", "name", "; did you mean \"name\"?" },
    { "b", "a", "c", "" },
    { "xylophone", "name", "number", "" },
    { "", "a", "b", "" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      SwNearest nearest = sw_nearest_new (cases[i].word);
      sw_nearest_offer (&nearest, cases[i].a);
      sw_nearest_offer (&nearest, cases[i].b);
      g_autofree char *hint = sw_nearest_hint (&nearest);
      g_assert_cmpstr (hint, ==, cases[i].hint);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/store/json-read/values", test_values);
  g_test_add_func ("/store/json-read/refuses", test_refuses);
  g_test_add_func ("/store/json-read/deep", test_deep);
  g_test_add_func ("/store/json-read/damage", test_damage);
  g_test_add_func ("/store/json-read/nearest", test_nearest);
  return g_test_run ();
}
