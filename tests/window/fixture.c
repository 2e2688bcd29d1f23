/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "store/text_form.h"

static const char plain_job[] =
    "{\"format\": \"soffit-job\", \"version\": 1, \"job\": {\"name\": \"Test\"},"
    " \"grid_lines\": [{\"id\": \"A\", \"from\": [0, -900], \"to\": [0, 6900]}, {\"id\": \"1\", \"from\": [-900, 0], \"to\": [9900, 0]}],"
    " \"profiles\": [{\"id\": \"plain\", \"tendons\": \"no\"}],"
    " \"bays\": [{\"id\": \"bay-1\", \"name\": \"Bay A\", \"profile\": \"plain\", \"first_rib_mm\": 300,"
    "            \"outline\": [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]}],"
    " \"rooms\": [{\"id\": \"room-1\", \"name\": \"Hall\", \"outline\": [[0, 0], [9000, 0], [9000, 6000], [0, 6000]]}],"
    " \"walls\": [{\"id\": \"W1\", \"from\": [0, 0], \"to\": [9000, 0]}],"
    " \"fittings\": [{\"id\": \"F1\", \"at\": [3000, 1200], \"z_mm\": 40}]}";

void
fixture_look (Fixture *fixture)
{
  g_autoptr (SwPicture) picture = sw_picture_new (sw_desk_job (fixture->desk), sw_desk_generation (fixture->desk) + 1, NULL, NULL);
  g_assert_nonnull (picture);
  g_assert_no_error (picture->fault);
  sw_board_set_picture (fixture->board, picture);
}

void
fixture_set_up (Fixture *fixture, gconstpointer more)
{
  g_autoptr (GError) error = NULL;
  g_autoptr (SwJob) job = sw_text_form_read (more != NULL ? more : plain_job, -1, &error);
  g_assert_no_error (error);
  fixture->desk = sw_desk_new (job, NULL);
  fixture->board = sw_board_new (fixture->desk);
  sw_board_set_view (fixture->board, 5, 0, 0);
  fixture_look (fixture);
}

void
fixture_tear_down (Fixture *fixture, gconstpointer more)
{
  sw_board_free (fixture->board);
  sw_desk_free (fixture->desk);
}

void
fixture_move (Fixture *fixture, double x, double y)
{
  sw_board_motion (fixture->board, (SwPoint){ x, y }, (SwBoardMods){ .clicks = 1 });
}

void
fixture_click (Fixture *fixture, double x, double y)
{
  fixture_move (fixture, x, y);
  sw_board_press (fixture->board, (SwPoint){ x, y }, (SwBoardMods){ .clicks = 1 });
  sw_board_release (fixture->board, (SwPoint){ x, y }, (SwBoardMods){ .clicks = 1 });
}

void
fixture_drag (Fixture *fixture, double x0, double y0, double x1, double y1)
{
  fixture_move (fixture, x0, y0);
  sw_board_press (fixture->board, (SwPoint){ x0, y0 }, (SwBoardMods){ .clicks = 1 });
  fixture_move (fixture, (x0 + x1) / 2, (y0 + y1) / 2);
  fixture_move (fixture, x1, y1);
  sw_board_release (fixture->board, (SwPoint){ x1, y1 }, (SwBoardMods){ .clicks = 1 });
}

void
fixture_type (Fixture *fixture, const char *text)
{
  for (; *text != 0; text++)
    {
      if (*text == '\t')
        g_assert_true (sw_board_tab (fixture->board, FALSE));
      else if (*text == '\n')
        sw_board_enter (fixture->board);
      else
        g_assert_true (sw_board_type (fixture->board, (gunichar) *text));
    }
}

guint
fixture_count (Fixture *fixture, SwTable table)
{
  return sw_job_count (sw_desk_job (fixture->desk), table);
}

const SwRecord *
fixture_last (Fixture *fixture, SwTable table)
{
  guint n = fixture_count (fixture, table);
  g_assert_cmpuint (n, >, 0);
  return sw_job_nth (sw_desk_job (fixture->desk), table, n - 1);
}
