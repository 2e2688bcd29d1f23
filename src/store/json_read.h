/* SPDX-License-Identifier: GPL-3.0-or-later */
#pragma once
#include <gio/gio.h>
#include <json-glib/json-glib.h>

/* Strict JSON (RFC 8259) into json-glib's tree. json-glib's own parser also takes comments and hexadecimal numbers, lets
 * the last of two equal keys win, wraps large integers and nests without limit; here all of these are errors.
 * Whole numbers up to 2^53 become integers, others doubles; "\u0000" is refused, as texts end there.
 * `length` in bytes, -1: up to the NUL. A byte order mark is skipped. The tree is the caller's (json_node_unref).
 * NULL with SW_ERROR_INVALID, "line 3, column 14: …" (columns in characters), or SW_ERROR_LIMIT when nested too deep. */
JsonNode *sw_json_read (const char *text, gssize length, GError **error);

/* "a text", "a number", "a list", "an object", "true or false", "null". Static. */
const char *sw_json_kind (JsonNode *node);
