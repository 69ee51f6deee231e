/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "hostile.h"

#include <gdk-pixbuf/gdk-pixbuf.h>
#include <string.h>

static void
put (GByteArray *out, const void *data, gsize len)
{
  g_byte_array_append (out, data, (guint) len);
}

static void
put_number (GByteArray *out, int len, guint32 value)
{
  while (len-- > 0)
    put (out, &(guint8){ (guint8) (value >> 8 * len) }, 1);
}

/* --- PNG --------------------------------------------------------------------------------- */

static guint32
crc (const guint8 *p, gsize n)
{
  guint32 c = 0xffffffffu;

  for (; n > 0; n--, p++) {
    c ^= *p;
    for (int k = 0; k < 8; k++)
      c = c & 1 ? 0xedb88320u ^ c >> 1 : c >> 1;
  }
  return c ^ 0xffffffffu;
}

static void
put_chunk (GByteArray *out, const char *kind, const GByteArray *body, guint32 wrong)
{
  guint at = out->len + 4;

  put_number (out, 4, body->len);
  put (out, kind, 4);
  put (out, body->data, body->len);
  put_number (out, 4, crc (out->data + at, out->len - at) ^ wrong);
}

/* Appends BODY times COUNT, deflated. */
static void
put_deflated (GByteArray *out, const void *body, gsize len, guint32 count)
{
  g_autoptr (GZlibCompressor) zip = g_zlib_compressor_new (G_ZLIB_COMPRESSOR_FORMAT_ZLIB, 6);
  g_autoptr (GOutputStream) memory = g_memory_output_stream_new_resizable ();
  g_autoptr (GOutputStream) stream = g_converter_output_stream_new (memory, G_CONVERTER (zip));

  for (guint32 i = 0; i < count; i++)
    g_output_stream_write_all (stream, body, len, NULL, NULL, NULL);
  g_output_stream_close (stream, NULL, NULL);
  put (out, g_memory_output_stream_get_data (G_MEMORY_OUTPUT_STREAM (memory)),
       g_memory_output_stream_get_data_size (G_MEMORY_OUTPUT_STREAM (memory)));
}

/* So many chunks, all alike. */
static void
put_bombs (GByteArray *out, const char *kind, guint32 mb, int chunks)
{
  g_autoptr (GByteArray) body = g_byte_array_new ();
  g_autofree char *letters = g_strnfill (1 << 20, 'x');

  put (body, "note\0\0", 6);
  put_deflated (body, letters, 1 << 20, mb);
  for (int i = 0; i < chunks; i++)
    put_chunk (out, kind, body, 0);
}

static void
put_png_head (GByteArray *out, const Png *png)
{
  g_autoptr (GByteArray) body = g_byte_array_new ();

  put (out, "\x89PNG\r\n\x1a\n", 8);
  put_number (body, 4, png->width);
  put_number (body, 4, png->height);
  put_number (body, 1, (guint32) png->depth);
  put_number (body, 1, (guint32) png->kind);
  put_number (body, 3, 0);
  put_chunk (out, "IHDR", body, 0);
}

GByteArray *
hostile_png (const Png *png)
{
  static const int samples[] = { 1, 0, 3, 1, 2, 0, 4 };
  GByteArray *out = g_byte_array_new ();
  g_autoptr (GByteArray) data = g_byte_array_new (), none = g_byte_array_new ();
  guint32 rows = png->rows ? png->rows : png->height;
  gsize row = ((gsize) png->width * (gsize) (png->depth * samples[png->kind]) + 7) / 8 + 1;
  g_autofree guint8 *zeros = g_malloc0 (row);

  put_png_head (out, png);
  if (png->kind == PNG_PALETTE) {
    g_autoptr (GByteArray) colours = g_byte_array_new ();
    put (colours, "\xff\xff\xff\x00\x00\x00", 6);
    put_chunk (out, "PLTE", colours, 0);
  }
  if (png->text != NULL)
    put_bombs (out, png->text, png->text_mb ? (guint32) png->text_mb : 200, MAX (1, png->texts));
  put_deflated (data, zeros, row, rows);
  put_chunk (out, "IDAT", data, png->bad_crc ? 1 : 0);
  put_chunk (out, "IEND", none, 0);
  return out;
}

/* --- JPEG -------------------------------------------------------------------------------- */

/* A table with one code, the single bit 0: no difference, or the end of a block. */
static void
put_huffman (GByteArray *out, guint32 id)
{
  put_number (out, 2, 0xffc4);
  put_number (out, 2, 2 + 1 + 16 + 1);
  put_number (out, 1, id);
  put_number (out, 1, 1);
  for (int i = 0; i < 15; i++)
    put_number (out, 1, 0);
  put_number (out, 1, 0);
}

