/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Damage of the kinds that files suffer: bits, blocks, lengths, ends, and numbers in texts. */
#include "fuzz.h"

#include <string.h>

#define MOST_CHANGES 6
#define MOST_BYTES ((guint) 1 << 20)

static guint
below (GRand *rand, guint n)
{
  return n > 0 ? g_rand_int (rand) % n : 0;
}

/* A place in BYTES, more often one that is not zero: pages of a book are mostly empty. */
static guint
place (const GByteArray *bytes, GRand *rand)
{
  guint at = below (rand, bytes->len);

  for (int i = 0; i < 6 && bytes->data[at] == 0; i++)
    at = below (rand, bytes->len);
  return at;
}

static void
insert (GByteArray *bytes, guint at, const void *data, guint n)
{
  guint old = bytes->len;

  if (n == 0 || old + n > MOST_BYTES)
    return;
  g_byte_array_set_size (bytes, old + n);
  memmove (bytes->data + at + n, bytes->data + at, old - at);
  memcpy (bytes->data + at, data, n);
}

static void
take_out (GByteArray *bytes, guint at, guint n)
{
  if (n > 0)
    g_byte_array_remove_range (bytes, at, MIN (n, bytes->len - at));
}

/* A block's length: mostly short. */
static guint
block (const GByteArray *bytes, GRand *rand, guint at)
{
  guint n = 1 + below (rand, below (rand, 4) ? 32 : bytes->len);

  return MIN (n, bytes->len - at);
}

static void
copy_block (GByteArray *bytes, GRand *rand)
{
  guint from = place (bytes, rand), n = block (bytes, rand, from), to = below (rand, bytes->len);
  g_autofree guint8 *copy = g_memdup2 (bytes->data + from, n);

  if (below (rand, 2))
    insert (bytes, to, copy, n);
  else
    memcpy (bytes->data + to, copy, MIN (n, bytes->len - to));
}

/* Two or four bytes as a length that is too small, too large or just past a border. */
static void
set_length (GByteArray *bytes, GRand *rand)
{
  static const guint32 values[]
      = { 0,      1,      2,      7,       0x7f,       0x80,        0xff,        0x100,
          0x7fff, 0x8000, 0xffff, 0x10000, 0x7fffffff, 0x80000000u, 0xfffffffeu, 0xffffffffu };
  guint32 value = values[below (rand, G_N_ELEMENTS (values))];
  guint n = below (rand, 2) ? 4 : 2, at = place (bytes, rand);
  bool big = below (rand, 2);

  for (guint i = 0; i < n && at + i < bytes->len; i++)
    bytes->data[at + i] = (guint8) (value >> 8 * (big ? n - 1 - i : i));
}

static void
splice (GByteArray *bytes, GRand *rand, GBytes *other)
{
  gsize len;
  const guint8 *data = g_bytes_get_data (other, &len);

  if (len == 0)
    return;
  guint from = below (rand, (guint) len), n = (guint) len - from;
  guint few = 1 + below (rand, 64);
  if (below (rand, 3))
    n = MIN (n, few);
  if (below (rand, 4) == 0)
    g_byte_array_set_size (bytes, below (rand, bytes->len + 1));
  insert (bytes, below (rand, bytes->len + 1), data + from, n);
}

/* Start and length of a number or word at or behind a random place; FALSE when there is none near. */
static bool
find_value (const GByteArray *bytes, GRand *rand, guint *at, guint *n)
{
  static const char inside[] = "0123456789+-.eE";
  guint i = below (rand, bytes->len), end = MIN (bytes->len, i + 400);

  while (i < end && !g_ascii_isdigit (bytes->data[i]))
    i++;
  if (i == end)
    return false;
  while (i > 0 && strchr (inside, bytes->data[i - 1]) && bytes->data[i - 1])
    i--;
  *at = i;
  for (*n = 0; i < bytes->len && bytes->data[i] && strchr (inside, bytes->data[i]); i++)
    ++*n;
  return *n > 0;
}

