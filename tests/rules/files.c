/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/random.h"
#include "rules/listing.h"
#include "rules/reader.h"
#include "support.h"
#include <string.h>

#define HEAD "[ruleset]\nname=trial\ntitle=Trial\nselectable=no\n"
#define ABOUT "source=somebody\nconfidence=published\n"

/* A folder with trial.ini and, when given, base.ini. */
static char *
write_set (const char *trial, gsize length, const char *base)
{
  char *folder = sw_test_folder ();
  g_autofree char *path = g_build_filename (folder, "trial.ini", NULL);
  g_assert_true (g_file_set_contents (path, trial, length, NULL));
  if (base != NULL)
    {
      g_autofree char *other = g_build_filename (folder, "base.ini", NULL);
      g_assert_true (g_file_set_contents (other, base, -1, NULL));
    }
  return folder;
}

static SwRules *
load_trial (const char *trial, gsize length, const char *base, GError **error)
{
  g_autofree char *folder = write_set (trial, length, base);
  return sw_rules_load_from (folder, "trial", NULL, NULL, error);
}

typedef struct
{
  const char *text; /* after the head */
  const char *message;
} Bad;

static const Bad bad[] = {
  { "[moon.phases]\n" ABOUT "x=1\n", "trial.ini:5: there is no group [moon.phases]" },
  { "[checks.clearances]\n" ABOUT "moon_mm=1\n", "trial.ini:8: [checks.clearances] has no key \"moon_mm\"" },
  { "[checks.clearances]\nconfidence=published\nrib_mm=1\n", "trial.ini:5: [checks.clearances] needs source=" },
  { "[checks.clearances]\nsource=\nconfidence=published\nrib_mm=1\n", "trial.ini:6: [checks.clearances] needs" },
  { "[checks.clearances]\nsource=x\nrib_mm=1\n", "trial.ini:5: [checks.clearances] needs confidence=" },
  { "[checks.clearances]\nsource=x\nconfidence=sure\nrib_mm=1\n", "trial.ini:7: \"sure\" is not a confidence" },
  { "[checks.clearances]\n" ABOUT "rib_mm=1,5\n", "trial.ini:8: checks.clearances.rib_mm: \"1,5\" is not a number" },
  { "[checks.clearances]\n" ABOUT "rib_mm=-1\n", "trial.ini:8: checks.clearances.rib_mm: -1 lies outside 0 to 200" },
  { "[checks.clearances]\n" ABOUT "rib_mm=nan\n", "trial.ini:8:" },
  { "[checks.clearances]\n" ABOUT "rib_mm=1\nrib_mm=2\n", "trial.ini:9: \"rib_mm\" stands twice" },
  { "[checks.clearances]\n" ABOUT, "trial.ini:5: [checks.clearances] holds no value" },
  { "[checks.clearances]\n" ABOUT "rib_mm=1\n[checks.clearances]\n" ABOUT "rib_mm=2\n",
    "trial.ini:9: group [checks.clearances] stands twice" },
  { "[checks.clearances]\n" ABOUT "rib_mm=1\nweb_mm.source=x\nmoon_mm.source=y\n",
    "trial.ini:10: \"moon_mm.source\" names nothing" },
  { "[checks.clearances\n", "trial.ini:5: a group's name needs a closing bracket" },
  { "[Checks]\n", "trial.ini:5: \"Checks\" is not a group's name" },
  { "[checks.clearances]\nrib_mm\n", "trial.ini:6: \"rib_mm\" is not key=value" },
  { "[checks.clearances]\n=5\n", "trial.ini:6: \"\" is not a key" },
  { "[drainage.flow]\n" ABOUT "largest_unit=maybe\n", "trial.ini:8: drainage.flow.largest_unit: \"maybe\" is neither" },
  { "[conduit.fill]\n" ABOUT "method=guess\n", "trial.ini:8: conduit.fill.method: \"guess\" is not one of space-fac" },
  { "[waste.sockets]\n" ABOUT "row.110=3;128\n", "trial.ini:5: [waste.sockets] needs columns=" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm; moon\nrow.110=3;1\n", "trial.ini:8: [waste.sockets] has no column" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm;wall_mm\nrow.110=3;1\n", "trial.ini:8: column \"wall_mm\" stands tw" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=3;1\n", "trial.ini:9: row 110 has 2 values for 1 columns" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=3\nrow.50=3\n", "trial.ini:10: waste.sockets rows have to" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=3\nrow.110.0=3\n", "trial.ini:10: waste.sockets rows have" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.big=3\n", "trial.ini:9: waste.sockets rows: \"big\" is not a" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=x\n", "trial.ini:9: waste.sockets[110].wall_mm: \"x\" is" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=-\n", "trial.ini:5: [waste.sockets] holds no value" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=3\nline.50=3\n", "trial.ini:10: [waste.sockets] knows no key" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=3\nrow.50.source=x\n", "trial.ini:10: \"row.50.source\" na" },
  { "[waste.sockets]\n" ABOUT "columns=wall_mm\nrow.110=3\nrow.110@moon.note=x\n", "trial.ini:10:" },
  { "[drainage.frequency]\n" ABOUT "columns=k\nrow.often=1\n", "trial.ini:9: drainage.frequency rows: \"often\" is" },
  { "[light.utilization]\n" ABOUT "columns=1;0.5\nrow.70/50/20=0.1;0.2\n", "trial.ini:8: columns have to ascend" },
  { "[light.utilization]\n" ABOUT "columns=one\nrow.70/50/20=0.1\n", "trial.ini:8: columns: \"one\" is not a number" },
  { "[board.sizes]\n" ABOUT "gypsum_widths_mm=1200;900\n", "trial.ini:8: board.sizes.gypsum_widths_mm: the numbers" },
  { "[board.sizes]\n" ABOUT "gypsum_widths_mm=900;\n[pipe.pex]\nstand_in_from=trial\n", "trial.ini:9: [pipe.pex] ne" },
  { "[pipe.pex]\nstand_in_from=nowhere\nnote=x\n", "trial.ini:6: there is no rule set \"nowhere\"" },
  { "[pipe.pex]\nstand_in_from=base\nnote=x\n", "trial.ini:6: the rule set \"base\" has no [pipe.pex] to lend" },
  { "[pipe.pex]\nstand_in_from=base\nnote=x\ncolumns=wall_mm\n", "trial.ini:6: [pipe.pex] with stand_in_from= hol" },
  { "[pipe.copper]\nstand_in_from=base\nnote=x\n", "base.ini:4: [pipe.copper] is asked to stand in but is a stand" },
  { "[pipe.pex]\nabsent=no\nnote=x\n", "trial.ini:6: absent= can only be yes" },
};

