#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every style on every foot it is made for, with the bar that the foot's size asks for, in mm and in inches, judged as
a master would judge the drawing: judge.py PRITCHEL FEET-MAKER [--foot NAME] [--style ID] [--set NAME=VALUE] [--jobs N] [--bare] [--all].

Prints a line for each foot and style that fails, then how often each rule failed; exit status 1 when any did."""
import argparse
import collections
import multiprocessing
import sys
import tempfile

import rules
import shoes

SHOWN = 4           # rules told in a line, unless all are asked for


def laid(program, foot, style, unit, given, sets):
    """Rule -> words of one shoe."""
    contest = given or shoes.is_contest(style)
    report, why = shoes.run(program, foot, style, unit, shoes.CONTEST_BAR[unit] if contest else foot.bar(unit),
                            shoes.CONTEST_GIVEN[unit] if contest else None, sets)
    if report is None:
        return {'refused': [why.splitlines()[-1]]}
    shoe = shoes.Shoe(foot, style, unit, report)
    if given:
        words = list(rules.rule_contest(shoe))
        return {'contest': words} if words else {}
    return rules.judge(shoe)


def case(job):
    """Both units; what fails in one only says which."""
    program, foot, style, given, sets = job
    failed = {}
    for unit in ('mm', 'inch'):
        for rule, words in laid(program, foot, style, unit, given, sets).items():
            failed.setdefault(rule, {})[unit] = words
    return foot.name, foot.code, style, failed


def jobs(args, folder):
    made = shoes.styles()
    # while no style is made for the contest, the nearest one shows what is missing
    stand_in = None if any(map(shoes.is_contest, made)) else 'toe-extension-clipped'
    for foot in shoes.feet(args.maker, folder, args.bare):
        if args.foot and foot.name not in args.foot:
            continue
        for style, for_feet in made.items():
            if args.style and style not in args.style:
                continue
            if shoes.fits(style, for_feet, foot):
                yield args.program, foot, style, False, args.set
            if style == stand_in and foot.in_contest():
                yield args.program, foot, style, True, args.set


def words_of(failed, rule):
    by_unit = failed[rule]
    unit = 'mm' if 'mm' in by_unit else 'inch'
    mark = '' if len(by_unit) == 2 else f' [{unit}]'
    return f"{rule}{mark}: {'; '.join(by_unit[unit])}"


def show(results, everything):
    for name, code, style, failed in results:
        rules_failed = list(failed)
        if rules_failed:
            shown = rules_failed if everything else rules_failed[:SHOWN]
            more = len(rules_failed) - len(shown)
            told = ' | '.join(words_of(failed, rule)[:400 if everything else 90] for rule in shown)
            print(f"{name:13} {code} {style:22} {told}{f' | and {more} more' if more else ''}")


def grid(results):
    """Foot by style: how many rules fail."""
    names, styles = (list(dict.fromkeys(r[i] for r in results)) for i in (0, 2))
    count = collections.Counter()
    for name, _, style, failed in results:
        count[name, style] += len(failed)
    seen = {(r[0], r[2]) for r in results}
    print('\n' + ' ' * 14 + 'rules that fail; columns: ' + ', '.join(f'{i + 1} {s}' for i, s in enumerate(styles)))
    print(' ' * 14 + ''.join(f'{i + 1:4}' for i in range(len(styles))))
    for name in names:
        print(f'{name:14}' + ''.join(f'{count[name, s]:4}' if (name, s) in seen else '   .' for s in styles))


def summary(results):
    total = collections.Counter(rule for *_, failed in results for rule in failed)
    by_rule = collections.defaultdict(collections.Counter)
    for *_, style, failed in results:
        for rule in failed:
            by_rule[rule][style] += 1
    print('\nrule          fails on')
    for rule in [*rules.RULES, 'refused']:
        if total[rule]:
            print(f'{rule:12} {total[rule]:4}  ' + ', '.join(f'{s} {n}' for s, n in by_rule[rule].most_common(6)))
        elif rule in rules.RULES:
            print(f'{rule:12}    0')
    bad = sum(bool(failed) for *_, failed in results)
    print(f'\n{len(results)} shoes, each in mm and inches: {len(results) - bad} pass, {bad} fail')
    return bad


def main():
    parser = argparse.ArgumentParser(description='Judge every style on every foot.')
    parser.add_argument('program')
    parser.add_argument('maker')
    parser.add_argument('--foot', action='append', help='only this foot; may be given often')
    parser.add_argument('--style', action='append', help='only this style; may be given often')
    parser.add_argument('--set', action='append', default=[], help='a parameter, as the program takes it; a length with its unit')
    parser.add_argument('--jobs', type=int, default=2)
    parser.add_argument('--bare', action='store_true', help='feet on which no landmark is marked')
    parser.add_argument('--all', action='store_true', help='tell every rule that fails, in full')
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        todo = list(jobs(args, folder))
        if not todo:
            sys.exit('no foot of the table and style made for it go by these names')
        with multiprocessing.Pool(args.jobs) as pool:
            results = pool.map(case, todo, chunksize=4)
    show(results, args.all)
    if not args.all:
        grid(results)
    return 1 if summary(results) else 0


if __name__ == '__main__':
    sys.exit(main())