static void
set_value (GByteArray *bytes, GRand *rand)
{
  static const char *const values[] = {
    "0",
    "-0",
    "1",
    "-1",
    "1e308",
    "-1e308",
    "1e309",
    "1e-320",
    "NaN",
    "Infinity",
    "9007199254740993",
    "2147483648",
    "-2147483649",
    "9223372036854775808",
    "0.5",
    "1e-9",
    "300",
    "1e6",
    "null",
    "true",
    "\"1\"",
    "\"\"",
    "[]",
    "{}",
    "[[]]",
    "[1]",
    "0x10",
    "1,5",
    "3/8",
    "1/0",
    "12in",
    "25 x 10",
    "\"\\u0000\"",
    "\"\xff\"",
  };
  guint at, n, from, len;

  if (!find_value (bytes, rand, &at, &n))
    return;
  if (below (rand, 3) == 0 && find_value (bytes, rand, &from, &len)) {
    g_autofree guint8 *copy = g_memdup2 (bytes->data + from, len);
    take_out (bytes, at, n);
    insert (bytes, at, copy, len);
    return;
  }
  const char *value = values[below (rand, G_N_ELEMENTS (values))];
  take_out (bytes, at, n);
  insert (bytes, at, value, (guint) strlen (value));
}

/* A letter of a text where it opens, closes or parts. */
static void
set_mark (GByteArray *bytes, GRand *rand)
{
  static const char marks[] = "[]{},:\"\\/' \n.-x";

  bytes->data[below (rand, bytes->len)] = (guint8) marks[below (rand, sizeof marks - 1)];
}

static void
change (GByteArray *bytes, GRand *rand, GBytes *other, bool text)
{
  guint at = place (bytes, rand);

  switch (below (rand, text ? 12 : 9)) {
  case 0:
    bytes->data[at] ^= (guint8) (1 << below (rand, 8));
    break;
  case 1:
    bytes->data[at] = (guint8) g_rand_int (rand);
    break;
  case 2:
    take_out (bytes, at, block (bytes, rand, at));
    break;
  case 3:
    if (below (rand, 3) == 0)
      g_byte_array_set_size (bytes, at);
    break;
  case 4:
    splice (bytes, rand, other);
    break;
  case 5:
  case 6:
    set_length (bytes, rand);
    break;
  case 7:
  case 8:
    copy_block (bytes, rand);
    break;
  case 9:
    set_mark (bytes, rand);
    break;
  default:
    set_value (bytes, rand);
    break;
  }
}

static guint32
crc (const guint8 *p, gsize n)
{
  guint32 c = 0xffffffffu;

  while (n-- > 0) {
    c ^= *p++;
    for (int k = 0; k < 8; k++)
      c = c & 1 ? 0xedb88320u ^ c >> 1 : c >> 1;
  }
  return c ^ 0xffffffffu;
}

/* Check sums of a PNG made right again: without them nobody looks inside. */
static void
mend_png (GByteArray *bytes)
{
  for (gsize at = 8; at + 12 <= bytes->len;) {
    const guint8 *p = bytes->data + at;
    gsize n = (gsize) p[0] << 24 | (gsize) p[1] << 16 | (gsize) p[2] << 8 | p[3];

    if (n > bytes->len - at - 12)
      return;
    guint32 sum = crc (p + 4, n + 4);
    for (int i = 0; i < 4; i++)
      bytes->data[at + 8 + n + (gsize) i] = (guint8) (sum >> (24 - 8 * i));
    at += n + 12;
  }
}

void
fuzz_mutate (GByteArray *bytes, GRand *rand, GBytes *other)
{
  guint n = 1 + below (rand, MOST_CHANGES);
  bool text = bytes->len > 0 && bytes->data[0] < 0x7f && bytes->data[0] >= 0x20
              && memchr (bytes->data, 0, bytes->len) == NULL;

  for (guint i = 0; i < n && bytes->len > 0; i++)
    change (bytes, rand, other, text);
  if (bytes->len > 8 && memcmp (bytes->data, "\x89PNG", 4) == 0 && below (rand, 4))
    mend_png (bytes);
}