static void
test_bad_files (void)
{
  for (gsize i = 0; i < G_N_ELEMENTS (bad); i++)
    {
      g_autofree char *text = g_strconcat (HEAD, bad[i].text, NULL);
      GError *error = NULL;
      g_autoptr (SwRules) rules
          = load_trial (text, strlen (text), "[ruleset]\nname=base\n[pipe.copper]\nstand_in_from=trial\nnote=x\n",
                        &error);
      g_assert_null (rules);
      g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
      if (error != NULL && strstr (error->message, bad[i].message) == NULL)
        g_test_fail_printf ("case %" G_GSIZE_FORMAT ": \"%s\" lacks \"%s\"", i, error->message, bad[i].message);
      g_clear_error (&error);
    }
}

static void
test_bad_heads (void)
{
  static const struct { const char *trial, *base, *message; } cases[] = {
    { "", NULL, "trial.ini:1: the first group has to be [ruleset]" },
    { "rib_mm=3\n", NULL, "trial.ini:1: a [group] has to come first" },
    { "# words\n[checks.clearances]\nrib_mm=1\n", NULL, "trial.ini:2: the first group has to be [ruleset]" },
    { "[ruleset]\nname=other\n", NULL, "trial.ini:2: name= has to be \"trial\"" },
    { "[ruleset]\nname=trial\ncolour=red\n", NULL, "trial.ini:3: [ruleset] knows no key \"colour\"" },
    { "[ruleset]\nname=trial\nbase=nowhere\n", NULL, "trial.ini:3: there is no rule set \"nowhere\"" },
    { "[ruleset]\nname=trial\nbase=../trial\n", NULL, "trial.ini:3: there is no rule set \"../trial\"" },
    { "[ruleset]\nname=trial\nbase=trial\n", NULL, "trial.ini:3: base=trial leads back to itself" },
    { "[ruleset]\nname=trial\nbase=base\n", "[ruleset]\nname=base\nbase=trial\n",
      "base.ini:3: base=trial leads back to itself" },
    { "[ruleset]\nname=trial\nselectable=perhaps\n", NULL, "trial.ini:3: selectable= is yes or no" },
    { "[ruleset]\nname=trial\n", NULL, "trial.ini:1: the rule set needs checks.clearances" },
    { "[ruleset]\nname=trial\n[checks.clearances]\n" ABOUT "rib_mm=3\n", NULL,
      "trial.ini:1: the rule set needs checks.clearances.web_mm" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      GError *error = NULL;
      g_autoptr (SwRules) rules = load_trial (cases[i].trial, strlen (cases[i].trial), cases[i].base, &error);
      g_assert_null (rules);
      if (error == NULL || strstr (error->message, cases[i].message) == NULL)
        g_test_fail_printf ("\"%s\" lacks \"%s\"", error ? error->message : "", cases[i].message);
      g_clear_error (&error);
    }
}

static void
test_bad_bytes (void)
{
  static const char latin[] = HEAD "# stra\xdf" "e\n";
  static const char zero[] = HEAD "# a\0b\n";
  GError *error = NULL;
  g_assert_null (load_trial (latin, sizeof latin - 1, NULL, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "trial.ini:5: the text is not UTF-8");
  g_assert_null (load_trial (zero, sizeof zero - 1, NULL, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "trial.ini:5:");
  g_autofree char *large = g_strnfill (5 * 1024 * 1024, '#');
  g_assert_null (load_trial (large, strlen (large), NULL, &error));
  sw_assert_error (error, SW_ERROR_INVALID, "larger than 4 MB");
  g_assert_null (sw_rules_load ("atlantis", NULL, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "there is no rule set \"atlantis\"");
  g_assert_null (sw_rules_load ("../common", NULL, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "there is no rule set");
  g_assert_null (sw_rules_load ("europe", "/nonexistent/overrides.ini", &error));
  sw_assert_error (error, SW_ERROR_IO, "overrides cannot be read");
}

/* Bytes and lines of a good file changed at random: it loads, or says which line is wrong. */
static void
test_spoilt_file (void)
{
  g_autofree char *path = sw_test_source_path ("data/rules/common.ini");
  g_autofree char *text = NULL;
  gsize length = 0;
  g_assert_true (g_file_get_contents (path, &text, &length, NULL));
  SwRandom random = { 11 };
  guint refused = 0;
  for (int i = 0; i < 200; i++)
    {
      g_autoptr (GString) spoilt = g_string_new_len (text, length);
      gsize from = strstr (spoilt->str, "name=common") - spoilt->str;
      g_string_erase (spoilt, from, strlen ("name=common"));
      g_string_insert (spoilt, from, "name=trial");
      for (int k = sw_random_int (&random, 1, 3); k > 0; k--)
        {
          gsize at = sw_random_int (&random, 0, (int) spoilt->len - 40);
          switch (sw_random_int (&random, 0, 3))
            {
            case 0:
              spoilt->str[at] = (char) sw_random_int (&random, 0, 255);
              break;
            case 1:
              g_string_erase (spoilt, at, sw_random_int (&random, 1, 40));
              break;
            case 2:
              g_string_insert_c (spoilt, at, "[]=;.-\n#@"[sw_random_int (&random, 0, 8)]);
              break;
            default:
              g_string_insert_len (spoilt, at, text + sw_random_int (&random, 0, (int) length - 40), 40);
            }
        }
      GError *error = NULL;
      g_autoptr (SwRules) rules = load_trial (spoilt->str, spoilt->len, NULL, &error);
      g_assert_true ((rules == NULL) == (error != NULL));
      if (error != NULL)
        {
          g_assert_error (error, SW_ERROR, SW_ERROR_INVALID);
          g_assert_true (g_regex_match_simple ("trial\\.ini:[1-9][0-9]*: .", error->message, 0, 0));
          refused++;
        }
      g_clear_error (&error);
    }
  g_assert_cmpuint (refused, >, 20);
}

static void
test_words_around (void)
{
  static const char text[] = HEAD "\r\n  # words\r\n[waste.sockets]\r\nsource = a\r\nconfidence = from-memory\r\n"
                             "note = whole\r\ncolumns = wall_mm; socket_mm;\r\nrow.40 = 3.0; 54;\r\n"
                             "row.110 = 3.2 ; 128\r\ncolumn.socket_mm.source = b\r\nrow.110.source = c\r\n"
                             "row.110@wall_mm.source = d\r\nrow.110@wall_mm.confidence = published\r\n";
  GError *error = NULL;
  g_autoptr (SwRules) rules = load_trial (text, sizeof text - 1, NULL, &error);
  g_assert_no_error (error);
  static const struct { const char *row, *column, *source; } cases[] = {
    { "40", "wall_mm", "a" }, { "40", "socket_mm", "b" }, { "110", "socket_mm", "c" }, { "110.0", "wall_mm", "d" },
  };
  for (gsize i = 0; rules != NULL && i < G_N_ELEMENTS (cases); i++)
    {
      SwRuleValue answer = { 0 };
      g_assert_true (sw_rules_lookup (rules, "waste.sockets", cases[i].row, cases[i].column, &answer, &error));
      g_assert_cmpstr (answer.source, ==, cases[i].source);
      g_assert_cmpstr (answer.note, ==, "whole");
      g_assert_cmpint (answer.confidence, ==, i == 3 ? SW_CONFIDENCE_PUBLISHED : SW_CONFIDENCE_FROM_MEMORY);
      g_assert_cmpstr (answer.rule_set, ==, "trial");
    }
}

static void
test_inheritance (void)
{
  static const char base[] = "[ruleset]\nname=base\nselectable=no\n"
                             "[pipe.pex]\n" ABOUT "columns=wall_mm\nrow.16=2\nrow.20=2\n"
                             "[pipe.multilayer]\n" ABOUT "columns=wall_mm\nrow.16=2\n"
                             "[conduit.bends]\n" ABOUT "inside_diameters=2\ncentre_diameters=3\n";
  static const char text[] = "[ruleset]\nname=trial\nselectable=no\nbase=base\n"
                             "[pipe.pex]\n" ABOUT "columns=wall_mm\nrow.32=3\n"
                             "[pipe.multilayer]\nabsent=yes\nnote=not used here\n"
                             "[conduit.bends]\n" ABOUT "centre_diameters=4\n";
  GError *error = NULL;
  g_autoptr (SwRules) rules = load_trial (text, sizeof text - 1, base, &error);
  g_assert_no_error (error);
  g_assert_nonnull (rules);
  SwRuleValue answer;
  /* Tables never mix: the base's rows are gone. */
  g_assert_cmpuint (sw_rules_n_rows (rules, "pipe.pex"), ==, 1);
  g_assert_false (sw_rules_lookup (rules, "pipe.multilayer", "16", "wall_mm", &answer, &error));
  sw_assert_error (error, SW_ERROR_NOT_FOUND, "not used here");
  g_assert_true (sw_rules_number (rules, "conduit.bends", "inside_diameters", &answer, &error));
  g_assert_true (answer.value == 2 && strcmp (answer.rule_set, "base") == 0);
  g_assert_true (sw_rules_number (rules, "conduit.bends", "centre_diameters", &answer, &error));
  g_assert_true (answer.value == 4 && strcmp (answer.rule_set, "trial") == 0);
}

static const char changes[]
    = "[checks.clearances]\nsource=the site agent\nconfidence=common-practice\nrib_mm=15\n"
      "[waste.sockets]\nsource=measured\nconfidence=published\ncolumns=wall_mm;socket_mm\n"
      "row.90=3;106\nrow.110=-;126\n"
      "[light.utilization]\nsource=sheet\nconfidence=published\ncolumns=1.75\nrow.70/50/20=0.63\n"
      "[circuit.grouping_conductors]\nsource=x\nconfidence=published\ncolumns=percent\nrow.3=100\n";

static void
test_overrides (void)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_rules_load_text ("south-africa", changes, "this job", &error);
  g_assert_no_error (error);
  SwRuleValue answer = sw_rules_value (rules, "checks.clearances", "rib_mm");
  g_assert_true (answer.value == 15 && answer.overridden);
  g_assert_cmpstr (answer.source, ==, "the site agent");
  g_assert_cmpstr (answer.rule_set, ==, "this job");
  g_assert_false (sw_rules_value (rules, "checks.clearances", "web_mm").overridden);
  g_assert_true (sw_rules_lookup (rules, "waste.sockets", "110", "socket_mm", &answer, &error));
  g_assert_true (answer.value == 126 && answer.overridden);
  g_assert_true (sw_rules_lookup (rules, "waste.sockets", "110", "wall_mm", &answer, &error));
  g_assert_true (answer.value == 3.2 && !answer.overridden);
  g_assert_cmpstr (sw_rules_row_key (rules, "waste.sockets", 3), ==, "90");
  g_assert_true (sw_rules_grid (rules, "light.utilization", "70/50/20", 1.75, SW_RULE_EXACT, &answer, &error));
  g_assert_true (answer.value == 0.63 && answer.overridden);
  g_assert_true (sw_rules_grid (rules, "light.utilization", "70/50/20", 2, SW_RULE_EXACT, &answer, &error));
  g_assert_true (answer.value == 0.65 && !answer.overridden);
  g_assert_true (sw_rules_lookup (rules, "circuit.grouping_conductors", "3", "percent", &answer, &error));

  g_autoptr (GPtrArray) changed = sw_rules_entries (rules, TRUE);
  static const struct { const char *id, *text, *was; } expected[] = {
    { "checks.clearances.rib_mm", "15", "10" },
    { "circuit.grouping_conductors[3].percent", "100", "" },
    { "waste.sockets[90].wall_mm", "3", "" },
    { "waste.sockets[90].socket_mm", "106", "" },
    { "waste.sockets[110].socket_mm", "126", "128" },
    { "light.utilization[70/50/20].1.75", "0.63", "" },
  };
  g_assert_cmpuint (changed->len, ==, G_N_ELEMENTS (expected));
  for (guint i = 0; i < changed->len && i < G_N_ELEMENTS (expected); i++)
    {
      const SwRuleEntry *entry = changed->pdata[i];
      g_assert_cmpstr (entry->answer.rule_id, ==, expected[i].id);
      g_assert_cmpstr (entry->text, ==, expected[i].text);
      g_assert_cmpstr (entry->was, ==, expected[i].was);
    }
}

static void
test_override_file (void)
{
  g_autofree char *folder = sw_test_folder ();
  g_autofree char *path = g_build_filename (folder, "job.rules", NULL);
  g_assert_true (g_file_set_contents (path, changes, -1, NULL));
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_rules_load ("europe", path, &error);
  g_assert_no_error (error);
  g_assert_cmpfloat (sw_rules_value (rules, "checks.clearances", "rib_mm").value, ==, 15);
  g_assert_null (sw_rules_load_text ("europe", "[checks.clearances]\n" ABOUT "rib_mm=x\n", "this job", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "this job:4: checks.clearances.rib_mm: \"x\" is not a number");
  g_assert_null (sw_rules_load_text ("europe", "[pipe.pex]\nabsent=yes\nnote=x\n", "this job", &error));
  sw_assert_error (error, SW_ERROR_INVALID, "this job:2: absent cannot stand in overrides");
}

/* Changes made one by one through ids read back as made, and go away again one by one. */
static void
test_change_by_id (void)
{
  static const struct { const char *id, *value; } edits[] = {
    { "waste.sockets[110].socket_mm", "126" }, { "light.maintenance[dirty].factor", "0.55" },
    { "checks.clearances.rib_mm", "15" },      { "waste.sockets[90].socket_mm", "106" },
    { "light.utilization[70/50/20].2", "0.6" }, { "waste.sockets[110].wall_mm", "3.5" },
    { "conduit.fill.method", "count" },        { "drainage.flow.largest_unit", "no" },
    { "board.sizes.gypsum_widths_mm", "600;900;1200" }, { "light.utilization[30/30/20].0.75", "0.31" },
    { "light.utilization[70/50/20].1.75", "0.62" },
  };
  GError *error = NULL;
  g_autofree char *text = g_strdup ("");
  for (gsize i = 0; i < 2 * G_N_ELEMENTS (edits); i++)
    {
      gsize k = i % G_N_ELEMENTS (edits);
      g_autoptr (SwRules) rules = sw_rules_load_text ("south-africa", text, "this job", &error);
      char *next = sw_rules_override (rules, edits[k].id, i < G_N_ELEMENTS (edits) ? edits[k].value : NULL, "me",
                                      SW_CONFIDENCE_COMMON_PRACTICE, &error);
      g_assert_no_error (error);
      g_free (text);
      text = next;
      g_autoptr (SwRules) after = sw_rules_load_text ("south-africa", text, "this job", &error);
      g_assert_no_error (error);
      g_autoptr (GPtrArray) changed = sw_rules_entries (after, TRUE);
      g_assert_cmpuint (changed->len, ==, i < G_N_ELEMENTS (edits) ? i + 1 : 2 * G_N_ELEMENTS (edits) - 1 - i);
      for (guint c = 0; c < changed->len; c++)
        {
          const SwRuleEntry *entry = changed->pdata[c];
          g_assert_cmpstr (entry->answer.source, ==, "me");
          for (gsize e = 0; e < G_N_ELEMENTS (edits); e++)
            if (strcmp (entry->answer.rule_id, edits[e].id) == 0)
              g_assert_cmpstr (entry->text, ==, edits[e].value);
        }
    }
  g_assert_cmpstr (text, ==, "");
}

static void
test_change_refused (void)
{
  GError *error = NULL;
  g_autoptr (SwRules) rules = sw_rules_load ("south-africa", NULL, &error);
  static const struct { const char *id, *value; } cases[] = {
    { "checks.clearances.moon_mm", "1" }, { "checks.clearances", "1" },      { "nonsense", "1" },
    { "waste.sockets[110", "1" },         { "waste.sockets[110].moon", "1" }, { "waste.sockets[x].wall_mm", "1" },
    { "waste.sockets.wall_mm", "1" },     { "checks.clearances[1].rib_mm", "1" },
    { "checks.clearances.rib_mm", "" },   { "checks.clearances.rib_mm", "-" }, { "checks.clearances.rib_mm", "9999" },
    { "checks.clearances.rib_mm", "1\n[x]" }, { "waste.sockets[110].wall_mm", "1;2" },
    { "drainage.frequency[often].k", "1" },
  };
  for (gsize i = 0; i < G_N_ELEMENTS (cases); i++)
    {
      g_assert_null (
          sw_rules_override (rules, cases[i].id, cases[i].value, "me", SW_CONFIDENCE_FROM_MEMORY, &error));
      g_assert_nonnull (error);
      g_clear_error (&error);
    }
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/rules/files/bad-files", test_bad_files);
  g_test_add_func ("/rules/files/bad-heads", test_bad_heads);
  g_test_add_func ("/rules/files/bad-bytes", test_bad_bytes);
  g_test_add_func ("/rules/files/spoilt-file", test_spoilt_file);
  g_test_add_func ("/rules/files/words-around", test_words_around);
  g_test_add_func ("/rules/files/inheritance", test_inheritance);
  g_test_add_func ("/rules/files/overrides", test_overrides);
  g_test_add_func ("/rules/files/override-file", test_override_file);
  g_test_add_func ("/rules/files/change-by-id", test_change_by_id);
  g_test_add_func ("/rules/files/change-refused", test_change_refused);
  return g_test_run ();
}
