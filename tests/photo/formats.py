#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Files as phones, scanners and other programs write them, made here, and what is read of them."""
import os
import shutil
import struct
import subprocess
import sys
import tempfile
import zlib

try:
    import cv2
    import numpy as np
except ImportError:
    print("OpenCV for Python is not here: skipped")
    sys.exit(77)

FIGURES = sys.argv[1]
W, H = 160, 240
# top left, top right, bottom left, bottom right; red, green, blue
QUARTERS = [(200, 40, 30), (40, 170, 60), (30, 60, 210), (230, 220, 190)]
failed = 0


def picture():
    """The four quarters, blue first as OpenCV wants it."""
    p = np.zeros((H, W, 3), np.uint8)
    for k, colour in enumerate(QUARTERS):
        y, x = H // 2 * (k // 2), W // 2 * (k % 2)
        p[y:y + H // 2, x:x + W // 2] = colour[::-1]
    return p


def read(files, **more):
    env = {**os.environ, **more}
    out = subprocess.run([FIGURES, *files], env=env, capture_output=True, text=True, check=False)
    lines = out.stdout.splitlines()
    if len(lines) != len(files):
        return ["gave up: " + out.stderr.strip()] * len(files)
    return lines


def expect(name, file, colours=None, size=(W, H), within=3, density=None):
    global failed
    colours = QUARTERS if colours is None else colours
    line = read([file])[0]
    good = line[0].isdigit()
    if good:
        v = [float(x) for x in line.split()]
        got = np.array(v[3:]).reshape(4, 3)
        good = (v[0], v[1]) == size and np.abs(got - np.array(colours)).max() <= within
        good = good and (density is None or abs(v[2] - density) < 0.01)
    failed += not good
    print(("ok   " if good else "FAIL ") + name + ("" if good else ": " + line))


def refused(name, file, *words, **more):
    global failed
    line = read([file], **more)[0]
    good = line.startswith("refused") and any(all(w in line for w in way) for way in words)
    failed += not good
    print(("ok   " if good else "FAIL ") + name + ": " + line)


def exif(orientation):
    tiff = b"MM\0*\0\0\0\x08" + struct.pack(">HHHIHHI", 1, 0x0112, 3, 1, orientation, 0, 0)
    body = b"Exif\0\0" + tiff
    return b"\xff\xe1" + struct.pack(">H", len(body) + 2) + body


def stored_for(upright, orientation):
    """The rows as stored, so that ORIENTATION turns them upright: the definition's inverse."""
    back = {2: lambda p: p[:, ::-1], 3: lambda p: p[::-1, ::-1], 4: lambda p: p[::-1],
            5: lambda p: p.transpose(1, 0, 2), 6: lambda p: np.rot90(p, 1),
            7: lambda p: np.rot90(p, 2).transpose(1, 0, 2), 8: lambda p: np.rot90(p, -1)}
    return np.ascontiguousarray(back.get(orientation, lambda p: p)(upright))


def png(colour_type, depth, rows, extra=b""):
    def chunk(kind, data):
        check = struct.pack(">I", zlib.crc32(kind + data))
        return struct.pack(">I", len(data)) + kind + data + check
    head = struct.pack(">IIBBBBB", W, H, depth, colour_type, 0, 0, 0)
    return (b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + extra_chunks(chunk, extra)
            + chunk(b"IDAT", zlib.compress(b"".join(b"\0" + r for r in rows)))
            + chunk(b"IEND", b""))


def extra_chunks(chunk, extra):
    return b"".join(chunk(kind, data) for kind, data in extra) if extra else b""


def save(folder, name, data):
    path = os.path.join(folder, name)
    with open(path, "wb") as f:
        f.write(data)
    return path


def try_jpeg(folder, p):
    data = cv2.imencode(".jpg", p, [cv2.IMWRITE_JPEG_QUALITY, 97])[1].tobytes()
    expect("JPEG", save(folder, "a.jpg", data))
    for o in range(10):
        turned = cv2.imencode(".jpg", stored_for(p, o), [cv2.IMWRITE_JPEG_QUALITY, 97])[1].tobytes()
        expect(f"JPEG, EXIF orientation {o}",
               save(folder, f"o{o}.jpg", turned[:2] + exif(o) + turned[2:]))
    fine = [cv2.IMWRITE_JPEG_PROGRESSIVE, 1, cv2.IMWRITE_JPEG_QUALITY, 97]
    data = cv2.imencode(".jpg", p, fine)[1]
    expect("progressive JPEG", save(folder, "p.jpg", data.tobytes()))
    grey = cv2.cvtColor(p, cv2.COLOR_BGR2GRAY)
    level = [(0.299 * r + 0.587 * g + 0.114 * b,) * 3 for r, g, b in QUARTERS]
    expect("grey JPEG", save(folder, "g.jpg", cv2.imencode(".jpg", grey)[1].tobytes()), level)
    expect("JPEG with data behind it", save(folder, "tail.jpg", data.tobytes() + b"motion" * 5000))


def try_png(folder, p):
    expect("PNG", save(folder, "a.png", cv2.imencode(".png", p)[1].tobytes()))
    expect("PNG called .jpg", save(folder, "b.jpg", cv2.imencode(".png", p)[1].tobytes()))
    expect("PNG with no name to go by", save(folder, "photo", cv2.imencode(".png", p)[1].tobytes()))
    deep = p.astype(np.uint16) * 257
    expect("PNG, 16 bits", save(folder, "16.png", cv2.imencode(".png", deep)[1].tobytes()))
    alpha = np.dstack([p, np.full((H, W), 102, np.uint8)])
    data = cv2.imencode(".png", alpha)[1].tobytes()
    expect("PNG, alpha on white", save(folder, "alpha.png", data), [
           tuple(0.4 * c + 0.6 * 255 for c in q) for q in QUARTERS])
    index = [bytes([2 * (y >= H // 2) + (x >= W // 2) for x in range(W)]) for y in range(H)]
    table = b"".join(bytes(q) for q in QUARTERS)
    expect("PNG, palette", save(folder, "pal.png", png(3, 8, index, [(b"PLTE", table)])))
    grey = [bytes([40 if x < W // 2 else 210 for x in range(W)]) for _ in range(H)]
    density = [(b"pHYs", struct.pack(">IIB", 11811, 11811, 1))]
    expect("PNG, grey, 300 dpi", save(folder, "grey.png", png(0, 8, grey, density)),
           [(40,) * 3, (210,) * 3] * 2, density=11.811)
    bits = [bytes([0xff] * (W // 16) + [0] * (W // 16)) for _ in range(H)]
    expect("PNG, 1 bit", save(folder, "bit.png", png(0, 1, bits)), [(255,) * 3, (0,) * 3] * 2)


def try_others(folder, p):
    expect("TIFF", save(folder, "a.tif", cv2.imencode(".tiff", p)[1].tobytes()))
    deep = p.astype(np.uint16) * 257
    expect("TIFF, 16 bits", save(folder, "16.tif", cv2.imencode(".tiff", deep)[1].tobytes()))
    data = cv2.imencode(".webp", p, [cv2.IMWRITE_WEBP_QUALITY, 98])[1].tobytes()
    webp = save(folder, "a.webp", data)
    if read([webp])[0][0].isdigit():
        expect("WebP", webp, within=8)
    else:
        refused("WebP", webp, ("WebP", "webp-pixbuf-loader"))
    if shutil.which("convert") is None:
        print("skip what ImageMagick makes: it is not here")
        return
    source = os.path.join(folder, "a.png")

    def convert(name, *how):
        target = os.path.join(folder, name)
        subprocess.run(["convert", source, *how, target], check=True, capture_output=True)
        return target
    expect("CMYK JPEG", convert("cmyk.jpg", "-colorspace", "CMYK", "-quality", "97"), within=8)
    expect("interlaced PNG", convert("inter.png", "-interlace", "PNG"))
    inch = ["-units", "PixelsPerInch", "-density"]
    expect("TIFF with LZW, 254 dpi", convert("lzw.tif", "-compress", "LZW", *inch, "254"),
           density=10)
    expect("JPEG with 150 dpi", convert("dpi.jpg", "-quality", "97", *inch, "150"),
           density=150 / 25.4)


def box(kind, data, full=True):
    body = (b"\0\0\0\0" if full else b"") + data
    return struct.pack(">I", len(body) + 8) + kind + body


def heif(brand, width, height):
    """Boxes that tell a size, and no picture."""
    size = box(b"ipco", box(b"ispe", struct.pack(">II", width, height)), False)
    return box(b"ftyp", brand + b"\0\0\0\0mif1" + brand, False) + box(b"meta", box(b"iprp", size, False))


def try_boxes(folder):
    """With loaders and encoders that are there."""
    source = os.path.join(folder, "a.png")
    for name in ("heic", "avif"):
        target = os.path.join(folder, "real." + name)
        made = subprocess.run(["convert", source, "-quality", "95", target], capture_output=True, check=False)
        if made.returncode != 0 or not os.path.exists(target) or not read([target])[0][0].isdigit():
            print(f"skip {name}: it cannot be written or read here")
            continue
        expect(name.upper(), target, within=12)
        with open(target, "rb") as f:
            data = f.read()
        refused(f"{name} cut at a half", save(folder, "cut." + name, data[:len(data) // 2]), ("damaged",))
        at = data.index(b"ispe") + 8
        smaller = data[:at] + struct.pack(">II", 100, 100) + data[at + 8:]
        expect(f"{name} larger than its box tells", save(folder, "small." + name, smaller), within=12)


def try_refused(folder):
    for brand, format_name in ((b"heic", "HEIC"), (b"avif", "AVIF")):
        file = save(folder, format_name, heif(brand, 640, 480))
        # a computer without loaders beyond the built in ones
        refused(format_name + " with no loader", file, (format_name, "heif-gdk-pixbuf", "JPEG"),
                GDK_PIXBUF_MODULE_FILE=os.devnull)
        refused("broken " + format_name, file, (format_name, "heif-gdk-pixbuf", "JPEG"), ("damaged",))
        refused(format_name + " too large", save(folder, "large", heif(brand, 20000, 20000)), ("120 million",))
    webp = save(folder, "none.webp", b"RIFF\x48\0\0\0WEBPVP8 \x3c\0\0\0" + b"\0" * 6 + b"\xa0\0\xa0\0" + b"\0" * 50)
    refused("WebP with no loader", webp, ("WebP", "webp-pixbuf-loader", "JPEG"),
            GDK_PIXBUF_MODULE_FILE=os.devnull)
    refused("text", save(folder, "text.png", b"Not a picture.\n" * 20), ("not a photo",))


with tempfile.TemporaryDirectory() as where:
    try_jpeg(where, picture())
    try_png(where, picture())
    try_others(where, picture())
    if shutil.which("convert") is not None:
        try_boxes(where)
    try_refused(where)
sys.exit(1 if failed else 0)
