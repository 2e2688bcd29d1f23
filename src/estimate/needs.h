/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "estimate/quote.h"

/* Gathers needs: what is added for one code and room falls together, unrounded until it is done. */
typedef struct _SwNeeds SwNeeds;

SwNeeds *sw_needs_new (void);
/* Ends the gathering: GPtrArray of SwNeed that frees them, by kind, size (figures by value), room. None of quantity 0. */
GPtrArray *sw_needs_end (SwNeeds *needs);
void sw_needs_free (SwNeeds *needs);
G_DEFINE_AUTOPTR_CLEANUP_FUNC (SwNeeds, sw_needs_free)

/* `size` NULL for kinds without; `thing` is the record that it comes from, 0 for none. */
void sw_needs_add (SwNeeds *needs, SwPriceKind kind, const char *size, double quantity, SwId room, SwId thing);

/* The same of what is cut: `bought` is the stock that its cutting takes. */
void sw_needs_add_cut (SwNeeds *needs, SwPriceKind kind, const char *size, double quantity, double bought, SwId room, SwId thing);

/* Those of one room, or of the whole job (room SW_NEEDS_ALL) with each code once and room 0; sheets of board then are those
 * that all rooms take when they are cut together. New, as sw_needs_end gives them. */
#define SW_NEEDS_ALL ((SwId) -1)
GPtrArray *sw_needs_of (const GPtrArray *list, SwId room);
