/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "drawing/page.h"
#include "drawing/svg_writer.h"
#include "support.h"
#include <locale.h>
#include <string.h>

static const SwPage a3 = { SW_PAPER_A3, .title = "Ceiling <plan> & \"notes\"\n\x01" };

static char *
svg_of (SwDisplay *display)
{
  GError *error = NULL;
  sw_display_seal (display);
  g_autoptr (GBytes) bytes = sw_page_write (display, &a3, SW_PAGE_SVG, &error);
  g_assert_no_error (error);
  gsize length;
  const char *data = g_bytes_get_data (bytes, &length);
  return g_strndup (data, length);
}

/* What a reader of the XML sees, by GLib's parser, which shares nothing with the writer. */
typedef struct
{
  GHashTable *ids, *styles;
  GString *words;   /* of all texts */
  GString *titles;
  guint n_groups, n_paths, n_texts, n_uses, n_bad_ids;
  char *width, *view_box;
} Seen;

static void
see_start (GMarkupParseContext *context, const char *name, const char **names, const char **values, gpointer data, GError **error)
{
  Seen *seen = data;
  seen->n_groups += g_str_equal (name, "g");
  seen->n_paths += g_str_equal (name, "path");
  seen->n_texts += g_str_equal (name, "text");
  seen->n_uses += g_str_equal (name, "use");
  for (gsize i = 0; names[i] != NULL; i++)
    {
      if (g_str_equal (names[i], "id"))
        seen->n_bad_ids += !g_ascii_isalpha (values[i][0]) || !g_hash_table_add (seen->ids, g_strdup (values[i]));
      if (g_str_equal (name, "svg") && g_str_equal (names[i], "width"))
        seen->width = g_strdup (values[i]);
      if (g_str_equal (name, "svg") && g_str_equal (names[i], "viewBox"))
        seen->view_box = g_strdup (values[i]);
    }
}

static void
see_text (GMarkupParseContext *context, const char *text, gsize length, gpointer data, GError **error)
{
  Seen *seen = data;
  const char *name = g_markup_parse_context_get_element (context);
  GString *to = g_str_equal (name, "text") ? seen->words : g_str_equal (name, "title") ? seen->titles : NULL;
  if (to != NULL)
    {
      g_string_append_len (to, text, (gssize) length);
      g_string_append_c (to, '|');
    }
}

static Seen
see (const char *svg)
{
  static const GMarkupParser parser = { see_start, NULL, see_text, NULL, NULL };
  Seen seen = { .ids = g_hash_table_new_full (g_str_hash, g_str_equal, g_free, NULL),
                .words = g_string_new (NULL), .titles = g_string_new (NULL) };
  GError *error = NULL;
  g_autoptr (GMarkupParseContext) context = g_markup_parse_context_new (&parser, 0, &seen, NULL);
  g_markup_parse_context_parse (context, svg, (gssize) strlen (svg), &error);
  g_assert_no_error (error);
  g_assert_true (g_markup_parse_context_end_parse (context, NULL));
  return seen;
}

static void
forget (Seen *seen)
{
  g_hash_table_unref (seen->ids);
  g_string_free (seen->words, TRUE);
  g_string_free (seen->titles, TRUE);
  g_free (seen->width);
  g_free (seen->view_box);
}

static const SwStroke ink = { SW_ROLE_INK, 0.35 };

static SwDisplay *
sample (void)
{
  SwDisplay *d = sw_display_new ();
  for (int run = 0; run < 3; run++)
    {
      g_autofree char *title = g_strdup_printf ("Waste %d, \"1:60\" <&>", run);
      sw_display_begin_group (d, &(SwDisplayGroup){ { 1, 0, run }, run == 2 ? "7 bad id" : "run-1", "run waste", title, "from A to B" });
      sw_display_add_line (d, (SwPoint){ 10.12345, 20 }, (SwPoint){ 100, 20.5 }, &(SwStroke){ SW_ROLE_WASTE, 0.5, .dash = SW_DASH_SERVICE });
      sw_display_add_text (d, (SwPoint){ 10, 25 }, "W 50 <fall> & \"1:60\"  é\xff", &(SwTextStyle){ .height = 2.5, .halo = run == 1 });
      sw_display_end (d);
    }
  sw_display_add_circle (d, (SwPoint){ 50, 50 }, 10, &(SwFill){ SW_ROLE_ROOM_1, SW_HATCHING_CROSS }, NULL);
  return d;
}