static void
put_tables (GByteArray *out)
{
  put_number (out, 2, 0xffdb);
  put_number (out, 2, 2 + 65);
  put_number (out, 1, 0);
  for (int i = 0; i < 64; i++)
    put_number (out, 1, 1);
  put_huffman (out, 0x00);
  put_huffman (out, 0x10);
}

static void
put_frame (GByteArray *out, const Jpeg *jpeg)
{
  put_number (out, 2, jpeg->progressive ? 0xffc2 : 0xffc0);
  put_number (out, 2, 8 + 3 * (guint32) jpeg->components);
  put_number (out, 1, 8);
  put_number (out, 2, (guint32) jpeg->height);
  put_number (out, 2, (guint32) jpeg->width);
  put_number (out, 1, (guint32) jpeg->components);
  for (int i = 0; i < jpeg->components; i++)
    put_number (out, 3, (guint32) (i + 1) << 16 | 0x1100);
}

static void
put_scan (GByteArray *out, const Jpeg *jpeg)
{
  put_number (out, 2, 0xffda);
  put_number (out, 2, 6 + 2 * (guint32) jpeg->components);
  put_number (out, 1, (guint32) jpeg->components);
  for (int i = 0; i < jpeg->components; i++)
    put_number (out, 2, (guint32) (i + 1) << 8);
  put_number (out, 3, jpeg->progressive ? 0 : 0x003f00);
  /* two bits a block, one where there is only its first number */
  gsize blocks
      = (gsize) ((jpeg->width + 7) / 8) * (gsize) ((jpeg->height + 7) / 8) * (gsize) jpeg->components;
  gsize n = jpeg->data ? jpeg->data : (blocks * (jpeg->progressive ? 1 : 2) + 7) / 8;
  g_autofree guint8 *zeros = g_malloc0 (n);
  put (out, zeros, n);
}

GByteArray *
hostile_jpeg (const Jpeg *jpeg)
{
  GByteArray *out = g_byte_array_new ();

  put_number (out, 2, 0xffd8);
  put (out, jpeg->head, jpeg->head_len);
  put_tables (out);
  put_frame (out, jpeg);
  for (int i = 0; i < MAX (1, jpeg->scans); i++)
    put_scan (out, jpeg);
  put_number (out, 2, 0xffd9);
  return out;
}

GByteArray *
hostile_exif (int orientation, guint32 offset, int entries)
{
  GByteArray *out = g_byte_array_new ();

  put_number (out, 2, 0xffe1);
  put_number (out, 2, 2 + 6 + 8 + 2 + 12 + 4);
  put (out, "Exif\0", 6);
  put (out, "MM\0*", 4);
  put_number (out, 4, offset);
  put_number (out, 2, (guint32) entries);
  put_number (out, 2, 0x0112);
  put_number (out, 2, 3);
  put_number (out, 4, 1);
  put_number (out, 2, (guint32) orientation);
  put_number (out, 2, 0);
  put_number (out, 4, 0);
  return out;
}

/* --- TIFF, boxes, WebP -------------------------------------------------------------------- */

GByteArray *
hostile_tiff (const TiffEntry *entries, int n, guint32 next)
{
  GByteArray *out = g_byte_array_new ();

  put (out, "MM\0*\0\0\0\10", 8);
  put_number (out, 2, (guint32) n);
  for (int i = 0; i < n; i++) {
    put_number (out, 2, entries[i].tag);
    put_number (out, 2, entries[i].is_long ? 4 : 3);
    put_number (out, 4, 1);
    put_number (out, 4, entries[i].is_long ? entries[i].value : entries[i].value << 16);
  }
  put_number (out, 4, next);
  put (out, (guint8[100]){ 0 }, 100);
  return out;
}

/* BODY in a box of KIND; a full one has a version and flags. BODY is consumed. */
static void
put_box (GByteArray *out, const char *kind, bool full, GByteArray *body)
{
  put_number (out, 4, body->len + (full ? 12 : 8));
  put (out, kind, 4);
  if (full)
    put_number (out, 4, 0);
  put (out, body->data, body->len);
  g_byte_array_unref (body);
}

static GByteArray *
properties (guint32 width, guint32 height)
{
  GByteArray *size = g_byte_array_new (), *all = g_byte_array_new (), *out = g_byte_array_new ();

  put_number (size, 4, width);
  put_number (size, 4, height);
  put_box (all, "ispe", true, size);
  put_box (out, "ipco", false, all);
  return out;
}

static GByteArray *
reference (guint32 n)
{
  GByteArray *from = g_byte_array_new (), *out = g_byte_array_new ();

  put_number (from, 2, 1);
  put_number (from, 2, n);
  for (guint32 i = 0; i < n; i++)
    put_number (from, 2, 2);
  put_box (out, "dimg", false, from);
  return out;
}

