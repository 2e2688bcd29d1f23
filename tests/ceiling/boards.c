/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "fixture.h"
#include "support.h"

static void
dump (const SwCeiling *c)
{
  g_print ("# sheets %u plain %u bound %u, pieces %u, members %u, fixings %u\n", c->n_sheets, c->n_sheets_plain, c->n_sheets_bound, c->pieces->len, c->members->len, c->fixings->len);
  for (guint i = 0; i < c->pieces->len; i++)
    {
      const SwCeilingPiece *p = &g_array_index (c->pieces, SwCeilingPiece, i);
      g_print ("#  piece %d sheet %d %gx%g cut %d low %g,%g\n", p->piece.piece, p->piece.sheet, p->piece.length, p->piece.width, p->piece.cut, p->low.x, p->low.y);
    }
  for (guint i = 0; i < c->members->len; i++)
    {
      const SwCeilingMember *m = &g_array_index (c->members, SwCeilingMember, i);
      g_print ("#  member kind %d %g,%g - %g,%g span %g cant %g limit %g n %u\n", m->member.kind, m->member.from.x, m->member.from.y, m->member.to.x, m->member.to.y, m->span, m->cantilever, m->span_limit, m->n_supports);
    }
  for (guint i = 0; i < c->joints->len; i++)
    {
      const SwJoint *m = &g_array_index (c->joints, SwJoint, i);
      g_print ("#  joint kind %d %g,%g - %g,%g\n", m->kind, m->from.x, m->from.y, m->to.x, m->to.y);
    }
  for (guint i = 0; i < c->marks->len; i++)
    {
      const SwCeilingMark *m = &g_array_index (c->marks, SwCeilingMark, i);
      g_print ("#  mark %s at %g,%g value %g limit %g\n", sw_ceiling_mark_text (m->kind), m->at.x, m->at.y, m->value, m->limit);
    }
}

static void
test_example (void)
{
  SwFixture fixture = sw_fixture_new (7000, 5000, 0);
  SwId id = sw_sample_put (&fixture.sample, &sw_fixture_rectangle (&fixture, 300, 350, 6300, 4350)->record);
  g_autoptr (SwCeiling) ceiling = sw_fixture_plan (&fixture, id, NULL);
  dump (ceiling);
  sw_fixture_clear (&fixture);
}

int
main (int argc, char **argv)
{
  sw_test_init (&argc, &argv);
  g_test_add_func ("/ceiling/boards/example", test_example);
  return g_test_run ();
}