static void
test_structure (void)
{
  g_autoptr (SwDisplay) d = sample ();
  g_autofree char *svg = svg_of (d);
  Seen seen = see (svg);
  g_assert_cmpstr (seen.width, ==, "420mm");
  g_assert_cmpstr (seen.view_box, ==, "0 0 420 297");
  g_assert_cmpuint (seen.n_groups, ==, 3);
  g_assert_cmpuint (seen.n_texts, ==, 3);
  g_assert_cmpuint (seen.n_uses, ==, 1);
  g_assert_cmpuint (seen.n_paths, ==, 3 + 1 + 1); /* and one in the hatching */
  g_assert_cmpuint (seen.n_bad_ids, ==, 0);
  g_assert_true (g_hash_table_contains (seen.ids, "run-1"));
  g_assert_true (g_hash_table_contains (seen.ids, "run-1-2"));
  g_assert_true (g_hash_table_contains (seen.ids, "n-7_bad_id"));
  const char *words = "W 50 <fall> & \"1:60\"  é\xEF\xBF\xBD|";
  g_autofree char *three = g_strconcat (words, words, words, NULL);
  g_assert_cmpstr (seen.words->str, ==, three);
  g_assert_true (g_str_has_prefix (seen.titles->str, "Ceiling <plan> & \"notes\"  |Waste 0, \"1:60\" <&>|"));
  g_assert_nonnull (strstr (svg, "M10.123 277L100 276.5"));
  g_assert_nonnull (strstr (svg, "class=\"run waste\""));
  g_assert_nonnull (strstr (svg, "stroke-dasharray:16,1.2"));
  g_assert_nonnull (strstr (svg, "xml:space=\"preserve\""));
  forget (&seen);
}

/* Layers that are faded come first; a group that is split by that keeps one id and one title. */
static void
test_split_groups (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_begin_group (d, &(SwDisplayGroup){ { 1, 0, 1 }, "bay", NULL, "Bay", NULL });
  for (int layer = 0; layer < 4; layer++)
    {
      sw_display_set_layer (d, layer);
      sw_display_add_line (d, (SwPoint){ layer, 0 }, (SwPoint){ layer, 9 }, &ink);
    }
  sw_display_end (d);
  sw_display_add_line (d, (SwPoint){ 50, 0 }, (SwPoint){ 50, 9 }, &ink);
  sw_display_seal (d);
  SwSvgPage page = { 420, 297, .view = sw_page_view (&a3, 1) };
  page.view.look.faded = 5; /* and the line after the group, in layer 0 */
  g_autoptr (GString) svg = sw_svg_write (d, &page);
  Seen seen = see (svg->str);
  g_assert_cmpuint (seen.n_groups, ==, 2);
  g_assert_cmpuint (g_hash_table_size (seen.ids), ==, 1);
  g_assert_cmpuint (seen.n_bad_ids, ==, 0);
  g_assert_cmpstr (seen.titles->str, ==, "Bay|");
  const char *faded = strstr (svg->str, "M2 297"), *full = strstr (svg->str, "M1 297"), *other = strstr (svg->str, "M50 297");
  g_assert_true (faded != NULL && full != NULL && other != NULL && faded < other && other < full);
  forget (&seen);
}

