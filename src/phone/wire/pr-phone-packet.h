/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the program and pritchel-phone say to each other: packets of one JSON object, each with a file or none, over a pair of
 * SOCK_SEQPACKET sockets; the helper has its end as PR_PHONE_FD. The end of one is the end of the other.
 *
 * From the helper, by the member "what":
 *   open   url, side, code     it listens; CODE: SIDE x SIDE modules of the QR code, row by row, "1" dark
 *   used                       a phone has opened the page
 *   ask    phone, code         another phone would send; CODE is what that phone shows
 *   coming share               a photo is on its way, 0..1; 0: none is any more
 *   photo  id, instead, ending, state, words; with the file's bytes as they were sent. INSTEAD: the photo it takes the place
 *                              of, 0: none. STATE: of PrPhoneState. WORDS: the verdict in the language of the program
 *   end    why                 of PrPhoneEnd; then it ends
 * To the helper, by the member "do":
 *   allow  phone               and refuse
 *
 * Both look at what comes as if a stranger had written it. */
#pragma once
#include <json-glib/json-glib.h>
#include <stdbool.h>

#define PR_PHONE_FD 3
#define PR_PHONE_PACKET 16384 /* bytes of a packet at most */

typedef enum { PR_PHONE_GOOD, PR_PHONE_USABLE, PR_PHONE_AGAIN } PrPhoneState;
typedef enum {
  PR_PHONE_END_IDLE,
  PR_PHONE_END_ADDRESS
} PrPhoneEnd; /* not used for long; it cannot listen there */

/* Sends what BUILDER (transfer full) holds, ended, with a copy of FILE (-1: none). FALSE: nobody listens, or keeps up. */
bool pr_phone_send (int socket, JsonBuilder *builder, int file);
/* A builder whose object is begun, with NAME (what, do) as WORD. Transfer full. */
JsonBuilder *pr_phone_word (const char *name, const char *word);

typedef enum { PR_PHONE_GOT, PR_PHONE_NOTHING, PR_PHONE_OVER } PrPhoneGot;
/* The next packet: its OBJECT (transfer full) and its FILE (-1: none; the caller closes it). NOTHING: there is none now;
 * OVER: the other has ended, or talks nonsense. */
PrPhoneGot pr_phone_receive (int socket, JsonObject **object, int *file);
