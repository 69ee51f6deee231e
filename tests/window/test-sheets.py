# SPDX-License-Identifier: GPL-3.0-or-later
"""The tracing sheet from the window: a sheet for each of the four feet, on the paper that was chosen, at
its true size."""
import drive
from measure import A4_PT, pages_of, words_of


def choose_all_four(app):
    foot = drive.wait_for('the choice of feet', lambda: next(
        node for node in app.walk()
        if node.name == 'Foot' and node.role == 'combo box'))
    app.choose(foot, 'End')


def main():
    app = drive.App()
    app.click(app.find('Print a tracing sheet…', 'push button'))
    app.into('Print a tracing sheet')
    choose_all_four(app)
    app.picture('sheet-dialog')
    drive.key('alt+p')
    app.print_on('Print to File')
    app.back()
    pdf = drive.printed_file()
    n, size = pages_of(pdf)
    assert n == 5, f'{n} pages, for four sheets and one on how to use them'
    assert all(abs(size[i] - A4_PT[i]) < 1 for i in (0, 1)), size
    text = words_of(pdf)
    for code in ('LF', 'RF', 'LH', 'RH'):
        assert code in text, f'no sheet for {code}: {text}'
    app.close()


drive.on_a_desk(main)
