/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "base/error.h"
#include "rules/rules.h"
#include <glib.h>
#include <gio/gio.h>

/* Shared main of the tests: a failing assertion fails its own test only, so that the TAP plan stays whole. */
void sw_test_init (int *argc, char ***argv);

/* How often a random or repeated test goes round: n, or a tenth of it under valgrind, which is thirty times slower. */
int sw_test_rounds (int n);
/* Whether time does not matter: then a test in full_tests (tests/meson.build) tries all that it knows. */
gboolean sw_test_is_full (void);

/* A rule set of the data folder, read once by each program: a new reference. */
SwRules *sw_test_rules (const char *name);

/* |a − b| ≤ tolerance, with both printed on failure. */
#define sw_assert_near(a, b, tolerance) \
  G_STMT_START { \
    double near_a = (a), near_b = (b), near_t = (tolerance); \
    if (!(near_a - near_b <= near_t && near_b - near_a <= near_t)) \
      { \
        char *near_s = g_strdup_printf ("%s = %.10g is not within %.3g of %s = %.10g", #a, near_a, near_t, #b, near_b); \
        g_assertion_message (G_LOG_DOMAIN, __FILE__, __LINE__, G_STRFUNC, near_s); \
        g_free (near_s); \
      } \
  } G_STMT_END

/* The error is SW_ERROR with this code and its message has `part` in it; clears it. */
#define sw_assert_error(error, code_, part) \
  G_STMT_START { \
    g_assert_error (error, SW_ERROR, code_); \
    if (error != NULL) \
      { \
        if (strstr ((error)->message, (part)) == NULL) \
          g_assertion_message_cmpstr (G_LOG_DOMAIN, __FILE__, __LINE__, G_STRFUNC, "message has " #part, (error)->message, "~", (part)); \
        g_clear_error (&(error)); \
      } \
  } G_STMT_END

/* A path in the source tree ("tests/…") and in the shared reference sets; the latter NULL, with the test skipped, when absent. */
char *sw_test_source_path (const char *name);
char *sw_test_reference_path (const char *name);
/* A new empty folder that is removed at exit. Free with g_free. */
char *sw_test_folder (void);