GByteArray *
hostile_boxes (const char *brand, guint32 width, guint32 height, guint32 items, guint32 references)
{
  GByteArray *out = g_byte_array_new (), *type = g_byte_array_new (), *meta = g_byte_array_new ();
  GByteArray *info = g_byte_array_new ();

  put (type, brand, 4);
  put (type, "\0\0\0\0mif1", 8);
  put_box (out, "ftyp", false, type);
  put_number (info, 2, items);
  put_box (meta, "iinf", true, info);
  put_box (meta, "iref", true, reference (references));
  put_box (meta, "iprp", false, properties (width, height));
  put_box (out, "meta", true, meta);
  return out;
}

static void
put_little (GByteArray *out, int len, guint32 value)
{
  for (int i = 0; i < len; i++)
    put_number (out, 1, value >> 8 * i & 255);
}

GByteArray *
hostile_webp (guint32 width, guint32 height, bool animated)
{
  GByteArray *out = g_byte_array_new ();

  put (out, "RIFF", 4);
  put_little (out, 4, 4 + 8 + 10 + (animated ? 0 : 8 + 10));
  put (out, "WEBPVP8X", 8);
  put_little (out, 4, 10);
  put_little (out, 4, animated ? 2 : 0);
  put_little (out, 3, width - 1);
  put_little (out, 3, height - 1);
  if (!animated) {
    put (out, "VP8L", 4);
    put_little (out, 4, 10);
    put (out, (guint8[10]){ 0x2f }, 10);
  }
  return out;
}

/* --- others ------------------------------------------------------------------------------ */

/* LZW with codes of three bits: a clear before every two pixels keeps them from growing. */
static void
put_lzw (GByteArray *out, int pixels)
{
  g_autoptr (GByteArray) data = g_byte_array_new ();
  guint32 hold = 0;
  int bits = 0;

  for (int i = 0; i <= pixels / 2 * 3; i++) {
    hold |= (i == pixels / 2 * 3 ? 5u : i % 3 == 0 ? 4u : 0u) << bits;
    for (bits += 3; bits >= 8; bits -= 8, hold >>= 8)
      put_number (data, 1, hold & 255);
  }
  put_number (data, 1, hold & 255);
  for (guint at = 0; at < data->len; at += 255) {
    guint n = MIN (255, data->len - at);
    put_number (out, 1, n);
    put (out, data->data + at, n);
  }
  put_number (out, 1, 0);
}

GByteArray *
hostile_gif (int width, int height)
{
  GByteArray *out = g_byte_array_new ();
  guint8 w[2] = { (guint8) width, (guint8) (width >> 8) }, h[2] = { (guint8) height, (guint8) (height >> 8) };

  put (out, "GIF89a", 6);
  put (out, w, 2);
  put (out, h, 2);
  put (out, "\x81\0\0\xff\xff\xff\0\0\0\0\0\0\0\0\0,\0\0\0\0", 3 + 12 + 5);
  put (out, w, 2);
  put (out, h, 2);
  put (out, "\0\2", 2);
  put_lzw (out, width * height);
  put (out, ";", 1);
  return out;
}

GByteArray *
hostile_text (const char *text)
{
  GByteArray *out = g_byte_array_new ();

  put (out, text, strlen (text));
  return out;
}

GByteArray *
hostile_saved (const char *format)
{
  GByteArray *out = g_byte_array_new ();
  g_autoptr (GdkPixbuf) pixbuf = gdk_pixbuf_new (GDK_COLORSPACE_RGB, FALSE, 8, 96, 80);
  guchar *p = gdk_pixbuf_get_pixels (pixbuf);
  gchar *data = NULL;
  gsize len = 0;

  for (int y = 0; y < 80; y++)
    for (int x = 0; x < 3 * 96; x++)
      p[y * gdk_pixbuf_get_rowstride (pixbuf) + x] = (guchar) (x + 2 * y);
  if (gdk_pixbuf_save_to_bufferv (pixbuf, &data, &len, format, NULL, NULL, NULL))
    put (out, data, len);
  g_free (data);
  return out;
}

GByteArray *
hostile_cut (GByteArray *bytes, double share)
{
  return g_byte_array_set_size (bytes, (guint) (bytes->len * share));
}

GByteArray *
hostile_set (GByteArray *bytes, guint at, int len, guint32 value)
{
  for (int i = 0; i < len && at + (guint) i < bytes->len; i++)
    bytes->data[at + (guint) i] = (guint8) (value >> 8 * (len - 1 - i));
  return bytes;
}