static gboolean
run_program (const char *const *arguments, char **output)
{
  g_autofree char *program = g_find_program_in_path (arguments[0]);
  int status = 0;
  GError *error = NULL;
  if (program == NULL)
    {
      g_test_skip_printf ("%s is not installed", arguments[0]);
      return FALSE;
    }
  g_spawn_sync (NULL, (char **) arguments, NULL, G_SPAWN_SEARCH_PATH, NULL, NULL, output, NULL, &status, &error);
  g_assert_no_error (error);
  g_assert_true (g_spawn_check_wait_status (status, &error));
  g_assert_no_error (error);
  return TRUE;
}

static char *
exported (SwDisplay *d, const char *name)
{
  GError *error = NULL;
  g_autofree char *folder = sw_test_folder ();
  char *path = g_build_filename (folder, name, NULL);
  sw_display_seal (d);
  sw_page_export (d, &a3, SW_PAGE_SVG, path, &error);
  g_assert_no_error (error);
  return path;
}

static void
test_xmllint (void)
{
  g_autoptr (SwDisplay) d = sample ();
  g_autofree char *path = exported (d, "plan.svg");
  run_program ((const char *const[]){ "xmllint", "--noout", "--nonet", path, NULL }, NULL);
}

static void
test_rsvg_convert (void)
{
  g_autoptr (SwDisplay) d = sample ();
  g_autofree char *path = exported (d, "plan.svg");
  g_autofree char *png = g_strconcat (path, ".png", NULL);
  if (!run_program ((const char *const[]){ "rsvg-convert", "-d", "254", "-p", "254", "-o", png, path, NULL }, NULL))
    return;
  cairo_surface_t *surface = cairo_image_surface_create_from_png (png);
  g_assert_cmpint (cairo_image_surface_get_width (surface), ==, 4200); /* real size */
  g_assert_cmpint (cairo_image_surface_get_height (surface), ==, 2970);
  cairo_surface_destroy (surface);
}

static void
test_same_bytes (void)
{
  g_autoptr (SwDisplay) a = sample ();
  g_autoptr (SwDisplay) b = sample ();
  g_autofree char *first = svg_of (a);
  g_autofree char *second = svg_of (b);
  g_assert_cmpstr (first, ==, second);
}

static void
test_locale (void)
{
  g_autoptr (SwDisplay) d = sample ();
  g_autofree char *plain = svg_of (d);
  if (setlocale (LC_ALL, "de_DE.UTF-8") == NULL)
    {
      g_test_skip ("the locale de_DE.UTF-8 is not installed");
      return;
    }
  g_autofree char *german = svg_of (d);
  setlocale (LC_ALL, "C.UTF-8");
  g_assert_cmpstr (german, ==, plain);
}

/* A straight line to ten kilometres is cut beside the sheet, and its dashes stay in step. */
static void
test_far (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  sw_display_add_line (d, (SwPoint){ -1e7, 10 }, (SwPoint){ 1e7, 10 }, &(SwStroke){ SW_ROLE_INK, 1, .dash = SW_DASH_HIDDEN });
  g_autofree char *svg = svg_of (d);
  /* Begins 101 mm left of the sheet, 9,999,899 mm along; the pattern repeats every 3 mm. */
  g_assert_nonnull (strstr (svg, "stroke-dashoffset=\"2\" d=\"M-101 287L521 287\""));
}

static void
test_nothing (void)
{
  g_autoptr (SwDisplay) d = sw_display_new ();
  g_autofree char *svg = svg_of (d);
  Seen seen = see (svg);
  g_assert_cmpuint (seen.n_groups + seen.n_paths + seen.n_texts, ==, 0);
  forget (&seen);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/drawing/svg/structure", test_structure);
  g_test_add_func ("/drawing/svg/split-groups", test_split_groups);
  g_test_add_func ("/drawing/svg/xmllint", test_xmllint);
  g_test_add_func ("/drawing/svg/rsvg-convert", test_rsvg_convert);
  g_test_add_func ("/drawing/svg/same-bytes", test_same_bytes);
  g_test_add_func ("/drawing/svg/locale", test_locale);
  g_test_add_func ("/drawing/svg/far", test_far);
  g_test_add_func ("/drawing/svg/nothing", test_nothing);
  return g_test_run ();
}
