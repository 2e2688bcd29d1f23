/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/tools/ceiling_draft.h"
#include "window/tools/tool.h"

typedef struct _SwBoardPlaces SwBoardPlaces;

/* The board's insides, shared by its files. */
struct _SwBoard
{
  SwDesk *desk;
  guint desk_watch;
  SwPicture *picture;
  double mm_per_px;
  guint64 hidden, faded;
  gboolean catches, polygons;

  SwTool *tool;
  guint tool_index;
  GPtrArray *templates; /* SwRecord or NULL, one a tool */
  SwTyped typed;
  gboolean has_anchor;
  SwPoint anchor;

  gboolean has_cursor, pressed;
  SwPoint cursor;  /* raw */
  SwPoint done_at; /* where it was at the last press or Enter: not moved since, Enter ends what is drawn */
  SwToolEvent last;

  GArray *picked; /* SwId */
  SwPriceKind lit_kind; /* of the take-off line whose pieces are lit in the picked layouts; SW_N_PRICES: none */
  char *lit_size;
  GHashTable *lit_cornices; /* layout (reference) → SwCornice of it; NULL: none */
  GPtrArray *drafts;
  guint draft_serial;
  GArray *shortfalls; /* SwShortfall */
  SwCeilingDrafter *drafter; /* NULL until a room is dragged */
  SwCeilingDraft *ceiling;   /* of the room that is dragged; the last one, also after it */
  gboolean ceiling_over;     /* its drag has ended */
  SwBoardPlaces *places;     /* NULL until a light is in hand */
  char *says;
  GError *fault;
  GArray *watchers;
};

void sw_board_tell (SwBoard *board, guint changes);
/* The event at the cursor with catching and typing worked in. */
SwToolEvent sw_board_event_at (SwBoard *board, SwPoint raw, SwBoardMods mods);
const SwToolClass *sw_board_tool_class (guint i);

/* board_ceiling.c: asks for the ceiling of a room that the draft now is; draws what came; frees it. */
void sw_board_follow_ceiling (SwBoard *board);
void sw_board_draw_ceiling (SwBoard *board, SwDisplay *live);
void sw_board_clear_ceiling (SwBoard *board);
/* When the edit changes one room and nothing else, and the room's layout was up to date, puts its new layout too. */
gboolean sw_board_put_ceiling (SwBoard *board, SwEdit *edit, GError **error);

/* board_places.c: asks where the light in hand may be, unless that is known; draws what came; frees it. */
void sw_board_follow_places (SwBoard *board);
void sw_board_draw_places (SwBoard *board, SwDisplay *live);
void sw_board_clear_places (SwBoard *board);
/* The nearest allowed place; FALSE, and `at` itself, where none is known. */
gboolean sw_board_allowed_place (SwBoard *board, SwPoint at, SwPoint *allowed);
/* What is to be said of the place of the light in hand; NULL for nothing. The caller's. */
char *sw_board_place_words (SwBoard *board);

/* board_lit.c: whether pieces are lit; draws them. */
gboolean sw_board_is_lit (SwBoard *board);
void sw_board_draw_lit (SwBoard *board, SwDisplay *live);

/* Copies of all that moves with what is picked, `by` away: the picked things and the ends of runs that hold to them. */
GPtrArray *sw_board_moved (SwBoard *board, SwPoint by);
/* Puts records (all taken over, with the array, whose free function must be NULL) as one edit. */
gboolean sw_board_put_all (SwBoard *board, const char *name, GPtrArray *records);
