/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The judge: a photo on its way in, seen through the same doors as any other. A process of its own (pritchel-phone judge): the
 * photo is its standard input, a file; its standard output, a file too, receives a line of JSON, {"mime", "state", "words"}, and
 * then the picture that the phone is shown: the sheet flat with what was found on it, JPEG. "mime" is null for what is no photo. */
#pragma once

#define PR_PHONE_JUDGE "judge"

/* ORDERS: unit, sides; and of a shoe its thickness in mm, the face that is up, whether it is drawn. The exit status. */
int pr_phone_judge (int n_orders, char **orders);
