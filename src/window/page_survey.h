/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include "window/document.h"
#include <gtk/gtk.h>

/* As-built entry of a bay or a room: a field for all that can be measured, its shift against the drawing, how a room's measures
 * close, and the taking over of its measured outline. What is entered is one edit that can be undone. */
#define SW_TYPE_PAGE_SURVEY (sw_page_survey_get_type ())
G_DECLARE_FINAL_TYPE (SwPageSurvey, sw_page_survey, SW, PAGE_SURVEY, GtkWindow)

SwPageSurvey *sw_page_survey_new (GtkWindow *parent, SwDocument *document);
/* A bay or room; 0 leaves what is shown. */
void sw_page_survey_show (SwPageSurvey *page, SwId of);
