# SPDX-License-Identifier: GPL-3.0-or-later
"""A printer that is off is measured once: the check page is printed on it, what its bars measure is
typed in, and from then on what is printed on it is longer by just that much. The way back is there."""
import configparser
import os
import sys
import tempfile

import drive
import printer
from measure import has_bars, words_of


def paper_of(job):
    """A file with the document the printer was given."""
    handle, name = tempfile.mkstemp('.pdf', dir=drive.home())
    with os.fdopen(handle, 'wb') as out:
        out.write(job)
    return name


def prints(app, forge):
    """The print dialog is there, at the printer: the paper that comes out of it."""
    before = len(forge.jobs)
    app.print_on('forge')
    drive.wait_for('the paper', lambda: len(forge.jobs) > before)
    drive.window_goes('^Print$')
    return paper_of(forge.jobs[-1])


def kept():
    file = configparser.ConfigParser()
    file.read(drive.home() + '/config/pritchel/printers.ini')
    return {name: dict(file[name]) for name in file.sections()}


def opened(app):
    app.menu('Measure this printer…')
    app.into('Measure this printer')
    app.says('No correction is saved.')


def types(app, across, down):
    for name, text in (('100 mm line across measures', across), ('100 mm line down measures', down)):
        app.click(app.find(name, 'text'))
        drive.key('ctrl+a')
        drive.type_text(text)
    drive.key('Return')


def is_measured(app, forge):
    drive.key('alt+p')
    check = prints(app, forge)
    has_bars(check)
    assert 'Check page' in words_of(check)
    app.into('Measure this printer')
    types(app, '88 mm', '100')
    app.says('No printer that prints at actual size makes that line 88 mm long')
    app.picture('printer-refused')
    assert kept() == {}, 'a slip of the keyboard is not kept'
    types(app, '98,0', '10.1 cm')
    app.says('Saved: × 1.0204 across, × 0.9901 down.')
    app.picture('printer-kept')
    assert abs(float(kept()['forge']['across']) - 100 / 98) < 1e-12
    assert abs(float(kept()['forge']['down']) - 100 / 101) < 1e-12
    drive.key('alt+p')
    has_bars(prints(app, forge))     # it is what the printer is measured with: never corrected
    app.into('Measure this printer')
    drive.key('Escape')
    drive.window_goes('Measure this printer')
    app.back()


def template(app, forge):
    drive.key('ctrl+p')
    pdf = prints(app, forge)
    app.back()
    return pdf


def goes_back(app):
    app.menu('Measure this printer…')
    app.into('Measure this printer')
    app.says('1.0204')
    drive.key('alt+n')
    app.says('No correction is saved.')
    assert kept() == {}
    drive.key('Escape')
    drive.window_goes('Measure this printer')
    app.back()


def main():
    forge = printer.Printer('forge')
    # the desktop's own part for printers warns where there is no service for colours
    app = drive.App(sys.argv[1], CUPS_SERVER=forge.address, G_DEBUG='')
    app.find('Heel, lateral')
    opened(app)
    is_measured(app, forge)
    drive.key('ctrl+p')
    drive.window_comes('Before the first print')
    drive.key('Return')
    pdf = prints(app, forge)
    app.back()
    has_bars(pdf, 100 / 98, 100 / 101)
    assert '1.0204' in words_of(pdf)
    goes_back(app)
    has_bars(template(app, forge))
    app.close()


drive.on_a_desk(main)
