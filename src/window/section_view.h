/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/canvas.h"
#include "window/document.h"

/* The section strip: the cut across the voids at the pointer or at what is picked, or the long section of the picked run. */
#define SW_TYPE_SECTION_VIEW (sw_section_view_get_type ())
G_DECLARE_FINAL_TYPE (SwSectionView, sw_section_view, SW, SECTION_VIEW, SwCanvas)

/* Signal "title" when what sw_section_view_title gives changes. */
void sw_section_view_set_document (SwSectionView *view, SwDocument *document);
void sw_section_view_set_theme (SwSectionView *view, SwTheme theme);
/* Follows the pointer on the plan while nothing is picked. */
void sw_section_view_follow (SwSectionView *view, SwPoint world);
/* Stays at a place until something else is picked. */
void sw_section_view_show (SwSectionView *view, SwPoint world);
void sw_section_view_set_along (SwSectionView *view, gboolean along);
gboolean sw_section_view_can_show_along (SwSectionView *view);
char *sw_section_view_title (SwSectionView *view); /* free with g_free */
