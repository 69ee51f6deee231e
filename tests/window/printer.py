# SPDX-License-Identifier: GPL-3.0-or-later
"""A printer without paper: it speaks as much of the Internet Printing Protocol (RFC 8010, RFC 8011) and
of CUPS as the desktop's print dialog asks for, and keeps what is printed as files."""
import http.server
import struct
import threading

OK, NOT_FOUND = 0x0000, 0x0406
OPERATION, PRINTER, JOB, END = 1, 4, 2, 3
INTEGER, BOOLEAN, ENUM, NAME, KEYWORD, URI, CHARSET, LANGUAGE, TEXT, MIME = (
    0x21, 0x22, 0x23, 0x42, 0x44, 0x45, 0x47, 0x48, 0x41, 0x49)
PRINT_JOB, GET_JOB, GET_PRINTER, CUPS_DEFAULT, CUPS_PRINTERS = 0x02, 0x09, 0x0b, 0x4001, 0x4002

PPD = b'''*PPD-Adobe: "4.3"
*FormatVersion: "4.3"
*FileVersion: "1.0"
*LanguageVersion: English
*LanguageEncoding: ISOLatin1
*PCFileName: "FORGE.PPD"
*Manufacturer: "None"
*Product: "(Forge)"
*PSVersion: "(3010) 1"
*ModelName: "Forge"
*ShortNickName: "Forge"
*NickName: "Forge"
*LanguageLevel: "3"
*ColorDevice: False
*cupsFilter: "application/vnd.cups-pdf 0 -"
*OpenUI *PageSize/Media Size: PickOne
*DefaultPageSize: A4
*PageSize A4/A4: ""
*CloseUI: *PageSize
*OpenUI *PageRegion: PickOne
*DefaultPageRegion: A4
*PageRegion A4/A4: ""
*CloseUI: *PageRegion
*DefaultImageableArea: A4
*ImageableArea A4/A4: "12 12 583 830"
*DefaultPaperDimension: A4
*PaperDimension A4/A4: "595 842"
'''


def attribute(tag, name, value):
    if tag in (INTEGER, ENUM):
        value = struct.pack('>i', value)
    elif tag == BOOLEAN:
        value = bytes([value])
    else:
        value = value.encode()
    return struct.pack('>BH', tag, len(name)) + name.encode() + struct.pack('>H', len(value)) + value


def after_attributes(body):
    """Where the document begins: behind the tag that ends the attributes (RFC 8010, 3.1)."""
    at = 8
    while body[at] != END:
        if body[at] < 0x10:
            at += 1
            continue
        at += 1
        for _ in ('name', 'value'):
            at += 2 + struct.unpack('>H', body[at:at + 2])[0]
    return at + 1


class Printer:
    """Called NAME; JOBS are the documents it was given. CUPS_SERVER in the environment finds it."""

    def __init__(self, name):
        self.name, self.jobs = name, []
        outer = self

        class Handler(http.server.BaseHTTPRequestHandler):
            protocol_version = 'HTTP/1.1'

            def log_message(self, *words):
                pass

            def answer(self, code, kind, data):
                self.send_response(code)
                self.send_header('Content-Type', kind)
                self.send_header('Content-Length', str(len(data)))
                self.end_headers()
                self.wfile.write(data)

            def do_GET(self):
                found = self.path == f'/printers/{outer.name}.ppd'
                self.answer(200 if found else 404, 'application/vnd.cups-ppd', PPD if found else b'')

            def body(self):
                if self.headers.get('Transfer-Encoding', '').lower() != 'chunked':
                    return self.rfile.read(int(self.headers.get('Content-Length', 0)))
                data = b''
                while True:
                    size = int(self.rfile.readline(), 16)
                    data += self.rfile.read(size)
                    self.rfile.readline()
                    if size == 0:
                        return data

            def do_POST(self):
                self.answer(200, 'application/ipp', outer.ipp(self.body()))

        self.server = http.server.ThreadingHTTPServer(('127.0.0.1', 0), Handler)
        self.address = f'127.0.0.1:{self.server.server_port}'
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def description(self):
        return bytes([PRINTER]) + b''.join(attribute(*one) for one in (
            (NAME, 'printer-name', self.name),
            (URI, 'printer-uri-supported', f'ipp://{self.address}/printers/{self.name}'),
            (TEXT, 'printer-info', self.name), (TEXT, 'printer-location', 'forge'),
            (TEXT, 'printer-make-and-model', 'Forge'), (ENUM, 'printer-state', 3),
            (KEYWORD, 'printer-state-reasons', 'none'), (BOOLEAN, 'printer-is-accepting-jobs', True),
            (INTEGER, 'queued-job-count', 0), (ENUM, 'printer-type', 0),
            (KEYWORD, 'auth-info-required', 'none'), (MIME, 'document-format-supported', 'application/pdf')))

    def ipp(self, body):
        version, operation, request = struct.unpack('>HHI', body[:8])
        status, more = OK, b''
        if operation in (CUPS_DEFAULT, CUPS_PRINTERS, GET_PRINTER):
            more = self.description()
        elif operation == PRINT_JOB:
            self.jobs.append(body[after_attributes(body):])
            more = bytes([JOB]) + attribute(INTEGER, 'job-id', len(self.jobs)) + attribute(
                URI, 'job-uri', f'ipp://{self.address}/jobs/{len(self.jobs)}') + attribute(ENUM, 'job-state', 9)
        elif operation == GET_JOB:
            more = bytes([JOB]) + attribute(ENUM, 'job-state', 9)
        else:
            status = NOT_FOUND
        return (struct.pack('>HHI', version, status, request) + bytes([OPERATION])
                + attribute(CHARSET, 'attributes-charset', 'utf-8')
                + attribute(LANGUAGE, 'attributes-natural-language', 'en') + more + bytes([END]))
